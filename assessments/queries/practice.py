"""Practice as pages show it: how each pair stands, one look, what it was, and how a round ended."""

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from random import Random

from django.contrib.auth.models import User
from django.db.models import Count

from assessments.models import PracticeRound, PracticeState, PracticeTurn, Standard
from assessments.rules.practice import Outcome, Practised, days_until_due, practice_queue, practice_round
from assessments.rules.practice_plan import Look, Stock, least_met_first, plan_round
from species.models import Pair, Photo, Species
from species.queries.pictures import Picture, picture_of
from species.queries.regions import RegionShown, regions_of
from species.rules.vocabulary import Danger, Edibility

from .flora import Flora, PlantName
from .tellings import Telling, characters_of, tellings_at

DAY = timedelta(days=1)


@dataclass(frozen=True)
class PairInPractice:
    """How somebody stands with a pair: fresh, fading, or new (never met); `can_be_shown` says if there are pictures."""

    pair: Pair
    state: str
    due_at: datetime | None
    can_be_shown: bool


@dataclass(frozen=True)
class LookPage:
    """One look of a round, before it is answered or after."""

    turn: PracticeTurn
    of: int
    picture: Picture
    picture_id: int
    gathered: PlantName
    mistaken: PlantName

    @property
    def is_last(self) -> bool:
        return self.turn.position == self.of


