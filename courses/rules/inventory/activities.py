"""Of whom each purpose holds something, who sees it, and what protects it. Pure.

Every person sees what is held of themselves, so that is not repeated; recipients outside the school are those of
`SENT_TO`.
"""

from dataclasses import dataclass
from enum import StrEnum

from .shape import Activity


class Whose(StrEnum):
    """Of whom something is held."""

    EVERYBODY = "everybody"  # whoever signs in
    PARTICIPANTS = "participants"
    STAFF = "staff"
    LEADERS = "leaders"
    HOLDERS = "holders"
    ENQUIRERS = "enquirers"
    OUTSIDERS = "outsiders"
    LANDOWNERS = "landowners"


class Reader(StrEnum):
    """Who sees it."""

    ORGANISERS = "organisers"
    TUTORS = "tutors"  # of the course, while they hold the role
    EVERY_TUTOR = "every_tutor"  # of whatever course
    STAND_INS = "stand_ins"  # on their day and the day before
    ASSESSORS = "assessors"
    STAFF = "staff"  # everybody who works for the school
    OWNER = "owner"  # the person alone
    STRANGERS = "strangers"  # who hold a number or an address in hand; without the name unless the holder shows it
    PUBLIC = "public"
    NOBODY = "nobody"


class Guard(StrEnum):
    """What protects it beyond signing in, roles, and an encrypted connection."""

    SEALED = "sealed"
    READING_LOGGED = "reading_logged"
    WRITTEN_ONCE = "written_once"
    SECRET_ADDRESS = "secret_address"
    NO_PASSWORD = "no_password"
    NO_NAME_SHOWN = "no_name_shown"
    NO_NAME_WRITTEN = "no_name_written"
    BLURRED = "blurred"
    LIMITED = "limited"


@dataclass(frozen=True)
class Terms:
    """What is said of one purpose."""

    whose: tuple[Whose, ...]
    readers: tuple[Reader, ...]
    guards: tuple[Guard, ...] = ()


TERMS: dict[Activity, Terms] = {
    Activity.SCHOOL: Terms((Whose.STAFF,), (Reader.PUBLIC,)),
    Activity.PEOPLE: Terms((Whose.EVERYBODY,), (Reader.ORGANISERS, Reader.TUTORS), (Guard.SECRET_ADDRESS,)),
    Activity.SIGN_IN: Terms((Whose.EVERYBODY,), (Reader.NOBODY,), (Guard.NO_PASSWORD, Guard.LIMITED)),
    Activity.INVITATIONS: Terms((Whose.OUTSIDERS,), (Reader.ORGANISERS,), (Guard.SECRET_ADDRESS,)),
    Activity.LETTERS: Terms((Whose.EVERYBODY, Whose.ENQUIRERS), (Reader.ORGANISERS,), (Guard.SECRET_ADDRESS,)),
    Activity.ENQUIRIES: Terms((Whose.ENQUIRERS,), (Reader.ORGANISERS,), (Guard.LIMITED,)),
    Activity.COURSES: Terms((Whose.PARTICIPANTS, Whose.STAFF), (Reader.ORGANISERS, Reader.TUTORS, Reader.STAND_INS)),
    Activity.CONFIDENCE: Terms(
        (Whose.PARTICIPANTS,), (Reader.TUTORS, Reader.STAND_INS), (Guard.SEALED, Guard.READING_LOGGED)
    ),
    Activity.SITES: Terms((Whose.LANDOWNERS, Whose.STAFF), (Reader.ORGANISERS, Reader.EVERY_TUTOR), (Guard.BLURRED,)),
    Activity.INCIDENTS: Terms(
        (Whose.PARTICIPANTS, Whose.STAFF), (Reader.ORGANISERS, Reader.EVERY_TUTOR), (Guard.NO_NAME_WRITTEN,)
    ),
    Activity.LEADING: Terms((Whose.LEADERS,), (Reader.ORGANISERS, Reader.EVERY_TUTOR)),
    Activity.CERTIFICATES: Terms(
        (Whose.HOLDERS, Whose.STAFF),
        (Reader.STAFF, Reader.STRANGERS),
        (Guard.NO_NAME_SHOWN, Guard.SECRET_ADDRESS, Guard.LIMITED),
    ),
    Activity.COMPLAINTS: Terms((Whose.ENQUIRERS, Whose.EVERYBODY), (Reader.ORGANISERS,), (Guard.LIMITED,)),
    Activity.TESTS: Terms(
        (Whose.PARTICIPANTS, Whose.LEADERS),
        (Reader.ORGANISERS, Reader.EVERY_TUTOR, Reader.ASSESSORS),
        (Guard.WRITTEN_ONCE,),
    ),
    Activity.PRACTICE: Terms((Whose.EVERYBODY,), (Reader.OWNER,)),
    Activity.BANK: Terms((Whose.STAFF, Whose.OUTSIDERS), (Reader.STAFF,), (Guard.BLURRED, Guard.SECRET_ADDRESS)),
    Activity.TEACHING: Terms((Whose.STAFF,), (Reader.STAFF,)),
    Activity.PROTECTION: Terms((Whose.EVERYBODY,), (Reader.ORGANISERS,)),
}
"""One line for each purpose."""


class SentTo(StrEnum):
    """Who handles data for the school, outside of it."""

    MAIL = "mail"
    HOSTING = "hosting"
    COPIES = "copies"


SENT_TO = tuple(SentTo)
