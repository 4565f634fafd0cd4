"""The months by name, in the language of the page."""

from django.utils.dates import MONTHS, MONTHS_3
from django.utils.text import capfirst


def month_name(number: int) -> str:
    """The month in full: 4 is April."""
    return str(MONTHS[number])


def short_month_name(number: int) -> str:
    """The month in three letters or so: 4 is Apr."""
    return str(capfirst(str(MONTHS_3[number])))
