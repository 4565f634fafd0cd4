"""Sorting what came in: proposals, putting together, moving, and out of the tray into the bank."""

from datetime import UTC, date, datetime, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from species.actions.determinations import determine
from species.actions.sorting import move_pictures, put_together
from species.actions.specimens import SpecimenRefusal
from species.models import Individual, Photo, Specimen
from species.queries.bank import specimens_in_bank
from species.queries.to_name import next_to_name
from species.rules.bank import Why
from species.rules.vocabulary import Settlement, Use
from tests.factories.assessments import make_live_evidence
from tests.factories.species import SpecimenFactory, give_picture, make_species

TRAY, TOGETHER = reverse("species:tray"), reverse("species:tray_together")
START = datetime(2026, 4, 12, 10, 0, tzinfo=UTC)
COMPLETE = {
    "stage": "rosette", "use": "assessment", "seen_on": "2026-04-12", "locality": "Long Bank", "form": "",
    "rights_holder": "F. Finder", "licence": "CC BY 4.0", "photographer": "F. Finder",
}  # fmt: skip


@pytest.fixture
def plants(school):
    return make_species("goodleaf"), make_species("badleaf", deadly=True)


def came_in(minutes: float = 0, *, use: str = "", spot: tuple[float, float] | None = None) -> Specimen:
    """A specimen in the tray with one picture, taken so many minutes after ten."""
    taken = START + timedelta(minutes=minutes)
    made = SpecimenFactory(
        use=use, stage="", species=None, settlement=Settlement.UNDETERMINED.value, seen_on=taken.date()
    )
    photo = give_picture(made)
    photo.taken_at, photo.camera = taken, "one"
    if spot:
        photo.latitude, photo.longitude = spot
    photo.save()
    return Specimen.objects.get(pk=made.pk)


def page_of(specimen: Specimen) -> str:
    return reverse("species:tray_group", args=[specimen.key])


def complete(specimen: Specimen, **more: object) -> dict[str, object]:
    return {**COMPLETE, **{f"part-{photo.key}": "leaf" for photo in specimen.photos.all()}, **more}


def test_pictures_within_a_moment_are_proposed_and_put_together_when_somebody_says_so(signed_in, tutor):
    first, second, other = came_in(), came_in(1), came_in(60)
    client = signed_in(tutor)
    proposals = client.get(TRAY).context["proposals"]
    assert [each.keys for each in proposals] == [f"{first.key},{second.key}"]
    assert Specimen.objects.count() == 3
    client.post(TOGETHER, {"proposal": proposals[0].keys})
    assert {(each.key, each.photos.count()) for each in Specimen.objects.all()} == {(first.key, 2), (other.key, 1)}
    assert Individual.objects.count() == 2


def test_all_proposals_can_be_agreed_to_at_once(signed_in, tutor):
    for minutes in (0, 1, 60, 61):
        came_in(minutes)
    client = signed_in(tutor)
    shown = client.get(TRAY)
    client.post(TOGETHER, {"proposal": [each.keys for each in shown.context["proposals"]]})
    assert sorted(each.photos.count() for each in Specimen.objects.all()) == [2, 2]


def test_what_somebody_took_apart_is_not_proposed_again(signed_in, tutor):
    first, second = came_in(), came_in(1)
    put_together([first.key, second.key])
    picture = second.photos.model.objects.filter(specimen=first).last()
    signed_in(tutor).post(reverse("species:tray_move", args=[first.key]), {"photo": picture.key, "to": ""})
    assert Specimen.objects.count() == 2
    assert signed_in(tutor).get(TRAY).context["proposals"] == []


def test_a_picture_can_be_moved_to_another_group_and_an_empty_group_goes(signed_in, tutor):
    first, second = came_in(), came_in(30)
    address = reverse("species:tray_move", args=[first.key])
    signed_in(tutor).post(address, {"photo": first.photos.get().key, "to": second.key})
    assert Specimen.objects.get() == second
    assert second.photos.count() == 2


