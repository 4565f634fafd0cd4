"""One specimen after another as a class answered it: counts, intervals, who said what, and which to look at again.

Everybody sits a paper of their own, so a specimen is answered by some of the class, and how somebody did on the
others is a share. Nothing here changes a mark.
"""

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from .cohort_reading import as_answer_to_item
from .evidence import AnswerFacts
from .flags import FEWEST_FOR_FLAGS, KEY, Distractor, Flag, distractors, flags_of
from .intervals import Interval, exact_interval
from .items import PRIOR_STRENGTH, discrimination, discrimination_interval, shrunken_share
from .names import NameBook

NEARLY_PERFECT = 1 - 1e-9
"""As far from a perfect connection as floats can be trusted to tell."""


@dataclass(frozen=True, slots=True)
class Telling:
    """Whether those right here did better elsewhere: a correlation, never shown without its interval."""

    value: float
    interval: Interval


@dataclass(frozen=True, slots=True)
class ItemLine:
    """One specimen. ``right``: named rightly and not left alone. ``ranked``: a share for the order of lines alone."""

    specimen: str
    species: str
    right: int
    answered: int
    interval: Interval
    said: tuple[Distractor, ...]
    telling: Telling | None
    flags: tuple[Flag, ...]
    ranked: float

    @property
    def enough(self) -> bool:
        """Whether so many answered that their answers may say something of the picture."""
        return self.answered >= FEWEST_FOR_FLAGS


@dataclass(frozen=True, slots=True)
class _OneAnswer:
    person: int
    word: str

    @property
    def is_right(self) -> bool:
        return self.word == KEY


def item_lines(
    answers: Mapping[int, Sequence[AnswerFacts]], names: NameBook, tutor_differs: Collection[str] = ()
) -> tuple[ItemLine, ...]:
    """The lines, flagged ones first and then those that fewest knew. ``answers``: by person, in order, as from
    ``answers_to_look_at``; the first to a specimen counts. ``tutor_differs``: specimens that a tutor named otherwise.
    """
    species: dict[str, str] = {}
    by_item: dict[str, list[_OneAnswer]] = defaultdict(list)
    totals: dict[int, list[bool]] = defaultdict(list)
    for person, mine in answers.items():
        for specimen, answer in _firsts(mine).items():
            one = _OneAnswer(person, as_answer_to_item(answer, names))
            species[specimen] = answer.specimen.species or ""
            by_item[specimen].append(one)
            totals[person].append(one.is_right)
    every = [one.is_right for several in by_item.values() for one in several]
    mean = sum(every) / len(every) if every else 0.0
    lines = (_line(key, species[key], ones, totals, mean, key in tutor_differs) for key, ones in by_item.items())
    return tuple(sorted(lines, key=lambda line: (not line.flags, line.ranked, line.specimen)))


def _firsts(answers: Sequence[AnswerFacts]) -> dict[str, AnswerFacts]:
    found: dict[str, AnswerFacts] = {}
    for answer in answers:
        found.setdefault(answer.specimen.key, answer)
    return found


def _line(
    specimen: str,
    species: str,
    ones: Sequence[_OneAnswer],
    totals: Mapping[int, Sequence[bool]],
    mean: float,
    tutor_differs: bool,
) -> ItemLine:
    words, rest = [one.word for one in ones], [_rest(totals[one.person], one.is_right) for one in ones]
    right, answered = sum(one.is_right for one in ones), len(ones)
    enough = answered >= FEWEST_FOR_FLAGS
    return ItemLine(
        specimen=specimen,
        species=species,
        right=right,
        answered=answered,
        interval=exact_interval(right, answered),
        said=distractors(words, rest),
        telling=_telling([one.is_right for one in ones], rest) if enough else None,
        flags=flags_of(words if enough else (), rest if enough else (), tutor_differs),
        ranked=shrunken_share(right, answered, mean, PRIOR_STRENGTH),
    )


def _rest(mine: Sequence[bool], this: bool) -> float:
    """Share right of a person's other specimens; 0 where there is no other."""
    others = len(mine) - 1
    return (sum(mine) - this) / others if others else 0.0


def _telling(right: Sequence[bool], rest: Sequence[float]) -> Telling | None:
    """None too where the connection is perfect: its interval has no width then, and so few prove no such thing."""
    value = discrimination(right, rest)
    interval = discrimination_interval(value, len(right)) if value is not None else None
    if value is None or interval is None or abs(value) >= NEARLY_PERFECT:
        return None
    return Telling(value, interval)
