"""What certification of persons asks of assessors (CP-4), and of how the same is asked of everybody (CP-11)."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.actions.sittings import Given
from assessments.actions.spot_tests import (
    SpotTestRefused,
    add_station,
    name_station,
    record_answers,
    set_up_spot_test,
)
from assessments.models import Evidence, IdentityCheck, SpotTest
from assessments.queries.competence import competence_of
from courses.actions.certificates import record_event
from courses.actions.founders import FounderRefused, record_founder
from courses.models import Certificate, FoundingAssessor
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.certificates import make_certificate, trust_founder
from tests.factories.people import make_person
from tests.factories.species import LocalityFactory, PairFactory

REFUSED = Given("refuse", "sure", "badleaf")
BEYOND = "over which you held no current certificate on that day"
FORM = {"s1-said": "badleaf", "s1-name_is": "listed", "s1-decision": "refuse", "s1-confidence": "sure"}


def url(name: str, *args: object) -> str:
    return reverse(f"assessments:{name}", args=args)


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


@pytest.fixture
def spot_test(setter, pair) -> SpotTest:
    """One dangerous station and one edible one, held an hour ago, named by the setter alone."""
    now = timezone.now()
    test = set_up_spot_test("By the ditch", LocalityFactory(), now - timedelta(hours=1), setter.user)
    add_station(test, pair.mistaken, "badleaf", "rosette", setter.user, now)
    add_station(test, pair.gathered, "goodleaf", "rosette", setter.user, now)
    return test


def certify(person, standard, organiser, pair, **fields) -> Certificate:
    """A certificate over this pair, issued a week ago."""
    issued = timezone.now() - timedelta(days=7)
    held = make_certificate(person, standard, organiser, issued_at=issued, **fields)
    pairs = [{**held.facts["pairs"][0], "key": each} for each in (pair.key, "another-pair")]
    first = timezone.localdate() - timedelta(days=8)
    Certificate.objects.update(facts={**held.facts, "pairs": pairs}, valid_from=first)
    return Certificate.objects.get(pk=held.pk)


def record(test, person, by, stations=(1,)) -> list[Evidence]:
    given = dict.fromkeys(stations, REFUSED)
    return record_answers(test, person.user, given, by.user, timezone.now(), recognised="sight")


def refusal(test, person, by) -> str:
    """Why nothing was recorded at the dangerous station; empty where it was."""
    try:
        record(test, person, by)
    except SpotTestRefused as refused:
        return refused.sentence
    return ""


def test_cp_04_without_a_certificate_no_evidence_on_a_dangerous_plant_is_confirmed(
    spot_test, participant, assessor
) -> None:
    assert BEYOND in refusal(spot_test, participant, assessor)
    assert not Evidence.objects.exists()
    assert record(spot_test, participant, assessor, stations=(2,))


@pytest.mark.parametrize("leads_walks", [False, True])
def test_cp_04_a_current_certificate_over_the_pair_is_enough_whatever_its_standard(
    spot_test, participant, assessor, organiser, pair, leads_walks
) -> None:
    held_under = make_standard(pair, key="any", leads_walks=leads_walks)
    certify(assessor, held_under, organiser, pair)
    assert refusal(spot_test, participant, assessor) == ""


def test_cp_04_another_pair_is_not_enough(spot_test, participant, assessor, organiser, standard) -> None:
    certify(assessor, standard, organiser, PairFactory())
    assert BEYOND in refusal(spot_test, participant, assessor)


@pytest.mark.parametrize("kind", ["suspended", "withdrawn", "narrowed"])
def test_cp_04_what_was_suspended_withdrawn_or_narrowed_vouches_for_nothing(
    spot_test, participant, assessor, organiser, standard, pair, kind
) -> None:
    held = certify(assessor, standard, organiser, pair)
    record_event(held, kind, organiser, "Because", now=timezone.now(), keeping=["another-pair"])
    assert BEYOND in refusal(spot_test, participant, assessor)


def test_cp_04_what_was_suspended_on_the_day_does_not_count_though_lifted_since(
    spot_test, participant, assessor, organiser, standard, pair
) -> None:
    held, held_at = certify(assessor, standard, organiser, pair), spot_test.held_at
    record_event(held, "suspended", organiser, "A doubt", now=held_at - timedelta(minutes=1))
    record_event(held, "lifted", organiser, "Settled", now=timezone.now())
    assert BEYOND in refusal(spot_test, participant, assessor)
    spot_test.held_at = timezone.now()
    assert refusal(spot_test, participant, assessor) == ""


def test_cp_04_the_day_of_the_test_decides_not_the_day_of_typing_it_in(
    spot_test, participant, assessor, organiser, standard, pair
) -> None:
    held = certify(assessor, standard, organiser, pair)
    Certificate.objects.update(issued_at=spot_test.held_at + timedelta(minutes=1))
    assert BEYOND in refusal(spot_test, participant, assessor)
    Certificate.objects.update(issued_at=held.issued_at, valid_until=timezone.localdate(spot_test.held_at))
    assert refusal(spot_test, participant, assessor) == ""
    Certificate.objects.update(valid_until=timezone.localdate(spot_test.held_at) - timedelta(days=1))
    assert not competence_of(assessor.user, spot_test.held_at).pairs


def test_cp_04_before_anybody_holds_one_a_founding_assessor_confirms(
    spot_test, participant, assessor, organiser
) -> None:
    record_founder(assessor, "Ten seasons here.", by=organiser, today=timezone.localdate())
    spot_test.held_at = timezone.now()
    assert refusal(spot_test, participant, assessor) == ""


def test_cp_04_a_plant_counts_by_every_name_that_was_given_to_it(
    spot_test, participant, assessor, stranger, pair
) -> None:
    edible = spot_test.stations.get(number=2)
    name_station(edible, pair.mistaken, "badleaf", stranger.user, timezone.now())
    assert edible.specimen.species is None
    with pytest.raises(SpotTestRefused):
        record(spot_test, participant, assessor, stations=(2,))


def test_cp_04_the_page_says_so_before_anybody_starts_and_again_instead_of_recording(
    signed_in, spot_test, participant, setter
) -> None:
    client = signed_in(setter)
    assert "badleaf" in text(client.get(url("spot_tests"))).split("Dangerous plants whose answers")[1]
    for name in ("spot_test", "spot_test_record"):
        assert "Station 1 is a dangerous plant" in text(client.get(url(name, spot_test.key)))
    data = {"person": participant.user.email, "recognised": "sight", **FORM}
    answer = client.post(url("spot_test_record", spot_test.key), data)
    assert answer.status_code == 422
    assert "Station 1 is a dangerous plant over which you held no current certificate" in text(answer)
    assert 'value="badleaf"' in answer.content.decode()
    assert not Evidence.objects.exists()


def test_cp_04_whoever_has_still_to_name_a_plant_is_not_told_that_it_is_dangerous(
    signed_in, spot_test, assessor
) -> None:
    client = signed_in(assessor)
    before = [text(client.get(url(name, spot_test.key))) for name in ("spot_test", "spot_test_record")]
    assert not any("Station 1 is" in page or "Among these" in page for page in before)


def test_cp_04_an_organiser_puts_a_founder_on_record_once_and_with_a_reason(signed_in, organiser, assessor) -> None:
    client, address = signed_in(organiser), reverse("courses:founding", args=[assessor.uuid])
    assert "printed in the technical report" in text(client.get(address))
    assert client.post(address, {"reason": " "}).status_code == 422
    assert client.post(address, {"reason": "Ten seasons here."}).status_code == 302
    again = client.post(address, {"reason": "Another reason"})
    assert "on record already" in text(again)
    kept = FoundingAssessor.objects.get()
    assert (kept.reason, kept.recorded_by, kept.recorded_on) == ("Ten seasons here.", organiser, timezone.localdate())
    assert "Ten seasons here." in text(client.get(reverse("courses:person", args=[assessor.uuid])))


def test_cp_04_nobody_but_organisers_vouches_and_nobody_for_themselves_unless_alone(
    signed_in, client, tutor, participant, assessor, organiser
) -> None:
    address = reverse("courses:founding", args=[assessor.uuid])
    assert client.post(address, {"reason": "Me"}).status_code == 302
    for person in (tutor, participant, assessor):
        assert signed_in(person).post(address, {"reason": "Because"}).status_code == 403
    assert not FoundingAssessor.objects.exists()
    other = make_person("Otto Other", "organiser")
    with pytest.raises(FounderRefused):
        record_founder(organiser, "I know", by=organiser, today=timezone.localdate())
    other.roles.all().delete()
    assert record_founder(organiser, "Nobody else is here", by=organiser, today=timezone.localdate())


def test_cp_11_how_a_person_was_recognised_is_asked_kept_and_shown(signed_in, spot_test, participant, setter) -> None:
    trust_founder(setter)
    client, address = signed_in(setter), url("spot_test_record", spot_test.key)
    without = client.post(address, {"person": participant.user.email, **FORM})
    assert without.status_code == 422
    assert "Choose one of the two" in text(without)
    assert not Evidence.objects.exists()
    client.post(address, {"person": participant.user.email, "recognised": "document", **FORM})
    kept = IdentityCheck.objects.get()
    assert (kept.spot_test, kept.person, kept.how, kept.checked_by) == (
        spot_test, participant.user, "document", setter.user
    )  # fmt: skip
    assert "A document with a photograph was shown" in text(client.get(url("spot_test", spot_test.key)))


def test_cp_11_the_step_asks_it_too_and_the_first_time_stands(spot_test, participant, setter, organiser) -> None:
    trust_founder(setter)
    now = timezone.now()
    with pytest.raises(SpotTestRefused, match="how you recognised"):
        record_answers(spot_test, participant.user, {1: REFUSED}, setter.user, now, recognised="a feeling")
    record_answers(spot_test, participant.user, {1: REFUSED}, setter.user, now, recognised="document")
    record_answers(spot_test, participant.user, {2: REFUSED}, organiser.user, now, recognised="sight")
    kept = IdentityCheck.objects.get()
    assert (kept.how, kept.checked_by) == ("document", setter.user)


def test_cp_11_all_live_evidence_has_its_check(spot_test, participant, stranger, setter) -> None:
    trust_founder(setter)
    for person in (participant, stranger):
        record(spot_test, person, setter)
    live = Evidence.objects.filter(station__isnull=False).values_list("station__spot_test", "person")
    assert set(live) == set(IdentityCheck.objects.values_list("spot_test", "person"))
    assert len(live) == 2


def test_cp_04_the_pages_take_as_many_queries_however_many_stations_and_certificates(
    signed_in, spot_test, setter, organiser, standard, pair
) -> None:
    certify(setter, standard, organiser, pair)

    def grow() -> None:
        for _number in range(3):
            make_certificate(setter, standard, organiser, number=f"2026-5{Certificate.objects.count():03d}")
            add_station(spot_test, PairFactory().mistaken, "", "rosette", setter.user, timezone.now())

    client = signed_in(setter)
    assert same_queries(client, url("spot_test", spot_test.key), grow)
    assert same_queries(client, url("spot_test_record", spot_test.key), grow)
    assert same_queries(client, url("spot_tests"), grow)
