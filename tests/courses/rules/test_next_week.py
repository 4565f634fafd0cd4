"""What somebody should see next: what was gathered lately first, then what is deadly."""

from hypothesis import given
from hypothesis import strategies as st

from courses.rules.next_week import Need, Shows, in_order_of_need, pairs_in_need, what_shows
from courses.rules.progress import Far, Progress


def need(pair: str, far: Far = Far.ON_THE_WAY, missing: int = 9, missed: int = 0, deadly: bool = False) -> Need:
    return Need(pair, Progress(pair, far, missing, 0), missing, 0, missed, deadly)


def test_what_was_gathered_lately_comes_before_what_is_deadly_and_nearly_done_before_far() -> None:
    needs = [
        need("new", Far.NOT_BEGUN, 3),
        need("far", missing=12),
        need("near", Far.NEARLY, 2),
        need("deadly", missing=20, deadly=True),
        need("missed", missed=1),
    ]
    assert [each.pair for each in in_order_of_need(needs)] == ["missed", "deadly", "near", "far", "new"]


def test_a_passed_pair_is_left_out_unless_it_was_missed_since() -> None:
    passed, missed = need("a", Far.PASSED, 0), need("b", Far.PASSED, 0, missed=1)
    assert in_order_of_need([passed, missed]) == (missed,)


def test_a_pair_is_counted_with_everybody_who_needs_it() -> None:
    found = pairs_in_need([(1, need("a", missing=4)), (2, need("a", missing=7, missed=2)), (2, need("b"))])
    assert [(each.pair, each.people, each.missed, each.dangerous) for each in found] == [
        ("a", (1, 2), 1, 7),
        ("b", (2,), 0, 9),
    ]


def test_every_combination_of_what_shows_has_its_word() -> None:
    words = {what_shows(gathered, mistaken) for gathered in (True, False) for mistaken in (True, False)}
    assert words == set(Shows)
    assert what_shows(True, False) is Shows.GATHERED


@given(st.lists(st.builds(need, st.text("ab", min_size=1, max_size=3), missing=st.integers(0, 9)), max_size=9))
def test_the_order_depends_on_the_needs_alone(needs) -> None:
    assert in_order_of_need(needs) == in_order_of_need(reversed(needs))
