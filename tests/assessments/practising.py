"""Teaching pictures of pairs, and looks of a round, for the tests of practice."""

from assessments.models import PracticeRound, PracticeTurn
from species.models import Pair
from species.rules.vocabulary import Use
from tests.factories.species import PairFactory, SpecimenFactory, give_picture, make_species


def hang_teaching_pictures(pair: Pair, each: int = 3, **specimen: object) -> None:
    """As many teaching pictures of either plant."""
    for species in (pair.gathered, pair.mistaken):
        for _number in range(each):
            give_picture(SpecimenFactory(species=species, use=Use.TEACHING.value, **specimen))


def another_pair(name: str, *, pictures: int = 2) -> Pair:
    """A dangerous pair of a good and a bad plant of this name."""
    made = PairFactory(gathered=make_species(f"good {name}"), mistaken=make_species(f"bad {name}", deadly=True))
    hang_teaching_pictures(made, pictures)
    return made


def turn_of(practice: PracticeRound, pair: Pair, dangerous: bool) -> PracticeTurn:
    """The first look of a round at one plant of a pair."""
    shown = pair.mistaken_id if dangerous else pair.gathered_id
    return practice.turns.filter(pair=pair, photo__specimen__species=shown).order_by("position")[0]
