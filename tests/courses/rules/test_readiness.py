"""Readiness to lead, requirement by requirement, with days just inside and just outside."""

from datetime import date, timedelta

import pytest

from courses.rules.certification import State
from courses.rules.readiness import readiness
from courses.rules.requirements import BY_DEFAULT, Asked, Held, LeaderFacts, Leave, Occasion, Proof, Reason, Requirement

DAY = date(2026, 6, 1)


def days(count: int) -> date:
    return DAY + timedelta(days=count)


def check(requirement: Requirement, **facts):
    found = readiness(LeaderFacts(**facts), DAY)
    return next(each for each in found.checks if each.requirement is requirement)


READY = LeaderFacts(
    certificates=(Held(State.CURRENT, days(300)),),
    first_aid=(Proof(days(-10), days(300)),),
    insurance=(Proof(days(-10), None),),
    assisted_on=(days(-1), days(-2), days(-3)),
)


def test_whoever_meets_all_four_is_ready() -> None:
    found = readiness(READY, DAY)
    assert found.ready
    assert found.missing == found.lapsing == ()
    assert [each.requirement for each in found.checks] == [each.requirement for each in BY_DEFAULT]


def test_somebody_of_whom_nothing_is_known_lacks_all_four() -> None:
    found = readiness(LeaderFacts(), DAY)
    assert not found.ready
    assert [each.reason for each in found.missing] == [*[Reason.NEVER_SHOWN] * 3, Reason.TOO_FEW]


@pytest.mark.parametrize(
    ("first", "last", "met", "reason"),
    [
        (-10, 300, True, Reason.MET),
        (-10, 61, True, Reason.MET),
        (-10, 60, True, Reason.LAPSES_SOON),
        (-10, 0, True, Reason.LAPSES_SOON),
        (-10, -1, False, Reason.LAPSED),
        (0, 300, True, Reason.MET),
        (1, 300, False, Reason.NEVER_SHOWN),
    ],
)
@pytest.mark.parametrize("requirement", [Requirement.FIRST_AID, Requirement.INSURANCE])
def test_a_proof_counts_from_its_first_day_through_its_last(requirement, first, last, met, reason) -> None:
    found = check(requirement, **{requirement.value: (Proof(days(first), days(last)),)})
    assert (found.met, found.reason) == (met, reason)


def test_a_proof_without_end_never_lapses_soon() -> None:
    found = check(Requirement.INSURANCE, insurance=(Proof(days(-10), days(3)), Proof(days(-10), None)))
    assert (found.met, found.reason, found.on) == (True, Reason.MET, None)


def test_the_latest_of_several_proofs_counts() -> None:
    found = check(Requirement.FIRST_AID, first_aid=(Proof(days(-900), days(-170)), Proof(days(-170), days(200))))
    assert (found.reason, found.on) == (Reason.MET, days(200))
    lapsed = check(Requirement.FIRST_AID, first_aid=(Proof(days(-900), days(-170)), Proof(days(-100), days(-5))))
    assert (lapsed.reason, lapsed.on) == (Reason.LAPSED, days(-5))


@pytest.mark.parametrize(
    ("state", "reason"),
    [
        (State.EXPIRED, Reason.LAPSED),
        (State.SUSPENDED, Reason.SUSPENDED),
        (State.WITHDRAWN, Reason.WITHDRAWN),
    ],
)
def test_a_certificate_that_is_not_current_says_why(state, reason) -> None:
    found = check(Requirement.CERTIFICATE, certificates=(Held(state, days(5)),))
    assert (found.met, found.reason, found.on) == (False, reason, days(5))


def test_one_current_certificate_outweighs_others() -> None:
    held = (Held(State.WITHDRAWN, days(500)), Held(State.CURRENT, days(40)))
    found = check(Requirement.CERTIFICATE, certificates=held)
    assert (found.met, found.reason, found.on) == (True, Reason.LAPSES_SOON, days(40))


@pytest.mark.parametrize(
    ("assisted", "done"),
    [
        ((-1, -2, -3), 3),
        ((-1, -2), 2),
        ((-1, -2, 0), 2),  # the day itself is not past
        ((-1, -2, 4), 2),
        ((-1, -2, -730), 3),
        ((-1, -2, -731), 2),
    ],
)
def test_walks_assisted_in_two_years_before_the_day(assisted, done) -> None:
    found = check(Requirement.ASSISTED_WALKS, assisted_on=tuple(days(each) for each in assisted))
    assert (found.done, found.needed, found.met) == (done, 3, done >= 3)


