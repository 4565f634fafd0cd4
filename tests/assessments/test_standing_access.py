"""Who may open the pages of a standing, what is not found, and how often they ask the database."""

from html import unescape

import pytest

from tests.courses.markup import found
from tests.courses.pages import same_queries
from tests.factories.species import make_species

from .evidence import PaperTrail
from .standing_pages import figures_that_open, ledger_url, page, text_of


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
