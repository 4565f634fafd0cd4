"""Pictures as pages show them: teaching ones, by stage, with the sizes there are."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass

from django.urls import reverse
from django.utils.translation import gettext as _

from species.models import Photo


@dataclass(frozen=True)
class Picture:
    """One picture for `pieces/photo.html`."""

    src: str
    srcset: str
    smallest: str
    """The address of the narrowest file, for a row of many."""
    alt: str
    width: int
    height: int
    drawn: bool
    stage: str
    part: str
    credit: str


def teaching_pictures(species_ids: Collection[int]) -> dict[int, dict[str, list[Picture]]]:
    """Teaching pictures of these species by stage; two queries, however many."""
    rows = (
        Photo.objects.for_teaching()
        .filter(specimen__species__in=species_ids, specimen__retired_on__isnull=True)
        .select_related("specimen")
        .prefetch_related("renditions")
        .order_by("specimen_id", "order", "id")
    )
    found: dict[int, dict[str, list[Picture]]] = {pk: defaultdict(list) for pk in species_ids}
    for photo in rows:
        if photo.specimen.species_id is not None and photo.renditions.all():
            found[photo.specimen.species_id][photo.specimen.stage].append(picture_of(photo))
    return found


def picture_of(photo: Photo, *, blind: bool = False) -> Picture:
    """One photograph with its addresses; `blind` gives the text alternative that does not name the plant."""
    jpegs = [r for r in photo.renditions.all() if r.media_type == "image/jpeg"]
    largest = jpegs[-1]
    return Picture(
        src=reverse("species:photo", args=[photo.key, largest.width]),
        srcset=", ".join(f"{reverse('species:photo', args=[photo.key, r.width])} {r.width}w" for r in jpegs),
        smallest=reverse("species:photo", args=[photo.key, jpegs[0].width]),
        alt=_alternative(photo, blind=blind),
        width=largest.width,
        height=largest.height,
        drawn=photo.specimen.is_drawn,
        stage=photo.specimen.stage,
        part=photo.part,
        credit=photo.photographer,
    )


def _alternative(photo: Photo, *, blind: bool) -> str:
    """Never empty: a photograph that came in without words is at least said to be one."""
    written = photo.alt_blind if blind else photo.alt_full or photo.alt_blind
    if written:
        return written
    return _("Photograph of a plant: %(part)s") % {"part": photo.part} if photo.part else _("Photograph of a plant")
