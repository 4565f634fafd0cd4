"""The page of a standing, and the answers behind each of its figures."""

import pytest
from django.utils import timezone

from assessments.models import Voiding
from species.models import Specimen
from species.rules.vocabulary import Settlement
from tests.courses.markup import faults, found
from tests.factories.assessments import make_standard
from tests.factories.species import SpecimenFactory, determine, make_species

from .evidence import START, PaperTrail, open_windows
from .standing_pages import figures_that_open, ledger_url, page, text_of


def test_every_figure_opens_exactly_as_many_answers_as_it_says(signed_in, participant, record):
    client = signed_in(participant)
    opened = figures_that_open(text_of(client, page("my_standing")))
    assert len({href for href, _number in opened}) > 15
    for href, number in opened:
        if "show=all" in href or "stage-" in href:  # the number of a window; "4 of 4" says no more than is needed
            continue
        assert len(found(text_of(client, href), "li", "answer")) == number, href


def test_the_figures_of_later_windows_open_too(signed_in, participant, standard, pair, record):
    client = signed_in(participant)
    opened = figures_that_open(text_of(client, ledger_url(standard, pair.mistaken)))
    later = [(href, number) for href, number in opened if "window=2" in href and "show=all" not in href]
    assert later
    for href, number in later:
        assert len(found(text_of(client, href), "li", "answer")) == number, href


def test_an_answer_says_when_what_was_said_how_it_counts_and_why(signed_in, participant, standard, pair, record):
    html = text_of(signed_in(participant), ledger_url(standard, pair.mistaken, query="?show=misses&window=1"))
    (answer,) = found(html, "li", "answer")
    assert "A miss in window 1" in answer.text
    assert f"“{pair.mistaken.name}”. Gather it. (sure)" in answer.text
    assert "Dangerous, and it would have been gathered" in answer.text
    assert found(html, "time")[0].attributes["datetime"].startswith(str((START).year))
    assert found(html, "span", "danger")


@pytest.mark.parametrize(
    ("reason", "words"),
    [
        ("left", "Left alone because it could not be told"),
        ("unanswered", "Shown, and not answered."),
        ("refused_as_edible", "taken for the plant that one gathers"),
        ("answered_before", "Answer 4 decides."),
        ("two_from_there_already", "Two plants from this place and day count already."),
        ("outside_every_window", "Shown outside every window"),
    ],
)
def test_neutral_and_uncounted_answers_say_why(signed_in, participant, standard, pair, record, reason, words):
    url = ledger_url(standard, pair.mistaken, query=f"?show=reason-{reason}&window=1")
    assert words in found(text_of(signed_in(participant), url), "li", "answer")[0].text


def test_the_answer_that_decides_is_on_the_page_it_is_looked_for(signed_in, participant, standard, pair, record):
    client = signed_in(participant)
    html = text_of(client, ledger_url(standard, pair.mistaken, query="?show=reason-answered_before&window=1"))
    (link,) = [each for each in found(html, "a") if each.text == "Answer 4 decides."]
    address, _hash, place = (link.attributes["href"] or "").partition("#")
    assert place in [each.attributes.get("id") for each in found(text_of(client, address), "li")]


def test_without_any_evidence_the_page_says_what_is_asked_for(signed_in, participant, standard, pair):
    client = signed_in(participant)
    html = text_of(client, page("my_standing"))
    assert "Nothing has counted yet; 13 without a miss are asked for." in html
    assert "There is no such answer." in text_of(client, ledger_url(standard, pair.mistaken, query="?show=clean"))
    assert "It opens with the first test that counts." in text_of(client, ledger_url(standard, pair.mistaken))


def test_three_windows_stand_beside_each_other_with_what_each_asks(signed_in, participant, standard, pair, tutor):
    open_windows(participant.user, 0, 10, 20)
    html = text_of(signed_in(participant), ledger_url(standard, pair.mistaken))
    titles = [each.text for each in found(html, "h2", "window-title")]
    assert titles == ["Window 1", "Window 2", "Window 3"]
    assert html.count(">23<") == 4  # needed and still needed, in either later window


