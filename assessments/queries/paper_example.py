"""A paper before it is set: whether everybody's can be drawn, and one that was drawn to the same plan as an example.

Nobody sits the example: papers are drawn when they are opened, from a seed that no page shows.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from django.contrib.auth.models import User

from assessments.models import Paper
from assessments.rules.kinds.drawing import Drawn
from assessments.rules.standard import Side
from species.models import Photo, Specimen
from species.queries.pictures import Picture, picture_of

from .bank import shares_of
from .drawing import Missing, draw_paper
from .flora import PlantName, the_flora
from .paper_outlook import Outlook, outlook_of
from .paper_plan import PaperPlan, pairs_planned
from .sentences.kinds import kind_word
from .sentences.words import stage_word
from .standards import standard_facts


@dataclass(frozen=True)
class PlantLine:
    """One plant of a question, as somebody who sets papers sees it. `uses`: how often it has been set so far."""

    plant: PlantName
    stage: str
    is_dangerous: bool
    uses: int
    picture: Picture | None
    specimen: str


@dataclass(frozen=True)
class ExampleLine:
    """One question of an example."""

    position: int
    kind: str
    plants: tuple[PlantLine, ...]


@dataclass(frozen=True)
class Preview:
    """What would come of a plan. `lines`: the example, empty where none can be drawn."""

    outlook: Outlook
    lines: tuple[ExampleLine, ...]

    @property
    def specimens(self) -> list[str]:
        """The keys of all specimens that it shows."""
        return [plant.specimen for line in self.lines for plant in line.plants]

    @property
    def dangerous(self) -> int:
        """How many of its plants are dangerous."""
        return sum(plant.is_dangerous for line in self.lines for plant in line.plants)


def preview_of(plan: PaperPlan, people: Sequence[User], seed: int) -> Preview:
    """The outlook, and an example as the first of these people could get it; the same seed gives the same one."""
    outlook = outlook_of(plan, people, seed)
    if not outlook.is_possible or not people:
        return Preview(outlook, ())
    facts = standard_facts(plan.standard)
    pairs = pairs_planned(plan, facts.dangerous_pairs)
    share = shares_of([people[0].pk], facts, pairs)[people[0].pk]
    drawn = draw_paper(Paper(**plan.columns), share, pairs, seed)
    return Preview(outlook, () if isinstance(drawn, Missing) else _lines(drawn))


def _lines(drawn: Sequence[Drawn]) -> tuple[ExampleLine, ...]:
    ids = [int(plant.key) for each in drawn for plant in each.plants]
    keys = dict(Specimen.objects.filter(pk__in=ids).values_list("pk", "key"))
    photos = Photo.objects.filter(specimen__in=ids).select_related("specimen__species").prefetch_related("renditions")
    first: dict[int, Photo] = {}
    for photo in photos.order_by("specimen", "order", "id"):
        first.setdefault(photo.specimen_id, photo)
    flora = the_flora()
    return tuple(
        ExampleLine(
            position,
            kind_word(each.kind),
            tuple(
                PlantLine(
                    plant=flora.plant(plant.species),
                    stage=stage_word(plant.stage),
                    is_dangerous=plant.side is Side.DANGEROUS,
                    uses=plant.uses,
                    picture=picture_of(first[int(plant.key)]) if int(plant.key) in first else None,
                    specimen=keys[int(plant.key)],
                )
                for plant in each.plants
            ),
        )
        for position, each in enumerate(drawn, start=1)
    )