def test_the_last_picture_stays_and_nothing_chosen_is_said(signed_in, tutor):
    first = came_in()
    address = reverse("species:tray_move", args=[first.key])
    shown = signed_in(tutor).post(address, {"photo": first.photos.get().key}, follow=True).content.decode()
    assert "leave at least one" in shown
    assert "tick what you mean" in signed_in(tutor).post(address, follow=True).content.decode()
    assert "tick what you mean" in signed_in(tutor).post(TOGETHER, {"chosen": first.key}, follow=True).content.decode()


def test_pictures_of_two_days_are_not_one_specimen(signed_in, tutor):
    first, second = came_in(), came_in(3 * 24 * 60)
    shown = signed_in(tutor).post(TOGETHER, {"chosen": [first.key, second.key]}, follow=True).content.decode()
    assert "taken on different days" in shown
    assert Specimen.objects.count() == 2


def test_groups_with_different_names_are_not_put_together(tutor, plants):
    first, second = came_in(), came_in(1)
    for specimen, plant in zip((first, second), plants, strict=True):
        determine(specimen, said=plant.name, species=plant, by=tutor.user, now=timezone.now())
    with pytest.raises(SpecimenRefusal, match=Why.NAMES_DIFFER.value):
        put_together([first.key, second.key])
    assert Specimen.objects.count() == 2


def test_a_name_that_came_along_stays_with_the_group(tutor, plants):
    first, second = came_in(), came_in(1)
    determine(second, said="badleaf", species=plants[1], by=tutor.user, now=timezone.now())
    kept = put_together([first.key, second.key])
    assert (kept.species, kept.settlement, kept.determinations.count()) == (plants[1], Settlement.SINGLE, 1)


@pytest.mark.parametrize("use", [Use.TEACHING.value, Use.ASSESSMENT.value])
def test_nothing_moves_out_of_or_into_what_has_left_the_tray(school, use):
    sorted_one, other = came_in(use=use), came_in(1)
    pictures = {sorted_one: sorted_one.photos.get().key, other: other.photos.get().key}
    for step in (
        lambda: put_together([sorted_one.key, other.key]),
        lambda: move_pictures(sorted_one.key, [pictures[sorted_one]], other.key),
        lambda: move_pictures(other.key, [pictures[other]], sorted_one.key),
    ):
        with pytest.raises(SpecimenRefusal, match=Why.SORTED.value):
            step()
    assert [each.photos.count() for each in Specimen.objects.all()] == [1, 1]


def test_a_picture_of_another_group_is_not_moved_by_a_forged_form(school):
    first, second, third = came_in(), came_in(1), came_in(2)
    with pytest.raises(SpecimenRefusal, match=Why.ELSEWHERE.value):
        move_pictures(first.key, [third.photos.get().key], second.key)


def test_with_everything_said_it_leaves_the_tray_with_a_first_name(signed_in, tutor, plants):
    specimen = came_in()
    response = signed_in(tutor).post(page_of(specimen), complete(specimen, said="Bad leaf", characters="rim"))
    assert response.status_code == 302
    specimen.refresh_from_db()
    photo = Photo.objects.get()
    assert (specimen.use, specimen.stage, specimen.form) == ("assessment", "rosette", "typical")
    assert (specimen.species, specimen.settlement) == (plants[1], Settlement.SINGLE)
    assert (photo.part, photo.rights_holder, photo.licence) == ("leaf", "F. Finder", "CC BY 4.0")
    assert specimen.individual.locality.name == "Long Bank"


@pytest.mark.parametrize("missing", ["stage", "use", "rights_holder", "licence", "part", "seen_on"])
def test_nothing_leaves_the_tray_without_stage_part_rights_licence_and_use(signed_in, tutor, missing):
    specimen = came_in()
    name = f"part-{specimen.photos.get().key}" if missing == "part" else missing
    response = signed_in(tutor).post(page_of(specimen), {**complete(specimen), name: ""})
    assert response.status_code == 422
    assert 'value="Long Bank"' in response.content.decode()
    specimen.refresh_from_db()
    assert (specimen.use, specimen.stage, Photo.objects.get().licence) == ("", "", "")