def test_what_lapses_soon_is_met_and_listed() -> None:
    soon = LeaderFacts(READY.certificates, (Proof(days(-10), days(20)),), READY.insurance, READY.assisted_on)
    found = readiness(soon, DAY)
    assert found.ready
    assert [each.requirement for each in found.lapsing] == [Requirement.FIRST_AID]


def asked(requirement: Requirement, facts: LeaderFacts, occasion: Occasion | None = None, **more):
    found = readiness(facts, occasion or Occasion(DAY), [Asked(requirement, **more)])
    return [(each.met, each.reason) for each in found.checks]


LASTING = Proof(days(-10), None)


def test_an_induction_is_asked_for_the_site_alone() -> None:
    facts = LeaderFacts(induction={7: (LASTING,)})
    assert asked(Requirement.INDUCTION, facts) == []
    assert asked(Requirement.INDUCTION, facts, Occasion(DAY, site=7)) == [(True, Reason.MET)]
    assert asked(Requirement.INDUCTION, facts, Occasion(DAY, site=8)) == [(False, Reason.NEVER_SHOWN)]


def test_safeguarding_is_asked_where_children_come() -> None:
    nothing = LeaderFacts()
    assert asked(Requirement.SAFEGUARDING, nothing, with_children=True) == []
    with_them = Occasion(DAY, children_come=True)
    assert asked(Requirement.SAFEGUARDING, nothing, with_them, with_children=True) == [(False, Reason.NEVER_SHOWN)]


def test_leave_to_lead_is_for_a_region_and_months() -> None:
    facts = LeaderFacts(leaves=(Leave(LASTING, "North", frozenset({5, 6})),))
    may = [(True, Reason.MET)]
    assert asked(Requirement.LEAVE_TO_LEAD, facts, Occasion(DAY, region="North")) == may
    assert asked(Requirement.LEAVE_TO_LEAD, facts, Occasion(DAY, region="South")) != may
    assert asked(Requirement.LEAVE_TO_LEAD, facts, Occasion(DAY.replace(month=7), region="North")) != may


def test_an_observed_walk_counts_without_end_unless_it_is_said_within() -> None:
    facts = LeaderFacts(observed_on=(days(-900),))
    assert asked(Requirement.OBSERVED_WALK, facts) == [(True, Reason.MET)]
    assert asked(Requirement.OBSERVED_WALK, facts, within_days=730) == [(False, Reason.TOO_FEW)]


def test_a_certificate_counts_at_the_standard_that_is_asked() -> None:
    until = DAY + timedelta(days=300)
    plain = Held(State.CURRENT, until, "participant", leads=False, pairs=10, pairs_named=10)
    leader = Held(State.CURRENT, until, "leader", leads=True, pairs=12, pairs_named=14)
    anything, named = Asked(Requirement.CERTIFICATE), Asked(Requirement.CERTIFICATE, standard="participant")
    assert not readiness(LeaderFacts((plain,)), DAY, [anything]).ready
    assert readiness(LeaderFacts((plain,)), DAY, [named]).ready
    assert not readiness(LeaderFacts((leader,)), DAY, [named]).ready
    check = readiness(LeaderFacts((plain, leader)), DAY, [anything]).checks[0]
    assert (check.met, check.done, check.needed) == (True, 12, 14)


def test_walks_lapse_when_the_one_that_makes_up_the_number_is_too_long_ago() -> None:
    asked = [Asked(Requirement.ASSISTED_WALKS, 2, 100)]
    walked = (days(-90), days(-60), days(-1))
    soon = readiness(LeaderFacts(assisted_on=walked), DAY, asked).checks[0]
    assert (soon.reason, soon.on) == (Reason.LAPSES_SOON, days(40))
    assert readiness(LeaderFacts(assisted_on=walked), days(40), asked).ready
    assert not readiness(LeaderFacts(assisted_on=walked), days(41), asked).ready
    later = readiness(LeaderFacts(assisted_on=(*walked, days(-2))), DAY, asked).checks[0]
    assert (later.reason, later.on) == (Reason.MET, None)
