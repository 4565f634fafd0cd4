"""The evidence of many people as columns of whole numbers, one row per answer, for ``bulk``."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, fields
from datetime import UTC, datetime, timedelta
from enum import IntEnum

import numpy as np

from .evidence import AnswerFacts, Medium
from .names import NameBook
from .sorting import Whole
from .standard import Side, StandardFacts, WindowFacts
from .treatment import Effect, Reader, Reason, set_aside

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
NEVER = np.iinfo(np.int64).max
"""The opening of a window that nobody opened: no moment is as late."""


class Said(IntEnum):
    """What an answer says by itself, if it were the first to its plant and the only one from its place.

    ``ASIDE`` is no evidence at all. ``NOTHING`` enters no ledger, but its plant was answered. ``GATHERED`` is the
    gather of a dangerous plant, which counts whenever it comes.
    """

    ASIDE = 0
    NOTHING = 1
    NEUTRAL = 2
    CLEAN = 3
    MISS = 4
    GATHERED = 5


BY_EFFECT = {
    Effect.NONE: Said.NOTHING,
    Effect.NEUTRAL: Said.NEUTRAL,
    Effect.CLEAN: Said.CLEAN,
    Effect.MISS: Said.MISS,
}


@dataclass(frozen=True, slots=True)
class AnswerColumns:
    """Answers of many people, in any order; every column has one row per answer.

    ``person``, ``ledger``, ``individual``, ``cell`` (a locality on a day) and ``stage`` are numbers from 0, below
    ``people``, ``ledgers``, ``individuals``, ``cells`` and ``stages``; a ledger is one species on one side.
    ``opened_at`` and ``shown_at`` count microseconds from one moment on, ``specimen`` stands in the order of the
    specimens' keys. ``said`` holds ``Said``, ``live`` whether the plant itself was there.
    """

    person: Whole
    ledger: Whole
    individual: Whole
    cell: Whole
    stage: Whole
    said: Whole
    live: Whole
    opened_at: Whole
    position: Whole
    shown_at: Whole
    specimen: Whole
    people: int
    ledgers: int
    individuals: int
    cells: int
    stages: int


PER_ANSWER = tuple(each.name for each in fields(AnswerColumns))[:11]
"""The columns of the answers, in order; what follows them are sizes."""


@dataclass(frozen=True, slots=True)
class WindowColumns:
    """When each person's windows opened and close: (people, windows), microseconds as in the answers.

    Column 0 is the first window. One that nobody opened has NEVER in both.
    """

    opened_at: Whole
    closes_at: Whole


def microseconds(moment: datetime) -> int:
    """A moment as a whole number."""
    return (moment - EPOCH) // timedelta(microseconds=1)


def window_columns(windows: Sequence[Sequence[WindowFacts]], most: int) -> WindowColumns:
    """The windows of each person; those beyond ``most``, which have no weight, are left out."""
    opened_at, closes_at = (np.full((len(windows), most), NEVER, dtype=np.int64) for _ in range(2))
    for person, theirs in enumerate(windows):
        for window in theirs:
            if 1 <= window.number <= most:
                opened_at[person, window.number - 1] = microseconds(window.opened_at)
                closes_at[person, window.number - 1] = microseconds(window.closes_at)
    return WindowColumns(opened_at, closes_at)


def says(answer: AnswerFacts, side: Side, standard: StandardFacts, names: NameBook) -> Said:
    """What an answer says by itself in the ledger of its own species."""
    if set_aside(answer, standard) is not None:
        return Said.ASIDE
    reading = Reader(answer.specimen.species or "", side, standard, names).read(answer)
    return Said.GATHERED if reading.reason is Reason.GATHERED_DANGEROUS else BY_EFFECT[reading.judged]


class _Numbers(dict[Hashable, int]):
    """Numbers from 0 in the order of first asking."""

    def __missing__(self, key: Hashable) -> int:
        self[key] = len(self)
        return self[key]


def answer_columns(
    histories: Sequence[Sequence[AnswerFacts]],
    ledgers: Sequence[tuple[str, Side]],
    stages: Sequence[str],
    standard: StandardFacts,
    names: NameBook,
) -> AnswerColumns:
    """Everything that each person ever answered, as columns. Answers to species without a ledger are left out.

    The numbers of ledgers and stages are their places in these lists, which must name every stage shown.
    """
    individuals, cells = _Numbers(), _Numbers()
    specimens = sorted({answer.specimen.key for history in histories for answer in history})
    specimen_numbers = {key: number for number, key in enumerate(specimens)}
    stage_numbers = {stage: number for number, stage in enumerate(stages)}
    rows = [
        (
            person,
            ledger,
            individuals[a.specimen.individual],
            cells[a.specimen.locality, a.specimen.day],
            stage_numbers[a.specimen.stage],
            says(a, side, standard, names),
            a.medium is Medium.LIVE,
            microseconds(a.opened_at),
            a.position,
            microseconds(a.shown_at),
            specimen_numbers[a.specimen.key],
        )
        for person, history in enumerate(histories)
        for ledger, (species, side) in enumerate(ledgers)
        for a in history
        if a.specimen.species == species
    ]
    columns = np.array(rows, dtype=np.int64).reshape(len(rows), len(PER_ANSWER)).T
    return AnswerColumns(
        **dict(zip(PER_ANSWER, columns, strict=True)),
        people=len(histories),
        ledgers=len(ledgers),
        individuals=len(individuals),
        cells=len(cells),
        stages=len(stages),
    )
