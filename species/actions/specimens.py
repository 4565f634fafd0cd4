"""Putting specimens into the bank, mending what is said of them, and taking them out."""

from dataclasses import dataclass
from datetime import date, datetime

from django.contrib.auth.models import User
from django.db import transaction

from species.models import Individual, Locality, Specimen
from species.queries.specimen_uses import uses_of
from species.rules.bank import Lack, Why
from species.rules.vocabulary import Use

PLACE_UNKNOWN = "Place not recorded"
"""The locality of specimens that came without one. The limit per place and day then counts them together."""


class SpecimenRefusal(Exception):
    """The step was refused; `uses` names what points to the specimen, `lacking` what is to be said first."""

    def __init__(self, why: Why, uses: list[str] | None = None, lacking: tuple[Lack, ...] = ()) -> None:
        super().__init__(why.value)
        self.why = why
        self.uses = uses or []
        self.lacking = lacking


@dataclass(frozen=True)
class Find:
    """Where, when and in which stage one plant was met, and what it is to serve for.

    Without a use it goes into the tray and waits to be sorted. `group` is a name of the finder's own, by which
    a picture that comes later joins the same specimen.
    """

    seen_on: date
    stage: str
    use: Use | None
    locality: str = ""
    form: str = ""
    group: str = ""


def add_specimen(find: Find, *, by: User | None, now: datetime, note: str = "") -> Specimen:
    """A new specimen of a plant of its own; the locality is made where none bears its name."""
    with transaction.atomic():
        individual = Individual.objects.create(locality=locality_called(find.locality), label=find.group)
        return Specimen.objects.create(
            individual=individual,
            seen_on=find.seen_on,
            stage=find.stage,
            form=find.form or "typical",
            use=find.use.value if find.use else "",
            note=note,
            added_by=by,
            added_at=now,
        )


def locality_called(name: str) -> Locality:
    """The locality of this name, in whatever case; a new one where there is none."""
    wanted = " ".join(name.split()) or PLACE_UNKNOWN
    found = Locality.objects.filter(name__iexact=wanted).first()
    return found or Locality.objects.create(name=wanted)


def specimen_of(find: Find) -> Specimen | None:
    """The specimen that a find with a group belongs to: same group, place and day, and both sorted or both not.

    Raises SpecimenRefusal where that one serves for the other use.
    """
    if not find.group:
        return None
    place = " ".join(find.locality.split()) or PLACE_UNKNOWN
    rows = Specimen.objects.in_the_bank() if find.use else Specimen.objects.in_the_tray()
    found = (
        rows.photographed()
        .filter(individual__label=find.group, individual__locality__name__iexact=place, seen_on=find.seen_on)
        .first()
    )
    if found is not None and find.use and found.use != find.use:
        raise SpecimenRefusal(Why.OTHER_USE)
    return found


def mend_specimen(specimen: Specimen, *, stage: str, seen_on: date, form: str) -> None:
    """Correct what is said of a find. Raises SpecimenRefusal once somebody has been asked about it."""
    with transaction.atomic():
        locked = Specimen.objects.select_for_update().get(pk=specimen.pk)
        _refuse_used(locked)
        locked.stage, locked.seen_on, locked.form = stage, seen_on, form or "typical"
        locked.save(update_fields=["stage", "seen_on", "form"])


def set_use(specimen: Specimen, use: Use) -> None:
    """Set a specimen aside for the other use; for the one it has, nothing happens.

    Raises SpecimenRefusal once somebody has been asked about it; and from teaching to assessment as soon as it
    has borne a name, since then its pictures stood on the public page of that plant.
    """
    with transaction.atomic():
        locked = Specimen.objects.select_for_update().get(pk=specimen.pk)
        if locked.use == use:
            return
        if locked.retired_on is not None:
            raise SpecimenRefusal(Why.RETIRED)
        if locked.is_in_the_tray:
            raise SpecimenRefusal(Why.UNSORTED)
        _refuse_used(locked)
        if use == Use.ASSESSMENT:
            if locked.determinations.filter(species__isnull=False).exists():
                raise SpecimenRefusal(Why.WAS_PUBLIC)
            if not locked.stage:
                raise SpecimenRefusal(Why.NO_STAGE)
        locked.use = use.value
        locked.save(update_fields=["use"])


def retire_specimen(specimen: Specimen, *, why: str, today: date) -> None:
    """Take a specimen out of the bank: shown to nobody from now on. What was answered about it stays."""
    changed = Specimen.objects.filter(pk=specimen.pk, retired_on__isnull=True).update(
        retired_on=today, retired_why=why.strip()
    )
    if not changed:
        raise SpecimenRefusal(Why.RETIRED)


def drop_specimen(specimen: Specimen) -> None:
    """Remove a specimen that has no pictures left, and its plant if that has no other. To be called inside a
    transaction."""
    individual = specimen.individual
    Specimen.objects.get(pk=specimen.pk).delete()
    if not individual.specimens.exists():
        individual.delete()


def _refuse_used(specimen: Specimen) -> None:
    uses = uses_of(specimen)
    if uses:
        raise SpecimenRefusal(Why.IN_USE, uses)
