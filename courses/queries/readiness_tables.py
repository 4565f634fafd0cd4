"""The readiness board to take away: as a table, and on paper for whoever insures the school."""

from datetime import datetime

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from courses.documents.sheet import SheetPart, SheetWords
from courses.queries.people import the_school

from .board import BoardAsk, board, board_lines
from .readiness import on_the_way


def readiness_table(ask: BoardAsk, now: datetime) -> bytes:
    """People down, requirements across: the state, the sentence beside it, and the shortest way at the end."""
    found = board(ask, on_the_way(), now)
    rows = []
    for line in board_lines(found.found, ask.part, now):
        said = {check.requirement: f"{check.status}: {check.sentence}" for check in line.checks}
        cells = [said.get(key, "") for key, _name in found.requirements]
        way = " ".join([*line.way.moves, line.way.ready_from]).strip()
        rows.append([line.person.name, _("yes") if line.ready else _("no"), *cells, way])
    names = [name for _key, name in found.requirements]
    return written_table([_("name"), _("ready"), *names, _("shortest way")], rows)


def readiness_sheet(ask: BoardAsk, now: datetime) -> SheetWords:
    """People on the way to leading, with what they have shown and what is missing, on the day of printing."""
    lines, school = board_lines(board(ask, on_the_way(), now).found, ask.part, now), the_school()
    as_of = _("As of %(day)s") % {"day": date_format(timezone.localtime(now), "DATETIME_FORMAT")}
    chosen = _("not everybody: only whom the filters of the list left") if ask != BoardAsk(ask.part) else ""
    parts = [
        SheetPart(
            f"{line.person.name}: {_('ready') if line.ready else _('not yet')}",
            tuple(f"{check.name}: {check.sentence}." for check in line.checks),
        )
        for line in lines
    ]
    return SheetWords(
        title=_("Who is ready to lead"),
        subtitle=" · ".join(each for each in (school.name if school else "", as_of, chosen) if each),
        language=get_language() or "en",
        author=school.name if school else "",
        parts=tuple(parts) or (SheetPart(_("Nobody on the way to leading fits what was chosen."), ()),),
        cautions=_("Taken from the school's records, which say who saw each ticket and policy."),
        page_of=_("{page} of {pages}"),
    )
