"""What is it and would you gather it, as one choice of three. The order says nothing: it is the pair's own."""

from django.utils.translation import gettext as _

from assessments.documents.package.shape import Choice, Item
from assessments.queries.packages.shape import Asked, BankPair, BankPlant, Chance, Made, identifier_of
from assessments.rules.evidence import Decision
from assessments.rules.standard import Side

KEY = "name_and_decide"


def build(chance: Chance) -> Made:
    """A question for every plant that has a picture."""
    plants = [plant for plant in chance.plants if plant.pictures]
    return Made(tuple(_question(plant, chance) for plant in plants))


def _question(plant: BankPlant, chance: Chance) -> Asked:
    pair = chance.pair
    is_dangerous = pair.side_of(plant) is Side.DANGEROUS
    item = Item(
        identifier=identifier_of(KEY, pair.facts.key, plant.key),
        title=pair.title,
        prompt=_("What is it, and would you gather it?"),
        pictures=tuple(each.shown for each in plant.pictures),
        right=(Decision.REFUSE if is_dangerous else Decision.GATHER).value,
        choices=_choices(pair),
        language=chance.language,
    )
    harm = f"{Decision.GATHER.value}: {pair.harm}" if is_dangerous and not pair.is_named_only else ""
    if is_dangerous and pair.is_named_only:
        harm = _("taken for the other: %(harm)s") % {"harm": pair.harm}
    credits = tuple(dict.fromkeys(each.credit for each in plant.pictures))
    return Asked(item, KEY, pair.facts.key, (plant,), credits, harm, asks_how_sure=True)


def _choices(pair: BankPair) -> tuple[Choice, ...]:
    said = _("It is %(plant)s.") if pair.is_named_only else _("It is %(plant)s: I would gather it.")
    refused = _("It is %(plant)s: no, I would not gather it.")
    return (
        Choice(Decision.GATHER.value, said % {"plant": pair.gathered.common_name}),
        Choice(Decision.REFUSE.value, refused % {"plant": pair.mistaken.common_name}),
        Choice(Decision.LEAVE.value, _("Leave it: I cannot tell.")),
    )
