"""The record of processing, drawn from the inventory of the code itself: a page, a table and a sheet say the same."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.apps import apps
from django.utils.formats import date_format
from django.utils.text import capfirst
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from courses.documents.sheet import SheetPart, SheetWords
from courses.models import LegalGround
from courses.queries.people import the_school
from courses.queries.sentences import inventory as words
from courses.rules.inventory.activities import SENT_TO, TERMS
from courses.rules.inventory.catalogue import holdings_for
from courses.rules.inventory.shape import PERSONAL, RUNS_BY_ITSELF, Activity, Holding, Nature


@dataclass(frozen=True)
class HeldModel:
    """One kind of record: what of people it holds, field by field as forms call them, and how long."""

    what: str
    fields: tuple[str, ...]
    term: str
    by_itself: bool
    in_confidence: bool


@dataclass(frozen=True)
class Processing:
    """One purpose. `ground` is empty until the school has filled it in."""

    activity: Activity
    title: str
    held: tuple[HeldModel, ...]
    whose: str
    readers: str
    guards: str
    ground: str

    @property
    def what(self) -> str:
        """All kinds of records with their fields, in one text."""
        return "; ".join(f"{each.what} ({', '.join(each.fields)})" for each in self.held)

    @property
    def kept(self) -> str:
        """How long each kind is kept, in one text."""
        return "; ".join(f"{each.what}: {each.term}" for each in self.held)


def processings() -> list[Processing]:
    """Every purpose for which something of people is held; one query."""
    grounds = dict(LegalGround.objects.values_list("activity", "words"))
    found = ((activity, holdings_for(activity)) for activity in Activity)
    return [_processing(activity, lines, grounds.get(activity, "")) for activity, lines in found if lines]


def _processing(activity: Activity, lines: Iterable[Holding], ground: str) -> Processing:
    terms = TERMS[activity]
    return Processing(
        activity=activity,
        title=str(words.TITLES[activity]),
        held=tuple(_held(line) for line in lines),
        whose=", ".join(str(words.WHOSE[each]) for each in terms.whose),
        readers="; ".join(str(words.READERS[each]) for each in terms.readers),
        guards="; ".join(str(words.GUARDS[each]) for each in terms.guards),
        ground=ground,
    )


def _held(line: Holding) -> HeldModel:
    meta = apps.get_model(line.model)._meta
    return HeldModel(
        what=capfirst(str(meta.verbose_name_plural)),
        fields=tuple(str(getattr(meta.get_field(name), "verbose_name", name)) for name in line.of(*PERSONAL)),
        term=words.term_words(line.term),
        by_itself=line.term in RUNS_BY_ITSELF,
        in_confidence=bool(line.of(Nature.SECRET)),
    )


def recipients() -> list[str]:
    """Who handles data for the school outside of it."""
    return [str(words.SENT_TO[each]) for each in SENT_TO]


def caution() -> str:
    """What the record is worth."""
    return _(
        "Drawn from the program itself: it says what the program does, and no more. Local law decides what the school "
        "may hold, on which ground and for how long: ask somebody who knows it, and fill in the grounds."
    )


def not_filled_in() -> str:
    """What stands where the school has not named a ground yet."""
    return _("to be filled in by the school")


def processing_table() -> bytes:
    """One row for each purpose."""
    columns = [
        _("purpose"), _("what is held"), _("of whom"), _("why it may be held (legal ground)"), _("who sees it"),
        _("how long"), _("what protects it"),
    ]  # fmt: skip
    return written_table(
        columns,
        (
            [each.title, each.what, each.whose, each.ground or not_filled_in(), each.readers, each.kept, each.guards]
            for each in processings()
        ),
    )


def processing_sheet(today: date) -> SheetWords:
    """The same on paper."""
    school = the_school()
    said = _("Everywhere: signing in, roles for each page, an encrypted connection, no third party in any page.")
    parts = [SheetPart(each.title, tuple(_lines(each))) for each in processings()]
    parts.append(SheetPart(_("Who handles data for the school"), (*recipients(), said)))
    return SheetWords(
        title=_("Record of processing"),
        subtitle=f"{school.name if school else ''}, {date_format(today)}",
        language=get_language() or "en",
        author=school.name if school else "",
        parts=tuple(parts),
        cautions=caution(),
        page_of=_("{page} of {pages}"),
    )


def _lines(line: Processing) -> Iterable[str]:
    yield _("What: %s") % line.what
    yield _("Of whom: %s") % line.whose
    yield _("Legal ground: %s") % (line.ground or not_filled_in())
    yield _("Who sees it: %s") % line.readers
    yield _("How long: %s") % line.kept
    if line.guards:
        yield _("What protects it: %s") % line.guards
