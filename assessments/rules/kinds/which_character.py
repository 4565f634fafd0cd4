"""Choose the state you can see that decides. It teaches; it is no evidence of what somebody would gather.

What is offered depends on the pair and the stage alone: of a character that decides, and of one more, what either
shows on both plants. So the page is the same whichever of the two is in the picture.
"""

from random import Random

from assessments.rules.standard import Side

from .shape import Asks, Clue, Kind, Put, Subject, Truth

CHARACTERS = 2
"""How many characters are offered, each with both of its states (a choice: four lines fit on a phone)."""
CANNOT_TELL = "cannot_tell"


def ask(subject: Subject, chance: Random) -> Put | None:
    """Both states of a character that decides and of another one, mixed; None where no character decides."""
    clear = [clue for clue in subject.clues if clue.gathered and clue.mistaken and clue.gathered != clue.mistaken]
    deciding = [clue for clue in clear if clue.decides]
    if not deciding:
        return None
    first = chance.choice(deciding)
    others = [clue for clue in clear if clue.character != first.character]
    others = [clue for clue in others if not clue.decides] or others
    offered = [first, *chance.sample(others, min(CHARACTERS - 1, len(others)))]
    options = [option for clue in offered for option in _options(clue)]
    chance.shuffle(options)
    return Put({**subject.about, "options": [{"key": str(n), **each} for n, each in enumerate(options)]})


def _options(clue: Clue) -> list[dict[str, object]]:
    return [
        {"name": clue.name, "shows": shows, "side": side.value, "decides": clue.decides}
        for shows, side in ((clue.gathered, Side.EDIBLE), (clue.mistaken, Side.DANGEROUS))
    ]


def is_right(asks: Asks, chosen: str, truth: Truth) -> bool | None:
    """Whether the state that was chosen decides and is the plant's own."""
    if not truth.sides or truth.sides[0] is None:
        return None
    option = next((each for each in asks.get("options", ()) if each["key"] == chosen), None)
    return option is not None and bool(option["decides"]) and option["side"] == truth.sides[0].value


KIND = Kind(key="which_character", counts=False, asks_name=False, asks_decision=False, ask=ask, is_right=is_right)
