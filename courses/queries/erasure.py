"""Requests to be erased as pages show them: by when, what would go, what stays and why."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from django.db.models import Q
from django.utils.translation import gettext as _

from assessments.models import Appeal, Evidence, PracticeTurn
from courses.models import (
    Attendance,
    Certificate,
    Complaint,
    Consent,
    Course,
    Enquiry,
    Enrolment,
    ErasureRequest,
    Invitation,
    JoiningForm,
    Letter,
    Meeting,
    Person,
    RequirementRecord,
    RoleGrant,
)
from courses.queries.people import addresses_of, at_any, borne_by_another
from courses.rules.erasure import name_until
from species.models import Determination, Photo


@dataclass(frozen=True)
class Portion:
    """One kind of record: how many there are, and, of what stays, why."""

    what: str
    count: int
    why: str = ""


@dataclass(frozen=True)
class NameKept:
    """A certificate that keeps a name until a day."""

    certificate: Certificate
    is_held: bool
    until: date


@dataclass(frozen=True)
class ErasurePage:
    """One request. What goes and stays is of today, empty once it is answered; `hands_over`: what is left undone;
    `shares_name`: somebody else is called the same, so that texts keep the name."""

    request: ErasureRequest
    days_left: int
    goes: tuple[Portion, ...]
    stays: tuple[Portion, ...]
    names: tuple[NameKept, ...]
    hands_over: tuple[Portion, ...]
    shares_name: bool


@dataclass(frozen=True)
class ErasureLine:
    """One request in a list."""

    request: ErasureRequest
    days_left: int


def erasure_lists(today: date) -> tuple[list[ErasureLine], list[ErasureRequest]]:
    """Requests that wait, the most pressing first, and those that were answered or taken back; two queries."""
    rows = ErasureRequest.objects.select_related("person", "decided_by")
    waiting = rows.undecided().order_by("decide_by", "id")
    done = rows.exclude(pk__in=ErasureRequest.objects.undecided().values("pk")).order_by("-asked_at", "-id")
    return [ErasureLine(each, (each.decide_by - today).days) for each in waiting], list(done[:200])


def past_keeping(today: date) -> list[Person]:
    """People who left so long ago that nothing has to name them any more, and who are not erased; two queries.

    The term is that of a certificate: reckoned from the day they left, or from the end of the last one that names
    them, whichever is later.
    """
    rows = Person.objects.filter(left_on__isnull=False, erased_on__isnull=True)
    asked = ErasureRequest.objects.undecided().values("person")
    left = rows.exclude(pk__in=asked).order_by("left_on")
    gone = [each for each in left if each.left_on is not None and name_until(each.left_on) < today]
    keys = [each.pk for each in gone]
    named = Certificate.objects.filter(Q(person__in=keys) | Q(decided_by__in=keys))
    held = {
        key
        for person, decider, until in named.values_list("person", "decided_by", "valid_until")
        if name_until(until) >= today
        for key in (person, decider)
    }
    return [each for each in gone if each.pk not in held]


def latest_request(person: Person) -> ErasureRequest | None:
    """The request of somebody that was kept last, whatever became of it: the one that waits, if any does. A letter
    may have come before what was decided since, so the day on which it came does not tell."""
    return person.erasure_requests.order_by("-id").first()


def erasure_page(request: ErasureRequest, today: date) -> ErasurePage:
    """One request in a constant number of queries."""
    person, is_open = request.person, request.is_open
    own = addresses_of(person) if is_open else ()
    return ErasurePage(
        request=request,
        days_left=(request.decide_by - today).days,
        goes=_counted(person, own, GOES) if is_open else (),
        stays=tuple(each for each in _counted(person, own, STAYS) if each.count) if is_open else (),
        names=names_kept(person, today) if is_open else (),
        hands_over=_hands_over(person, today) if is_open else (),
        shares_name=is_open and borne_by_another(person.name, person),
    )


def names_kept(person: Person, today: date) -> tuple[NameKept, ...]:
    """Certificates that somebody holds or decided and that will name them for a time; one query."""
    rows = Certificate.objects.filter(Q(person=person) | Q(decided_by=person)).order_by("valid_until", "pk")
    kept = (NameKept(each, each.person_id == person.pk, name_until(each.valid_until)) for each in rows)
    return tuple(each for each in kept if each.until >= today)


Addresses = tuple[str, ...]


def _from(addresses: Addresses) -> Q:
    return at_any("email", addresses)


Count = Callable[[Person, Addresses], int]
GOES: dict[str, Count] = {
    "letters": lambda person, own: Letter.objects.filter(Q(person=person) | at_any("to", own)).count(),
    "forms": lambda person, _own: JoiningForm.objects.filter(enrolment__person=person).count(),
    "consents": lambda person, _own: Consent.objects.filter(enrolment__person=person).count(),
    "practice": lambda person, _own: PracticeTurn.objects.filter(round__person=person.user_id).count(),
    "enquiries": lambda _person, own: Enquiry.objects.filter(_from(own)).count(),
    "invitations": lambda _person, own: Invitation.objects.filter(_from(own)).count(),
}
STAYS: dict[str, Count] = {
    "answers": lambda person, _own: Evidence.objects.filter(person=person.user_id).count(),
    "appeals": lambda person, _own: Appeal.objects.of(person.user_id).count(),
    "certificates": lambda person, _own: Certificate.objects.of(person.pk).count(),
    "places": lambda person, _own: Enrolment.objects.filter(person=person).count(),
    "register": lambda person, _own: Attendance.objects.filter(person=person).count(),
    "roles": lambda person, _own: RoleGrant.objects.filter(person=person).count(),
    "proofs": lambda person, _own: RequirementRecord.objects.filter(person=person).count(),
    "plants": lambda person, _own: Determination.objects.filter(determiner=person.user_id).count(),
    "pictures": lambda person, _own: Photo.objects.filter(added_by=person.user_id).count(),
    "complaints": lambda _person, own: Complaint.objects.filter(_from(own)).count(),
}


def _words() -> dict[str, tuple[str, str]]:
    """What each kind is called, and why it stays."""
    return {
        "letters": (_("Letters to them"), ""),
        "forms": (_("What they told in confidence"), ""),
        "consents": (_("Consents"), ""),
        "practice": (_("Pictures practised"), ""),
        "enquiries": (_("Questions from their address"), ""),
        "invitations": (_("Invitations to their address"), ""),
        "answers": (
            _("Answers in tests"),
            _("How hard a picture is, is reckoned from everybody’s answers; a certificate rests on them."),
        ),
        "appeals": (_("Appeals"), _("What was decided about a plant stands for everybody.")),
        "certificates": (_("Certificates"), _("Whoever holds one in hand may check that it is genuine.")),
        "places": (_("Places in courses"), _("So that the numbers of a course stay right.")),
        "register": (_("Lines of registers"), _("Who was there when something happened: insurer and law may ask.")),
        "roles": (_("Roles held"), _("Who was allowed to do what, and when.")),
        "proofs": (_("Proofs seen"), _("That whoever led a walk was allowed to lead it: insurer and law may ask.")),
        "plants": (_("Plants named"), _("The tests of others rest on these names.")),
        "pictures": (_("Pictures brought"), _("They stay in the bank; the photographer’s name goes.")),
        "complaints": (_("Complaints"), _("What was complained of and answered stays for three years.")),
    }


def _counted(person: Person, own: Addresses, counts: dict[str, Count]) -> tuple[Portion, ...]:
    words = _words()
    return tuple(Portion(words[key][0], count(person, own), words[key][1]) for key, count in counts.items())


def _hands_over(person: Person, today: date) -> tuple[Portion, ...]:
    taught = Course.objects.not_over(today).taught_by(person.pk).count()
    walks = Meeting.objects.standing().filter(leader=person, starts_at__date__gte=today).count()
    found = Portion(_("Courses without this tutor"), taught), Portion(_("Walks to come without a leader"), walks)
    return tuple(each for each in found if each.count)
