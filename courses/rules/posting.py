"""How long a letter waits before it is tried again, and when it is given up. Pure.

Common practice of mail servers: soon first, then ever more seldom, for some days (RFC 5321, 4.5.4.1: at least
30 minutes between tries after the first ones, given up after four to five days).
"""

from datetime import timedelta

FAREWELL = "erased"
"""The kind of letter that is not kept: its address is the last thing held of somebody who was erased."""
GIVE_UP_AFTER = timedelta(days=5)
_WAITS = (timedelta(minutes=1), timedelta(minutes=5), timedelta(minutes=30), timedelta(hours=1), timedelta(hours=4))


def wait_before_attempt(attempts: int) -> timedelta:
    """The wait after so many failed attempts (1 or more). ValueError below 1."""
    if attempts < 1:
        raise ValueError("nothing was tried yet")
    return _WAITS[min(attempts, len(_WAITS)) - 1]
