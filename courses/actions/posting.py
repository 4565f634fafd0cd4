"""Posting the letters that wait: each is claimed by one worker, tried again later, and given up in the end."""

import smtplib
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from urllib.parse import urlsplit

from django.conf import settings
from django.core.mail import EmailMultiAlternatives, get_connection
from django.core.mail.backends.base import BaseEmailBackend
from django.db import connection, transaction
from django.db.models import F

from courses.models import Letter
from courses.rules.posting import NOT_KEPT, give_up_after, wait_before_attempt

AT_ONCE = 50
CLAIM_LASTS = timedelta(minutes=15)
"""Longer than any one mail can take (the server's time limit); what a worker that died had claimed is free again."""


@dataclass(frozen=True)
class Posted:
    """What became of the letters that were due."""

    sent: int = 0
    waiting: int = 0
    given_up: int = 0

    @property
    def tried(self) -> int:
        return self.sent + self.waiting + self.given_up


def post_letters(now: datetime) -> Posted:
    """Post what is due, oldest first, over one connection to the mail server. Never raises for a mail's sake.

    A letter is claimed before it is handed over and marked at once after, so two workers never post the
    same one. Only a worker that dies between the two leaves it open whether it went; it is then tried
    again under the same Message-ID, by which mail servers know it for the same letter.
    """
    posted = Posted()
    server: BaseEmailBackend = get_connection()
    try:
        for letter in claim_letters(now):
            posted = _count(posted, _post_one(letter, server, now))
    finally:
        _close(server)
    return posted


def claim_letters(now: datetime) -> list[Letter]:
    """Take what is due for this worker alone."""
    with transaction.atomic():
        due = Letter.objects.due(now, now - CLAIM_LASTS)
        if connection.features.has_select_for_update_skip_locked:
            due = due.select_for_update(skip_locked=True)
        letters = list(due[:AT_ONCE])
        Letter.objects.filter(pk__in=[letter.pk for letter in letters]).update(claimed_at=now)
    return letters


def try_again(letter: Letter, now: datetime) -> None:
    """Let a letter that was given up wait again, as if it had just been written."""
    Letter.objects.filter(pk=letter.pk, given_up_at__isnull=False).update(
        given_up_at=None, due_at=now, queued_at=now, attempts=0
    )


def _post_one(letter: Letter, server: BaseEmailBackend, now: datetime) -> str:
    try:
        server.send_messages([_mail(letter, server)])
    except (OSError, smtplib.SMTPException, ValueError) as error:
        _close(server)  # whatever state the connection is in, the next letter opens a new one
        return _keep_for_later(letter, error, now)
    gone = Letter.objects.filter(pk=letter.pk)
    if letter.kind in NOT_KEPT:
        gone.delete()
    else:
        gone.update(sent_at=now, claimed_at=None, attempts=F("attempts") + 1, trouble="")
    return "sent"


def _mail(letter: Letter, server: BaseEmailBackend) -> EmailMultiAlternatives:
    host = urlsplit(settings.PUBLIC_ADDRESS).hostname or "localhost"
    headers = {"Message-ID": f"<{letter.uuid}@{host}>", "Auto-Submitted": "auto-generated"}
    mail = EmailMultiAlternatives(letter.subject, letter.text, None, [letter.to], headers=headers, connection=server)
    if letter.html:
        mail.attach_alternative(letter.html, "text/html")
    return mail


def _keep_for_later(letter: Letter, error: Exception, now: datetime) -> str:
    attempts = letter.attempts + 1
    over = is_refused_for_good(error) or now - letter.queued_at >= give_up_after(letter.kind)
    if over and letter.kind in NOT_KEPT:
        Letter.objects.filter(pk=letter.pk).delete()
        return "given_up"
    Letter.objects.filter(pk=letter.pk).update(
        attempts=attempts,
        claimed_at=None,
        trouble=f"{type(error).__name__}: {error}"[:500],
        due_at=now + wait_before_attempt(attempts, letter.kind),
        given_up_at=now if over else None,
    )
    return "given_up" if over else "waiting"


def is_refused_for_good(error: Exception) -> bool:
    """Whether the server said that it never will: a code of 500 or more about this mail (RFC 5321, 4.2.1)."""
    if isinstance(error, smtplib.SMTPRecipientsRefused):
        return all(code >= 500 for code, _words in error.recipients.values())
    if isinstance(error, smtplib.SMTPSenderRefused | smtplib.SMTPDataError):
        return error.smtp_code >= 500
    return isinstance(error, ValueError)  # a header that cannot be written never can be


def _close(server: BaseEmailBackend) -> None:
    with suppress(OSError, smtplib.SMTPException):  # a server that is gone cannot be told goodbye
        server.close()


def _count(posted: Posted, outcome: str) -> Posted:
    return replace(posted, **{outcome: getattr(posted, outcome) + 1})
