"""Planning a standard: plots and tables before anybody sits, two side by side, other numbers, nonsense."""

from itertools import pairwise

import pytest
from django.urls import reverse

from assessments.queries.planning_plot import Curve, counting_axis, line_plot, share_axis
from tests.courses.markup import faults, found
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.species import PairFactory, SpecimenFactory, give_picture, make_species

URL = "/standards/planning/"
LEADER = {"key": "leader", "name": "Walk leader", "miss_limit": "0.10", "miss_alpha": "0.05", "leads_walks": True}


@pytest.fixture
def leader(standard, pair):
    return make_standard(pair, **LEADER)


def page(client, **asked: object) -> str:
    answer = client.get(URL, asked)
    assert answer.status_code == 200
    return answer.content.decode()


def rows_of(html: str, caption: str) -> list[list[str]]:
    """The cells of the first table with this caption, row by row."""
    body = html.split(f"<caption>{caption}")[1].split("<tbody>")[1].split("</tbody>")[0]
    return [[cell.text for cell in (*found(row, "th"), *found(row, "td"))] for row in body.split("<tr>") if row.strip()]


def test_organisers_and_tutors_may_plan(signed_in, standard, organiser, tutor):
    for person in (organiser, tutor):
        assert signed_in(person).get(URL).status_code == 200


def test_nobody_else_may(client, signed_in, standard, participant, stranger):
    assert client.get(URL).status_code == 302
    for person in (participant, stranger):
        assert signed_in(person).get(URL).status_code == 403
    assert signed_in(participant).post(URL).status_code in (403, 405)


def test_the_chance_to_pass_is_that_of_the_decision_rule(signed_in, tutor, standard):
    """Within 13, 25 and 38 specimens, by exact recursion; 7.2 % ever at the limit of one in five."""
    rows = rows_of(page(signed_in(tutor)), "Chance to pass one dangerous plant")
    assert ["2 %", "77 %", "93 %", "97 %", "99 %"] in rows
    assert ["20 %", "5.5 %", "6.7 %", "7 %", "7.2 %"] in rows


def test_specimens_are_told_as_mean_half_and_nine_in_ten(signed_in, tutor, standard):
    rows = rows_of(page(signed_in(tutor)), "Specimens until one dangerous plant is passed")
    assert ["5 %", "33.8", "13", "75"] in rows
    assert rows[-1] == ["20 %", "17.3", "never", "never"]


def test_the_bank_is_held_against_what_is_needed(signed_in, tutor, standard, bank, pair):
    html = page(signed_in(tutor))
    assert ["badleaf", "6", "13", "25"] in rows_of(html, "What the bank holds")
    assert "nobody can pass from photographs alone, however good: it lacks specimens of badleaf (6 of 13)" in html
    for _each in range(19):
        give_picture(SpecimenFactory(species=pair.mistaken))
    assert "The bank is big enough" in page(signed_in(tutor))


def test_required_stages_raise_the_least_and_are_listed(signed_in, tutor, pair, bank):
    make_standard(pair, required_stages=("rosette", "flower", "fruit", "seedling"))
    html = page(signed_in(tutor))
    assert rows_of(html, "What the bank holds")[0][:3] == ["badleaf", "6", "16"]
    assert rows_of(html, "Stages that must be shown")[0] == ["badleaf, rosette (basal leaves)", "6", "4"]


def test_questions_a_week_follow_the_weeks(signed_in, tutor, standard):
    html = page(signed_in(tutor), standard=standard.pk, weeks=2)
    assert rows_of(html, "Questions for one person, on average")[0] == ["never errs", "13", "5", "22", "11"]


def test_two_standards_stand_side_by_side_on_the_same_axes(signed_in, tutor, standard, leader):
    html = page(signed_in(tutor), standard=standard.pk, against=leader.pk, weeks=8)
    assert len(found(html, "svg", "plot")) == 10
    assert "Participant, version 1" in html
    assert "Walk leader, version 1" in html
    captions = [each.text for each in found(html, "caption")]
    assert "Chance to pass one dangerous plant: Walk leader, version 1" in captions
    assert len(captions) == len(set(captions))


