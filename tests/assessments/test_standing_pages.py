"""The page of a standing, and the answers behind each of its figures."""

import re
from html import unescape

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.models import Seen, Voiding
from species.models import Specimen
from species.rules.vocabulary import Settlement
from tests.courses.markup import faults, found
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.species import SpecimenFactory, determine, make_species

from .evidence import START, PaperTrail, a_full_record, open_windows

FIGURE = re.compile(r"\d+")


def page(name: str, *args) -> str:
    return reverse(f"assessments:{name}", args=args)


def text_of(client, url: str) -> str:
    answer = client.get(url)
    assert answer.status_code == 200, url
    return answer.content.decode()


def ledger_url(standard, species, side="dangerous", query="", person=None) -> str:
    if person is None:
        return page("ledger", standard.key, species.key, side) + query
    return page("ledger_of", person.pk, standard.key, species.key, side) + query


@pytest.fixture
def record(participant, standard, pair, tutor):
    """Two windows, and everything that can happen to an answer."""
    open_windows(participant.user, 0, 30)
    a_full_record(participant.user, standard, pair, tutor.user)


def figures_that_open(html: str) -> list[tuple[str, int]]:
    """Address and number of every link whose words begin with a number of answers."""
    links = [(unescape(each.attributes["href"] or ""), each.text) for each in found(html, "a")]
    counting = ("show=needed", "show=counted")
    return [
        (href, int(words.split()[0]))
        for href, words in links
        if "show=" in href and FIGURE.match(words) and not any(part in href for part in counting)
    ]


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


def test_the_person_sees_the_pictures_of_their_own_papers_and_they_open(signed_in, participant, standard, pair, record):
    client = signed_in(participant)
    html = text_of(client, ledger_url(standard, pair.mistaken))
    pictures = [each.attributes for each in found(html, "img")]
    assert pictures
    assert all("/sit/" in (each["src"] or "") and each["alt"] for each in pictures)
    assert client.get(pictures[0]["src"]).status_code == 200
    live = [each for each in found(html, "li", "answer") if "· live ·" in each.text]
    assert len(live) == 2
    assert len(pictures) == len(found(html, "li", "answer")) - len(live)


def test_the_pictures_of_an_annulled_sitting_are_gone(signed_in, participant, standard, pair, record):
    sitting = Specimen.objects.filter(evidence__decision="gather").first().evidence.first().sitting
    type(sitting).objects.filter(pk=sitting.pk).update(annulled_at=timezone.now())
    client = signed_in(participant)
    html = text_of(client, ledger_url(standard, pair.mistaken, query="?show=reason-sitting_annulled&window=1"))
    assert found(html, "li", "answer")
    assert found(html, "img") == []


def test_a_tutor_sees_somebody_elses_answers_with_pictures_of_the_bank(
    signed_in, tutor, participant, standard, pair, record
):
    client = signed_in(tutor)
    html = text_of(client, ledger_url(standard, pair.mistaken, person=participant.user))
    assert participant.name in html
    sources = [each.attributes["src"] for each in found(html, "img")]
    assert sources
    assert all("/sit/" not in (source or "") for source in sources)
    assert client.get(sources[0]).status_code == 200


def test_whoever_sees_the_pictures_of_somebody_elses_answers_is_never_asked_them(
    signed_in, tutor, participant, standard, pair, record
):
    client, url = signed_in(tutor), ledger_url(standard, pair.mistaken, person=participant.user)
    for _twice in range(2):
        shown = len(found(text_of(client, url), "img"))
    seen = Seen.objects.filter(person=tutor.user)
    assert {each.why for each in seen} == {Seen.PREVIEW}
    pictured = Specimen.objects.filter(species=pair.mistaken, evidence__medium="photo").distinct()
    assert seen.count() == pictured.count()
    assert shown == seen.count() + 1  # one plant was answered twice


