"""The ledgers of many people at once: the same counts as ``ledger.open_ledger``, from columns instead of objects.

All answers are sorted by person, ledger and individual, in the order in which they count. The first of each
individual decides, a gather counts whenever it comes, and of one place and day the first two count; see
``treatment``. Nothing here loops over answers.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from . import evalue
from .columns import AnswerColumns, Said, WindowColumns
from .sorting import Flags, Whole, stable_order, starts_of_runs
from .standard import SideBar
from .treatment import MOST_FROM_ONE_PLACE_AND_DAY

Small = NDArray[np.int8]
NONE, CLEAN, MISS, NEUTRAL = range(4)
"""Effects as numbers."""

EFFECT_OF = np.full(len(Said), NONE, dtype=np.int8)
EFFECT_OF[[Said.NEUTRAL, Said.CLEAN, Said.MISS, Said.GATHERED]] = NEUTRAL, CLEAN, MISS, MISS


@dataclass(frozen=True, slots=True)
class Rows:
    """Some of the answers. ``group`` numbers their individual within person and ledger, ``row`` is the place in
    the columns, ``when`` the place among all answers in the order in which they count."""

    group: Whole
    row: Whole
    when: Whole
    person: Whole
    shown_at: Whole


@dataclass(frozen=True, slots=True)
class Individuals:
    """Every individual that anybody was shown, one group per person, ledger and individual.

    ``first`` holds each group's first answer, ``gathers`` all gathers of a dangerous plant by group and in order.
    ``account`` numbers person and ledger together. ``judged`` is what the first answer says, ``effect`` what it
    counts as once two from a place and day are taken.
    """

    answers: AnswerColumns
    first: Rows
    gathers: Rows
    account: Whole
    judged: Small
    effect: Small

    @property
    def accounts(self) -> int:
        return self.answers.people * self.answers.ledgers


def in_order_of_counting(answers: AnswerColumns) -> Whole:
    """The rows of the answers in the order in which they count, as ``evidence.in_order``."""
    return stable_order((answers.opened_at, answers.position, answers.shown_at, answers.specimen))


def individuals(answers: AnswerColumns) -> Individuals:
    """The answers by individual. Those that are no evidence are passed over."""
    ordered = in_order_of_counting(answers)
    whose = (answers.person * answers.ledgers + answers.ledger) * answers.individuals + answers.individual
    when = stable_order((whose[ordered],))
    row = ordered[when]
    said = answers.said.astype(np.int8)[row]
    evidence = said != Said.ASIDE
    row, when, said = row[evidence], when[evidence], said[evidence]
    whose = whose[row]
    starts, gathered = starts_of_runs(whose), np.flatnonzero(said == Said.GATHERED)
    group = np.cumsum(starts) - 1
    account = whose[starts] // answers.individuals
    first = _rows(answers, np.arange(len(account)), row[starts], when[starts], account)
    gathers = _rows(answers, group[gathered], row[gathered], when[gathered], account[group[gathered]])
    judged = EFFECT_OF[said[starts]]
    effect = np.where(_beyond(answers, first, judged, account), np.int8(NONE), judged)
    return Individuals(answers, first, gathers, account, judged, effect)


def _rows(answers: AnswerColumns, group: Whole, row: Whole, when: Whole, account: Whole) -> Rows:
    return Rows(group, row, when, account // answers.ledgers, answers.shown_at[row])


def _beyond(answers: AnswerColumns, first: Rows, judged: Small, account: Whole) -> Flags:
    """First answers that speak, but come after two others from their place and day.

    The first two always count, so the third and later ones are those with two before them. A gather of a
    dangerous plant may be marked too: it counts as a gather all the same.
    """
    beyond = np.zeros(len(judged), dtype=bool)
    speaking = np.flatnonzero((judged == CLEAN) | (judged == MISS))
    cell = account[speaking] * answers.cells + answers.cell[first.row[speaking]]
    by_cell = stable_order((cell, first.when[speaking]))
    cell, most = cell[by_cell], MOST_FROM_ONE_PLACE_AND_DAY
    beyond[speaking[by_cell[most:]][cell[most:] == cell[:-most]]] = True
    return beyond


def held(rows: Rows, windows: WindowColumns, number: int) -> Flags:
    """Which rows lie in a window (from 0) of their person."""
    opened_at, closes_at = windows.opened_at[:, number], windows.closes_at[:, number]
    inside: Flags = (rows.shown_at >= opened_at[rows.person]) & (rows.shown_at < closes_at[rows.person])
    return inside


def effects_in(known: Individuals, windows: WindowColumns, number: int) -> Small:
    """What each individual counts as in a window: a miss if gathered there, otherwise what its first answer says."""
    effect = np.where(held(known.first, windows, number), known.effect, np.int8(NONE))
    effect[known.gathers.group[held(known.gathers, windows, number)]] = MISS
    return effect


@dataclass(frozen=True, slots=True)
class BulkCounts:
    """Individuals by what they count as; each of shape (people, ledgers, windows)."""

    clean: Whole
    misses: Whole
    neutral: Whole


def bulk_counts(known: Individuals, windows: WindowColumns) -> BulkCounts:
    """The counts of every person, ledger and window."""
    many = windows.opened_at.shape[1]
    counts = np.empty((known.accounts, 4, many), dtype=np.int64)
    for number in range(many):
        effect = effects_in(known, windows, number)
        by_effect = np.bincount(known.account * 4 + effect, minlength=known.accounts * 4)
        counts[:, :, number] = by_effect.reshape(known.accounts, 4)
    shape = (known.answers.people, known.answers.ledgers, many)
    return BulkCounts(*(counts[:, effect].reshape(shape) for effect in (CLEAN, MISS, NEUTRAL)))


def bulk_still_needed(counts: BulkCounts, bars: Sequence[SideBar], weights: Sequence[Fraction]) -> Whole:
    """Clean specimens still missing, (people, ledgers, windows); 0 where passed.

    ``bars``: one for each ledger. ``weights``: one for each window.
    """
    missing = np.empty_like(counts.clean)
    for ledger, bar in enumerate(bars):
        for number, weight in enumerate(weights[: missing.shape[2]]):
            misses, which = np.unique(counts.misses[:, ledger, number], return_inverse=True)
            needed = np.array([evalue.clean_needed(int(k), bar, weight) for k in misses], dtype=np.int64)
            missing[:, ledger, number] = np.maximum(0, needed[which] - counts.clean[:, ledger, number])
    return missing
