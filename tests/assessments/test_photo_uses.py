"""What uses a photograph, before anybody deletes it."""

from django.urls import reverse
from django.utils import timezone

from assessments.queries.photo_uses import uses_of_photo
from species.actions.regions import draw_region
from species.models import Character, Photo
from species.rules.regions import Frame
from tests.factories.assessments import make_live_evidence
from tests.factories.species import SpecimenFactory, give_picture


def page(photo: Photo) -> str:
    return reverse("assessments:photo_uses", args=[photo.key])


def test_papers_are_named_with_their_sittings_and_people_are_only_counted(
    signed_in, tutor, participant, paper, sitting
):
    question = sitting.questions.get(position=1)
    signed_in(participant).get(reverse("assessments:question", args=[paper.key, 1]))
    shown = signed_in(tutor).get(page(question.specimen.photos.get())).content.decode()
    assert "Paper “A paper”: drawn in 1 sitting" in shown
    assert "1 person has seen it" in shown
    assert "It stays" in shown
    assert participant.name not in shown


def test_live_answers_and_frames_are_listed(signed_in, tutor, participant):
    specimen = SpecimenFactory()
    photo = give_picture(specimen)
    make_live_evidence(participant.user, specimen, "refuse", by=tutor.user)
    character = Character.objects.create(key="rim", name="Rim", organ="leaf", sense="eye")
    draw_region(photo, Frame(0, 0, 1, 1), character, by=None, now=timezone.now())
    uses = uses_of_photo(photo)
    assert (uses.spot_tests, uses.answers, uses.regions, uses.is_held) == (("Live check",), 1, 1, True)
    assert "Spot test “Live check”" in signed_in(tutor).get(page(photo)).content.decode()


def test_what_nothing_uses_says_so(signed_in, tutor):
    photo = give_picture(SpecimenFactory())
    assert "it can be deleted" in signed_in(tutor).get(page(photo)).content.decode()


def test_it_is_for_those_who_keep_the_bank(client, signed_in, participant, stranger, assessor):
    photo = give_picture(SpecimenFactory())
    assert client.get(page(photo)).status_code == 302
    for person in (participant, stranger):
        assert signed_in(person).get(page(photo)).status_code == 403
    assert signed_in(assessor).get(page(photo)).status_code == 200
    assert signed_in(assessor).get(page(photo).replace(photo.key, "unknown")).status_code == 404


def test_the_way_there_stands_beside_the_deleting(signed_in, tutor):
    photo = give_picture(SpecimenFactory())
    assert page(photo) in signed_in(tutor).get(reverse("species:photo_page", args=[photo.key])).content.decode()
