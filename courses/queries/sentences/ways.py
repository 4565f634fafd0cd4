"""The shortest way to leading, in words."""

from dataclasses import dataclass
from datetime import date

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from courses.rules.requirements import Requirement
from courses.rules.way import Move, NextMove, Way

from .requirements import REMEDIES


@dataclass(frozen=True)
class WayLine:
    """What to do, in order, and from when somebody could be ready by it (None, empty: nobody can say, or they are)."""

    moves: tuple[str, ...]
    day: date | None = None
    ready_from: str = ""


def way_line(found: Way, today: date) -> WayLine:
    """One person's way in sentences."""
    moves = tuple(_sentence(each) for each in found.moves)
    if not moves or found.ready_from is None:
        return WayLine(moves)
    if found.ready_from <= today:
        return WayLine(moves, found.ready_from, _("Could be ready today."))
    ready_from = _("Could be ready from %(day)s.") % {"day": _on(found.ready_from)}
    return WayLine(moves, found.ready_from, ready_from)


def _sentence(move: NextMove) -> str:
    if move.move is Move.TAKE_PART:
        return " ".join([_part(move), _days(move)]).strip()
    if move.move is Move.PASS_PAIRS and move.of:
        left = ngettext(
            "Pass %(left)s more of the %(of)s dangerous pairs that are asked, then apply.",
            "Pass %(left)s more of the %(of)s dangerous pairs that are asked, then apply.",
            move.lacking,
        )
        return left % {"left": move.lacking, "of": move.of}
    sentences = {
        Move.APPLY: _("Apply for the certificate: every dangerous pair is passed."),
        Move.AWAIT_DECISION: _("Wait for the decision on the certificate."),
        Move.SETTLE_DOUBT: _("Ask an organiser what would lift the suspension."),
    }
    return sentences.get(move.move) or str(REMEDIES[move.requirement])


def _part(move: NextMove) -> str:
    if move.requirement is Requirement.OBSERVED_WALK:
        return ngettext(
            "Lead a walk while a leader watches.", "Lead %(n)s walks while a leader watches.", move.lacking
        ) % {"n": move.lacking}
    return ngettext("Assist at one more walk.", "Assist at %(n)s more walks.", move.lacking) % {"n": move.lacking}


def _days(move: NextMove) -> str:
    days = _("; ").join(_on(day) for day in move.days)
    if not days:
        return _("None is planned that they could go to.")
    if len(move.days) < move.lacking:
        return _("Too few are planned: %(days)s.") % {"days": days}
    return _("Soonest: %(days)s.") % {"days": days}


def _on(day: date) -> str:
    return date_format(day, "DATE_FORMAT")
