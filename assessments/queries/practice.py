"""Practice as pages show it: how somebody stands with each pair, what the next round shows, and how one ended."""

from collections import Counter, defaultdict
from collections.abc import Collection, Container, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from random import Random

from django.contrib.auth.models import User
from django.db.models import Count, QuerySet

from assessments.models import PracticeRound, PracticeState, PracticeTurn, Standard
from assessments.rules.practice import Outcome, Practised, days_until_due, practice_queue, practice_round
from assessments.rules.practice_plan import Look, Stock, least_met_first, plan_round
from species.models import Pair, Photo
from species.rules.vocabulary import Danger, Edibility, Settlement

DAY = timedelta(days=1)
RESUMED_WITHIN = timedelta(hours=2)
"""A choice: a round broken off longer ago is begun anew, since what is needed most has changed."""


@dataclass(frozen=True)
class PairInPractice:
    """How somebody stands with a pair: fresh, fading, or new (never met); `can_be_shown` says if there are pictures."""

    pair: Pair
    state: str
    due_at: datetime | None
    can_be_shown: bool


@dataclass(frozen=True)
class RoundEnd:
    """How a round ended, in pairs and never in points: how each stands now, and which were taken for the other."""

    pairs: tuple[PairInPractice, ...]
    mistaken: tuple[Pair, ...]
    unanswered: int
    """How many looks are left, for whoever stopped early."""


def pairs_to_practise(standard: Standard) -> list[Pair]:
    """The pairs of a standard; one query."""
    rows = standard.pairs.select_related("pair__gathered", "pair__mistaken")
    return [row.pair for row in rows.prefetch_related("pair__gathered__common_names", "pair__mistaken__common_names")]


def pairs_named(keys: Collection[str]) -> list[Pair]:
    """Pairs by their keys; what is no key is passed over. Three queries."""
    rows = Pair.objects.filter(key__in=keys).with_both_species().order_by("order", "key")
    return list(rows.prefetch_related("gathered__common_names", "mistaken__common_names"))


def every_pair() -> list[Pair]:
    """All pairs of the flora, to be mixed in; one query."""
    return list(Pair.objects.with_both_species().order_by("order", "key"))


def teaching_photos(species: Collection[int]) -> dict[int, list[Photo]]:
    """By species: the pictures of teaching specimens on whose name two people agree; one query."""
    found: dict[int, list[Photo]] = defaultdict(list)
    for photo in _photos_to_show(species).distinct().select_related("specimen").order_by("pk"):
        found[photo.specimen.species_id or 0].append(photo)
    return found


def species_with_pictures(species: Collection[int]) -> set[int]:
    """Those of these species that practice has pictures of; one query."""
    rows = _photos_to_show(species).order_by().values_list("specimen__species", flat=True)
    return {pk for pk in rows.distinct() if pk is not None}


def _photos_to_show(species: Collection[int]) -> QuerySet[Photo]:
    """A picture that has not been made into the sizes that are served is left out."""
    return Photo.objects.for_teaching().filter(
        specimen__species__in=species, specimen__settlement=Settlement.CONFIRMED, renditions__media_type="image/jpeg"
    )


def pairs_in_practice(person: User, pairs: Sequence[Pair], now: datetime) -> list[PairInPractice]:
    """How somebody stands with each pair, those most needed first; two queries."""
    pictured, states = species_with_pictures(_both_of(pairs)), _states(person, pairs)
    by_key = {pair.key: pair for pair in pairs}
    order = practice_queue(_practised(pair, states.get(pair.pk), now) for pair in pairs)
    return [_in_practice(by_key[each.pair], each, states.get(by_key[each.pair].pk), pictured) for each in order]


