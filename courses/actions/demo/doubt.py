"""A question under doubt: somebody named a specimen otherwise after it had been set."""

from typing import TYPE_CHECKING

from courses.actions.demo.cast import HEMLOCK
from species.models import Determination, Species, Specimen
from species.rules.vocabulary import Settlement

if TYPE_CHECKING:
    from courses.actions.demo.school import Story


def raise_doubt(story: "Story") -> Specimen:
    """The hemlock that most people of the running course were shown is disputed now."""
    course = story.courses["running"]
    shown = Specimen.objects.confirmed().filter(species__key=HEMLOCK, questions__sitting__seat__paper__courses=course)
    specimen = shown.distinct().order_by("pk")[0]
    doubter = story.person("bertram.oakhanger")
    Determination.objects.create(
        specimen=specimen,
        determiner=doubter.user,
        species=Species.objects.get(key="anthriscus-sylvestris"),
        said="Anthriscus sylvestris",
        characters="I see hairs on the leaf stalk",
        determined_at=story.now,
    )
    specimen.settlement = Settlement.DISPUTED.value
    specimen.species = None
    specimen.save(update_fields=["settlement", "species"])
    return specimen
