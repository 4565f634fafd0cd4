"""What standings cost: all of a large school against bare numpy, and one answer more after a long history.

    .venv/bin/python -m tests.bench.standings

The floor is one stable sort of the same rows by person and species, and one bincount. Arrays only, no database.
CPU time; every round measures both sides, one after the other. Ratios in one run; nothing is asserted.
"""

import gc
import os
import platform
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import islice
from statistics import median

import numpy as np
from numpy.typing import NDArray

from assessments.rules.bulk import BulkCounts, bulk_counts, bulk_still_needed, individuals
from assessments.rules.bulk_cover import BulkRuns, BulkStages, bulk_live_runs, bulk_stages
from assessments.rules.columns import NEVER, AnswerColumns, Said, WindowColumns
from assessments.rules.evidence import AnswerFacts, Decision, Medium, SpecimenFacts
from assessments.rules.names import NameBook
from assessments.rules.standard import PARTICIPANT, PairFacts, Side, StandardFacts, WindowFacts
from assessments.rules.tally import Tally

PEOPLE, ANSWERS, LEDGERS, INDIVIDUALS, STAGES = 10_000, 3_000_000, 20, 4_000, 6
ROUNDS, APPENDED, HISTORIES = 9, 40, (100, 10_000, 1_000_000)
PER_SITTING, MICROSECONDS_A_DAY, DAYS = 20, 86_400_000_000, 700
BARS = [PARTICIPANT.dangerous, PARTICIPANT.edible] * (LEDGERS // 2)
START = datetime(2031, 3, 1, 9, 0, tzinfo=UTC)


@dataclass(frozen=True)
class School:
    """The answers of a made-up school, and its windows."""

    answers: AnswerColumns
    windows: WindowColumns


@dataclass(frozen=True)
class BulkStandings:
    """Everything that standings are read from."""

    counts: BulkCounts
    still_needed: NDArray[np.int64]
    stages: BulkStages
    runs: BulkRuns


def made_up_school(people: int, answers: int, seed: int = 7) -> School:
    """Papers of 20 answers at random moments, rows shuffled; even ledgers are dangerous, odd ones edible."""
    chance = np.random.default_rng(seed)
    row = chance.permutation(answers)
    sitting, position = np.divmod(row, PER_SITTING)
    sittings = answers // PER_SITTING + 1
    person = chance.integers(0, people, sittings)[sitting]
    opened = chance.integers(0, DAYS * MICROSECONDS_A_DAY, sittings)[sitting]
    individual = chance.integers(0, INDIVIDUALS, answers)
    ledger = individual % LEDGERS
    dangerous = [Said.CLEAN] * 85 + [Said.NEUTRAL] * 11 + [Said.GATHERED] * 3 + [Said.ASIDE]
    edible = [Said.CLEAN] * 85 + [Said.MISS] * 13 + [Said.NOTHING] + [Said.ASIDE]
    said = np.array([dangerous, edible], dtype=np.int64)[ledger % 2, chance.integers(0, 100, answers)]
    columns = AnswerColumns(
        person=person,
        ledger=ledger,
        individual=individual,
        cell=individual // (LEDGERS * 3),
        stage=individual // LEDGERS % STAGES,
        said=said,
        live=(chance.integers(0, 10, answers) == 0).astype(np.int64),
        opened_at=opened,
        position=position,
        shown_at=opened + position * 40_000_000,
        specimen=individual,
        people=people,
        ledgers=LEDGERS,
        individuals=INDIVIDUALS,
        cells=INDIVIDUALS // (LEDGERS * 3) + 1,
        stages=STAGES,
    )
    return School(columns, _windows(people, chance))


def _windows(people: int, chance: np.random.Generator) -> WindowColumns:
    """A window for everybody, a second for every third person, a third for every ninth."""
    opened_at = np.sort(chance.integers(0, DAYS * MICROSECONDS_A_DAY // 2, (people, 3)), axis=1)
    closes_at = np.full((people, 3), (DAYS + 1) * MICROSECONDS_A_DAY)
    for number, every in ((1, 3), (2, 9)):
        without = np.arange(people) % every != 0
        opened_at[without, number] = closes_at[without, number] = NEVER
    return WindowColumns(opened_at, closes_at)


def floor(answers: AnswerColumns) -> NDArray[np.int64]:
    """What any way of counting by person and species has to do: rows brought together, and counted."""
    key = answers.person * answers.ledgers + answers.ledger
    order = np.argsort(key, kind="stable")
    return np.bincount(key[order] * len(Said) + answers.said[order])


def rebuilt(school: School) -> BulkStandings:
    """Counts, missing specimens, stages and live runs of everybody in every window."""
    known = individuals(school.answers)
    counts = bulk_counts(known, school.windows)
    missing = bulk_still_needed(counts, BARS, PARTICIPANT.window_weights)
    return BulkStandings(counts, missing, bulk_stages(known, school.windows), bulk_live_runs(known, school.windows))


def seconds(call: Callable[[], object]) -> float:
    """CPU seconds of one call."""
    started = time.process_time()
    call()
    return time.process_time() - started


def rebuilding_against_floor(people: int, answers: int, rounds: int) -> tuple[float, float, float]:
    """Median CPU seconds of the rebuilding and of the floor, and the median of their ratios, round by round."""
    school = made_up_school(people, answers)
    pairs = []
    for turn in range(rounds + 1):
        if turn % 2:
            below = seconds(lambda: floor(school.answers))
            above = seconds(lambda: rebuilt(school))
        else:
            above = seconds(lambda: rebuilt(school))
            below = seconds(lambda: floor(school.answers))
        pairs.append((above, below))
    counted = pairs[1:]
    return (
        median(above for above, _ in counted),
        median(below for _, below in counted),
        median(above / below for above, below in counted),
    )


STANDARD = StandardFacts(
    key="bench",
    name="Bench",
    version=1,
    dangerous=PARTICIPANT.dangerous,
    edible=PARTICIPANT.edible,
    window_weights=PARTICIPANT.window_weights,
    live_run=PARTICIPANT.live_run,
    live_occasions=PARTICIPANT.live_occasions,
    valid_months=24,
    pairs=(PairFacts("cowparsley-hemlock", "cow-parsley", "hemlock"),),
)
WINDOWS = (
    WindowFacts(1, START, START + timedelta(days=DAYS)),
    WindowFacts(2, START + timedelta(minutes=1), START + timedelta(days=DAYS)),
)


def one_after_another() -> Iterator[AnswerFacts]:
    """Answers to hemlock in order: plants two to a place, every fifth seen before, every tenth live.

    Only the third is gathered. What has to be made good after so many misses is an exact whole number, whose
    digits grow with the misses and not with the history, so every history has the same.
    """
    number = 0
    while True:
        number += 1
        plant = number // 2 if number % 5 == 0 else number
        specimen = SpecimenFacts(f"s{number}", f"p{plant}", "hemlock", "flower", f"place{plant // 2}", START.date())
        yield AnswerFacts(
            specimen,
            Decision.GATHER if number == 3 else Decision.REFUSE,
            START + timedelta(seconds=number),
            1,
            START + timedelta(seconds=number),
            medium=Medium.LIVE if number % 10 == 0 else Medium.PHOTO,
        )


def append(tally: Tally, answers: list[AnswerFacts]) -> None:
    """Every answer taken, and the figures read again after each."""
    for answer in answers:
        tally.take(answer)
        for window in tally.windows:
            _ = window.still_needed, window.stage_cover("flower", 4), window.live_run(3, 2)


def appending(histories: tuple[int, ...], rounds: int, appended: int) -> dict[int, float]:
    """Median CPU microseconds of one answer more, after at least so many; the histories take turns."""
    grown = {}
    for many in histories:
        coming, tally = one_after_another(), Tally("hemlock", Side.DANGEROUS, STANDARD, WINDOWS, NameBook([]))
        for answer in islice(coming, many):
            tally.take(answer)
        grown[many] = (tally, coming)
    gc.collect()
    gc.freeze()  # the histories are no concern of the measured calls' own collections
    costs: dict[int, list[float]] = {many: [] for many in histories}
    for _round in range(rounds + 1):
        for many, (tally, coming) in grown.items():
            answers = list(islice(coming, appended))
            costs[many].append(seconds(lambda t=tally, a=answers: append(t, a)) / appended * 1_000_000)  # type: ignore[misc]
    gc.unfreeze()
    return {many: median(costs[many][1:]) for many in histories}


def measure() -> None:
    python, machine = platform.python_version(), platform.processor() or platform.machine()
    print(f"{machine}, {os.cpu_count()} cores, Python {python}, numpy {np.__version__}: {' '.join(sys.orig_argv)}")
    above, below, ratio = rebuilding_against_floor(PEOPLE, ANSWERS, ROUNDS)
    print(f"{PEOPLE} people, {ANSWERS} answers, {LEDGERS} species, 3 windows; medians of {ROUNDS} paired rounds")
    print(f"rebuilding {above:.3f} s CPU, sort and bincount {below:.3f} s: {ratio:.2f} times")
    costs = appending(HISTORIES, ROUNDS, APPENDED)
    first = costs[HISTORIES[0]]
    for many, cost in costs.items():
        print(f"one answer after {many}: {cost:.1f} µs CPU, {cost / first:.2f} times that after {HISTORIES[0]}")


if __name__ == "__main__":
    measure()
