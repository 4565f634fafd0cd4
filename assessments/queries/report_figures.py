"""Making the figures of a report, each with its count and the name of the query that counted it."""

from collections.abc import Callable
from typing import Any

from django.utils.translation import gettext as _

from assessments.documents.report_words import Figure
from assessments.rules.intervals import exact_interval

from .retakes_page import percent

FEW = 8
"""From fewer than this no share is printed: one more answer would turn it over."""


def source(question: Callable[..., Any]) -> str:
    """What a report calls a query: its module and its name."""
    return f"{question.__module__.rpartition('.')[2]}.{question.__name__}"


def number(label: str, value: int, counted: str, question: Callable[..., Any], *, is_public: bool = False) -> Figure:
    """A plain count, which is its own n."""
    return Figure(label, str(value), value, counted, source(question), is_public)


def share(
    label: str, part: int, whole: int, counted: str, question: Callable[..., Any], *, is_public: bool = False
) -> Figure:
    """So many of a sample, with the exact interval of the share where there are enough to say anything."""
    return Figure(label, share_words(part, whole), whole, counted, source(question), is_public)


def part(
    label: str, some: int, whole: int, counted: str, question: Callable[..., Any], *, is_public: bool = False
) -> Figure:
    """So many of all there are: nothing is inferred from it, so no interval belongs to it."""
    words = _("%(part)s of %(whole)s") % {"part": some, "whole": whole} if whole else _("nothing to count yet")
    return Figure(label, words, whole, counted, source(question), is_public)


def share_words(part: int, whole: int) -> str:
    """So many of so many as printed: the counts always, a share and its interval from eight on."""
    if whole == 0:
        return _("nothing to count yet")
    if whole < FEW:
        return _("%(part)s of %(whole)s; too few to say more") % {"part": part, "whole": whole}
    limits = exact_interval(part, whole)
    return _("%(part)s of %(whole)s; 95 %% interval %(lower)s to %(upper)s") % {
        "part": part,
        "whole": whole,
        "lower": percent(limits.lower),
        "upper": percent(limits.upper),
    }
