"""Letters of the school, kept in the database with the change that they tell of, and posted from there.

A letter is a template in `templates/courses/mail/`: its first line is the subject, the rest after a blank
line the text. The same text is put into HTML, so the two never say different things.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.conf import settings
from django.db import transaction
from django.template.loader import render_to_string
from django.utils import timezone

from courses.models import Letter, Person
from courses.queries.people import the_school

from .posting import post_letters


@dataclass(frozen=True)
class Draft:
    """A letter as it would be sent: what a preview shows."""

    subject: str
    text: str
    html: str


def full_address(path: str) -> str:
    """An address of this site as it can be written into a letter."""
    return f"{settings.PUBLIC_ADDRESS}{path}"


def draft_letter(letter: str, facts: dict[str, Any]) -> Draft:
    """A letter in words, sent to nobody."""
    school = the_school()
    written = render_to_string(f"courses/mail/{letter}.txt", {"school": school, **facts})
    head, _blank, body = written.strip().partition("\n")
    subject, text = " ".join(head.split()), body.strip() + "\n"
    html = render_to_string("courses/mail/letter.html", {"subject": subject, "text": text, "school": school})
    return Draft(subject, text, html)


def send_letter(to: str, letter: str, facts: dict[str, Any], person: Person | None = None) -> Letter | None:
    """Queue one letter in the running transaction: it goes out with what it tells of, or not at all. None, and nothing
    is queued, where there is no address: whoever was erased keeps certificates, and cannot be told of them.

    The worker posts it (`manage.py work`); where letters are posted at once, that happens after the commit,
    and a mail server that does not answer undoes nothing: the letter waits.
    """
    if not to:
        return None
    draft = draft_letter(letter, facts)
    queued = Letter.objects.create(
        to=to, person=person, kind=letter, subject=draft.subject, text=draft.text, html=draft.html
    )
    if settings.LETTERS_AT_ONCE:
        transaction.on_commit(_post, robust=True)
    return queued


def write_to(people: Iterable[Person], letter: str, facts: dict[str, Any]) -> None:
    """The same letter to several people, each by a mail of their own. The people come with their users."""
    for person in people:
        send_letter(person.user.email, letter, {"person": person, **facts}, person)


def _post() -> None:
    post_letters(timezone.now())
