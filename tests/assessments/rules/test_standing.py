"""A standing: pairs, what is missing and in which order, and the shortest way to a pass."""

from datetime import date, timedelta

import pytest

from assessments.rules.gaps import GapReason
from assessments.rules.standard import WALK_LEADER, PairFacts, Side, WindowFacts
from assessments.rules.standing import misses_since
from assessments.rules.treatment import Effect, Reason
from species.rules.vocabulary import Danger

from .specimens import (
    GATHER,
    HEMLOCK_PAIR,
    LEAVE,
    LILY_PAIR,
    PERIOD_END,
    REFUSE,
    START,
    WINDOW,
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


def test_both_ledgers_of_the_pair_pass_it():
    result = stand([*caught(13), *recognised(5)])
    assert result.passed
    assert (result.gaps, result.ways, result.specimens_still_needed) == ((), (), 0)


def test_one_short_on_either_side_is_not_passed():
    assert reasons(stand([*caught(12), *recognised(5)])) == [GapReason.DANGEROUS_SHORT]
    assert reasons(stand([*caught(13), *recognised(4)])) == [GapReason.EDIBLE_SHORT]


def test_the_walk_leaders_bars_ask_for_thirty_four_and_eleven():
    facts = standard(bars=WALK_LEADER)
    assert stand([*caught(34), *recognised(11)], facts).passed
    assert not stand([*caught(33), *recognised(11)], facts).passed
    assert not stand([*caught(34), *recognised(10)], facts).passed


@pytest.mark.parametrize("decision", [GATHER, REFUSE, LEAVE])
def test_one_answer_to_everything_never_passes(decision):
    answers = [shown(species, decision, species) for _ in range(60) for species in ("hemlock", "cow-parsley")]
    result = stand(answers)
    assert not result.passed
    assert not result.pairs[0].passed


def test_every_dangerous_pair_is_needed():
    facts = standard(HEMLOCK_PAIR, LILY_PAIR)
    one = [*caught(13), *recognised(5)]
    both = [*one, *caught(13, "lily"), *recognised(5, "ramsons")]
    assert [pair.passed for pair in stand(one, facts).pairs] == [True, False]
    assert not stand(one, facts).passed
    assert stand(both, facts).passed


def test_pairs_that_are_not_dangerous_decide_nothing():
    harmless = PairFacts("nettle-deadnettle", "nettle", "dead-nettle", Danger.HARMLESS)
    unpleasant = PairFacts("a-b", "a", "b", Danger.UNPLEASANT)
    result = stand([*caught(13), *recognised(5)], standard(HEMLOCK_PAIR, harmless, unpleasant))
    assert result.passed
    assert [pair.key for pair in result.pairs] == ["cowparsley-hemlock"]


def test_a_standard_without_a_dangerous_pair_passes_nobody():
    result = stand([], standard(PairFacts("a-b", "a", "b", Danger.UNPLEASANT)))
    assert not result.passed
    assert reasons(result) == [GapReason.NO_PAIRS]
    gap = result.gaps[0]
    assert (gap.clean, gap.misses, gap.neutral, gap.needed, gap.still_needed) == (0, 0, 0, 0, 0)
    assert (gap.occasions, gap.occasions_needed, gap.window) == (0, 0, 1)


def test_a_pair_needs_all_its_stages_covered():
    facts = standard(PairFacts("p", "cow-parsley", "hemlock", required_stages=("rosette", "flower")))
    most = [*caught(13, stage="flower"), *caught(3, stage="rosette"), *recognised(5)]
    result = stand(most, facts)
    assert not result.passed
    gap = result.gaps[0]
    assert (gap.reason, gap.stage, gap.clean, gap.still_needed) == (GapReason.STAGE_SHORT, "rosette", 3, 1)
    assert not result.pairs[0].stages_covered
    whole = stand([*most, *caught(1, stage="rosette")], facts)
    assert whole.passed
    assert whole.pairs[0].stages_covered


def test_each_pair_asks_for_its_own_stages():
    with_stage = PairFacts("cicely-hemlock", "cicely", "hemlock", required_stages=("rosette",))
    answers = [*caught(13, stage="flower"), *recognised(5), *recognised(5, "cicely")]
    result = stand(answers, standard(HEMLOCK_PAIR, with_stage))
    assert [pair.passed for pair in result.pairs] == [True, False]
    assert result.gaps[0].pairs == ("cicely-hemlock",)
    assert [(way.species, way.specimens) for way in result.ways] == [("hemlock", 4)]
    assert [stage.covered for stage in result.pair("cicely-hemlock").stages] == [False]


def test_stages_count_within_the_window_that_passes():
    facts = standard(PairFacts("p", "cow-parsley", "hemlock", required_stages=("rosette",)))
    early = [*gathered(4, stage="flower", at=EARLY), *caught(4, stage="rosette", at=EARLY)]
    late = [*caught(23, stage="flower", at=LATE), *recognised(5)]
    result = stand([*early, *late], facts, (WINDOW, SECOND))
    assert result.ledger("hemlock", Side.DANGEROUS).passed
    assert not result.passed
    assert (result.gaps[0].reason, result.gaps[0].window, result.gaps[0].clean) == (
        GapReason.STAGE_SHORT,
        2,
        0,
    )
    assert stand([*early, *late, *caught(4, stage="rosette", at=LATE)], facts, (WINDOW, SECOND)).passed


def test_the_window_looked_at_is_the_one_in_which_least_is_missing():
    facts = standard(PairFacts("p", "cow-parsley", "hemlock", required_stages=("rosette",)))
    early = [*gathered(1, stage="flower", at=EARLY), *caught(4, stage="rosette", at=EARLY)]
    result = stand([*early, *caught(18, stage="flower", at=LATE), *recognised(5)], facts, (WINDOW, SECOND))
    assert reasons(result) == [GapReason.DANGEROUS_MISSED]
    assert (result.gaps[0].window, result.gaps[0].still_needed) == (1, 2)


def test_a_species_that_cannot_be_met_live_passes_on_photographs():
    facts = standard(live_run=3, live_occasions=2, live_not_required={"hemlock": "grows nowhere near"})
    result = stand([*caught(13), *recognised(5)], facts)
    assert result.passed
    assert result.pairs[0].live.photographs_only
    assert result.pairs[0].live.not_required == "grows nowhere near"


def test_every_answer_has_a_treatment_in_order():
    answers = [
        shown("hemlock", REFUSE, at=LATE),
        shown("dandelion", GATHER, at=EARLY),
        shown(None, GATHER, at=START),
        shown("cow-parsley", REFUSE, void=True, at=LATE + timedelta(hours=1)),
        shown("dandelion", GATHER, void=True, at=LATE + timedelta(hours=2)),
    ]
    assert [(t.species, t.reason) for t in stand(answers).treatments] == [
        (None, Reason.SPECIMEN_NOT_SETTLED),
        ("dandelion", Reason.NOT_IN_STANDARD),
        ("hemlock", Reason.REFUSED),
        ("cow-parsley", Reason.SPECIMEN_VOID),
        ("dandelion", Reason.SPECIMEN_VOID),
    ]


def test_answers_outside_every_ledger_count_as_nothing():
    result = stand([shown("dandelion", GATHER), shown(None, GATHER)])
    assert {treatment.effect for treatment in result.set_aside} == {Effect.NONE}


def test_a_ledger_or_pair_that_the_standard_has_not_is_an_error():
    result = stand([])
    with pytest.raises(KeyError):
        result.ledger("lily", Side.DANGEROUS)
    with pytest.raises(KeyError):
        result.ledger("hemlock", Side.EDIBLE)
    with pytest.raises(KeyError):
        result.pair("ramsons-lily")


def test_a_later_miss_undoes_a_pass():
    answers = [*caught(13), *recognised(5)]
    assert stand(answers).passed
    assert not stand([*answers, *gathered(1)]).passed


def test_a_miss_after_a_moment_is_found_whatever_period_it_falls_in():
    before, after = gathered(1, at=EARLY)[0], gathered(1, at=PERIOD_END + timedelta(days=9))[0]
    others = [
        shown("lily", GATHER, at=LATE),
        shown("hemlock", REFUSE, at=LATE),
        shown("hemlock", GATHER, at=LATE, void=True),
        shown("hemlock", GATHER, at=LATE, annulled=True),
    ]
    assert misses_since(standard(), [after, before, *others], EARLY) == (after,)
    assert misses_since(standard(), [after, before], START) == (before, after)
