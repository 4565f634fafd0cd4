"""Two plants: which would be gathered, both, or neither. Every plant that finds a partner is asked about once."""

from random import Random

from django.utils.translation import gettext as _

from assessments.documents.package.shape import Choice, Item, Picture
from assessments.queries.packages.shape import Asked, BankPlant, Chance, Made, identifier_of
from assessments.rules.evidence import Decision
from assessments.rules.kinds.side_by_side import BOTH, FIRST, GATHERED, KIND, LEAVE, NEITHER, SECOND
from assessments.rules.standard import Side


def build(chance: Chance) -> Made:
    """Plants in couples by chance, the same couples every time; of a plant that is only named none are made."""
    if chance.pair.is_named_only:
        return Made()
    seed = Random(f"{chance.pair.facts.key}|{'|'.join(each.key for each in chance.plants)}")
    left = [plant for plant in chance.plants if plant.pictures]
    seed.shuffle(left)
    made: list[Asked] = []
    while left:
        plant = left.pop()
        others = tuple(each for each in left if each.individual != plant.individual)
        put = KIND.ask(chance.pair.subject(plant, chance.clues, others), seed)
        if put is not None and put.beside is not None:
            second = next(each for each in others if each.key == put.beside.key)
            left.remove(second)
            made.append(_question((plant, second), chance))
    return Made(tuple(made))


def _question(plants: tuple[BankPlant, BankPlant], chance: Chance) -> Asked:
    pair = chance.pair
    dangerous = tuple(pair.side_of(each) is Side.DANGEROUS for each in plants)
    right = next(key for key, taken in GATHERED.items() if taken == tuple(not each for each in dangerous))
    pictures = [each.pictures[0] for each in plants]
    item = Item(
        identifier=identifier_of(KIND.key, pair.facts.key, *(each.key for each in plants)),
        title=pair.title,
        prompt=_("Two plants, the first picture and the second. Which would you gather?"),
        pictures=tuple(_numbered(each.shown, number) for number, each in enumerate(pictures, 1)),
        right=right,
        choices=_choices(),
        language=chance.language,
    )
    harmful = [key for key in GATHERED if _gathers(key, dangerous)]
    harm = "; ".join(f"{key}: {pair.harm}" for key in harmful)
    credits = tuple(dict.fromkeys(each.credit for each in pictures))
    return Asked(item, KIND.key, pair.facts.key, plants, credits, harm, asks_how_sure=True)


def _gathers(key: str, dangerous: tuple[bool, ...]) -> bool:
    said = KIND.decisions(key)
    return any(is_so and each is Decision.GATHER for is_so, each in zip(dangerous, said, strict=True))


def _numbered(picture: Picture, number: int) -> Picture:
    alt = _("Picture %(number)s: %(words)s") % {"number": number, "words": picture.alt}
    return Picture(picture.path, picture.width, picture.height, alt)


def _choices() -> tuple[Choice, ...]:
    return (
        Choice(FIRST, _("Only the first")),
        Choice(SECOND, _("Only the second")),
        Choice(BOTH, _("Both of them")),
        Choice(NEITHER, _("Neither")),
        Choice(LEAVE, _("Leave them: I cannot tell.")),
    )
