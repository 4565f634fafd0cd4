"""Numbers that somebody wants to try in a standard: sentences for those that make no test."""

from collections.abc import Mapping
from fractions import Fraction

from django.utils.translation import gettext as _

from assessments.rules.outlook import HORIZON, OtherNumbers, TooManySpecimens, outlook
from assessments.rules.standard import Side, StandardFacts

SHARES = ("miss_limit", "miss_alpha", "refusal_limit", "refusal_alpha")
RATIOS = ("miss_ratio", "refusal_ratio")
LARGEST_RATIO = 1000
MOST_WEEKS = 104


def number_problems(numbers: Mapping[str, Fraction | None]) -> dict[str, str]:
    """For each number that makes no sense by itself a sentence that says why and what would."""
    told = {}
    for name, value in numbers.items():
        if value is None:
            continue
        if name in RATIOS and not 1 < value <= LARGEST_RATIO:
            told[name] = _(
                "The ratio says how much better than the limit somebody has to be for the test to be sharpest: "
                "above 1, and at most %(most)s. Usual are 5 and 10."
            ) % {"most": LARGEST_RATIO}
        elif name.endswith("_limit") and not 0 < value < 1:
            told[name] = _(
                "A tolerated share lies above nothing and below everything: that nobody ever errs cannot be shown by "
                "any number of plants. Usual are 10 % and 20 %."
            )
        elif name.endswith("_alpha") and not 0 < value < 1:
            told[name] = _(
                "A chance of a false pass lies above nothing and below certainty: without any such chance nobody could "
                "pass. Usual are 5 % and 10 %."
            )
    return told


def weeks_problem(weeks: int) -> str:
    """A sentence where a course of so many weeks makes no sense; empty where it does."""
    if 1 <= weeks <= MOST_WEEKS:
        return ""
    return _("A course lasts at least one week, and at most %(most)s: write how many.") % {"most": MOST_WEEKS}


def draft_problem(facts: StandardFacts, numbers: OtherNumbers) -> str:
    """A sentence where the numbers, put into the standard, ask for more than anybody can be shown; else empty."""
    try:
        outlook(numbers.of(facts))
    except TooManySpecimens as refused:
        side = _("dangerous") if refused.side is Side.DANGEROUS else _("edible")
        return _(
            "These numbers ask for %(needed)s specimens of every %(side)s plant, with two misses; more than "
            "%(most)s are not calculated. Tolerate a larger share, allow a larger chance of a false pass, or take a "
            "larger ratio."
        ) % {"needed": refused.needed, "side": side, "most": HORIZON}
    return ""
