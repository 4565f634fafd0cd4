"""Opening a real school: its row, its first organiser, and the settings that the site reads on its next start."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo

from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.validators import validate_email
from django.db import transaction
from django.utils.translation import gettext as _

from courses.actions.people import take_in
from courses.models import Person, Role, School

LONGEST_NAME = 120  # as the columns of both names hold


class SchoolExists(Exception):
    """This site belongs to a school already."""


@dataclass(frozen=True)
class SchoolWords:
    """What a school must say of itself before it can open."""

    name: str
    address: str
    time_zone: str
    language: str
    emergency_number: str
    poisons_number: str
    organiser_name: str


def problems_with(words: SchoolWords, email: str) -> list[str]:
    """Everything that is wrong with what was typed, each as a sentence; empty when all is well."""
    problems = []
    try:
        validate_email(email)
    except ValidationError:
        problems.append(_("%(email)s is not an e-mail address.") % {"email": email})
    if not words.name.strip():
        problems.append(_("The school needs a name."))
    if not words.organiser_name.strip():
        problems.append(_("The organiser needs a name."))
    if max(len(words.name), len(words.organiser_name)) > LONGEST_NAME:
        problems.append(_("A name may have %(count)s letters at most.") % {"count": LONGEST_NAME})
    if not _is_address(words.address):
        problems.append(_("The public address must look like https://school.example."))
    try:
        ZoneInfo(words.time_zone)
    except (KeyError, ValueError, OSError):
        problems.append(_("%(zone)s is not a time zone; try Europe/Dublin.") % {"zone": words.time_zone})
    languages = [code for code, _name in settings.LANGUAGES]
    if words.language not in languages:
        known = {"language": words.language, "known": ", ".join(languages)}
        problems.append(_("%(language)s is not a language of this program; choose one of %(known)s.") % known)
    if not words.emergency_number.strip():
        problems.append(_("The emergency number stands on every page and may not be empty."))
    return problems


def _is_address(text: str) -> bool:
    """Whether it can stand before every link, and in one line of the settings."""
    if any(letter.isspace() or not letter.isprintable() for letter in text):
        return False
    try:
        parts = urlsplit(text)
    except ValueError:
        return False
    return parts.scheme in ("http", "https") and bool(parts.hostname)


def open_school(words: SchoolWords, email: str, *, today: date) -> tuple[School, Person]:
    """Make the school and its organiser together, or neither. Raises SchoolExists or ValidationError."""
    problems = problems_with(words, email)
    if problems:
        raise ValidationError(problems)
    with transaction.atomic():
        if School.objects.exists():
            raise SchoolExists(str(School.objects.first()))
        school = School.objects.create(
            name=words.name.strip(),
            address=words.address.rstrip("/"),
            time_zone=words.time_zone,
            language=words.language,
            email=email.strip().lower(),
            emergency_number=words.emergency_number.strip(),
            poisons_number=words.poisons_number.strip(),
        )
        organiser = take_in(email, words.organiser_name, today=today, roles=[Role.ORGANISER])
    return school, organiser


def write_settings(folder: Path, words: SchoolWords) -> Path:
    """Write what the site must know before its database is open; returns the file."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "settings.env"
    lines = {
        "KENSPECKLE_ADDRESS": words.address.rstrip("/"),
        "KENSPECKLE_TIME_ZONE": words.time_zone,
        "KENSPECKLE_LANGUAGE": words.language,
    }
    path.write_text("".join(f"{name}={value}\n" for name, value in lines.items()), encoding="utf-8")
    return path