def test_other_numbers_make_a_draft_beside_the_standard(signed_in, tutor, standard):
    html = page(signed_in(tutor), standard=standard.pk, weeks=8, miss_limit="15")
    assert "Participant, version 1, with other numbers" in html
    assert [row[1] for row in rows_of(html.split("with other numbers</h3>")[1], "The numbers of the rule")][1] == "15 %"


def test_a_draft_can_be_planned(signed_in, tutor, pair):
    draft = make_standard(pair, key="new", name="New", in_use=False)
    assert "New, version 1 (draft)" in page(signed_in(tutor), standard=draft.pk, weeks=8)


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        ("miss_limit", "0", "cannot be shown by any number of plants"),
        ("miss_limit", "120", "cannot be shown by any number of plants"),
        ("refusal_alpha", "0", "without any such chance nobody could pass"),
        ("miss_ratio", "1", "above 1, and at most 1000"),
        ("weeks", "0", "A course lasts at least one week"),
        ("miss_limit", "0.5", "more than 1500 are not calculated"),
        ("miss_limit", "many", "Enter a number"),
    ],
)
def test_nonsense_is_said_and_stays_in_its_field(signed_in, tutor, standard, field, typed, sentence):
    answer = signed_in(tutor).get(URL, {"standard": standard.pk, "weeks": 8, field: typed})
    html = answer.content.decode()
    assert answer.status_code == 422
    assert sentence in html
    assert any(each.attributes.get("value") == typed for each in found(html, "input"))


def test_an_unknown_standard_is_a_sentence(signed_in, tutor, standard):
    assert signed_in(tutor).get(URL, {"standard": 9999, "weeks": 8}).status_code == 422


def test_a_school_without_a_standard_is_told_what_to_do(signed_in, tutor):
    assert "No standard to plan with yet" in page(signed_in(tutor))


def test_the_page_is_sound_and_every_plot_is_said_in_words(signed_in, tutor, standard, leader, bank):
    html = page(signed_in(tutor), standard=standard.pk, against=leader.pk, weeks=8)
    assert faults(html) == []
    plots = found(html, "svg", "plot")
    assert all(plot.attributes["role"] == "img" for plot in plots)
    assert all("table gives every figure" in words.text for words in found(html, "desc"))


def test_more_plants_and_pictures_ask_no_more_of_the_database(signed_in, tutor, standard, bank):
    def grow() -> None:
        more = PairFactory(gathered=make_species("niceleaf"), mistaken=make_species("worseleaf", deadly=True))
        make_standard(more, key="second", name="Second")
        give_picture(SpecimenFactory(species=more.mistaken))

    assert same_queries(signed_in(tutor), f"{URL}?standard={standard.pk}&weeks=8", grow)


def test_a_plot_keeps_its_lines_inside_and_its_words_apart():
    axes = (counting_axis("Weeks", 24, 4), share_axis("Chance"))
    curves = [Curve(word, [(4, 0.5), (24, end)]) for word, end in (("a", 0.51), ("b", 2.0), ("c", 0.5))]
    plot = line_plot("k", "title", "words", axes, curves, (0.2, "level"))
    for line in plot.lines:
        points = [tuple(map(int, point.split(","))) for point in line.points.split()]
        assert all(plot.left <= x <= plot.right and plot.top <= y <= plot.bottom for x, y in points)
    assert plot.level is not None
    heights = sorted(each.word_y for each in (*plot.lines, plot.level))
    assert all(below - above >= 17 for above, below in pairwise(heights))
    assert heights[-1] <= plot.bottom


def test_the_address_of_the_page_is_known_by_name():
    assert reverse("assessments:planning") == URL
