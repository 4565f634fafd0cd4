"""What is missing for a pass: each gap with its figures, by importance, and the shortest way to closing them."""

from datetime import date, timedelta

from assessments.rules.gaps import GapReason
from assessments.rules.standard import PairFacts, WindowFacts
from assessments.rules.ways import Way

from .specimens import (
    CICELY_PAIR,
    GATHER,
    HEMLOCK_PAIR,
    LEAVE,
    LILY_PAIR,
    PERIOD_END,
    REFUSE,
    START,
    caught,
    gathered,
    live,
    recognised,
    shown,
    stand,
    standard,
)

SECOND = WindowFacts(2, START + timedelta(days=60), PERIOD_END)
EARLY, LATE = START + timedelta(days=30), START + timedelta(days=70)


def reasons(result):
    return [gap.reason for gap in result.gaps]


def met_live(times, place="the mill", month=4):
    return [live("hemlock", REFUSE, locality=place, day=date(2031, month, 1)) for _ in range(times)]


def test_a_miss_in_a_stage_is_told_from_one_never_shown():
    facts = standard(PairFacts("p", "cow-parsley", "hemlock", required_stages=("rosette", "fruit")))
    answers = [*gathered(1, stage="rosette"), *caught(40, stage="flower"), *recognised(5)]
    assert reasons(stand(answers, facts)) == [GapReason.STAGE_MISSED, GapReason.STAGE_SHORT]


def test_the_live_run_is_needed_for_every_pair_of_the_species():
    facts = standard(HEMLOCK_PAIR, CICELY_PAIR, live_run=3, live_occasions=2)
    answers = [*caught(13), *recognised(5), *recognised(5, "cicely")]
    result = stand([*answers, *met_live(2)], facts)
    gap = result.gaps[0]
    assert (gap.reason, gap.pairs) == (GapReason.LIVE_SHORT, ("cowparsley-hemlock", "cicely-hemlock"))
    assert (gap.clean, gap.needed, gap.still_needed, gap.occasions, gap.occasions_needed) == (2, 3, 1, 1, 2)
    assert stand([*answers, *met_live(2), *met_live(1, "the weir")], facts).passed


def test_enough_live_specimens_from_one_occasion_lack_only_another_occasion():
    facts = standard(live_run=3, live_occasions=2)
    assert reasons(stand([*caught(13), *recognised(5), *met_live(3)], facts)) == [GapReason.LIVE_OCCASIONS]
    result = stand([*caught(13), *recognised(5), *met_live(4)], facts)
    assert reasons(result) == [GapReason.LIVE_OCCASIONS]
    assert (result.ways[0].specimens, result.ways[0].live, result.ways[0].occasions) == (1, 1, 1)


def test_a_live_miss_is_told_from_never_met_live():
    facts = standard(live_run=3, live_occasions=2)
    answers = [*caught(40), *recognised(5), live("hemlock", GATHER)]
    assert reasons(stand(answers, facts)) == [GapReason.LIVE_MISSED]


def test_gaps_come_by_importance_and_then_in_the_order_of_the_standard():
    stages = ("rosette",)
    facts = standard(
        PairFacts("ramsons-lily", "ramsons", "lily"),
        PairFacts("cowparsley-hemlock", "cow-parsley", "hemlock", required_stages=stages),
        live_run=3,
        live_occasions=2,
    )
    result = stand([*gathered(1), shown("ramsons", REFUSE)], facts)
    assert [(gap.reason, gap.species) for gap in result.gaps] == [
        (GapReason.DANGEROUS_MISSED, "hemlock"),
        (GapReason.DANGEROUS_SHORT, "lily"),
        (GapReason.LIVE_SHORT, "lily"),
        (GapReason.LIVE_SHORT, "hemlock"),
        (GapReason.STAGE_SHORT, "hemlock"),
        (GapReason.EDIBLE_MISSED, "ramsons"),
        (GapReason.EDIBLE_SHORT, "cow-parsley"),
    ]


def test_a_gap_carries_its_figures():
    answers = [*caught(9), *gathered(1), shown("hemlock", LEAVE), *recognised(5)]
    gap = stand(answers).gaps[0]
    assert (gap.clean, gap.misses, gap.neutral, gap.needed, gap.still_needed) == (9, 1, 1, 24, 15)
    assert (gap.species, gap.pairs, gap.window) == ("hemlock", ("cowparsley-hemlock",), 1)


def test_the_gap_of_an_edible_species_carries_its_figures():
    gap = stand([*caught(13), *recognised(6), shown("cow-parsley", REFUSE)]).gaps[0]
    assert gap.reason is GapReason.EDIBLE_MISSED
    assert (gap.clean, gap.misses, gap.needed, gap.still_needed) == (6, 1, 8, 2)
    assert gap.pairs == ("cowparsley-hemlock",)


def test_the_gap_of_an_edible_species_names_all_its_pairs_and_no_other():
    fools = PairFacts("cowparsley-foolsparsley", "cow-parsley", "fools-parsley")
    result = stand([], standard(HEMLOCK_PAIR, LILY_PAIR, fools))
    found = {gap.species: gap.pairs for gap in result.gaps if gap.reason is GapReason.EDIBLE_SHORT}
    assert found["cow-parsley"] == ("cowparsley-hemlock", "cowparsley-foolsparsley")
    assert found["ramsons"] == ("ramsons-lily",)


def test_the_shortest_way_counts_a_specimen_for_the_stage_and_the_count_at_once():
    facts = standard(
        PairFacts("p", "cow-parsley", "hemlock", required_stages=("rosette", "flower")),
        live_run=3,
        live_occasions=2,
    )
    result = stand([*caught(6, stage="fruit"), *caught(3, stage="flower"), *recognised(2)], facts)
    hemlock, parsley = result.ways
    assert (hemlock.species, hemlock.specimens, hemlock.in_any_stage) == ("hemlock", 5, 0)
    assert hemlock.by_stage == (("rosette", 4), ("flower", 1))
    assert (hemlock.live, hemlock.occasions) == (3, 2)
    assert (parsley.species, parsley.specimens) == ("cow-parsley", 3)
    assert (parsley.by_stage, parsley.live, parsley.occasions) == ((), 0, 0)
    assert result.specimens_still_needed == 8


def test_the_way_with_nothing_shown_is_the_whole_of_both_sides():
    result = stand([], windows=())
    assert [way.specimens for way in result.ways] == [13, 5]
    assert result.ways[0].in_any_stage == 13


def test_the_way_asks_for_more_live_specimens_than_the_count_where_it_must():
    result = stand([*caught(13), *recognised(5)], standard(live_run=3, live_occasions=2))
    assert (result.ways[0].specimens, result.ways[0].live) == (3, 3)
    assert len(result.ways) == 1


def test_a_way_asks_for_nothing_live_unless_it_says_so():
    way = Way("hemlock", 3)
    assert (way.by_stage, way.live, way.occasions, way.in_any_stage) == ((), 0, 0, 3)
