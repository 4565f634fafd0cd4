"""How this site signs people in: by invitation only, with a code sent by e-mail."""

from typing import Any

from allauth.account.adapter import DefaultAccountAdapter
from allauth.core import context as asked
from django.contrib.sites.shortcuts import get_current_site
from django.http import HttpRequest

from courses.actions.sign_in_mail import send_or_keep


class InvitedOnly(DefaultAccountAdapter):
    """Nobody signs up by themselves: an account follows from an accepted invitation."""

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False

    def send_mail(self, template_prefix: str, email: str, context: dict[str, Any]) -> None:
        """As the package does it, but a mail server that is out of order breaks no page: the mail is queued."""
        request = asked.request
        told = {"request": request, "email": email, "current_site": get_current_site(request), **context}
        send_or_keep(self.render_mail(template_prefix, email, told))
