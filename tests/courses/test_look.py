"""The pieces of the look: each says the same to eyes and to ears, and danger never by colour alone."""

import pytest

from tests.courses.drawing import Sample, drawn, piece
from tests.courses.look_samples import COW_PARSLEY, HEMLOCK, SAMPLES, SCHOOL
from tests.courses.markup import found


def test_what_people_typed_is_escaped():
    html = piece("line", "title=title note=title", title='<script>alert("x")</script>')
    assert "<script>" not in html
    assert "&lt;script&gt;" in html


@pytest.mark.parametrize("level", ["deadly", "poisonous", "dangerous"])
def test_danger_has_its_mark_and_its_word_beside_the_colour(level):
    (mark,) = found(piece("danger_mark", f'level="{level}"'), "span", "danger")
    assert mark.text.lower() == level
    assert found(piece("danger_mark", f'level="{level}"'), "svg")


@pytest.mark.parametrize("level", ["unpleasant", "harmless"])
def test_what_is_no_danger_to_life_has_neither_rust_nor_mark(level):
    html = piece("danger_mark", f'level="{level}"')
    assert found(html, "span", "danger") == []
    assert found(html, "svg") == []
    assert level in html.lower()


def test_a_scientific_name_is_italic_and_marked_as_latin():
    html = piece("scientific_name", "name=plant.name common=plant.common_name", plant=HEMLOCK)
    (name,) = found(html, "i")
    assert (name.text, name.attributes["lang"]) == ("Conium maculatum", "la")
    assert found(html, "span", "common-name")[0].text == "Hemlock"


def test_a_species_without_a_common_name_is_named_once():
    assert piece("scientific_name", "name=it common=it", it="Sonchus asper").count("Sonchus asper") == 1


def test_a_pair_says_which_side_is_mistaken_for_which():
    html = piece("pair_line", 'gathered=one mistaken=other danger="dangerous"', one=COW_PARSLEY, other=HEMLOCK)
    (names,) = found(html, "span", "pair-names")
    assert names.text == "Cow parsley Anthriscus sylvestris mistaken for it: Hemlock Conium maculatum"


def test_the_month_strip_is_heard_as_the_names_of_the_months_that_show():
    html = piece("month_strip", "months=months current=4", months=[3, 4])
    cells = found(html, "span", "month")
    assert [place for place, cell in enumerate(cells, 1) if "shows" in cell.classes] == [3, 4]
    assert [place for place, cell in enumerate(cells, 1) if "now" in cell.classes] == [4]
    assert found(html, "span", "unseen")[0].text == "shows in March April, now too"
    assert found(html, "span", "month-strip")[0].attributes["aria-hidden"] == "true"


def test_a_strip_of_nothing_says_so():
    assert "shows in no month" in piece("month_strip", "months=months", months=[])


def test_the_ladder_says_in_words_what_the_tally_shows():
    html = piece("ladder", "clean=13 misses=2 needed=36 still=23")
    assert len(found(html, "b", "done")) == 13
    assert len(found(html, "b")) == 36
    assert html.count('<b class="done"></b></span><span class="gate">') == 2
    assert html.count('<b class="faint"></b></span><span class="gate">') == 5
    assert found(html, "p", "ladder-words")[0].text == "13 clean · 2 misses · 36 needed · 23 to go"
    assert found(html, "span", "tally")[0].attributes["aria-hidden"] == "true"


def test_each_tally_begins_a_gate_of_its_own():
    html = drawn('{% for n in "ab" %}' + Sample("tally", "done=3 still=0").markup + "{% endfor %}")
    assert html.count('<span class="gate"><b class="done"></b><b class="done"></b><b class="done"></b></span>') == 2


def test_a_ladder_that_is_climbed_says_so_without_rounding_anything():
    words = found(piece("ladder", "clean=13 misses=0 needed=13 still=0"), "p", "ladder-words")[0].text
    assert words == "13 clean · no miss · 13 needed · enough"


def test_the_edible_side_speaks_of_recognising_and_shows_no_danger():
    html = piece("ladder", "clean=3 misses=2 needed=10 still=7 edible=True")
    assert "3 recognised · 2 not recognised" in found(html, "p", "ladder-words")[0].text
    assert found(html, "span", "danger") == []


def test_figures_are_one_tap_away_and_shut_until_then():
    html = piece(
        "sentence_with_figures",
        "sentence=sentence figures=figures",
        sentence="Seven more.",
        figures=[("clean", 6)],
    )
    (details,) = found(html, "details")
    assert "open" not in details.attributes
    assert found(html, "summary")[0].text == "Seven more. The figures"
    assert found(html, "dd")[0].text == "6"


def test_a_list_of_gaps_without_gaps_says_that_nothing_is_missing():
    assert found(piece("gap_list", "gaps=gaps", gaps=[]), "p", "gap-none")[0].text == "Nothing is missing."


@pytest.mark.parametrize(
    ("status", "word"),
    [
        ("met", "Met"),
        ("unmet", "Not met"),
        ("expired", "Expired"),
        ("suspended", "Suspended"),
        ("withdrawn", "Withdrawn"),
        ("current", "Current"),
    ],
)
def test_a_status_is_a_word_with_a_mark_of_its_own(status, word):
    html = piece("status_word", f'status="{status}"')
    shapes = {tuple(sorted(each.attributes.items())) for each in found(html) if each.tag in ("path", "circle")}
    assert found(html, "span", "status")[0].text == word
    assert shapes


def test_no_two_statuses_share_a_mark():
    drawings = [
        piece("mark", f'name="{name}"')
        for name in ("met", "unmet", "part", "current", "expired", "suspended", "withdrawn", "review", "waiting")
    ]
    assert len(set(drawings)) == len(drawings)


def test_a_drawing_is_always_labelled_as_one():
    html = piece("photo", 'src="/a.png" alt="" width=4 height=5 drawn=True')
    assert "Drawing, not a photograph" in found(html, "figcaption")[0].text


def test_the_picture_of_a_question_is_covered_by_nothing_and_says_no_name():
    html = piece("photo", 'src="/a.png" alt="Photo 3" width=4 height=5 plain=True')
    assert "photo-plain" in found(html, "figure")[0].classes
    assert found(html, "figcaption") == []


def test_the_pager_keeps_what_was_searched_for():
    (sample,) = [each for each in SAMPLES if each.piece == "pager"]
    links = [each.attributes["href"] for each in found(drawn(sample.markup, **sample.context), "a")]
    assert links == ["?q=cow&amp;page=1".replace("&amp;", "&"), "?q=cow&page=3"]


@pytest.mark.parametrize("inputs", ["school=school", "school=school long=True"])
def test_the_cautions_name_every_thing_that_the_school_must_say(inputs):
    words = drawn(Sample("cautions", inputs).markup, school=SCHOOL).lower()
    for needed in (
        "certain",
        "not a licence",
        "law",
        "own",
        "protected",
        "allerg",
        "medicine",
        "licensed professional",
    ):
        assert needed in words


def test_whom_to_call_has_both_numbers_ready_to_tap():
    links = [each.attributes["href"] for each in found(piece("whom_to_call", "school=school", school=SCHOOL), "a")]
    assert links == ["tel:112", "tel:0555010010"]


def test_without_numbers_the_page_says_what_to_look_up():
    assert "poisons service where you are" in piece("whom_to_call", "school=school", school=None)


def test_the_invented_school_says_how_to_begin_again_only_when_it_is_stale():
    assert "demo --reset" in piece("demo_note", "days=15 stale=True")
    assert "demo --reset" not in piece("demo_note", "days=3")
