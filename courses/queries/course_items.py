"""Photographs and plants of a course's tests as its people answered them, and which to look at again and why."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone
from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from assessments.queries.flora import Flora
from assessments.rules.flags import FEWEST_FOR_FLAGS, KEY, LEFT, UNNAMED
from assessments.rules.item_lines import ItemLine, item_lines
from assessments.rules.names import plain
from courses.models import Course
from species.models import Photo, SecondLook
from species.queries.pictures import Picture, picture_of

from .cohort_answers import answers_in
from .sentences.flags import flag_sentences

FEWEST_ON_THE_PAGE = 4
"""Answers from which a specimen has a line on the page; a choice. Of a paper of one's own most have one or two."""


@dataclass(frozen=True)
class SaidLine:
    """What was said of a specimen, by how many, and by how many of those who did better on the others."""

    words: str
    total: int
    stronger: int


@dataclass(frozen=True)
class CourseItem:
    """One specimen with its names. `why`: sentences; `picture` of those to look at again; `asked_at` while a second
    look is waited for."""

    line: ItemLine
    plant: str
    said: tuple[SaidLine, ...]
    why: tuple[str, ...]
    picture: Picture | None
    asked_at: datetime | None


@dataclass(frozen=True)
class ItemsPage:
    """The whole page: those to look at again, and all that were answered."""

    course: Course
    items: tuple[CourseItem, ...]
    fewest: int = FEWEST_FOR_FLAGS

    @property
    def to_look_at(self) -> tuple[CourseItem, ...]:
        return tuple(item for item in self.items if item.line.flags)

    @property
    def listed(self) -> tuple[CourseItem, ...]:
        """Those that so many answered that a line of them is worth reading."""
        return tuple(item for item in self.items if item.line.answered >= FEWEST_ON_THE_PAGE)

    @property
    def left_out(self) -> int:
        """How many are in the file alone."""
        return len(self.items) - len(self.listed)

    @property
    def has_enough(self) -> bool:
        """Whether any specimen was answered by so many that a flag could be raised by their answers."""
        return any(item.line.enough for item in self.items)

    @property
    def pictured(self) -> tuple[str, ...]:
        """Specimens whose pictures the page shows, with their names."""
        return tuple(item.line.specimen for item in self.items if item.picture)


def items_page(course: Course) -> ItemsPage:
    """What the page shows, in a constant number of queries however many people and specimens."""
    found = answers_in(course).found
    lines = item_lines(found.answers, found.flora.book, found.tutor_differs)
    flagged = [line.specimen for line in lines if line.flags]
    pictures, asked = _pictures(flagged), _asked(flagged)
    names = {f"words {plain(answer.said)}": answer.said.strip() for _person, answer in found.all}
    items = (_item(line, found.flora, names, pictures.get(line.specimen), asked.get(line.specimen)) for line in lines)
    return ItemsPage(course, tuple(items))


def item_to_look_at(course: Course, specimen: str) -> CourseItem | None:
    """A specimen of a course that is to be looked at again, or None."""
    return next((item for item in items_page(course).to_look_at if item.line.specimen == specimen), None)


def _item(
    line: ItemLine, flora: Flora, typed: Mapping[str, str], picture: Picture | None, asked_at: datetime | None
) -> CourseItem:
    """`typed`: by what the rules make of them, words that mean no plant of the school, as somebody typed them."""
    words = {KEY: _("as it is named here"), LEFT: _("left it"), UNNAMED: _("no full name"), **typed}
    said = tuple(
        SaidLine(words.get(each.answer) or flora.common(each.answer), each.total, each.stronger) for each in line.said
    )
    return CourseItem(line, flora.common(line.species), said, flag_sentences(line.flags), picture, asked_at)


def _pictures(specimens: Collection[str]) -> dict[str, Picture]:
    """The first picture of each; one query with its sizes, none where nothing is flagged."""
    rows = Photo.objects.filter(specimen__key__in=specimens).select_related("specimen").prefetch_related("renditions")
    found: dict[str, Picture] = {}
    for photo in rows.order_by("specimen_id", "order", "id"):
        if any(each.media_type == "image/jpeg" for each in photo.renditions.all()):
            found.setdefault(photo.specimen.key, picture_of(photo))
    return found


def _asked(specimens: Collection[str]) -> dict[str, datetime]:
    rows = SecondLook.objects.waiting().filter(specimen__key__in=specimens)
    return dict(rows.values_list("specimen__key", "asked_at"))


def items_table(page: ItemsPage) -> bytes:
    """The lines as a file. Limits of a share are per cent, rounded outwards; figures of few answers are left out."""
    columns = [
        _("specimen"), _("plant"), _("answered"), _("right"), _("right, from %"), _("right, to %"), _("said"),
        _("right here, right elsewhere"), _("from"), _("to"), _("look at it again because"), _("second look asked for"),
    ]  # fmt: skip
    return written_table(columns, (_table_row(item) for item in page.items))


def _table_row(item: CourseItem) -> list[object]:
    line, telling = item.line, item.line.telling
    figures: list[object] = ["", "", ""]
    if telling:
        figures = [round(each, 2) for each in (telling.value, telling.interval.lower, telling.interval.upper)]
    return [
        line.specimen,
        item.plant,
        line.answered,
        line.right,
        *line.interval.in_100,
        "; ".join(f"{each.words} {each.total}" for each in item.said),
        *figures,
        " ".join(item.why),
        timezone.localdate(item.asked_at).isoformat() if item.asked_at else "",
    ]
