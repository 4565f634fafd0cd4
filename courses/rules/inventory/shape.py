"""What a line of the inventory says: which fields of a model hold what of people, for what, and for how long. Pure.

The record of processing and the erasure of a person are drawn from these lines; a test holds them against the models.
"""

from dataclasses import dataclass
from enum import StrEnum


class Nature(StrEnum):
    """What a field holds, as far as people are concerned."""

    NAME = "name"  # what somebody is called
    CONTACT = "contact"  # an address or a telephone number
    SIGN_IN = "sign_in"  # what lets somebody in
    SECRET = "secret"  # told in confidence: health, and whom to call
    WORDS = "words"  # free text, in which people may be named
    FACT = "fact"  # something about a person: when, whether, with what result
    LINK = "link"  # points at a person: whose it is, or who did it
    NONE = "none"  # nothing about people


PERSONAL = frozenset(Nature) - {Nature.NONE}


class Activity(StrEnum):
    """What it is held for: one line of the record of processing."""

    SCHOOL = "school"
    PEOPLE = "people"
    SIGN_IN = "sign_in"
    INVITATIONS = "invitations"
    LETTERS = "letters"
    ENQUIRIES = "enquiries"
    COURSES = "courses"
    CONFIDENCE = "confidence"
    SITES = "sites"
    INCIDENTS = "incidents"
    LEADING = "leading"
    CERTIFICATES = "certificates"
    COMPLAINTS = "complaints"
    TESTS = "tests"
    PRACTICE = "practice"
    BANK = "bank"
    TEACHING = "teaching"
    PROTECTION = "protection"


class Term(StrEnum):
    """How long it is kept. What ends by itself is ended by a step of the day."""

    SCHOOL = "school"  # as long as the school uses it; people are named in it, if at all, by link or in passing
    ERASED = "erased"  # until the person is erased, at once and altogether
    CODE = "code"  # kept for good; once the person is erased it belongs to a code
    CERTIFICATE = "certificate"  # as CODE, but the name stays until three years after the end of the certificate
    INCIDENT = "incident"  # as long as insurer and law ask; without the name once the person is erased
    HEALTH = "health"  # so many days after the last meeting of the course
    ENQUIRY = "enquiry"  # so many days after it was asked
    LETTER = "letter"  # a year after it was sent
    READING = "reading"  # a year
    REMINDER = "reminder"  # two years
    CALENDAR = "calendar"  # a year after it was ended
    INVITATION = "invitation"  # a year after it could last be used
    NOTICE = "notice"  # a year after it was sent
    COMPLAINT = "complaint"  # three years after the answer
    SESSION = "session"  # until it runs out
    CONFIRMATION = "confirmation"  # thirty days
    INVENTED = "invented"  # the invented school alone


RUNS_BY_ITSELF = frozenset(
    {
        Term.HEALTH, Term.ENQUIRY, Term.LETTER, Term.READING, Term.REMINDER, Term.CALENDAR, Term.INVITATION,
        Term.NOTICE, Term.COMPLAINT, Term.SESSION, Term.CONFIRMATION,
    }
)  # fmt: skip
"""Terms at whose end a step of the day erases, though nobody asked. Names on certificates are none: they go by
themselves from those alone who were erased."""


@dataclass(frozen=True)
class Holding:
    """One model (its room and its name, as Django labels it) with what every field of it holds."""

    model: str
    activity: Activity
    term: Term
    fields: dict[str, Nature]

    @property
    def is_personal(self) -> bool:
        """Whether any field holds something of people."""
        return any(nature in PERSONAL for nature in self.fields.values())

    def of(self, *natures: Nature) -> tuple[str, ...]:
        """The fields that hold this, in the order in which they are listed."""
        return tuple(name for name, nature in self.fields.items() if nature in natures)


def holds(model: str, activity: Activity, term: Term, **fields: str) -> Holding:
    """A line; each keyword is a nature, its value the fields of that nature. ValueError where one is listed twice."""
    found: dict[str, Nature] = {}
    for nature, names in fields.items():
        for name in names.split():
            if name in found:
                raise ValueError(f"{model}.{name} is listed twice.")
            found[name] = Nature(nature)
    return Holding(model, activity, term, found)
