"""Tap the deciding feature on the photo. It teaches; it is no evidence of what somebody would gather.

Every picture bears the same lettered fields, so the page says nothing of where the feature is. An answer is a
point ("at 0.4100 0.2250", fractions from the upper left) or, where nothing can be tapped, a field ("field F").
"""

from random import Random

from species.rules.regions import Frame, Shape, holds

from .shape import Asks, Clue, Kind, Mark, PictureFacts, Put, Subject, Truth

ACROSS, DOWN = 3, 4
LETTERS = "ABCDEFGHIJKL"
MOST_FIELDS = len(LETTERS) // 2
"""A picture on which more fields are right is not asked about: a blind tap would do (a choice)."""
FINGER = 0.03
"""How far beside a mark still counts, as a fraction of the picture's width (a choice)."""
CANNOT_TELL = "cannot_tell"


def ask(subject: Subject, chance: Random) -> Put | None:
    """One picture on which a deciding character is marked; None where there is none."""
    fit = [each for each in subject.pictures if 0 < len(right_fields(each, subject.clues)) <= MOST_FIELDS]
    return Put({**subject.about, "photo": chance.choice(fit).key}) if fit else None


def deciding_marks(picture: PictureFacts, clues: tuple[Clue, ...]) -> tuple[Mark, ...]:
    """The marks on a picture that show a character that decides."""
    deciding = {clue.character for clue in clues if clue.decides}
    return tuple(mark for mark in picture.marks if mark.character in deciding)


def right_fields(picture: PictureFacts, clues: tuple[Clue, ...]) -> str:
    """The letters of the fields in which a deciding character lies."""
    frames = [mark.frame for mark in deciding_marks(picture, clues)]
    return "".join(
        letter for letter in LETTERS if any(_meets(field_frame(letter), frame, picture.aspect) for frame in frames)
    )


def field_frame(letter: str) -> Frame:
    """The place of a lettered field. ValueError for a letter that no field has."""
    down, across = divmod(LETTERS.index(letter), ACROSS)
    return Frame(across / ACROSS, down / DOWN, 1 / ACROSS, 1 / DOWN)


def field_at(x: float, y: float) -> str:
    """The letter of the field that a point lies in."""
    across, down = min(int(x * ACROSS), ACROSS - 1), min(int(y * DOWN), DOWN - 1)
    return LETTERS[down * ACROSS + across]


def _meets(field: Frame, mark: Frame, aspect: float) -> bool:
    """Whether the middle of one lies in the other: touching at an edge is not enough."""
    return holds(field, *_middle(mark), aspect) or holds(mark, *_middle(field), aspect)


def _middle(frame: Frame) -> tuple[float, float]:
    if frame.shape is Shape.CIRCLE:
        return frame.x, frame.y
    return frame.x + frame.width / 2, frame.y + frame.height / 2


def point_of(chosen: str) -> tuple[float, float] | None:
    """The point of an answer, as fractions; None for a field, or for nothing."""
    words = chosen.split()
    return (float(words[1]), float(words[2])) if len(words) == 3 and words[0] == "at" else None


def is_right(_asks: Asks, chosen: str, truth: Truth) -> bool | None:
    """Whether a deciding character lies where somebody pointed; None once nothing is marked there any more."""
    picture = truth.picture
    if picture is None or not (marks := deciding_marks(picture, truth.clues)):
        return None
    point = point_of(chosen)
    if point is not None:
        return any(holds(mark.frame, *point, picture.aspect, FINGER) for mark in marks)
    return chosen.removeprefix("field ") in tuple(right_fields(picture, truth.clues))


KIND = Kind(
    key="point_at_it",
    counts=False,
    asks_name=False,
    asks_decision=False,
    shows_pictures=True,
    ask=ask,
    is_right=is_right,
)
