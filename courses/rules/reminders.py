"""When somebody is reminded that something lapses: sixty, thirty and seven days before. Pure."""

from datetime import date

DAYS_BEFORE = (60, 30, 7)


def reminder_due(until: date, today: date) -> int | None:
    """The mark that is reached: the smallest of the marks that is not smaller than the days left.

    None before the first mark, and after the last day. Whoever looks a week late reaches the same mark, so that
    nothing is missed and nothing said twice.
    """
    left = (until - today).days
    if left < 0 or left > DAYS_BEFORE[0]:
        return None
    return min(days for days in DAYS_BEFORE if left <= days)
