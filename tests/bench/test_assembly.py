"""The bench of assembly still runs on what it says it runs on; how long it takes is nobody's test."""

from assessments.rules import programme
from assessments.rules.assembly import Assembly, assemble

from . import assembly as bench


def test_the_invented_bank_is_the_one_that_is_printed() -> None:
    bank = bench.invented_bank()
    assert len(bank.candidates) == bench.PHOTOS == 2000
    assert len({each.species for each in bank.candidates}) == bench.SPECIES == 60
    assert (len(bank.pairs), bank.blueprint.length) == (14, 40)


def test_a_paper_comes_out_of_it_that_meets_every_quota() -> None:
    bank = bench.invented_bank()
    drawn = assemble(bank.candidates, bank.blueprint, 3)
    assert isinstance(drawn, Assembly)
    for quota in bank.blueprint.quotas:
        assert sum(quota.takes(each) for each in drawn.questions) >= quota.at_least


def test_every_side_is_measured_and_the_solver_is_put_back() -> None:
    solver = programme.milp
    found = bench.measured(bench.invented_bank(), rounds=2)
    assert found.keys() == {"whole", "worst", "solver", "ratio", "refused", "nearest"}
    assert programme.milp is solver
