"""The wanted list as it leaves the page: a sheet for the walk, a table, plain values."""

from typing import Any

from django.utils.formats import date_format
from django.utils.text import capfirst
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from assessments.documents.wanted import SheetLine, SheetSection, SheetWords
from species.queries.letterhead import cautions

from .sentences.wanted import LineWords, wanted_notes, wanted_sections, wanted_sentence
from .sentences.words import stage_word
from .wanted import WantedLine, WantedPage


def sheet_words(page: WantedPage, author: str) -> SheetWords:
    """The words of the sheet; an empty list gives a sheet that says so."""
    said = " ".join([wanted_sentence(page), *wanted_notes(page)])
    day = date_format(page.today, "DATE_FORMAT")
    return SheetWords(
        title=_("Wanted: photographs for tests"),
        subtitle=f"{page.wish.standard.name} {page.wish.standard.version} · {day} · {said}",
        language=get_language() or "en",
        author=author,
        sections=tuple(
            SheetSection(each.title, each.advice, tuple(_sheet_line(line) for line in each.lines))
            for each in wanted_sections(page)
        ),
        cautions=" ".join(cautions()),
        page_of=_("Page {page} of {pages}"),
    )


def _sheet_line(line: LineWords) -> SheetLine:
    what = f"{capfirst(line.stage)}: {line.what}, {line.told_from}"
    return SheetLine(
        boxes=line.count,
        name=capfirst(line.plant.common_name),
        scientific=line.plant.name,
        mark=_("(dangerous)") if line.is_dangerous else "",
        notes=(what, f"{capfirst(line.season)}; {line.where}") if line.needs_a_walk else (what,),
        blank=_("Place and day:") + " " + "." * 70 if line.needs_a_walk else "",
    )


def wanted_csv(page: WantedPage) -> bytes:
    """The whole list as a table, a row for each species and stage, every place named."""
    columns = [
        _("scientific name"),
        _("common name"),
        _("side"),
        _("stage"),
        _("told from"),
        _("to photograph"),
        _("waiting for a second name"),
        _("disputed"),
        _("in the bank"),
        _("months"),
        _("shows now"),
        _("places of this stage"),
        _("other places of the species"),
    ]
    return written_table(columns, [_row(line) for line in page.lines])


def _row(line: WantedLine) -> list[object]:
    return [
        line.plant.name,
        line.plant.common_name,
        _("dangerous") if line.is_dangerous else _("edible"),
        stage_word(line.stage),
        ", ".join(each.name for each in line.others),
        line.to_photograph,
        line.to_name,
        line.to_settle,
        line.in_bank,
        " ".join(str(month) for month in line.months),
        _("yes") if line.shows_now else _("no"),
        "; ".join(place.name for place in line.places if place.in_this_stage),
        "; ".join(place.name for place in line.places if not place.in_this_stage),
    ]


def plain_wanted(page: WantedPage) -> dict[str, Any]:
    """The list as plain values, by keys of the flora; the command describes the shape."""
    return {
        "standard": page.wish.standard.key,
        "version": page.wish.standard.version,
        "papers": page.wish.papers,
        "questions": page.wish.questions,
        "enough": page.is_enough,
        "sentence": wanted_sentence(page),
        "notes": wanted_notes(page),
        "never": [plant.key for plant in page.never],
        "not_named": page.not_named,
        "lines": [_plain_line(line) for line in page.lines],
    }


def _plain_line(line: WantedLine) -> dict[str, Any]:
    return {
        "species": line.plant.key,
        "side": "dangerous" if line.is_dangerous else "edible",
        "stage": line.stage,
        "told_from": [plant.key for plant in line.others],
        "to_photograph": line.to_photograph,
        "to_name": line.to_name,
        "to_settle": line.to_settle,
        "in_bank": line.in_bank,
        "months": list(line.months),
        "shows_now": line.shows_now,
        "places": [{"name": place.name, "in_this_stage": place.in_this_stage} for place in line.places],
    }
