"""How one ledger stands, and what its figures mean, in words: for pages and commands alike."""

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from assessments.rules.behind import Part, PartKind, ReasonCount
from assessments.rules.evalue import clean_needed
from assessments.rules.ledger import Ledger, WindowLedger
from assessments.rules.live import LiveRun
from assessments.rules.standard import Side
from assessments.rules.treatment import Effect, Reason

from .treatments import reason_sentence
from .words import in_words, stage_word


def ledger_sentence(ledger: Ledger, window: WindowLedger) -> str:
    """How one ledger stands in one window, for instance "Nine clean, one miss; fifteen more without a miss."."""
    edible = ledger.side is Side.EDIBLE
    if not window.counts.decided:
        return _nothing_yet(window, edible)
    so_far = _clean(window.counts.clean, edible)
    if window.counts.misses or not edible:
        so_far += ", " + _missed(window.counts.misses, edible)
    if not window.passed:
        return capfirst(_("%(so_far)s; %(more)s.") % {"so_far": so_far, "more": _more(window.still_needed, edible)})
    beyond = window.counts.clean - window.clean_needed
    if not beyond:
        return capfirst(_("%(so_far)s: that is enough.") % {"so_far": so_far})
    words = _("%(so_far)s: that is enough, and %(beyond)s beyond it are a reserve.")
    if beyond == 1:
        words = _("%(so_far)s: that is enough, and one beyond it is a reserve.")
    return capfirst(words % {"so_far": so_far, "beyond": in_words(beyond)})


def _nothing_yet(window: WindowLedger, edible: bool) -> str:
    needed = window.clean_needed
    if edible:
        return ngettext(
            "Nothing has counted yet; %(needed)s recognised is asked for.",
            "Nothing has counted yet; %(needed)s recognised are asked for.",
            needed,
        ) % {"needed": in_words(needed)}
    return ngettext(
        "Nothing has counted yet; %(needed)s without a miss is asked for.",
        "Nothing has counted yet; %(needed)s without a miss are asked for.",
        needed,
    ) % {"needed": in_words(needed)}


def _clean(count: int, edible: bool) -> str:
    if not count:
        return _("none recognised") if edible else _("none clean")
    words = _("%(count)s recognised") if edible else _("%(count)s clean")
    return words % {"count": in_words(count)}


def _missed(count: int, edible: bool) -> str:
    if edible:
        return _("%(count)s not recognised") % {"count": in_words(count)}
    return ngettext("%(count)s miss", "%(count)s misses", count or 1) % {"count": in_words(count)}


def _more(count: int, edible: bool) -> str:
    words = _("%(count)s more to recognise") if edible else _("%(count)s more without a miss")
    return words % {"count": in_words(count)}


def live_sentence(run: LiveRun) -> str:
    """How the live run stands, in a sentence."""
    if run.not_required:
        return _("No living specimen is asked for: %(reason)s") % {"reason": run.not_required}
    return _("Alive: %(clean)s of %(needed)s in a row without a miss, from %(occasions)s of %(wanted)s occasions.") % {
        "clean": min(run.clean, run.clean_needed),
        "needed": run.clean_needed,
        "occasions": min(run.occasions, run.occasions_needed),
        "wanted": run.occasions_needed,
    }


def needed_sentence(window: WindowLedger, edible: bool) -> str:
    """Where the number needed comes from: what it is without a miss, and with those there are."""
    misses = window.counts.misses
    without = clean_needed(0, window.bar, window.weight)
    figures = {"without": without, "needed": window.clean_needed, "missed": _missed(misses, edible)}
    if not misses:
        after = clean_needed(1, window.bar, window.weight)
        words = (
            _("%(needed)s are enough if all are recognised; one that is not would make it %(after)s.")
            if edible
            else _("%(needed)s are enough without a miss; one miss would make it %(after)s.")
        )
        return words % {**figures, "after": after}
    if edible:
        return (
            _("If all had been recognised, %(without)s would be enough; with %(missed)s it takes %(needed)s.") % figures
        )
    return _("Without a miss %(without)s would be enough; with %(missed)s it takes %(needed)s.") % figures


def part_heading(part: Part, edible: bool) -> str:
    """What the answers behind a figure are called."""
    if part.kind is PartKind.STAGE:
        return _("Clean at this stage since the last miss: %(stage)s") % {"stage": stage_word(part.of)}
    if part.kind is PartKind.REASON:
        return reason_sentence(Reason(part.of))
    headings = {
        PartKind.ALL: _("Every answer to this plant"),
        PartKind.CLEAN: _("Recognised") if edible else _("Clean"),
        PartKind.MISSES: _("Not recognised") if edible else _("Misses"),
        PartKind.NEUTRAL: _("Neither for nor against"),
        PartKind.COUNTED: _("For and against"),
        PartKind.PHOTOGRAPHS: _("Met on photographs only"),
        PartKind.LIVE: _("Met alive"),
        PartKind.LIVE_RUN: _("Alive, in a row without a miss"),
        PartKind.ASIDE: _("Not counted in this window"),
        PartKind.ELSEWHERE: _("Counted in another window only"),
    }
    return headings[part.kind]


def reason_line(counted: ReasonCount) -> str:
    """Why some answers count as they do."""
    if counted.part.kind is PartKind.ELSEWHERE:
        return _("Shown before this window opened; it counts in an earlier one.")
    return reason_sentence(Reason(counted.part.of))


EFFECT_MARKS = {Effect.CLEAN: "met", Effect.MISS: "unmet", Effect.NEUTRAL: "part", Effect.NONE: "waiting"}
"""The mark beside an answer, as `pieces/status_word.html` takes it."""
