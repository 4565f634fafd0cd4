"""The words of a calendar for paper: the same table as on the page of the season."""

from django.utils.text import capfirst
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from species.documents.calendar import CalendarRow, CalendarWords
from species.documents.pair_words import Letterhead
from species.models.flora import EDIBILITY_WORDS
from species.queries.letterhead import cautions
from species.queries.season import SeasonPage

EDIBILITY = dict(EDIBILITY_WORDS)


def calendar_words(page: SeasonPage, letterhead: Letterhead) -> CalendarWords:
    """The year of the plants of a page."""
    return CalendarWords(
        language=get_language() or "en",
        letterhead=letterhead,
        title=_("The year: %(what)s") % {"what": page.title},
        note=calendar_note(page.days_late),
        plant=_("Plant"),
        months=tuple(short for short, _name in page.months),
        rows=tuple(
            CalendarRow(
                str(capfirst(row.species.common_name)),
                row.species.name,
                str(EDIBILITY[row.species.edibility]) if row.is_danger else "",
                tuple(each.letters for each in row.months),
            )
            for row in page.rows
        ),
        key="; ".join(f"{each.letter} {each.name}" for each in page.letters),
        cautions=cautions(),
    )


def calendar_note(days_late: int) -> str:
    """How exact the months are, and for where they hold."""
    note = _("Months in which a stage can be met; give or take three weeks by year and place.")
    if days_late > 0:
        return note + " " + _("This place runs %(days)s days late.") % {"days": days_late}
    if days_late < 0:
        return note + " " + _("This place runs %(days)s days early.") % {"days": -days_late}
    return note