@dataclass(frozen=True)
class LookAnswered:
    """What a look was: the plant, its double beside it, what tells them apart, and where on the picture."""

    page: LookPage
    plant: PlantName
    double: PlantName
    beside: Picture | None
    tellings: tuple[Telling, ...]
    regions: tuple[RegionShown, ...]

    @property
    def number_size(self) -> int:
        """The height of the number in a frame, in px of the picture as it was taken."""
        return max(12, self.page.turn.photo.height // 24)


def pairs_to_practise(standard: Standard) -> list[Pair]:
    """The pairs of a standard; one query."""
    return [row.pair for row in standard.pairs.select_related("pair__gathered", "pair__mistaken")]


def teaching_photos(pairs: Iterable[Pair]) -> dict[int, list[Photo]]:
    """By species: the pictures of teaching specimens on whose name two people agree; one query."""
    species = {pk for pair in pairs for pk in (pair.gathered_id, pair.mistaken_id)}
    found: dict[int, list[Photo]] = defaultdict(list)
    rows = Photo.objects.for_teaching().filter(specimen__species__in=species, specimen__settlement="confirmed")
    for photo in rows.select_related("specimen").order_by("pk"):
        found[photo.specimen.species_id or 0].append(photo)
    return found


def pairs_in_practice(person: User, pairs: Sequence[Pair], now: datetime) -> list[PairInPractice]:
    """How somebody stands with each pair, those most needed first; two queries."""
    photos, states = teaching_photos(pairs), _states(person, pairs)
    by_key = {pair.key: pair for pair in pairs}
    order = practice_round_order(pairs, states, now)
    return [_in_practice(by_key[each.pair], each, states.get(by_key[each.pair].pk), photos) for each in order]


def practice_round_order(
    pairs: Sequence[Pair], states: dict[int, PracticeState], now: datetime
) -> tuple[Practised, ...]:
    """Pairs by need, as the rule has it."""
    return practice_queue(_practised(pair, states.get(pair.pk), now) for pair in pairs)


def _states(person: User, pairs: Collection[Pair]) -> dict[int, PracticeState]:
    rows = PracticeState.objects.filter(person=person, pair__in=[pair.pk for pair in pairs])
    return {row.pair_id: row for row in rows}


def _practised(pair: Pair, state: PracticeState | None, now: datetime) -> Practised:
    deadly = pair.mistaken.edibility == Edibility.DEADLY
    if state is None:
        return Practised(pair.key, Danger(pair.danger), deadly)
    return Practised(pair.key, Danger(pair.danger), deadly, state.half_life, max(0.0, (now - state.last_at) / DAY))


def _in_practice(
    pair: Pair, practised: Practised, state: PracticeState | None, photos: dict[int, list[Photo]]
) -> PairInPractice:
    shown = bool(photos.get(pair.gathered_id) and photos.get(pair.mistaken_id))
    if state is None:
        return PairInPractice(pair, "new", None, shown)
    due = state.last_at + days_until_due(state.half_life) * DAY
    return PairInPractice(pair, "fading" if practised.is_due else "fresh", due, shown)


def looks_for(person: User, pairs: Sequence[Pair], now: datetime, chance: Random) -> tuple[Look, ...]:
    """The looks of the next round over these pairs; three queries."""
    photos, states = teaching_photos(pairs), _states(person, pairs)
    shown = [pair for pair in pairs if photos.get(pair.gathered_id) and photos.get(pair.mistaken_id)]
    met = Counter(
        dict(
            PracticeTurn.objects.filter(round__person=person, answered_at__isnull=False)
            .values_list("photo")
            .annotate(times=Count("pk"))
        )
    )
    by_key = {pair.key: pair for pair in shown}
    stocks = []
    for each in practice_round(_practised(pair, states.get(pair.pk), now) for pair in shown):
        pair = by_key[each.pair]
        sides = (
            least_met_first([photo.pk for photo in photos[pk]], met, chance)
            for pk in (pair.gathered_id, pair.mistaken_id)
        )
        stocks.append(Stock(pair.key, *sides))
    return plan_round(stocks, chance)


def look_page(practice: PracticeRound, position: int, flora: Flora) -> LookPage | None:
    """One look of a round; None where it has no such look; three queries."""
    rows = practice.turns.select_related("pair__gathered", "pair__mistaken", "photo__specimen__species")
    turn = rows.filter(position=position).prefetch_related("photo__renditions").first()
    if turn is None:
        return None
    return LookPage(
        turn,
        practice.turns.count(),
        picture_of(turn.photo, blind=not turn.outcome),
        turn.photo_id,
        flora.plant(turn.pair.gathered.key),
        flora.plant(turn.pair.mistaken.key),
    )


def look_answered(page: LookPage, flora: Flora) -> LookAnswered:
    """What an answered look was; four queries."""
    turn = page.turn
    species, stage = turn.photo.specimen.species, turn.photo.specimen.stage
    shows_gathered = species is not None and species.key == page.gathered.key
    plant, double = (page.gathered, page.mistaken) if shows_gathered else (page.mistaken, page.gathered)
    tellings = tellings_at(characters_of([turn.pair.key])[turn.pair.key], stage)
    wanted = {each.character for each in tellings}
    regions = tuple(each for each in regions_of([turn.photo_id])[turn.photo_id] if each.character_key in wanted)
    return LookAnswered(page, plant, double, _beside(double.id, stage), tellings, regions)


def _beside(species_id: int, stage: str) -> Picture | None:
    """A teaching picture of the double, in the same stage where there is one."""
    rows = Photo.objects.for_teaching().filter(specimen__species=species_id, specimen__settlement="confirmed")
    photos = list(rows.select_related("specimen").prefetch_related("renditions").order_by("pk"))
    photos.sort(key=lambda photo: photo.specimen.stage != stage)
    return picture_of(photos[0]) if photos else None


@dataclass(frozen=True)
class RoundEnd:
    """How a round ended, in pairs and never in points: how each stands now, and which were taken for the other."""

    pairs: tuple[PairInPractice, ...]
    mistaken: tuple[Pair, ...]
    looks: int


def round_end(practice: PracticeRound, person: User, now: datetime) -> RoundEnd:
    """The end of a round; four queries."""
    turns = list(practice.turns.select_related("pair__gathered", "pair__mistaken"))
    pairs = list({turn.pair_id: turn.pair for turn in turns}.values())
    missed = {turn.pair_id: turn.pair for turn in turns if turn.outcome == Outcome.MISS}
    return RoundEnd(tuple(pairs_in_practice(person, pairs, now)), tuple(missed.values()), len(turns))


def outcome_of(said: str, shown: Species, pair: Pair) -> Outcome:
    """How an answer went: a dangerous plant called by the name of the one that is gathered is a miss."""
    right = "gathered" if shown.pk == pair.gathered_id else "mistaken"
    if said == right:
        return Outcome.RIGHT
    return Outcome.MISS if said == "gathered" else Outcome.LEFT
