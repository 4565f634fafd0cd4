"""One look of practice, before it is answered and after: the picture, its double beside it, and what tells."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from django.db.models import prefetch_related_objects

from assessments.models import PracticeRound, PracticeTurn
from species.models import Photo
from species.queries.pictures import Picture, picture_of
from species.queries.regions import RegionShown, regions_of

from .flora import Flora, PlantName
from .practice import teaching_photos
from .sentences.words import stage_word
from .tellings import Telling, characters_of, tellings_at

NUMBER_PARTS, NUMBER_LEAST = 24, 12
"""The number in a frame takes this part of the picture's height, and no fewer px."""


@dataclass(frozen=True)
class LookPage:
    """One look of a round, before it is answered or after."""

    turn: PracticeTurn
    of: int
    picture: Picture
    gathered: PlantName
    mistaken: PlantName


@dataclass(frozen=True)
class PlantShown:
    """One of the two plants after the answer: its picture, and where on it the characters that tell can be seen."""

    plant: PlantName
    stage: str
    picture: Picture
    photo: Photo
    regions: tuple[RegionShown, ...]

    @property
    def number_size(self) -> int:
        """The height of the number in a frame, in px of the picture as it was taken."""
        return max(NUMBER_LEAST, self.photo.height // NUMBER_PARTS)


@dataclass(frozen=True)
class LookAnswered:
    """What a look was: the plant, its double beside it where there is a picture, what tells, and what follows."""

    page: LookPage
    shown: PlantShown
    double: PlantName
    beside: PlantShown | None
    tellings: tuple[Telling, ...]
    next: int | None
    """The position of the next look; None when this was the last."""


def look_page(practice: PracticeRound, position: int, flora: Flora) -> LookPage | None:
    """One look of a round; None where it has no such look, or may not show it any more; three queries."""
    turns = practice.turns.order_by("position")
    rows = turns.showable().select_related("pair__gathered", "pair__mistaken", "photo__specimen__species")
    turn = rows.filter(position=position).prefetch_related("photo__renditions").first()
    if turn is None:
        return None
    last = turns.values_list("position", flat=True).last() or position
    gathered, mistaken = (flora.plant(each.key) for each in (turn.pair.gathered, turn.pair.mistaken))
    return LookPage(turn, last, picture_of(turn.photo, blind=not turn.outcome), gathered, mistaken)


def next_look(practice: PracticeRound, after: int) -> int | None:
    """The position of the next look without an answer: after this one, otherwise the first that was passed over."""
    waiting = list(practice.turns.showable().unanswered().order_by("position").values_list("position", flat=True))
    return next((each for each in waiting if each > after), waiting[0] if waiting else None)


def look_answered(page: LookPage, flora: Flora) -> LookAnswered:
    """What an answered look was, in a constant number of queries."""
    turn = page.turn
    stage, pair = turn.photo.specimen.stage, turn.pair
    shows_gathered = turn.photo.specimen.species_id == pair.gathered_id
    plant, double = (page.gathered, page.mistaken) if shows_gathered else (page.mistaken, page.gathered)
    tellings = tellings_at(characters_of([pair.key])[pair.key], stage)
    other = _beside(turn, pair.mistaken_id if shows_gathered else pair.gathered_id)
    frames = regions_of([photo.pk for photo in (turn.photo, other) if photo])
    numbers = {each.character: number for number, each in enumerate(tellings, 1) if each.character}
    shown = _shown(plant, turn.photo, frames[turn.photo_id], numbers)
    beside = _shown(double, other, frames[other.pk], numbers) if other else None
    return LookAnswered(page, shown, double, beside, tellings, next_look(turn.round, turn.position))


def _shown(plant: PlantName, photo: Photo, frames: list[RegionShown], numbers: Mapping[str, int]) -> PlantShown:
    """One plant with its frames, numbered as the characters are in the list of what tells, alike on both pictures."""
    telling = [replace(each, number=numbers[each.character_key]) for each in frames if each.character_key in numbers]
    telling.sort(key=lambda each: each.number)
    return PlantShown(plant, stage_word(photo.specimen.stage), picture_of(photo), photo, tuple(telling))


def _beside(turn: PracticeTurn, species_id: int) -> Photo | None:
    """A teaching picture of the double, in a stage in which it is taken for this plant, the same one if it may be.

    Where there is a choice it is none that this round asks about.
    """
    asked = set(turn.round.turns.values_list("photo", flat=True))
    stage, pair = turn.photo.specimen.stage, turn.pair
    if species_id == pair.mistaken_id:
        confused = {theirs for mine, theirs in pair.stage_combinations if mine == stage}
    else:
        confused = {theirs for theirs, mine in pair.stage_combinations if mine == stage}

    def far(photo: Photo) -> tuple[bool, bool, bool, int]:
        its = photo.specimen.stage
        return its not in confused, its != stage, photo.pk in asked, photo.pk

    nearest = min(teaching_photos([species_id])[species_id], key=far, default=None)
    if nearest:
        prefetch_related_objects([nearest], "renditions")
    return nearest
