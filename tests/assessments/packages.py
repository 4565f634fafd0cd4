"""A bank of one pair whose pictures may leave, and what a package holds as a stranger reads it."""

from dataclasses import dataclass
from decimal import Decimal
from io import BytesIO
from zipfile import ZipFile

from django.utils import timezone
from lxml import etree

from assessments.actions.packages import Outlet, take_questions
from assessments.models import PackageRun
from assessments.queries.packages.bank import Packaged, Scope
from species.models import Character, Pair, PairCharacter, Photo, Region, Species, Specimen
from species.rules.vocabulary import Trust
from tests.factories.species import SpecimenFactory, determine, give_picture

ITEM = "{http://www.imsglobal.org/xsd/imsqtiasi_v3p0}"
PACKAGE = "{http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1}"


def may_leave(photo: Photo, **fields: object) -> Photo:
    """The picture with an owner and a licence."""
    for name, value in {"photographer": "Fern Frond", "licence": "CC BY 4.0", **fields}.items():
        setattr(photo, name, value)
    photo.save()
    return photo


def plant(species: Species, use: str = "teaching", **fields: object) -> Specimen:
    """A confirmed plant with one picture that may leave."""
    specimen: Specimen = SpecimenFactory(species=species, use=use, **fields)
    may_leave(give_picture(specimen))
    return specimen


def mark(photo: Photo, character: Character, x: str = "0.4", y: str = "0.3", **size: str) -> Region:
    """A region on a picture: a small one, unless told."""
    places = {name: Decimal(value) for name, value in {"width": "0.1", "height": "0.1", **size}.items()}
    return Region.objects.create(
        photo=photo, character=character, x=Decimal(x), y=Decimal(y), drawn_at=timezone.now(), **places
    )


def teach(pair: Pair) -> Character:
    """A character that decides and one that only supports; the first is returned."""
    made = [
        Character.objects.create(key=key, name=key, organ="leaf", sense="look", stages=["rosette"])
        for key in ("hairs", "veins")
    ]
    for order, (character, trust) in enumerate(zip(made, (Trust.DECISIVE, Trust.SUPPORTING), strict=True)):
        PairCharacter.objects.create(
            pair=pair,
            character=character,
            gathered_text=f"{character.key} here",
            mistaken_text=f"{character.key} there",
            trust=trust.value,
            order=order,
        )
    return made[0]


def fill_bank(pair: Pair, named_by: tuple = ()) -> list[Specimen]:
    """Two plants of either side for teaching, one of the dangerous side for tests; the first has a region."""
    character = teach(pair)
    found = [plant(each) for each in (pair.gathered, pair.gathered, pair.mistaken, pair.mistaken)]
    found.append(plant(pair.mistaken, "assessment"))
    for specimen in found:
        for user in named_by:
            determine(specimen, specimen.species, user)
    mark(found[0].photos.get(), character)
    return found


@dataclass(frozen=True)
class Taken:
    """A package as it was written, and the record of it."""

    content: bytes
    table: bytes
    packaged: Packaged
    run: PackageRun

    @property
    def files(self) -> dict[str, bytes]:
        return files_of(self.content)

    @property
    def items(self) -> list:
        """The items as XML, in the order of the package."""
        return [etree.fromstring(content) for name, content in self.files.items() if is_item(name)]


def take(scope: Scope | None = None, **said: object) -> Taken:
    """The questions of the bank as they leave."""
    package, table = BytesIO(), BytesIO()
    values = {"by": None, "now": timezone.now(), **said}
    packaged = take_questions(Outlet(package, table), scope or Scope(), **values)
    return Taken(package.getvalue(), table.getvalue(), packaged, PackageRun.objects.latest("pk"))


def files_of(content: bytes) -> dict[str, bytes]:
    with ZipFile(BytesIO(content)) as archive:
        assert archive.testzip() is None
        return {name: archive.read(name) for name in archive.namelist()}


def is_item(name: str) -> bool:
    return name.endswith(".xml") and name != "imsmanifest.xml"
