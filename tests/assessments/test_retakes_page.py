"""The page that explains why sitting again does not help: for everybody, with the school's own numbers."""

from fractions import Fraction
from itertools import pairwise

import pytest
from django.urls import reverse

from assessments.queries.retakes_page import one_in_words, percent
from assessments.queries.retakes_plot import LINE_OF_WORDS, retakes_plot
from assessments.rules.retakes import compare_rules
from assessments.rules.standard import PARTICIPANT, WALK_LEADER
from tests.courses.markup import faults, found
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard

LEADER = {
    "key": "leader",
    "name": "Walk leader",
    "miss_limit": "0.10",
    "miss_alpha": "0.05",
    "live_run": 8,
    "live_occasions": 3,
    "leads_walks": True,
}
URL = "/standards/sitting-again/"


@pytest.fixture
def leader(standard, pair):
    return make_standard(pair, **LEADER)


def rows_of(html: str, table: int = 0) -> list[list[str]]:
    """The cells of one table of the page, row by row."""
    body = html.split("<tbody>")[1 + table].split("</tbody>")[0]
    return [[cell.text for cell in (*found(row, "th"), *found(row, "td"))] for row in body.split("<tr>") if row.strip()]


def test_anybody_may_read_it(client, standard):
    assert client.get(reverse("assessments:retakes")).status_code == 200
    assert client.post(reverse("assessments:retakes")).status_code == 405


@pytest.mark.parametrize("who", ["participant", "tutor", "organiser", "stranger"])
def test_it_is_the_same_for_every_role(request, signed_in, standard, who):
    html = signed_in(request.getfixturevalue(who)).get(URL).content.decode()
    assert "Why you cannot sit again to get lucky" in html
    assert faults(html) == []


def test_the_table_gives_the_figures_of_the_participants_standard(client, standard):
    """Best of n: 1 - (1 - 0.8^11)^n; a clean run: Feller 1968; ours: the exact recursion, 7.2 % for ever."""
    rows = rows_of(client.get(URL).content.decode())
    assert rows[0] == ["1", "8.6 %", "8.6 %", "0 %"]
    assert rows[4] == ["10", "59 %", "90 %", "7.2 %"]
    assert rows[5] == ["20", "83 %", "99 %", "7.2 %"]


def test_the_leaders_standard_stands_beside_it_with_its_own_numbers(client, leader):
    html = client.get(URL).content.decode()
    assert "where 29 plants without a miss would be asked for" in html
    assert ["10", "38 %", "77 %", "3.9 %"] in rows_of(html, 1)
    assert "Without a miss, 34 of a dangerous plant are enough. With one miss it takes 58, which is 24 more." in html
    assert [row[2] for row in rows_of(html, 3)] == ["34", "56", "56"]


def test_what_a_miss_costs_and_what_is_in_reserve_are_said_in_numbers(client, standard):
    html = client.get(URL).content.decode()
    assert (
        "13 of a dangerous plant are enough. With one miss it takes 24, which is 11 more. With two it takes 36" in html
    )
    assert "If you go on to 24 without a miss, one miss later on does not undo it." in html
    assert rows_of(html, 1) == [["1", "80 %", "13"], ["2", "10 %", "23"], ["3", "10 %", "23"]]


def test_standards_with_the_same_numbers_are_told_once(client, standard, pair):
    make_standard(pair, key="second", name="Second")
    html = client.get(URL).content.decode()
    assert len(found(html, "svg", "plot")) == 1
    assert "Participant and Second" in html


def test_the_plot_is_said_in_words_for_those_who_cannot_see_it(client, leader):
    html = client.get(URL).content.decode()
    plots = found(html, "svg", "plot")
    assert len(plots) == 2
    assert all(plot.attributes["role"] == "img" for plot in plots)
    assert "climbs from 8.6 % at the first try to 59 % at the tenth" in found(html, "desc")[0].text


def test_no_standard_in_use_leaves_the_explanation(client, school):
    html = client.get(URL).content.decode()
    assert "No standard is in use yet" in html
    assert "leave the plant alone" in html


def test_more_standards_ask_no_more_of_the_database(client, standard, pair):
    assert same_queries(client, URL, lambda: make_standard(pair, **LEADER))


@pytest.mark.parametrize("bars", [PARTICIPANT, WALK_LEADER])
def test_the_words_of_the_plot_never_touch_and_the_lines_stay_inside(bars):
    plot = retakes_plot(compare_rules(bars.dangerous, bars.window_weights))
    heights = [line.word_y for line in plot.lines]
    assert all(below - above >= LINE_OF_WORDS for above, below in pairwise(heights))
    for line in plot.lines:
        points = [tuple(map(int, point.split(","))) for point in line.points.split()]
        assert all(plot.left <= x <= plot.right and plot.top <= y <= plot.bottom for x, y in points)
        assert [y for _x, y in points] == sorted((y for _x, y in points), reverse=True)


@pytest.mark.parametrize(
    ("share", "words"),
    [(0.0722, "7.2 %"), (0.05, "5 %"), (0.593, "59 %"), (0.9998, "99 %"), (1.0, "100 %"), (0.0, "0 %")],
)
def test_a_share_is_never_rounded_to_certainty(share, words):
    assert percent(share) == words.replace(" ", "\N{NO-BREAK SPACE}")


def test_a_limit_is_said_as_one_would_say_it():
    assert one_in_words(Fraction(1, 5)) == "one in five"
    assert one_in_words(Fraction(1, 20)) == "one in 20"
    assert one_in_words(Fraction(3, 20)) == "15 in a hundred"
