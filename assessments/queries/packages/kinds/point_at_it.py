"""Where on the picture is the feature that decides: one of the lettered fields, the same on every picture."""

from django.utils.translation import gettext as _

from assessments.documents.package.shape import Item, Picture, Place
from assessments.queries.packages.shape import Asked, BankPicture, BankPlant, Chance, Made, identifier_of
from assessments.rules.kinds.point_at_it import KIND, LETTERS, field_frame, right_fields


def build(chance: Chance) -> Made:
    """A question for every picture on which what decides lies in one field; in several, one answer is too few."""
    marked = [
        (plant, picture, right)
        for plant in chance.plants
        for picture in plant.pictures
        if (right := right_fields(picture.facts, chance.clues))
    ]
    single = [each for each in marked if len(each[2]) == 1]
    return Made(tuple(_question(*each, chance) for each in single), len(marked) - len(single))


def _question(plant: BankPlant, picture: BankPicture, right: str, chance: Chance) -> Asked:
    pair = chance.pair
    item = Item(
        identifier=identifier_of(KIND.key, pair.facts.key, plant.key, picture.shown.path),
        title=pair.title,
        prompt=_("Point at the feature that settles which of the two it is."),
        pictures=(picture.shown,),
        right=_name(right),
        places=tuple(_place(letter, picture.shown) for letter in LETTERS),
        language=chance.language,
    )
    return Asked(item, KIND.key, pair.facts.key, (plant,), (picture.credit,))


def _place(letter: str, picture: Picture) -> Place:
    frame = field_frame(letter)
    return Place(
        _name(letter),
        round(frame.x * picture.width),
        round(frame.y * picture.height),
        round((frame.x + frame.width) * picture.width),
        round((frame.y + frame.height) * picture.height),
    )


def _name(letter: str) -> str:
    return f"field-{letter}"
