"""Stages and live runs of many people at once: the same figures as ``stages.stage_cover`` and ``live.live_run``."""

from dataclasses import dataclass

import numpy as np

from .bulk import CLEAN, MISS, Individuals, Rows, Small, effects_in, held
from .columns import WindowColumns
from .sorting import Flags, Whole, starts_of_runs


@dataclass(frozen=True, slots=True)
class BulkStages:
    """Clean specimens of a stage since its last miss, and its misses: (people, ledgers, windows, stages)."""

    clean: Whole
    misses: Whole


@dataclass(frozen=True, slots=True)
class BulkRuns:
    """The live runs in the first window: (people, ledgers). Fields as in ``live.LiveRun``."""

    clean: Whole
    occasions: Whole
    misses: Whole


def _first_gathers(known: Individuals, windows: WindowColumns, number: int) -> Rows:
    """The first gather of every individual gathered in a window: the answer that decides there."""
    gathers = known.gathers
    inside = np.flatnonzero(held(gathers, windows, number))
    some = inside[starts_of_runs(gathers.group[inside])]
    columns = (gathers.group, gathers.row, gathers.when, gathers.person, gathers.shown_at)
    return Rows(*(column[some] for column in columns))


def _replaced(column: Whole, at: Whole, by: Whole) -> Whole:
    """A copy of a column with other values at some places."""
    copy = column.copy()
    copy[at] = by
    return copy


def _since_last(misses: Flags, when: Whole, key: Whole, keys: int) -> Flags:
    """Which entries come after the last miss of their key."""
    last = np.full(keys, -1, dtype=np.int64)
    np.maximum.at(last, key[misses], when[misses])
    since: Flags = when > last[key]
    return since


def bulk_stages(known: Individuals, windows: WindowColumns) -> BulkStages:
    """How far every stage is covered, for every person, ledger and window."""
    answers, many = known.answers, windows.opened_at.shape[1]
    keys = known.accounts * answers.stages
    clean, misses = (np.empty((many, keys), dtype=np.int64) for _ in range(2))
    by_first = known.account * answers.stages + answers.stage[known.first.row]
    for number in range(many):
        effect = effects_in(known, windows, number)
        gathers = _first_gathers(known, windows, number)
        by_gather = known.account[gathers.group] * answers.stages + answers.stage[gathers.row]
        key = _replaced(by_first, gathers.group, by_gather)
        when = _replaced(known.first.when, gathers.group, gathers.when)
        missed = effect == MISS
        counted = (effect == CLEAN) & _since_last(missed, when, key, keys)
        clean[number] = np.bincount(key[counted], minlength=keys)
        misses[number] = np.bincount(key[missed], minlength=keys)
    shape = (many, answers.people, answers.ledgers, answers.stages)
    return BulkStages(*(np.moveaxis(each.reshape(shape), 0, 2) for each in (clean, misses)))


def _met_live(known: Individuals, windows: WindowColumns) -> tuple[Small, Flags]:
    """What each individual says in the first window, and which ones were judged there in front of the plant."""
    judged, live = known.judged.copy(), known.answers.live.astype(bool)
    met = held(known.first, windows, 0) & live[known.first.row] & ((judged == CLEAN) | (judged == MISS))
    inside = held(known.gathers, windows, 0)
    group = known.gathers.group[inside]
    judged[group] = MISS
    met[group[live[known.gathers.row[inside]]]] = True
    return judged, met


def bulk_live_runs(known: Individuals, windows: WindowColumns) -> BulkRuns:
    """The live run of every person and ledger."""
    answers = known.answers
    judged, met = _met_live(known, windows)
    gathers = _first_gathers(known, windows, 0)
    row = _replaced(known.first.row, gathers.group, gathers.row)[met]
    when = _replaced(known.first.when, gathers.group, gathers.when)[met]
    account, missed = known.account[met], judged[met] == MISS
    in_run = ~missed & _since_last(missed, when, account, known.accounts)
    places = np.unique(account[in_run] * answers.cells + answers.cell[row[in_run]]) // max(1, answers.cells)
    shape = (answers.people, answers.ledgers)
    return BulkRuns(
        *(
            np.bincount(each, minlength=known.accounts).reshape(shape)
            for each in (account[in_run], places, account[missed])
        )
    )
