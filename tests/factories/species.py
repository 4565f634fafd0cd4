"""Makers of species, pairs and specimens."""

from datetime import date
from io import BytesIO

import factory
from django.contrib.auth.models import User
from django.core.files.base import ContentFile
from django.utils import timezone
from PIL import Image

from species.models import (
    CommonName,
    Determination,
    Individual,
    Locality,
    Pair,
    Photo,
    PhotoRendition,
    Species,
    Specimen,
)
from species.rules.names import search_text
from species.rules.vocabulary import Danger, Edibility, Settlement, Use


class SpeciesFactory(factory.django.DjangoModelFactory):
    """An edible species; `deadly=True` makes it the other kind."""

    class Meta:
        model = Species

    class Params:
        deadly = factory.Trait(edibility=Edibility.DEADLY.value)

    key = factory.Sequence(lambda n: f"genus{n}-planta")
    name = factory.LazyAttribute(lambda s: s.key.replace("-", " ").capitalize())
    family = "Testaceae"
    edibility = Edibility.EDIBLE.value


def make_species(common_name: str, *, deadly: bool = False, **fields: object) -> Species:
    """A species with one common name."""
    species = SpeciesFactory(deadly=deadly, **fields)
    CommonName.objects.create(species=species, name=common_name)
    species.search_text = search_text([common_name, species.name])  # as the loader writes it
    species.save(update_fields=["search_text"])
    return species


class PairFactory(factory.django.DjangoModelFactory):
    """A dangerous pair of an edible and a deadly species."""

    class Meta:
        model = Pair

    key = factory.Sequence(lambda n: f"pair-{n}")
    gathered = factory.SubFactory(SpeciesFactory)
    mistaken = factory.SubFactory(SpeciesFactory, deadly=True)
    danger = Danger.DANGEROUS.value
    core = True
    stage_combinations = [["rosette", "rosette"], ["flower", "flower"]]


class LocalityFactory(factory.django.DjangoModelFactory):
    """A place."""

    class Meta:
        model = Locality

    name = factory.Sequence(lambda n: f"Test Wood {n}")


class SpecimenFactory(factory.django.DjangoModelFactory):
    """A confirmed photographed specimen for assessment; give `species`, `stage`, `use` as needed."""

    class Meta:
        model = Specimen

    individual = factory.LazyAttribute(
        lambda _s: Individual.objects.create(locality=LocalityFactory())  # its own plant at its own place
    )
    seen_on = date(2026, 4, 2)
    stage = "rosette"
    use = Use.ASSESSMENT.value
    added_at = factory.LazyFunction(timezone.now)
    species = factory.SubFactory(SpeciesFactory)
    settlement = Settlement.CONFIRMED.value


def determine(specimen: Specimen, species: Species | None, by: User, said: str = "") -> Determination:
    """A determination as a bare row: nothing is settled by it."""
    return Determination.objects.create(
        specimen=specimen,
        species=species,
        determiner=by,
        said=said or (species.name if species else "?"),
        determined_at=timezone.now(),
    )


def give_picture(specimen: Specimen) -> Photo:
    """A small picture of its own, stored as a photograph that came in would be."""
    image = Image.new("RGB", (400, 560), (90 + specimen.pk % 80, 120, 60))
    out = BytesIO()
    image.save(out, "JPEG")
    photo = Photo.objects.create(
        specimen=specimen,
        original_sha256=f"{specimen.pk:064x}",
        width=400,
        height=560,
        alt_blind="A plant",
        alt_full="A plant with a name",
        added_at=timezone.now(),
    )
    PhotoRendition.objects.create(
        photo=photo,
        width=400,
        height=560,
        media_type="image/jpeg",
        file=ContentFile(out.getvalue(), name=f"{photo.key}-400.jpg"),
    )
    return photo