def test_looking_at_ones_own_answers_notes_nothing(signed_in, participant, standard, pair, record):
    text_of(signed_in(participant), ledger_url(standard, pair.mistaken))
    assert not Seen.objects.filter(why=Seen.PREVIEW).exists()


def test_every_link_of_somebody_elses_standing_stays_with_that_person(
    signed_in, organiser, participant, standard, record
):
    client = signed_in(organiser)
    html = text_of(client, page("standing_of", participant.user.pk, standard.key))
    hrefs = [unescape(each.attributes["href"] or "") for each in found(html, "a")]
    ledgers = [href for href in hrefs if "/species/" in href and "/standing/" in href]
    assert ledgers
    assert all(f"/standing/of/{participant.user.pk}/" in href for href in ledgers)
    for href, number in figures_that_open(html):
        if "show=misses" in href:
            assert len(found(text_of(client, href), "li", "answer")) == number


OWN = [("ledger", True), ("set_aside", False)]


@pytest.mark.parametrize(("name", "is_ledger"), OWN)
def test_pages_ask_for_a_sign_in_and_of_others_for_the_permission(
    client, signed_in, stranger, organiser, participant, standard, pair, name, is_ledger
):
    more = [pair.mistaken.key, "dangerous"] if is_ledger else []
    own = page(name, standard.key, *more)
    other = page(f"{name}_of", participant.user.pk, standard.key, *more)
    assert client.get(own).status_code == client.get(other).status_code == 302
    assert signed_in(stranger).get(other).status_code == 403
    assert signed_in(stranger).get(own).status_code == 200
    assert client.post(own).status_code == 405
    assert signed_in(organiser).get(other).status_code == 200
    assert client.get(page(f"{name}_of", 9999, standard.key, *more)).status_code == 404


def test_a_stranger_sees_nothing_of_somebody_elses_answers(signed_in, stranger, standard, pair, record):
    html = text_of(signed_in(stranger), ledger_url(standard, pair.mistaken))
    assert found(html, "li", "answer") == []


@pytest.mark.parametrize(
    "query", ["?show=luck", "?show=stage-", "?window=x", "?window=9", "?show=clean&window=3", "?show=reason-none"]
)
def test_a_figure_that_is_not_there_is_not_found(signed_in, participant, standard, pair, record, query):
    assert signed_in(participant).get(ledger_url(standard, pair.mistaken, query=query)).status_code == 404


def test_a_plant_a_side_or_a_standard_that_is_not_there_is_not_found(signed_in, participant, standard, pair):
    client = signed_in(participant)
    for url in (
        page("ledger", standard.key, "no-plant", "dangerous"),
        page("ledger", standard.key, pair.mistaken.key, "edible"),
        page("ledger", standard.key, pair.mistaken.key, "sideways"),
        page("ledger", "nothing", pair.mistaken.key, "dangerous"),
        page("set_aside", "nothing"),
    ):
        assert client.get(url).status_code == 404, url


@pytest.mark.parametrize("who", ["participant", "tutor"])
def test_more_answers_ask_no_more_of_the_database(request, signed_in, participant, standard, pair, tutor, record, who):
    client = signed_in(request.getfixturevalue(who))
    person = None if who == "participant" else participant.user

    def grow():
        trail = PaperTrail(participant.user, standard, tutor.user, 80)
        for species, decision in [(pair.mistaken, "refuse"), (pair.gathered, "gather")] * 4:
            trail.answer(species, decision)
        trail.answer(make_species("thirdleaf"), "leave")

    assert same_queries(client, ledger_url(standard, pair.mistaken, person=person), grow)


def test_more_pairs_and_answers_ask_no_more_for_the_standing(signed_in, participant, standard, pair, tutor, record):
    def grow():
        PaperTrail(participant.user, standard, tutor.user, 81).answer(pair.mistaken, "refuse")

    assert same_queries(signed_in(participant), page("my_standing"), grow)


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
