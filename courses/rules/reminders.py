"""When somebody is reminded: that something lapses sixty, thirty and seven days before, of an answer that is owed
seven days before. Pure."""

from datetime import date

DAYS_BEFORE = (60, 30, 7)
DAYS_BEFORE_AN_ANSWER = (7,)


def reminder_due(until: date, today: date, marks: tuple[int, ...] = DAYS_BEFORE) -> int | None:
    """The mark that is reached: the smallest of the marks that is not smaller than the days left.

    None before the first mark, and after the last day. Whoever looks a week late reaches the same mark, so that
    nothing is missed and nothing said twice.
    """
    left = (until - today).days
    if left < 0 or left > max(marks):
        return None
    return min(days for days in marks if left <= days)
