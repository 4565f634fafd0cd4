"""The pictures of the bank as a package may hold them: with an owner and a licence, under names that say nothing."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from hashlib import sha256

from django.utils.translation import gettext as _

from assessments.documents.package.shape import Picture
from assessments.queries.flora import Flora
from assessments.rules.kinds.shape import PictureFacts
from species.models import Photo, PhotoRendition
from species.rules.names import normalise

from .shape import BankPicture

WIDEST = 1_600
"""A picture in a package is no wider, px: large enough to look closely at, small enough to send."""
JPEG = "image/jpeg"
_NAME_DIGITS = 24


@dataclass
class Pictures:
    """Collects the pictures of a package, and counts those that stay: `files` by path."""

    names: frozenset[str]
    files: dict[str, PhotoRendition] = field(default_factory=dict)
    without_licence: int = 0
    without_file: int = 0
    reworded: int = 0

    def of(self, photos: Iterable[Photo], facts: Collection[PictureFacts]) -> tuple[BankPicture, ...]:
        """Those of a plant that may go; `facts` are what is marked on them."""
        by_key = {each.key: each for each in facts}
        made = (self._picture(photo, by_key[photo.pk]) for photo in photos if photo.pk in by_key)
        return tuple(each for each in made if each)

    def _picture(self, photo: Photo, facts: PictureFacts) -> BankPicture | None:
        owner = photo.rights_holder or photo.photographer
        if not (owner and photo.licence):
            self.without_licence += 1
            return None
        best = _best_file(photo)
        if best is None:
            self.without_file += 1
            return None
        path = f"pictures/p-{sha256(photo.key.encode()).hexdigest()[:_NAME_DIGITS]}.jpg"
        self.files[path] = best
        shown = Picture(path, best.width, best.height, self._alt(photo))
        return BankPicture(shown, facts, f"{owner}, {photo.licence}")

    def _alt(self, photo: Photo) -> str:
        """What stands for the picture without naming the plant; plain words where somebody let a name slip in."""
        said = photo.alt_blind.strip()
        if said and names_a_plant(said, self.names):
            self.reworded += 1
            said = ""
        return said or _("Photograph of a plant")


def names_of_plants(flora: Flora) -> frozenset[str]:
    """Every name of every plant, and every genus, in plain small letters."""
    texts = (*flora.texts, *(entry.genus for entry in flora.entries))
    return frozenset(normalise(text) for text in texts) - {""}


def names_a_plant(text: str, names: frozenset[str]) -> bool:
    """Whether one of these names stands in a text as words of its own."""
    plain = f" {normalise(text)} "
    return any(f" {name} " in plain for name in names)


def _best_file(photo: Photo) -> PhotoRendition | None:
    """The widest JPEG that is not too wide, else the narrowest; None where no file is there."""
    files = [each for each in photo.renditions.all() if each.media_type == JPEG and _is_there(each)]
    fitting = [each for each in files if each.width <= WIDEST]
    if fitting:
        return max(fitting, key=lambda each: each.width)
    return min(files, key=lambda each: each.width, default=None)


def _is_there(row: PhotoRendition) -> bool:
    name = row.file.name
    return bool(name) and row.file.storage.exists(str(name))
