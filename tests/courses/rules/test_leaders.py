"""Who leads which walk: against every assignment there is on small cases, and by its laws."""

from datetime import UTC, datetime, timedelta
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from courses.rules.leaders import Bar, Candidate, WalkFacts, propose_leaders, spread_cost

START = datetime(2026, 5, 2, 9, tzinfo=UTC)


def walk(key: str, hours: float = 0, lasts: float = 3) -> WalkFacts:
    return WalkFacts(key, START + timedelta(hours=hours), START + timedelta(hours=hours + lasts))


def apart(count: int) -> list[WalkFacts]:
    return [walk(f"w{n}", 24 * n) for n in range(count)]


def best_by_hand(walks, people) -> tuple[int, int]:
    """Over every assignment: the most walks that can be led, and the least cost of spreading at that number."""
    best = (0, 0)
    for picks in product([None, *range(len(people))], repeat=len(walks)):
        if any(p is not None and walks[w].key in people[p].bars for w, p in enumerate(picks)):
            continue
        pairs = [(a, b) for a in range(len(walks)) for b in range(a) if picks[a] is not None and picks[a] == picks[b]]
        if any(walks[a].overlaps(walks[b]) for a, b in pairs):
            continue
        led = sum(p is not None for p in picks)
        cost = sum(spread_cost(person.led, picks.count(p)) for p, person in enumerate(people))
        best = max(best, (led, -cost))
    return best


def worth(walks, people, found) -> tuple[int, int]:
    names = [each.person for each in found]
    cost = sum(spread_cost(person.led, names.count(person.key)) for person in people)
    return sum(name is not None for name in names), -cost


@st.composite
def cases(draw):
    walks = [walk(f"w{n}", draw(st.sampled_from([0, 2, 5, 30]))) for n in range(draw(st.integers(1, 4)))]
    people = [
        Candidate(f"p{n}", draw(st.integers(0, 3)), {w.key: Bar.NOT_READY for w in walks if draw(st.booleans())})
        for n in range(draw(st.integers(1, 3)))
    ]
    return walks, people


@settings(deadline=None, max_examples=60)
@given(case=cases())
def test_it_is_as_good_as_the_best_of_all_assignments(case) -> None:
    walks, people = case
    assert worth(walks, people, propose_leaders(walks, people)) == best_by_hand(walks, people)


@settings(deadline=None, max_examples=40)
@given(case=cases())
def test_nobody_leads_where_barred_or_in_two_places_at_once(case) -> None:
    walks, people = case
    by_key = {person.key: person for person in people}
    chosen = [(w, each.person) for w, each in zip(walks, propose_leaders(walks, people), strict=True) if each.person]
    assert all(w.key not in by_key[person].bars for w, person in chosen)
    assert not any(a is not b and p == q and a.overlaps(b) for a, p in chosen for b, q in chosen)


def test_walks_are_spread_and_whoever_led_more_leads_less() -> None:
    found = propose_leaders(apart(4), [Candidate("busy", led=3), Candidate("free")])
    assert [each.person for each in found].count("free") >= 3


def test_a_walk_that_one_alone_can_lead_gets_that_one() -> None:
    walks = [walk("easy"), walk("hard", 1)]
    people = [Candidate("able"), Candidate("limited", bars={"hard": Bar.LACKS_PAIRS})]
    assert [each.person for each in propose_leaders(walks, people)] == ["limited", "able"]


def test_a_gap_says_what_bars_everybody() -> None:
    (found,) = propose_leaders([walk("w")], [Candidate("a", bars={"w": Bar.NOT_FREE})])
    assert found.person is None
    assert found.barred == {"a": Bar.NOT_FREE}
    assert propose_leaders([walk("w")], [])[0].person is None


def test_the_same_facts_give_the_same_proposal() -> None:
    people = [Candidate(name) for name in ("a", "b", "c")]
    assert propose_leaders(apart(7), people) == propose_leaders(apart(7), people)
