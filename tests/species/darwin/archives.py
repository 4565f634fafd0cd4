"""Archives for the tests: a small school, its archives as bytes, and their tables as plain rows."""

import csv
import zipfile
from collections.abc import Mapping
from datetime import UTC, datetime
from decimal import Decimal
from io import BytesIO, StringIO
from typing import Any

import numpy as np
from django.contrib.auth.models import User
from PIL import Image

from species.actions.determinations import determine
from species.actions.exchange.bringing_in import Brought, Conditions, bring_in
from species.actions.exchange.exporting import write_species, write_specimens
from species.actions.photographs import Credit, files_kept_on_success, keep_picture
from species.documents.pictures import Limits, read_picture
from species.models import (
    Character,
    CharacterState,
    CommonName,
    Determination,
    DeterminerLink,
    Individual,
    Locality,
    PartUsed,
    Photo,
    PhotoRendition,
    Region,
    Showing,
    Species,
    Specimen,
    Synonym,
)
from species.queries.archive_specimens import Scope

NOW = datetime(2026, 6, 1, 10, 0, tzinfo=UTC)
WIDTHS = (400,)


def user(email: str, name: str = "") -> User:
    first, _space, last = name.partition(" ")
    return User.objects.create_user(email, email, first_name=first, last_name=last)


def plant(key: str, name: str, **fields: Any) -> Species:
    return Species.objects.create(
        **{"key": key, "name": name, "family": "Testaceae", "edibility": "edible", "author": "L.", **fields}
    )


def full_plant() -> Species:
    """A species of which everything is said, with quotes, line breaks and bars in the texts."""
    row = plant(
        "rumex-acetosa",
        "Rumex acetosa",
        life="perennial",
        height_low_cm=30,
        height_high_cm=80,
        habitat='meadows, "open" banks;\nverges',
        note="one | two \\| three",
        hazard_toxin="oxalates",
        moisture=5,
        leafless_stages=["dormant"],
        sources={"plant": ["A. B. (1990) | first"], "hazard": ["C. D. (1991)"]},
    )
    CommonName.objects.create(species=row, name="sorrel", order=0)
    CommonName.objects.create(species=row, name="Sauerampfer", language="de", order=1)
    Synonym.objects.create(species=row, name="Acetosa pratensis")
    Synonym.objects.create(species=row, name="Rumex acetosa agg.", is_aggregate=True)
    PartUsed.objects.create(species=row, part="leaf", months=[3, 4], stages=["rosette", "leafy"], note="young: best")
    Showing.objects.create(species=row, stage="rosette", months=[1, 2, 3])
    return row


def specimen(species: Species, *, place: Locality | None = None, key: str = "", **fields: Any) -> Specimen:
    place = place or Locality.objects.create(
        name=f"Wood {Locality.objects.count()}", latitude=Decimal("54.51234"), longitude=Decimal("-2.34567")
    )
    values = {"seen_on": NOW.date().replace(month=4), "stage": "leafy", "use": "teaching", "added_at": NOW, **fields}
    if key:
        values["key"] = key
    return Specimen.objects.create(individual=Individual.objects.create(locality=place), **values)


def named(row: Specimen, species: Species, by: User, said: str = "", day: int = 1) -> None:
    determine(row, said=said or species.name, species=species, now=NOW.replace(month=5, day=day), by=by)


def picture_bytes(seed: int) -> bytes:
    noise = np.random.default_rng(seed).integers(0, 255, (40, 40, 3), dtype=np.uint8)
    out = BytesIO()
    Image.fromarray(noise).resize((480, 400)).save(out, "JPEG", quality=90)
    return out.getvalue()


def photographed(row: Specimen, seed: int = 1, **credit: str) -> Photo:
    said = {"part": "leaf", "photographer": "Ann Lens", "licence": "CC BY 4.0", "rights_holder": "Ann Lens", **credit}
    with files_kept_on_success() as stored:
        return keep_picture(row, read_picture(picture_bytes(seed), WIDTHS), Credit(**said), stored, by=None, now=NOW)


def with_region(photo: Photo) -> Region:
    character = Character.objects.create(key="margin", name="leaf margin", organ="leaf", sense="look")
    state = CharacterState.objects.create(character=character, key="toothed", text="toothed")
    return Region.objects.create(
        photo=photo, character=character, state=state, x="0.1", y="0.2", width="0.3", height="0.25", drawn_at=NOW
    )


def species_archive() -> bytes:
    out = BytesIO()
    write_species(out, publisher="A school", by=None, now=NOW)
    return out.getvalue()


def specimen_archive(by: User | None = None, confirmed: bool = False, **scope: Any) -> bytes:
    out = BytesIO()
    write_specimens(out, Scope(**scope), publisher="A school", by=by, now=NOW, confirmed=confirmed)
    return out.getvalue()


def brought(content: bytes, by: User, **conditions: Any) -> Brought:
    given = Conditions(widths=WIDTHS, limits=Limits(), by=by, now=NOW, **conditions)
    return bring_in(BytesIO(content), len(content), given)


def files_of(content: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(BytesIO(content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def rows_of(content: bytes, file: str) -> list[dict[str, str]]:
    """The rows of one table as plain csv reads them."""
    return list(csv.DictReader(StringIO(files_of(content)[file].decode(), newline="")))


def with_files(content: bytes, changed: Mapping[str, bytes | None]) -> bytes:
    """The same archive with some files changed, added, or (None) taken out."""
    files = {**files_of(content), **changed}
    out = BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name, each in files.items():
            if each is not None:
                archive.writestr(name, each)
    return out.getvalue()


def with_text(content: bytes, file: str, old: str, new: str) -> bytes:
    """The same archive with a text replaced in one file, where it has to stand."""
    text = files_of(content)[file].decode()
    assert old in text, text
    return with_files(content, {file: text.replace(old, new).encode()})


def empty_bank() -> None:
    """Take everything of the botany and the bank out of the database; accounts stay."""
    for model in (Region, PhotoRendition, Photo, Determination, DeterminerLink, Specimen, Individual, Locality):
        model.objects.all().delete()
    Species.objects.all().delete()
