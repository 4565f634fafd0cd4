"""How this site signs people in: by invitation only, with a code sent by e-mail."""

from allauth.account.adapter import DefaultAccountAdapter
from django.http import HttpRequest


class InvitedOnly(DefaultAccountAdapter):
    """Nobody signs up by themselves: an account follows from an accepted invitation."""

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False
