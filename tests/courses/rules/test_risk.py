"""The headings of a risk assessment (common practice, no source), and what changed between two reviews."""

from hypothesis import given
from hypothesis import strategies as st

from courses.rules.risk import HEADINGS, changes_between, unanswered

TEXTS = st.dictionaries(st.sampled_from(HEADINGS), st.text(max_size=8))


def test_a_change_says_what_stood_and_what_stands() -> None:
    (change,) = changes_between({"ground": "dry", "tools": "none"}, {"ground": "flooded", "tools": "none "})
    assert (change.heading, change.before, change.now) == ("ground", "dry", "flooded")
    assert not change.is_new
    assert not change.is_gone


def test_what_is_new_and_what_is_gone() -> None:
    new, gone = changes_between({"tools": "knives"}, {"ground": "wet"})
    assert new.is_new
    assert gone.is_gone


@given(text=TEXTS)
def test_nothing_changed_against_itself(text) -> None:
    assert changes_between(text, text) == ()


@given(before=TEXTS, now=TEXTS)
def test_changes_come_in_the_order_of_the_headings(before, now) -> None:
    order = [HEADINGS.index(each.heading) for each in changes_between(before, now)]
    assert order == sorted(order)


def test_empty_headings_are_named() -> None:
    assert unanswered({name: "x" for name in HEADINGS if name != "plants"}) == ("plants",)