def looks_for(
    person: User, pairs: Sequence[Pair], now: datetime, chance: Random, others: Sequence[Pair] = ()
) -> tuple[Look, ...]:
    """The looks of the next round over these pairs, with others mixed in where they are fewer than three.

    Nothing where no picture can be shown of the pairs that were asked for. Three queries.
    """
    everything = {pair.key: pair for pair in (*pairs, *others)}
    photos, states = teaching_photos(_both_of(everything.values())), _states(person, list(everything.values()))
    met = Counter(
        dict(PracticeTurn.objects.answered().filter(round__person=person).values_list("photo").annotate(Count("pk")))
    )

    def practised(several: Iterable[Pair]) -> list[Practised]:
        return [_practised(pair, states.get(pair.pk), now) for pair in several if _can_be_shown(pair, photos)]

    asked = practised(pairs)
    if not asked:
        return ()
    stocks = []
    for each in practice_round(asked, practised(others)):
        pair = everything[each.pair]
        gathered, mistaken = (
            least_met_first([photo.pk for photo in _in_doubt(photos[pk], stages)], met, chance)
            for pk, stages in zip((pair.gathered_id, pair.mistaken_id), stages_in_doubt(pair), strict=True)
        )
        stocks.append(Stock(pair.key, gathered, mistaken))
    return plan_round(stocks, chance)


def round_end(practice: PracticeRound, person: User, now: datetime) -> RoundEnd:
    """The end of a round, in a constant number of queries."""
    rows = practice.turns.select_related("pair__gathered", "pair__mistaken")
    turns = list(rows.prefetch_related("pair__gathered__common_names", "pair__mistaken__common_names"))
    pairs = list({turn.pair_id: turn.pair for turn in turns if turn.outcome}.values())
    missed = {turn.pair_id: turn.pair for turn in turns if turn.outcome == Outcome.MISS}
    left = practice.turns.showable().unanswered().count()
    return RoundEnd(tuple(pairs_in_practice(person, pairs, now)), tuple(missed.values()), left)


def round_to_go_on_with(person: User, now: datetime) -> PracticeTurn | None:
    """The next look of a round that was begun lately and broken off; one query."""
    rows = PracticeTurn.objects.showable().unanswered().select_related("round")
    rows = rows.filter(round__person=person, round__began_at__gte=now - RESUMED_WITHIN, round__began_at__lte=now)
    return rows.order_by("-round__began_at", "-round", "position").first()


def _both_of(pairs: Iterable[Pair]) -> set[int]:
    return {pk for pair in pairs for pk in (pair.gathered_id, pair.mistaken_id)}


def stages_in_doubt(pair: Pair) -> tuple[set[str], set[str]]:
    """The stages of the gathered and of the mistaken plant in which they are taken for each other."""
    return {each[0] for each in pair.stage_combinations}, {each[1] for each in pair.stage_combinations}


def _in_doubt(photos: list[Photo], stages: set[str]) -> list[Photo]:
    """Pictures in stages in which the pair is confused; all where there are none."""
    return [photo for photo in photos if photo.specimen.stage in stages] or photos


def _can_be_shown(pair: Pair, pictured: Container[int]) -> bool:
    return pair.gathered_id in pictured and pair.mistaken_id in pictured


def _states(person: User, pairs: Collection[Pair]) -> dict[int, PracticeState]:
    rows = PracticeState.objects.filter(person=person, pair__in=[pair.pk for pair in pairs])
    return {row.pair_id: row for row in rows}


def _practised(pair: Pair, state: PracticeState | None, now: datetime) -> Practised:
    deadly = pair.mistaken.edibility == Edibility.DEADLY
    if state is None:
        return Practised(pair.key, Danger(pair.danger), deadly)
    return Practised(pair.key, Danger(pair.danger), deadly, state.half_life, max(0.0, (now - state.last_at) / DAY))


def _in_practice(
    pair: Pair, practised: Practised, state: PracticeState | None, pictured: Container[int]
) -> PairInPractice:
    shown = _can_be_shown(pair, pictured)
    if state is None:
        return PairInPractice(pair, "new", None, shown)
    due = state.last_at + days_until_due(state.half_life) * DAY
    return PairInPractice(pair, "fading" if practised.is_due else "fresh", due, shown)
