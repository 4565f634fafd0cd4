"""How long a letter waits before it is tried again, and when it is given up. Pure.

Common practice of mail servers: soon first, then ever more seldom, for some days (RFC 5321, 4.5.4.1: at least
30 minutes between tries after the first ones, given up after four to five days).
"""

from datetime import timedelta

FAREWELL = "erased"
"""The kind of letter that is not kept: its address is the last thing held of somebody who was erased."""
URGENT = "sign_in"
"""The kind of letter that carries a code to sign in with: tried often, worthless soon, and not kept either."""
NOT_KEPT = frozenset({FAREWELL, URGENT})
GIVE_UP_AFTER = timedelta(days=5)
CODES_LAST = timedelta(minutes=10)
"""As long as a code is good for (`ACCOUNT_LOGIN_BY_CODE_TIMEOUT`)."""
_WAITS = (timedelta(minutes=1), timedelta(minutes=5), timedelta(minutes=30), timedelta(hours=1), timedelta(hours=4))
_URGENT_WAITS = (timedelta(seconds=10), timedelta(seconds=20), timedelta(minutes=1))


def wait_before_attempt(attempts: int, kind: str = "") -> timedelta:
    """The wait after so many failed attempts (1 or more) at a letter of this kind. ValueError below 1."""
    if attempts < 1:
        raise ValueError("nothing was tried yet")
    waits = _URGENT_WAITS if kind == URGENT else _WAITS
    return waits[min(attempts, len(waits)) - 1]


def give_up_after(kind: str) -> timedelta:
    """How long after it was queued a letter of this kind is worth trying."""
    return CODES_LAST if kind == URGENT else GIVE_UP_AFTER
