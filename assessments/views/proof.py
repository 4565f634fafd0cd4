"""Whether it is really them: a second factor or a fresh sign-in before something leaves that cannot be called back."""

from datetime import datetime, timedelta
from enum import StrEnum
from urllib.parse import urlencode

from allauth.account.authentication import get_authentication_records
from allauth.mfa.utils import is_mfa_enabled
from django.http import HttpRequest
from django.urls import reverse
from django.utils.translation import gettext as _

from .access import user_of

HOLDS_FOR = timedelta(minutes=15)
"""How long somebody who showed who they are is believed; a choice."""
SECOND_FACTOR = "mfa"


class Lack(StrEnum):
    """What somebody has to show first."""

    SECOND_FACTOR = "second factor"
    SECOND_FACTOR_AT_ALL = "a second factor, set up first"
    SIGN_IN = "a fresh sign-in"


def lack_of_proof(request: HttpRequest, now: datetime, *, is_grave: bool) -> Lack | None:
    """What is missing before this person may take something away; None when nothing is.

    Whoever has a second factor uses it. Without one a fresh sign-in does, unless the matter is grave.
    """
    user = user_of(request)
    records = get_authentication_records(request, user)
    if is_mfa_enabled(user):
        used = [each["at"] for each in records if each.get("method") == SECOND_FACTOR]
        return None if _is_fresh(used, now) else Lack.SECOND_FACTOR
    if is_grave:
        return Lack.SECOND_FACTOR_AT_ALL
    # Where nothing was written down about this session (the invented school's door), the account's own day has to do.
    moments = [each["at"] for each in records] or ([user.last_login.timestamp()] if user.last_login else [])
    return None if _is_fresh(moments, now) else Lack.SIGN_IN


def _is_fresh(moments: list[float], now: datetime) -> bool:
    return any(now.timestamp() - moment <= HOLDS_FOR.total_seconds() for moment in moments)


def way_to_prove(lack: Lack, back: str) -> tuple[str, str, str]:
    """What to say, the address that leads on, and the words of the link. `back`: where to come back to."""
    come_back = urlencode({"next": back})
    if lack is Lack.SECOND_FACTOR:
        return (
            _("Questions leave the school only when it is really you: show your second factor once more."),
            f"{reverse('mfa_reauthenticate')}?{come_back}",
            _("Show it, and come back"),
        )
    if lack is Lack.SECOND_FACTOR_AT_ALL:
        return (
            _("Questions of tests leave only with a second factor: a passkey or an authenticator app. Set one up."),
            reverse("mfa_index"),
            _("Set up a second factor"),
        )
    return (
        _("You signed in a while ago. Questions leave the school only shortly after signing in: do it once more."),
        f"{reverse('account_logout')}?{come_back}",
        _("Sign out, then sign in again"),
    )
