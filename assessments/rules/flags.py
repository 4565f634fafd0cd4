"""Photos to look at again: is the key wrong, or the plant not to be told from this picture?

Found by simulation for classes of 8 to 15 (two swapped keys among 40 questions): A or B finds 92 to 96 % of
the swapped ones and flags 2 to 5 % of the sound ones. A flag asks for a second determination; it changes no
mark.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

KEY, LEFT, UNNAMED = "key", "leave", "unnamed"
"""What an answer can be, besides the name of another plant: as keyed, left alone, or without a name of a plant."""

NO_OTHER = frozenset({KEY, LEFT, UNNAMED})
FEWEST_FOR_FLAGS = 8
"""Answers below which nothing is said of a picture by them: the simulation begins with classes of 8."""


class Flag(StrEnum):
    """Why a photo should be looked at again."""

    STRONG_AGREE_ON_ANOTHER = "strong_agree_on_another"
    ANOTHER_IS_COMMON_AND_STRONG = "another_is_common_and_strong"
    HALF_LEAVE_IT = "half_leave_it"
    TUTOR_DIFFERS = "tutor_differs"


@dataclass(frozen=True, slots=True)
class Distractor:
    """One answer to a question: how many of the stronger and of the weaker half by rest score gave it."""

    answer: str
    stronger: int
    weaker: int

    @property
    def total(self) -> int:
        return self.stronger + self.weaker


def _named(answers: Sequence[str], rest: Sequence[float]) -> None:
    if len(answers) != len(rest):
        raise ValueError("Every answer needs the rest score of the person who gave it.")


def distractors(answers: Sequence[str], rest: Sequence[float]) -> tuple[Distractor, ...]:
    """Who said what, most common first, split at the middle of the rest scores.

    Whoever lies at or above the median is of the stronger half.
    """
    _named(answers, rest)
    if not answers:
        return ()
    middle = sorted(rest)[len(rest) // 2]
    strong = Counter(a for a, score in zip(answers, rest, strict=True) if score >= middle)
    every = Counter(answers)
    split = (Distractor(answer, strong[answer], count - strong[answer]) for answer, count in every.items())
    return tuple(sorted(split, key=lambda distractor: (-distractor.total, distractor.answer)))


def strong_agree_on_another(answers: Sequence[str], rest: Sequence[float]) -> bool:
    """A: more than half of the top third (by rest score, ties included, at least 2) give the same other
    answer.
    """
    _named(answers, rest)
    if len(answers) < 2:
        return False
    size = max(2, round(len(answers) / 3))
    edge = sorted(rest, reverse=True)[size - 1]
    top = [answer for answer, score in zip(answers, rest, strict=True) if score >= edge]
    others = Counter(answer for answer in top if answer not in NO_OTHER)
    return any(2 * count > len(top) for count in others.values())


def another_is_common_and_strong(answers: Sequence[str], rest: Sequence[float]) -> bool:
    """B: another answer is at least as common as the key, and its choosers are stronger on average."""
    _named(answers, rest)
    scores: dict[str, list[float]] = {}
    for answer, score in zip(answers, rest, strict=True):
        scores.setdefault(answer, []).append(score)
    right = scores.get(KEY, [])
    for answer, theirs in scores.items():
        if answer in NO_OTHER or len(theirs) < len(right):
            continue
        if not right or sum(theirs) / len(theirs) > sum(right) / len(right):
            return True
    return False


def half_leave_it(answers: Sequence[str]) -> bool:
    """C: at least half leave it, so the picture may not show enough."""
    return bool(answers) and 2 * sum(1 for answer in answers if answer == LEFT) >= len(answers)


def flags_of(answers: Sequence[str], rest: Sequence[float], tutor_differs: bool = False) -> tuple[Flag, ...]:
    """The flags of one question. ``answers``: KEY, LEFT, UNNAMED, or the name of another plant, one per
    person; ``rest``: each person's score on the other questions; ``tutor_differs``: a tutor's own answer was
    another (D).
    """
    found = {
        Flag.STRONG_AGREE_ON_ANOTHER: strong_agree_on_another(answers, rest),
        Flag.ANOTHER_IS_COMMON_AND_STRONG: another_is_common_and_strong(answers, rest),
        Flag.HALF_LEAVE_IT: half_leave_it(answers),
        Flag.TUTOR_DIFFERS: tutor_differs,
    }
    return tuple(flag for flag, raised in found.items() if raised)