@pytest.mark.parametrize(
    ("said", "sentence"), [({"said": "badlaef"}, "Nearest: badleaf"), ({"seen_on": "2999-01-01"}, "lies ahead")]
)
def test_a_wrong_answer_is_a_sentence_and_nothing_is_half_done(signed_in, tutor, plants, said, sentence):
    specimen = came_in()
    response = signed_in(tutor).post(page_of(specimen), complete(specimen, **said))
    assert sentence in response.content.decode()
    assert Specimen.objects.in_the_tray().count() == 1


def test_the_same_plant_weeks_later_is_another_specimen_of_the_same_individual(signed_in, tutor):
    spot = (51.47790, -2.58330)
    before = came_in(use=Use.TEACHING.value, spot=spot)
    later = came_in(21 * 24 * 60, spot=spot)
    client = signed_in(tutor)
    assert "was met" in client.get(page_of(later)).content.decode() or before.pk
    client.post(page_of(later), complete(later, seen_on="2026-05-03", met_before=str(before.individual_id)))
    later.refresh_from_db()
    assert later.individual == before.individual
    assert later.seen_on == date(2026, 5, 3)
    assert Individual.objects.count() == 1


def test_a_plant_from_elsewhere_cannot_be_claimed_as_the_same(signed_in, tutor):
    elsewhere = came_in(use=Use.TEACHING.value, spot=(52.0, -2.0))
    later = came_in(21 * 24 * 60, spot=(51.4779, -2.5833))
    signed_in(tutor).post(page_of(later), complete(later, met_before=str(elsewhere.individual_id)))
    later.refresh_from_db()
    assert later.individual != elsewhere.individual


def test_what_lies_in_the_tray_is_shown_to_nobody_else(client, signed_in, participant, assessor, tutor):
    specimen = came_in()
    address = reverse("species:photo", args=[specimen.photos.get().key, 400])
    assert client.get(address).status_code == 404
    assert signed_in(participant).get(address).status_code == 404
    response = signed_in(tutor).get(address)
    assert (response.status_code, response["Cache-Control"]) == (200, "private, no-store")
    assert next_to_name(assessor.user.pk) is None
    assert not specimens_in_bank({})


def test_the_tray_is_for_those_who_bring_photographs_in(client, signed_in, participant, assessor):
    specimen = came_in()
    addresses = [TRAY, page_of(specimen)]
    assert [client.get(each).status_code for each in addresses] == [302, 302]
    for person in (participant, assessor):
        assert [signed_in(person).get(each).status_code for each in addresses] == [403, 403]
        assert signed_in(person).post(TOGETHER, {"proposal": specimen.key}).status_code == 403
        assert signed_in(person).post(page_of(specimen), complete(specimen)).status_code == 403


def test_the_pages_of_a_specimen_lead_to_the_tray_and_its_other_steps_wait(signed_in, tutor):
    specimen = came_in()
    client = signed_in(tutor)
    assert client.get(reverse("species:specimen", args=[specimen.key]))["Location"] == page_of(specimen)
    shown = client.post(reverse("species:specimen_use", args=[specimen.key]), follow=True).content.decode()
    assert "sort it first" in shown
    assert "Sort 1 that came in" in client.get(reverse("species:bank")).content.decode()


def test_what_somebody_was_asked_about_never_was_in_the_tray(participant, tutor):
    specimen = came_in(use=Use.ASSESSMENT.value)
    make_live_evidence(participant.user, specimen, "refuse", by=tutor.user)
    with pytest.raises(SpecimenRefusal):
        move_pictures(specimen.key, [specimen.photos.get().key])


def test_the_tray_asks_the_database_as_often_however_much_is_in_it(signed_in, tutor):
    client = signed_in(tutor)

    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            assert client.get(TRAY).status_code == 200
        return len(queries)

    came_in()
    asked()
    few = asked()
    for minutes in range(1, 8):
        came_in(minutes)
    assert asked() == few
