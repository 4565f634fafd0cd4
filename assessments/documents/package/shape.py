"""A question as it is written into a package: one answer, chosen from words or from places on a picture.

Nothing in it knows of plants. Identifiers are names as XML has them (NCName); texts are finished sentences.
"""

import re
from dataclasses import dataclass

_NCNAME = re.compile(r"[A-Za-z_][\w.-]*", re.ASCII)
_RELATIVE = re.compile(r"(?!/)[A-Za-z0-9._/-]+")


class BadItem(ValueError):
    """A question that no reader of packages could put: what is wrong with it, and in which one."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture of the package: its path there, its size in px, and words for whoever cannot see it."""

    path: str
    width: int
    height: int
    alt: str


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer in words."""

    identifier: str
    text: str


@dataclass(frozen=True, slots=True)
class Place:
    """One answer on the picture: a rectangle from its upper left to its lower right corner, in px of the picture."""

    identifier: str
    left: int
    top: int
    right: int
    bottom: int

    @property
    def coords(self) -> str:
        """As the format writes a rectangle."""
        return f"{self.left},{self.top},{self.right},{self.bottom}"


@dataclass(frozen=True, slots=True)
class Item:
    """One question with one right answer; its answers are `choices`, or `places` on its only picture.

    Raises BadItem when it is made wrongly, so that no package holds a question that cannot be answered.
    """

    identifier: str
    title: str
    prompt: str
    pictures: tuple[Picture, ...]
    right: str
    choices: tuple[Choice, ...] = ()
    places: tuple[Place, ...] = ()
    language: str = "en"

    def __post_init__(self) -> None:
        answers = [each.identifier for each in self.choices] + [each.identifier for each in self.places]
        for name in (self.identifier, *answers):
            if not _NCNAME.fullmatch(name):
                raise BadItem(f"{self.identifier}: {name!r} is no identifier")
        if bool(self.choices) == bool(self.places):
            raise BadItem(f"{self.identifier}: answers are either words or places")
        if len(set(answers)) < len(answers):
            raise BadItem(f"{self.identifier}: two answers have the same identifier")
        if self.right not in answers:
            raise BadItem(f"{self.identifier}: the right answer {self.right!r} is not among the answers")
        if self.places and len(self.pictures) != 1:
            raise BadItem(f"{self.identifier}: places lie on exactly one picture")
        for picture in self.pictures:
            if not _RELATIVE.fullmatch(picture.path) or ".." in picture.path.split("/"):
                raise BadItem(f"{self.identifier}: {picture.path!r} is no path inside the package")

    @property
    def file(self) -> str:
        """Where it stands: beside the folder of pictures, so that no path has to lead upwards."""
        return f"{self.identifier}.xml"