def test_a_voided_plant_stays_on_the_page_and_counts_no_longer(signed_in, participant, standard, pair, record, tutor):
    specimen = Specimen.objects.filter(evidence__decision="gather", species=pair.mistaken).get()
    Voiding.objects.create(specimen=specimen, voided_at=timezone.now(), voided_by=tutor.user, reason="Wrong key")
    client = signed_in(participant)
    assert "The question was taken back, for everybody." in text_of(client, ledger_url(standard, pair.mistaken))
    assert "no miss" in text_of(client, page("my_standing"))


def test_a_disputed_plant_is_set_aside_and_not_named(signed_in, participant, standard, pair, record):
    specimen = Specimen.objects.filter(evidence__decision="gather", species=pair.mistaken).get()
    Specimen.objects.filter(pk=specimen.pk).update(settlement=Settlement.DISPUTED)
    client = signed_in(participant)
    assert page("set_aside", standard.key) in text_of(client, page("my_standing"))
    html = text_of(client, page("set_aside", standard.key))
    assert "two people do not agree on this plant" in html
    assert "Two people have not yet agreed" in html
    assert faults(html) == []


def test_a_plant_named_anew_says_so_and_stands_with_its_new_name(
    signed_in, participant, standard, pair, tutor, assessor
):
    open_windows(participant.user)
    specimen = SpecimenFactory(species=pair.gathered)
    for who in (tutor, assessor):
        row = determine(specimen, pair.gathered, who.user)
        type(row).objects.filter(pk=row.pk).update(determined_at=START)
    PaperTrail(participant.user, standard, tutor.user).answer(pair.gathered, "gather", specimen=specimen)
    for who in (tutor, assessor):
        determine(specimen, pair.mistaken, who.user)
    Specimen.objects.filter(pk=specimen.pk).update(species=pair.mistaken)
    html = text_of(signed_in(participant), ledger_url(standard, pair.mistaken))
    assert "This plant was named anew on" in html


def test_answers_to_plants_of_no_pair_are_set_aside_under_their_name(signed_in, participant, standard, tutor):
    open_windows(participant.user)
    other = make_species("thirdleaf")
    PaperTrail(participant.user, standard, tutor.user).answer(other, "refuse")
    html = text_of(signed_in(participant), page("set_aside", standard.key))
    assert "No dangerous pair of this standard has this plant in it." in html
    assert "Thirdleaf" in html


def test_the_pages_are_sound_markup(signed_in, participant, standard, pair, record):
    client = signed_in(participant)
    make_standard(pair, key="leader", name="Walk leader", leads_walks=True)
    urls = [page("my_standing"), page("standing", "leader"), page("set_aside", standard.key)]
    urls += [ledger_url(standard, pair.mistaken), ledger_url(standard, pair.gathered, "edible")]
    for url in urls:
        html = text_of(client, url)
        assert faults(html) == []
        assert len(found(html, "h1")) == 1


def test_each_ladder_says_in_words_what_it_draws(signed_in, participant, record):
    html = text_of(signed_in(participant), page("my_standing"))
    assert "Seven clean, one miss; 17 more without a miss." in html
    words = found(html, "p", "ladder-words")[0].text
    assert " ".join(words.replace(": badleaf", "").split()) == "7 clean · 1 miss · 24 needed · 17 to go"
    assert all(each.attributes["aria-hidden"] == "true" for each in found(html, "span", "tally"))


def test_the_standing_links_to_the_page_on_sitting_again(signed_in, participant, standard):
    assert page("retakes") in text_of(signed_in(participant), page("my_standing"))


def test_no_standard_in_use_is_said(signed_in, participant):
    assert "No standard is in use yet" in text_of(signed_in(participant), page("my_standing"))
