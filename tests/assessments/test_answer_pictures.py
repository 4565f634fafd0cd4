"""Who sees which picture beside an answer, and what is noted of it."""

from django.utils import timezone

from assessments.models import Seen
from species.models import Specimen
from tests.courses.markup import found

from .standing_pages import ledger_url, text_of


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
