"""What a paper moved, pair by pair: one sentence each, which says how and why."""

from dataclasses import dataclass

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from assessments.queries.flora import Flora, PlantName
from assessments.rules.moves import Move, Turn
from assessments.rules.standard import PairFacts

MARKS = {
    Turn.PASSED: "met",
    Turn.LOST: "unmet",
    Turn.SET_BACK: "unmet",
    Turn.CLOSER: "part",
    Turn.FURTHER: "part",
    Turn.SAME: "waiting",
}


@dataclass(frozen=True)
class MoveLine:
    """One pair and the sentence about it; `mark` as `pieces/mark.html` takes it."""

    key: str
    gathered: PlantName
    mistaken: PlantName
    mark: str
    sentence: str


def move_line(move: Move, pair: PairFacts, flora: Flora) -> MoveLine:
    """One pair in words."""
    gathered, mistaken = flora.plant(pair.gathered), flora.plant(pair.mistaken)
    return MoveLine(pair.key, gathered, mistaken, MARKS[move.turn], move_sentence(move, gathered, mistaken))


def move_sentence(move: Move, gathered: PlantName, mistaken: PlantName) -> str:
    """How the pair went and why, in one sentence; what does not count is said after it."""
    words = {"gathered": gathered.common_name, "mistaken": mistaken.common_name}
    sentence = _turned(move, words)
    if move.aside:
        sentence += " " + ngettext(
            "%(n)s answer about these two does not count.", "%(n)s answers about these two do not count.", move.aside
        ) % {"n": move.aside}
    return sentence


def _turned(move: Move, words: dict[str, str]) -> str:
    if move.turn is Turn.PASSED:
        return _("Passed with this test: %(told)s.") % {"told": _told(move, words)}
    if move.turn in (Turn.LOST, Turn.SET_BACK):
        return _set_back(move, words)
    still = _still(move, words)
    if move.turn is Turn.CLOSER:
        return _("Closer, since %(told)s: %(still)s.") % {"told": _told(move, words), "still": still}
    if move.turn is Turn.FURTHER:
        missed = ngettext(
            "%(gathered)s was not recognised %(n)s time",
            "%(gathered)s was not recognised %(n)s times",
            move.not_recognised,
        ) % {**words, "n": move.not_recognised}
        return _("Further off, since %(missed)s: %(still)s.") % {"missed": capfirst(missed), "still": still}
    return _("Where it was before: %(still)s.") % {"still": still}


def _set_back(move: Move, words: dict[str, str]) -> str:
    if not move.missed_at:
        return _("No longer passed: %(still)s.") % {"still": _still(move, words)}
    numbers = ", ".join(str(each) for each in move.missed_at)
    asked = ngettext("in question %(numbers)s", "in questions %(numbers)s", len(move.missed_at)) % {"numbers": numbers}
    taken = _("%(mistaken)s would have been gathered %(asked)s") % {**words, "asked": asked}
    if move.turn is Turn.LOST:
        return _("No longer passed, since %(taken)s: %(still)s.") % {"taken": taken, "still": _still(move, words)}
    return _("Set back, since %(taken)s: %(after)s more without a miss are needed now, %(before)s before.") % {
        "taken": taken,
        "after": move.dangerous_after,
        "before": move.dangerous_before,
    }


def _told(move: Move, words: dict[str, str]) -> str:
    parts = []
    if move.clean:
        parts.append(_("%(mistaken)s was left alone %(n)s ×") % {**words, "n": move.clean})
    if move.recognised:
        parts.append(_("%(gathered)s was recognised %(n)s ×") % {**words, "n": move.recognised})
    return _(" and ").join(parts) or _("enough was shown before")


def _still(move: Move, words: dict[str, str]) -> str:
    parts = [
        f"{number} × {name}"
        for number, name in ((move.dangerous_after, words["mistaken"]), (move.edible_after, words["gathered"]))
        if number
    ]
    if not parts:
        return _("enough specimens; what is missing is named above")
    return _("%(parts)s still needed") % {"parts": ", ".join(parts)}
