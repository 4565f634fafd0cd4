"""Which of these can be seen, and does it decide: both states of a character that decides, and of one that does not."""

from random import Random

from django.utils.translation import gettext as _

from assessments.documents.package.shape import Choice, Item
from assessments.queries.packages.shape import Asked, BankPlant, Chance, Made, identifier_of
from assessments.rules.kinds.which_character import CANNOT_TELL, KIND


def build(chance: Chance) -> Made:
    """A question for every plant that has a picture and a character that decides; others cannot be asked so."""
    made = [_question(plant, chance) for plant in chance.plants if plant.pictures]
    return Made(tuple(each for each in made if each))


def _question(plant: BankPlant, chance: Chance) -> Asked | None:
    pair = chance.pair
    identifier = identifier_of(KIND.key, pair.facts.key, plant.key)
    first = next((clue for clue in chance.clues if clue.decides), None)
    # A single answer is right: where every character decides, only one of them is offered.
    clues = tuple(clue for clue in chance.clues if clue is first or not clue.decides)
    put = KIND.ask(pair.subject(plant, clues), Random(identifier))
    if put is None:
        return None
    side = pair.side_of(plant)
    options = put.asks["options"]
    right = next(each for each in options if each["decides"] and each["side"] == side.value)
    choices = [Choice(f"state-{each['key']}", f"{each['name']}: {each['shows']}") for each in options]
    item = Item(
        identifier=identifier,
        title=pair.title,
        prompt=_("Which of these can you see here, and does it settle which of the two it is?"),
        pictures=tuple(each.shown for each in plant.pictures),
        right=f"state-{right['key']}",
        choices=(*choices, Choice(CANNOT_TELL, _("I cannot tell."))),
        language=chance.language,
    )
    credits = tuple(dict.fromkeys(each.credit for each in plant.pictures))
    return Asked(item, KIND.key, pair.facts.key, (plant,), credits)
