"""The ledgers of many people at once are the ledgers of each of them."""

from datetime import timedelta
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from assessments.rules.bulk import bulk_counts, bulk_still_needed, individuals
from assessments.rules.bulk_cover import bulk_live_runs, bulk_stages
from assessments.rules.columns import Said, answer_columns, says, window_columns
from assessments.rules.ledger import open_ledger
from assessments.rules.live import live_run
from assessments.rules.sorting import stable_order, starts_of_runs
from assessments.rules.stages import stage_cover
from assessments.rules.standard import Side, WindowFacts

from .histories import LEDGERS, STAGES, STANDARD, WINDOWS, an_answer
from .specimens import GATHER, LEAVE, NAMES, PERIOD_END, REFUSE, START, WINDOW, caught, live, shown, standard

SPECIES = [species for species, _ in LEDGERS]
HISTORIES = st.lists(
    st.lists(st.sampled_from([*SPECIES, "dandelion"]).flatmap(an_answer), max_size=20), min_size=1, max_size=4
)
DAY = START.date()
NUMBERS = st.integers(-(2**61), 2**61) | st.integers(-2, 2)


def of_each(histories, windows, facts=STANDARD):
    """Every person's ledgers by the rule itself."""
    return [
        [open_ledger(species, side, facts, history, theirs, NAMES) for species, side in LEDGERS]
        for history, theirs in zip(histories, windows, strict=True)
    ]


def at_once(histories, windows):
    """The same people as columns."""
    columns = answer_columns(histories, LEDGERS, STAGES, STANDARD, NAMES)
    return individuals(columns), window_columns(windows, len(STANDARD.window_weights))


def places(ledgers):
    """Person, ledger and window as the columns number them, with what the rule says there."""
    for person, theirs in enumerate(ledgers):
        for number, ledger in enumerate(theirs):
            for window in ledger.windows:
                yield (person, number, window.number - 1), window


@given(HISTORIES, st.data())
def test_counts_stages_and_runs_of_many_people_are_those_of_each(histories, data):
    windows = [WINDOWS[: data.draw(st.integers(0, 3))] for _ in histories]
    known, columns = at_once(histories, windows)
    counts, stages, runs = (
        bulk_counts(known, columns),
        bulk_stages(known, columns),
        bulk_live_runs(known, columns),
    )
    missing = bulk_still_needed(counts, [STANDARD.bar(side) for _, side in LEDGERS], STANDARD.window_weights)
    for at, window in places(of_each(histories, windows)):
        assert (counts.clean[at], counts.misses[at], counts.neutral[at]) == (
            window.counts.clean,
            window.counts.misses,
            window.counts.neutral,
        )
        assert missing[at] == window.still_needed
        for number, stage in enumerate(STAGES):
            cover = stage_cover(window, stage, 4)
            assert (stages.clean[at][number], stages.misses[at][number]) == (cover.clean, cover.misses)
    for person, ledgers in enumerate(of_each(histories, windows)):
        for ledger in range(len(LEDGERS)):
            run, at = live_run(ledgers[ledger].windows[0], 3, 2), (person, ledger)
            assert (runs.clean[at], runs.occasions[at], runs.misses[at]) == (run.clean, run.occasions, run.misses)


def test_nobody_and_nothing_give_counts_of_nothing():
    known, columns = at_once([[], []], [(WINDOW,), ()])
    counts = bulk_counts(known, columns)
    assert counts.clean.shape == (2, len(LEDGERS), 3)
    assert not counts.clean.any()
    assert not bulk_stages(known, columns).misses.any()
    assert not bulk_live_runs(known, columns).occasions.any()


def test_a_third_from_one_place_and_day_adds_nothing_to_anybody():
    three = [shown("hemlock", REFUSE, locality="bank", day=DAY) for _ in range(3)]
    counts = bulk_counts(*at_once([three, three[1:], caught(3)], [(WINDOW,)] * 3))
    assert counts.clean[:, SPECIES.index("hemlock"), 0].tolist() == [2, 2, 3]


def test_a_neutral_answer_takes_no_place_and_a_miss_takes_one():
    bank: dict[str, Any] = {"locality": "bank", "day": DAY}
    neutral = [shown("hemlock", LEAVE, **bank), *caught(2, **bank)]
    missed = [*(shown("ramsons", LEAVE, **bank) for _ in range(2)), shown("ramsons", REFUSE, "ramsons", **bank)]
    counts = bulk_counts(*at_once([neutral + missed], [(WINDOW,)]))
    assert counts.clean[0, :, 0].tolist() == [2 if species == "hemlock" else 0 for species in SPECIES]
    assert counts.misses[0, SPECIES.index("ramsons"), 0] == 2


