"""Sorting what came in: which pictures are one plant, what is said of it, and out of the tray into the bank.

Everything here is refused for what has left the tray: from then on people are taught or tested with the specimen
as it is, and a picture never wanders from one specimen to another.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from species.actions.determinations import determine, settle
from species.actions.specimens import PLACE_UNKNOWN, SpecimenRefusal, drop_specimen, locality_called
from species.models import Individual, Photo, Species, Specimen
from species.rules.bank import Said, Why, lacks
from species.rules.vocabulary import Use


@dataclass(frozen=True)
class Sorted:
    """What is said of a specimen when it leaves the tray. `parts` is the part that each picture shows, by its key.

    `met_before` is the individual where the plant was met on another day already; else it is one of its own.
    """

    use: Use
    stage: str
    seen_on: date
    locality: str
    parts: Mapping[str, str]
    photographer: str
    rights_holder: str
    licence: str
    form: str = ""
    species: Species | None = None
    said: str = ""
    characters: str = ""
    met_before: Individual | None = None


def put_together(keys: Sequence[str]) -> Specimen:
    """Make one specimen of several in the tray; the first of them stays."""
    with transaction.atomic():
        rows = _locked(keys)
        if len(rows) < 2:
            raise SpecimenRefusal(Why.NONE_CHOSEN)
        if len({row.species_id for row in rows if row.species_id}) > 1:
            raise SpecimenRefusal(Why.NAMES_DIFFER)
        days = {day for row in rows for photo in row.photos.all() if (day := _day(photo))}
        if len(days) > 1:
            raise SpecimenRefusal(Why.DAYS_DIFFER)
        kept, others = rows[0], rows[1:]
        kept.seen_on = days.pop() if days else kept.seen_on
        kept.stage = next((row.stage for row in rows if row.stage), "")
        kept.note = "\n".join(dict.fromkeys(row.note for row in rows if row.note))
        kept.save(update_fields=["seen_on", "stage", "note"])
        _take_place_of(kept, others)
        for row in others:
            _hand_over(list(row.photos.all()), kept)
            row.determinations.update(specimen=kept)
            drop_specimen(row)
        return settle(kept)


def move_pictures(specimen_key: str, photo_keys: Collection[str], to_key: str = "") -> Specimen:
    """Move pictures of one specimen in the tray to another, or to a new one of their own where no other is said."""
    with transaction.atomic():
        rows = {row.key: row for row in _locked([specimen_key, to_key] if to_key else [specimen_key])}
        specimen = rows[specimen_key]
        photos = [photo for photo in specimen.photos.all() if photo.key in photo_keys]
        if not photos:
            raise SpecimenRefusal(Why.NONE_CHOSEN if not photo_keys else Why.ELSEWHERE)
        if not to_key and len(photos) == specimen.photos.count():
            raise SpecimenRefusal(Why.NONE_LEFT)
        target = rows[to_key] if to_key else _split_off(specimen, photos)
        days = {day for photo in [*photos, *target.photos.all()] if (day := _day(photo))}
        if len(days) > 1:
            raise SpecimenRefusal(Why.DAYS_DIFFER)
        _hand_over(photos, target)
        Photo.objects.filter(pk__in=[photo.pk for photo in photos]).update(placed_by_hand=True)
        if not Photo.objects.filter(specimen=specimen).exists():  # what was read before is not asked again
            drop_specimen(specimen)
        return target


def finish_sorting(specimen_key: str, said: Sorted, *, by: User, now: datetime) -> Specimen:
    """Out of the tray into the bank, with everything that this needs, or not at all.

    The name that is given is the first opinion of the person who sorts. Raises SpecimenRefusal.
    """
    with transaction.atomic():
        specimen = _locked([specimen_key])[0]
        photos = list(specimen.photos.all())
        for photo in photos:
            photo.part = said.parts.get(photo.key, photo.part).strip()
            photo.photographer = said.photographer.strip()
            photo.rights_holder, photo.licence = said.rights_holder.strip(), said.licence.strip()
        lacking = lacks(said.stage, [Said(each.part, each.rights_holder, each.licence) for each in photos])
        if lacking:
            raise SpecimenRefusal(Why.LACKS, lacking=lacking)
        if said.seen_on > timezone.localdate(now):
            raise SpecimenRefusal(Why.DAY_AHEAD)
        Photo.objects.bulk_update(photos, ["part", "photographer", "rights_holder", "licence"])
        specimen.stage, specimen.form, specimen.seen_on = said.stage, said.form.strip() or "typical", said.seen_on
        specimen.use = said.use.value
        specimen.save(update_fields=["stage", "form", "seen_on", "use"])
        _put_in_its_place(specimen, said)
        if said.said:
            determine(specimen, said=said.said, species=said.species, characters=said.characters, now=now, by=by)
        return specimen


def _locked(keys: Sequence[str]) -> list[Specimen]:
    """These specimens of the tray, in the order of the keys; refused when one of them is no longer there."""
    rows = Specimen.objects.in_the_tray().select_for_update().filter(key__in=keys)
    by_key = {row.key: row for row in rows.prefetch_related("photos")}
    wanted = list(dict.fromkeys(keys))
    if any(key not in by_key for key in wanted):
        raise SpecimenRefusal(Why.SORTED)
    return [by_key[key] for key in wanted]


def _day(photo: Photo) -> date | None:
    return timezone.localdate(photo.taken_at) if photo.taken_at else None


def _hand_over(photos: Sequence[Photo], target: Specimen) -> None:
    first = Photo.objects.filter(specimen=target).count()
    for order, photo in enumerate(photos, start=first):
        Photo.objects.filter(pk=photo.pk).update(specimen=target, order=order)


def _split_off(specimen: Specimen, photos: Sequence[Photo]) -> Specimen:
    """A new specimen in the tray for these pictures. A name given to all of them is not theirs yet."""
    individual = Individual.objects.create(locality_id=specimen.individual.locality_id)
    day = next((day for photo in photos if (day := _day(photo))), specimen.seen_on)
    return Specimen.objects.create(
        individual=individual,
        seen_on=day,
        stage=specimen.stage,
        form=specimen.form,
        use="",
        added_by=specimen.added_by,
        added_at=specimen.added_at,
    )


def _take_place_of(kept: Specimen, others: Sequence[Specimen]) -> None:
    """The place of the first that has one."""
    if kept.individual.locality.name != PLACE_UNKNOWN:
        return
    named = [row for row in others if row.individual.locality.name != PLACE_UNKNOWN]
    if named:
        kept.individual.locality = named[0].individual.locality
        kept.individual.save(update_fields=["locality"])


def _put_in_its_place(specimen: Specimen, said: Sorted) -> None:
    own = specimen.individual
    if said.met_before and said.met_before.pk != own.pk:
        specimen.individual = said.met_before
        specimen.save(update_fields=["individual"])
        if not own.specimens.exists():
            own.delete()
        return
    own.locality = locality_called(said.locality)
    own.save(update_fields=["locality"])
