"""Mails of the school: short plain text, sent when the change that they tell of is safe in the database.

A letter is a template in `templates/courses/mail/`: its first line is the subject, the rest after a blank
line the text.
"""

from collections.abc import Iterable
from functools import partial
from typing import Any

from django.conf import settings
from django.core.mail import send_mail
from django.db import transaction
from django.template.loader import render_to_string

from courses.models import Person
from courses.queries.people import the_school


def full_address(path: str) -> str:
    """An address of this site as it can be written into a letter."""
    return f"{settings.PUBLIC_ADDRESS}{path}"


def send_letter(to: str, letter: str, facts: dict[str, Any]) -> None:
    """Send one letter once the running transaction is through; nothing is sent if it fails.

    A mail server that does not answer is written to the log and undoes nothing.
    """
    text = render_to_string(f"courses/mail/{letter}.txt", {"school": the_school(), **facts})
    subject, _blank, body = text.strip().partition("\n")
    transaction.on_commit(partial(send_mail, " ".join(subject.split()), body.strip() + "\n", None, [to]), robust=True)


def write_to(people: Iterable[Person], letter: str, facts: dict[str, Any]) -> None:
    """The same letter to several people, each by a mail of their own. The people come with their users."""
    for person in people:
        send_letter(person.user.email, letter, {"person": person, **facts})