def test_two_species_in_one_place_take_no_places_from_each_other():
    answers = [a for s in ("hemlock", "lily") for place in ("a", "b") for a in caught(2, s, locality=place, day=DAY)]
    counts = bulk_counts(*at_once([answers, answers], [(WINDOW,)] * 2))
    assert counts.clean.sum(axis=(0, 2)).tolist() == [8 if s in ("hemlock", "lily") else 0 for s in SPECIES]


def test_nothing_is_missing_once_it_is_passed():
    counts = bulk_counts(*at_once([caught(12), caught(13), caught(14)], [(WINDOW,)] * 3))
    missing = bulk_still_needed(counts, [STANDARD.bar(side) for _, side in LEDGERS], STANDARD.window_weights)
    assert missing[:, SPECIES.index("hemlock"), 0].tolist() == [1, 0, 0]


def test_the_live_run_is_that_of_the_first_window():
    early = [live("lily", REFUSE, individual="a"), live("lily", GATHER), live("lily", REFUSE)]
    later = WindowFacts(2, START + timedelta(days=300), PERIOD_END)
    runs = bulk_live_runs(*at_once([early], [(WINDOW, later)]))
    at = (0, SPECIES.index("lily"))
    assert (runs.clean[at], runs.occasions[at], runs.misses[at]) == (1, 1, 1)


def test_one_place_alone_is_one_occasion():
    runs = bulk_live_runs(*at_once([[live("lily", REFUSE)]], [(WINDOW,)]))
    assert runs.occasions[0].tolist() == [1 if species == "lily" else 0 for species in SPECIES]


def test_one_person_s_answers_to_a_plant_say_nothing_of_another_s():
    first, second = shown("hemlock", GATHER, individual="a"), shown("hemlock", REFUSE, individual="a")
    counts = bulk_counts(*at_once([[first], [second]], [(WINDOW,)] * 2))
    hemlock = SPECIES.index("hemlock")
    assert (counts.misses[:, hemlock, 0].tolist(), counts.clean[:, hemlock, 0].tolist()) == ([1, 0], [0, 1])


def test_a_gather_ends_the_live_run_in_bulk_too():
    answers = [live("hemlock", REFUSE), live("hemlock", GATHER), live("hemlock", REFUSE)]
    runs, at = bulk_live_runs(*at_once([answers], [(WINDOW,)])), (0, SPECIES.index("hemlock"))
    assert (runs.clean[at], runs.occasions[at], runs.misses[at]) == (1, 1, 1)


@pytest.mark.parametrize(
    ("answer", "side", "said"),
    [
        (shown("hemlock", GATHER, void=True), Side.DANGEROUS, Said.ASIDE),
        (shown("hemlock", GATHER, drawn=True), Side.DANGEROUS, Said.ASIDE),
        (shown("hemlock", GATHER, kind="side_by_side"), Side.DANGEROUS, Said.GATHERED),
        (shown("hemlock", REFUSE, kind="side_by_side"), Side.DANGEROUS, Said.NOTHING),
        (shown("hemlock", REFUSE), Side.DANGEROUS, Said.CLEAN),
        (shown("hemlock", LEAVE), Side.DANGEROUS, Said.NEUTRAL),
        (shown("cow-parsley", LEAVE), Side.EDIBLE, Said.MISS),
        (shown("cow-parsley", GATHER, "cow-parsley"), Side.EDIBLE, Said.CLEAN),
    ],
)
def test_an_answer_says_by_itself(answer, side, said):
    assert says(answer, side, standard(), NAMES) is said


@given(st.lists(st.tuples(NUMBERS, NUMBERS, st.integers(0, 3)), max_size=40))
def test_rows_are_ordered_as_a_sort_by_one_key_after_the_other(rows):
    keys = np.array(rows, dtype=np.int64).reshape(len(rows), 3).T
    assert stable_order(tuple(keys)).tolist() == np.lexsort(tuple(keys[::-1])).tolist()


def test_a_run_starts_where_a_value_changes():
    assert starts_of_runs(np.array([4, 4, 2, 4])).tolist() == [True, False, True, True]
    assert starts_of_runs(np.array([], dtype=np.int64)).tolist() == []
