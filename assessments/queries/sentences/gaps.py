"""What is missing for a pass, in words: for pages, commands and papers alike."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext, ngettext_lazy

from assessments.queries.flora import Flora
from assessments.rules.gaps import Gap, GapReason
from assessments.rules.pairs import PairVerdict
from assessments.rules.standing import Standing

from .words import in_words, stage_word

TEXTS = {
    GapReason.DANGEROUS_MISSED: ngettext_lazy(
        "%(count)s more specimen of %(plant)s without a miss: some would have been gathered.",
        "%(count)s more specimens of %(plant)s without a miss: some would have been gathered.",
        "more",
    ),
    GapReason.DANGEROUS_SHORT: ngettext_lazy(
        "%(count)s more specimen of %(plant)s without a miss.",
        "%(count)s more specimens of %(plant)s without a miss.",
        "more",
    ),
    GapReason.LIVE_MISSED: ngettext_lazy(
        "%(count)s more living specimen of %(plant)s without a miss, counted from the last one missed.",
        "%(count)s more living specimens of %(plant)s without a miss, counted from the last one missed.",
        "more",
    ),
    GapReason.LIVE_SHORT: ngettext_lazy(
        "%(count)s more living specimen of %(plant)s without a miss.",
        "%(count)s more living specimens of %(plant)s without a miss.",
        "more",
    ),
    GapReason.LIVE_OCCASIONS: ngettext_lazy(
        "Living %(plant)s on %(occasions)s more occasion: at another place, or on another day.",
        "Living %(plant)s on %(occasions)s more occasions: at other places, or on other days.",
        "occasions_missing",
    ),
    GapReason.STAGE_MISSED: ngettext_lazy(
        "%(count)s more specimen of %(plant)s at this stage: %(stage)s, counted from the last one missed.",
        "%(count)s more specimens of %(plant)s at this stage: %(stage)s, counted from the last one missed.",
        "more",
    ),
    GapReason.STAGE_SHORT: ngettext_lazy(
        "%(count)s more specimen of %(plant)s without a miss at this stage: %(stage)s.",
        "%(count)s more specimens of %(plant)s without a miss at this stage: %(stage)s.",
        "more",
    ),
    GapReason.EDIBLE_MISSED: ngettext_lazy(
        "%(count)s more specimen of %(plant)s recognised, because of those that were not.",
        "%(count)s more specimens of %(plant)s recognised, because of those that were not.",
        "more",
    ),
    GapReason.EDIBLE_SHORT: ngettext_lazy(
        "%(count)s more specimen of %(plant)s recognised.",
        "%(count)s more specimens of %(plant)s recognised.",
        "more",
    ),
}
LIVE = gettext_lazy("A spot test, or a live check with a tutor.")
STAGE = gettext_lazy("A test or a spot test that shows it at this stage.")
REMEDIES = {
    GapReason.NO_PAIRS: gettext_lazy("The school has to put a version with dangerous pairs to use."),
    GapReason.LIVE_MISSED: LIVE,
    GapReason.LIVE_SHORT: LIVE,
    GapReason.LIVE_OCCASIONS: LIVE,
    GapReason.STAGE_MISSED: STAGE,
    GapReason.STAGE_SHORT: STAGE,
}
ANOTHER_TEST = gettext_lazy("Another test, or a spot test.")


@dataclass(frozen=True)
class GapLine:
    """One thing that is missing, as pages list it: the sentence, what would meet it, and the figures."""

    gap: Gap
    sentence: str
    remedy: str
    figures: tuple[tuple[str, str], ...] = ()


def gap_lines(standing: Standing, flora: Flora) -> list[GapLine]:
    """Everything that is missing for a pass, the most important first; empty exactly when it is passed."""
    return [gap_line(gap, flora) for gap in standing.gaps]


def gap_line(gap: Gap, flora: Flora) -> GapLine:
    """One gap in words."""
    remedy = str(REMEDIES.get(gap.reason, ANOTHER_TEST))
    return GapLine(gap, gap_sentence(gap, flora), remedy, gap_figures(gap))


def gap_sentence(gap: Gap, flora: Flora) -> str:
    """What is missing, for instance "Seven more specimens of hemlock without a miss."."""
    if gap.reason is GapReason.NO_PAIRS:
        return _("This standard asks for no dangerous pair, so nobody can pass it.")
    occasions = max(gap.occasions_needed - gap.occasions, 0)
    words = {
        "more": gap.still_needed,
        "count": in_words(gap.still_needed),
        "plant": flora.common(gap.species),
        "stage": stage_word(gap.stage or ""),
        "occasions": in_words(occasions),
        "occasions_missing": occasions,
    }
    return capfirst(TEXTS[gap.reason] % words)


def gap_figures(gap: Gap) -> tuple[tuple[str, str], ...]:
    """The figures behind a gap, as (label, value)."""
    if gap.reason is GapReason.NO_PAIRS:
        return ()
    edible = gap.reason in (GapReason.EDIBLE_MISSED, GapReason.EDIBLE_SHORT)
    figures = [
        (_("Recognised") if edible else _("Clean"), str(gap.clean)),
        (_("Not recognised") if edible else _("Misses"), str(gap.misses)),
        (_("Needed in all"), str(gap.needed)),
        (_("Still needed"), str(gap.still_needed)),
    ]
    if gap.occasions_needed:
        occasions = _("%(met)s of %(needed)s") % {"met": gap.occasions, "needed": gap.occasions_needed}
        figures.append((_("Occasions"), occasions))
    if gap.window > 1:
        figures.append((_("Window of evidence"), str(gap.window)))
    return tuple(figures)


def pair_sentence(verdict: PairVerdict, gaps: Sequence[Gap], flora: Flora) -> str:
    """Where somebody stands on one pair: passed, or the most important thing that is missing."""
    if verdict.passed:
        return _("Passed: nothing is missing for this pair.")
    mine = [gap for gap in gaps if verdict.key in gap.pairs]
    return gap_sentence(mine[0], flora) if mine else _("Nothing has counted for this pair yet.")


def standing_sentence(standing: Standing) -> str:
    """Where somebody stands under a whole standard."""
    total, passed = len(standing.pairs), sum(pair.passed for pair in standing.pairs)
    if standing.passed:
        return _("Every dangerous pair of this standard is passed.")
    return ngettext(
        "%(passed)s of %(total)s dangerous pair passed; every one is needed.",
        "%(passed)s of %(total)s dangerous pairs passed; every one is needed.",
        total,
    ) % {"passed": passed, "total": total}
