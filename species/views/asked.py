"""What an address asks for: months, stages and days, each refused in a sentence where there is no such thing."""

from dataclasses import dataclass
from datetime import date

from django.http import HttpRequest
from django.utils.translation import gettext as _

from species.models import Pair
from species.queries.months import month_name


@dataclass(frozen=True)
class AskedOfPair:
    """The month and the combination of stages (None: the first that shows), and what was wrong with the address."""

    month: int
    number: int | None
    notices: tuple[str, ...]


def asked_of_pair(request: HttpRequest, pair: Pair, today: date) -> AskedOfPair:
    """Month and stages of the page of a pair; whatever does not exist is said and passed over."""
    notices: list[str] = []
    month, number = number_in(request.GET.get("month"), 1, 12), None
    if month is None and request.GET.get("month"):
        notices.append(
            _("There is no month “%(asked)s”: months have the numbers 1 to 12. This is %(month)s.")
            % {"asked": _shortened(request.GET["month"]), "month": month_name(today.month)}
        )
    last = len(pair.stage_combinations) - 1
    number = number_in(request.GET.get("stages"), 0, last)
    if number is None and request.GET.get("stages"):
        notices.append(
            _("This pair has no stages number “%(asked)s”: tap one of those below.")
            % {"asked": _shortened(request.GET["stages"])}
        )
    return AskedOfPair(month or today.month, number, tuple(notices))


def asked_day(text: str | None, today: date) -> tuple[date, str]:
    """The day that is asked for, and a sentence where there is no such day (then it is today)."""
    if not text:
        return today, ""
    try:
        return date.fromisoformat(text), ""
    except ValueError:
        words = {"asked": _shortened(text)}
        return today, _(
            "There is no day “%(asked)s”: write year, month and day, such as 2026-04-05. This is today."
        ) % words


def number_in(text: str | None, lowest: int, highest: int) -> int | None:
    """A whole number within bounds, or None for anything else."""
    if text is None or not text.isascii() or not text.isdigit() or len(text) > 9:
        return None
    return int(text) if lowest <= int(text) <= highest else None


def _shortened(text: str) -> str:
    return text if len(text) <= 20 else text[:20] + "…"
