"""Which dangerous plants are beyond an assessor."""

from hypothesis import given
from hypothesis import strategies as st

from assessments.rules.competence import Competence, beyond

PLANTS = st.dictionaries(st.integers(1, 9), st.frozensets(st.sampled_from("abcdef"), min_size=1), max_size=6)
HELD = st.frozensets(st.sampled_from("abcdef"))


def test_who_holds_one_pair_of_a_plant_was_shown_to_tell_it():
    dangerous = {1: {"a", "b"}, 2: {"c"}}
    assert beyond(dangerous, Competence(frozenset("b"))) == {2}


def test_who_holds_nothing_confirms_no_dangerous_plant():
    assert beyond({1: {"a"}, 2: {"c"}}, Competence(frozenset())) == {1, 2}


@given(PLANTS)
def test_a_founder_confirms_every_plant(dangerous):
    assert not beyond(dangerous, Competence(frozenset(), is_founder=True))


@given(PLANTS, HELD, HELD)
def test_another_pair_never_takes_a_plant_away(dangerous, held, more):
    assert beyond(dangerous, Competence(held | more)) <= beyond(dangerous, Competence(held))
