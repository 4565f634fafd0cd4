"""The wanted list in words: for the page, the sheet for the walk, the table and the command."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from assessments.queries.flora import PlantName
from assessments.queries.wanted import WantedLine, WantedPage
from species.queries.months import months_in_words

from .words import stage_word

MOST_PLACES = 4
"""So many places are named for a line; the table names them all."""
NOW, LATER, NAMING = "now", "later", "naming"


@dataclass(frozen=True)
class LineWords:
    """One line under its heading; `count` is the number of specimens, a box to tick for each."""

    count: int
    plant: PlantName
    is_dangerous: bool
    stage: str
    what: str
    told_from: str
    in_bank: str
    months: tuple[int, ...]
    season: str
    where: str
    needs_a_walk: bool

    @property
    def boxes(self) -> range:
        """Something to go through for as many boxes."""
        return range(self.count)


@dataclass(frozen=True)
class Section:
    """What can be done now, in another month, or without a walk."""

    key: str
    title: str
    advice: str
    lines: tuple[LineWords, ...]


@dataclass(frozen=True)
class WantedWords:
    """The whole list in words."""

    sentence: str
    notes: tuple[str, ...]
    sections: tuple[Section, ...]


def wanted_words(page: WantedPage) -> WantedWords:
    """The list in words, what helps most first."""
    return WantedWords(wanted_sentence(page), tuple(wanted_notes(page)), wanted_sections(page))


def wanted_sentence(page: WantedPage) -> str:
    """The list in one sentence."""
    papers = papers_words(page)
    if not page.has_pairs:
        return _("This standard asks for no dangerous pair, so there is nothing to set papers from.")
    if page.is_enough:
        return _("The bank has enough for %(papers)s.") % {"papers": papers}
    if not page.lines:
        return _("No bank can fill %(papers)s as the standard stands.") % {"papers": papers}
    return ngettext(
        "The bank is %(short)s specimen short of %(papers)s.",
        "The bank is %(short)s specimens short of %(papers)s.",
        page.short,
    ) % {"short": page.short, "papers": papers}


def papers_words(page: WantedPage) -> str:
    """What is to be set: "12 different papers of 20 questions"."""
    questions = ngettext("%(n)s question", "%(n)s questions", page.wish.questions) % {"n": page.wish.questions}
    return ngettext("%(n)s paper of %(questions)s", "%(n)s different papers of %(questions)s", page.wish.papers) % {
        "n": page.wish.papers,
        "questions": questions,
    }


def wanted_notes(page: WantedPage) -> list[str]:
    """What has to be known to read the list."""
    notes = []
    if page.wish.people:
        notes.append(
            ngettext(
                "Only specimens that %(n)s person has not seen are counted.",
                "Only specimens that none of %(n)s people has seen are counted.",
                len(page.wish.people),
            )
            % {"n": len(page.wish.people)}
        )
    notes += [
        _("%(plant)s: the standard counts it in no stage, so no photograph helps; a new version would have to.")
        % {"plant": capfirst(plant.common_name)}
        for plant in page.never
    ]
    if page.has_pairs and not page.asks_all:
        notes.append(
            _("So few questions cannot reach every plant in every stage: ask for more papers, or longer ones.")
        )
    if page.not_named:
        notes.append(
            ngettext(
                "%(n)s specimen set aside for tests has no name yet; what it is might shorten the list.",
                "%(n)s specimens set aside for tests have no name yet; what they are might shorten the list.",
                page.not_named,
            )
            % {"n": page.not_named}
        )
    return notes


def wanted_sections(page: WantedPage) -> tuple[Section, ...]:
    """The list under its headings; those with nothing under them are left out."""
    two = _("At most two of a kind from one place on one day count, and each has to be a plant of its own.")
    sections = (
        _section(NOW, _("On the next walk"), two, page.for_the_walk, _to_photograph),
        _section(
            NAMING,
            _("Without a walk"),
            _("These lie in the bank and lack a settled name."),
            page.without_a_walk,
            _to_name,
        ),
        _section(LATER, _("In another month"), _("These do not show now."), page.for_later, _to_photograph),
    )
    return tuple(section for section in sections if section.lines)


def _section(
    key: str,
    title: str,
    advice: str,
    lines: Iterable[WantedLine],
    count_and_words: Callable[[WantedLine], tuple[int, str]],
) -> Section:
    return Section(key, title, advice, tuple(_words(line, *count_and_words(line), key != NAMING) for line in lines))


def _words(line: WantedLine, count: int, what: str, needs_a_walk: bool) -> LineWords:
    return LineWords(
        count=count,
        plant=line.plant,
        is_dangerous=line.is_dangerous,
        stage=stage_word(line.stage) if line.stage else _("no stage noted"),
        what=what,
        told_from=_("to be told from %(plants)s") % {"plants": ", ".join(each.common_name for each in line.others)},
        in_bank=_("%(n)s in the bank") % {"n": line.in_bank},
        months=line.months,
        season=season_words(line),
        where=where_words(line),
        needs_a_walk=needs_a_walk,
    )


def _to_photograph(line: WantedLine) -> tuple[int, str]:
    number = line.to_photograph
    return number, ngettext("photograph %(n)s plant", "photograph %(n)s plants", number) % {"n": number}


def _to_name(line: WantedLine) -> tuple[int, str]:
    parts = []
    if line.to_name:
        words = ngettext("%(n)s waits for a second name", "%(n)s wait for a second name", line.to_name)
        parts.append(words % {"n": line.to_name})
    if line.to_settle:
        parts.append(ngettext("%(n)s is disputed", "%(n)s are disputed", line.to_settle) % {"n": line.to_settle})
    return line.to_name + line.to_settle, ", ".join(parts)


def season_words(line: WantedLine) -> str:
    """When the stage shows."""
    if not line.months:
        return _("no month on record")
    months = {"months": months_in_words(line.months)}
    return _("shows now (%(months)s)") % months if line.shows_now else _("shows later (%(months)s)") % months


def where_words(line: WantedLine) -> str:
    """Where the species is on record: places of this very stage first."""
    if not line.places:
        return _("no place on record")
    named = line.places[:MOST_PLACES]
    here = [place.name for place in named if place.in_this_stage]
    other = [place.name for place in named if not place.in_this_stage]
    parts = []
    if here:
        parts.append(_("seen like this at %(places)s") % {"places": ", ".join(here)})
    if other:
        parts.append(_("the species grows at %(places)s") % {"places": ", ".join(other)})
    more = len(line.places) - len(named)
    if more:
        parts.append(ngettext("and at %(n)s more place", "and at %(n)s more places", more) % {"n": more})
    return "; ".join(parts)
