"""Mail that somebody waits for to sign in: handed to the mail server at once, and queued where it is not taken."""

import logging
import smtplib

from django.core.mail import EmailMessage, get_connection

from courses.actions.posting import is_refused_for_good
from courses.models import Letter
from courses.rules.posting import URGENT

SECONDS = 5
"""Longer than that nobody waits for a page; the worker then tries again, within seconds and as long as a code lasts."""
_log = logging.getLogger(__name__)


def send_or_keep(mail: EmailMessage) -> None:
    """Send at once, or leave it with the letters that wait. Never raises for the mail server's sake: whoever asks for
    a code sees the same page whatever became of it."""
    mail.connection = get_connection(timeout=SECONDS)
    try:
        mail.send()
    except (OSError, smtplib.SMTPException) as error:
        _log.warning("A mail for signing in did not go out at once: %s", type(error).__name__)
        if not is_refused_for_good(error):
            _keep(mail)


def _keep(mail: EmailMessage) -> None:
    Letter.objects.bulk_create(
        Letter(to=address, kind=URGENT, subject=str(mail.subject), text=str(mail.body)) for address in mail.to
    )
