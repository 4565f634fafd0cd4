"""The bank of the invented school: drawn specimens, named by two people each, with their pictures."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from random import Random

from django.contrib.auth.models import User
from django.db import transaction

from assessments.models import Standard
from assessments.queries.standards import standard_facts
from assessments.rules.treatment import stages_that_count
from courses.actions.demo.drawing import Commission, Finished
from courses.actions.demo.marking import Marker
from courses.actions.demo.planting import Kind, Planned, plan_specimens, stages_to_draw
from courses.models import Site
from species.actions.photographs import Credit, files_kept_on_success, keep_picture
from species.documents.plates.catalogue import PLATES, forms_available, stages_available
from species.models import Determination, Individual, Species, Specimen
from species.rules.vocabulary import Settlement, Stage, Use

Progress = Callable[[int, int], None]
CREDIT = Credit(photographer="the program", licence="Drawn by the program for the invented school")


@dataclass(frozen=True)
class Stock:
    """How many specimens of a species are planned: shown to nobody yet, taught from, and used up long ago."""

    dangerous: int = 30
    edible: int = 15
    teaching_per_stage: int = 1
    waiting_for_a_name: int = 6
    retired_dangerous: int = 46
    retired_edible: int = 26


def kinds_of(standard: Standard) -> tuple[dict[str, Kind], dict[str, Kind]]:
    """The dangerous and the edible kinds of a standard's pairs that can be drawn, by key of the species."""
    # even what this standard asks for by name alone is asked for by its stages in another
    facts = replace(standard_facts(standard), recognise_only=frozenset())
    dangerous: dict[str, list[str]] = {}
    edible: dict[str, list[str]] = {}
    for row in standard.pairs.select_related("pair__gathered", "pair__mistaken"):
        gathered = row.pair.gathered.key
        in_doubt = [combination[0] for combination in row.pair.stage_combinations]
        dangerous.setdefault(row.pair.mistaken.key, []).extend(row.required_stages)
        edible.setdefault(gathered, []).extend(stages_that_count(gathered, facts) or in_doubt)
    return _drawable(dangerous), _drawable(edible)


def taught_kinds(standard: Standard) -> dict[str, Kind]:
    """Every kind of the standard's pairs, in all the stages in which it is confused with another."""
    wanted: dict[str, list[str]] = {}
    for row in standard.pairs.select_related("pair__gathered", "pair__mistaken"):
        for gathered, mistaken in row.pair.stage_combinations:
            wanted.setdefault(row.pair.gathered.key, []).append(gathered)
            wanted.setdefault(row.pair.mistaken.key, []).append(mistaken)
    return _drawable(wanted)


def _drawable(wanted: dict[str, list[str]]) -> dict[str, Kind]:
    kinds = {}
    for species in Species.objects.filter(key__in=[k for k in wanted if k in PLATES]).prefetch_related("showings"):
        calendar = {Stage(s.stage): frozenset(s.months) for s in species.showings.all()}
        in_life_order = [stage.value for stage in Stage if stage in set(wanted[species.key])]
        stages = stages_to_draw(in_life_order, stages_available(species.key), calendar)
        kinds[species.key] = Kind(species.key, calendar, stages, tuple(forms_available(species.key)))
    return kinds


def plan_bank(standard: Standard, stock: Stock, places: int, today: date, random: Random) -> list[Planned]:
    """Every specimen of the invented bank."""
    dangerous, edible = kinds_of(standard)
    fresh = (today - timedelta(days=700), today - timedelta(days=3))
    old = (today - timedelta(days=1500), today - timedelta(days=701))
    plan: list[Planned] = []
    for kinds, count, retired in (
        (dangerous, stock.dangerous, stock.retired_dangerous),
        (edible, stock.edible, stock.retired_edible),
    ):
        for kind in kinds.values():
            plan += plan_specimens(kind, count, Use.ASSESSMENT, fresh, places, random)
            plan += plan_specimens(kind, retired, Use.ASSESSMENT, old, places, random, retired=True)
    for kind in taught_kinds(standard).values():
        taught = stock.teaching_per_stage * len(kind.stages)
        plan += plan_specimens(kind, taught, Use.TEACHING, fresh, places, random)
    first = next(iter(dangerous.values()))
    waiting = plan_specimens(first, stock.waiting_for_a_name, Use.ASSESSMENT, fresh, places, random)
    return plan + [replace(planned, named_by_two=False) for planned in waiting]


def plant(plan: Sequence[Planned], sites: Sequence[Site], determiners: tuple[User, User], now: datetime) -> None:
    """Write the planned specimens with determinations that agree: two, or one where the second is awaited."""
    species = {row.key: row for row in Species.objects.filter(key__in={p.species for p in plan})}
    individuals = Individual.objects.bulk_create(
        [Individual(locality_id=sites[p.place].locality_id, label=f"plant {n}") for n, p in enumerate(plan, 1)]
    )
    specimens = Specimen.objects.bulk_create(
        Specimen(
            individual=individual,
            seen_on=planned.day,
            stage=planned.stage,
            form=planned.form,
            use=planned.use.value,
            drawing_seed=planned.seed,
            retired_on=now.date() - timedelta(days=200) if planned.retired else None,
            retired_why="seen by the leaders of earlier seasons" if planned.retired else "",
            added_by=determiners[0],
            added_at=now - timedelta(days=3),
            species=species[planned.species],
            settlement=(Settlement.CONFIRMED if planned.named_by_two else Settlement.SINGLE).value,
        )
        for planned, individual in zip(plan, individuals, strict=True)
    )
    Determination.objects.bulk_create(
        Determination(
            specimen=specimen,
            determiner=determiner,
            species=specimen.species,
            said=specimen.species.name if specimen.species else "",
            characters="seen on the living plant",
            determined_at=now - timedelta(days=2),
        )
        for specimen, planned in zip(specimens, plan, strict=True)
        for determiner in (determiners if planned.named_by_two else determiners[:1])
    )


def commissions() -> list[Commission]:
    """A drawing for every specimen of the bank that has no picture yet and was not retired."""
    wanted = Specimen.objects.drawn().in_the_bank().filter(photos__isnull=True)
    return [
        Commission(
            specimen.pk, first.species.key, specimen.stage, specimen.drawing_seed or 0, specimen.form or "typical"
        )
        for specimen in wanted.prefetch_related("determinations__species")
        if (first := specimen.determinations.all()[0]).species is not None  # the first name is the true one
    ]


def hang(drawings: Iterable[Finished], total: int, now: datetime, progress: Progress) -> None:
    """Keep the finished drawings as the pictures of their specimens."""
    specimens, marker = Specimen.objects.drawn().select_related("species").in_bulk(), Marker(now)
    for number, finished in enumerate(drawings, start=1):
        with files_kept_on_success() as stored, transaction.atomic():
            photo = keep_picture(specimens[finished.specimen], finished.picture, CREDIT, stored, by=None, now=now)
            photo.alt_blind, photo.alt_full = finished.alt_blind, finished.alt_full
            photo.save(update_fields=["alt_blind", "alt_full"])
            marker.mark(photo, finished.shown)
        progress(number, total)
