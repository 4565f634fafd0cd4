"""The readiness board to take away: as a table, and on paper for whoever insures the school."""

from datetime import datetime

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from courses.documents.sheet import SheetPart, SheetWords
from courses.queries.people import the_school

from .readiness import readiness_page


def readiness_table(now: datetime) -> bytes:
    """People down, requirements across: the state, and the sentence beside it."""
    page = readiness_page(now)
    names = list(dict.fromkeys(check.name for line in page.lines for check in line.checks)) or page.requirements
    rows = []
    for line in page.lines:
        said = {check.name: f"{check.status}: {check.sentence}" for check in line.checks}
        rows.append([line.person.name, _("yes") if line.ready else _("no"), *(said.get(name, "") for name in names)])
    return written_table([_("name"), _("ready"), *names], rows)


def readiness_sheet(now: datetime) -> SheetWords:
    """Everybody on the way to leading, with what they have shown and what is missing, on the day of printing."""
    page, school = readiness_page(now), the_school()
    parts = [
        SheetPart(
            f"{line.person.name}: {_('ready') if line.ready else _('not yet')}",
            tuple(f"{check.name}: {check.sentence}." for check in line.checks),
        )
        for line in page.lines
    ]
    return SheetWords(
        title=_("Who is ready to lead"),
        subtitle=_("As of %(day)s") % {"day": date_format(timezone.localtime(now), "DATETIME_FORMAT")},
        language=get_language() or "en",
        author=school.name if school else "",
        parts=tuple(parts) or (SheetPart(_("Nobody is on the way to leading yet."), ()),),
        cautions=_("Taken from the school's records. Tickets and policies were seen by the people named there."),
        page_of=_("{page} of {pages}"),
    )
