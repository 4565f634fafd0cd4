"""Drawing frames on a photograph: in numbers, without the script."""

import pytest
from django.db import IntegrityError, connection, transaction
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from species.actions.regions import RegionRefusal, draw_region
from species.models import Character, CharacterState, Photo, Region
from species.queries.regions import regions_of
from species.rules.regions import Frame
from tests.factories.species import SpecimenFactory, give_picture


@pytest.fixture
def character(school) -> Character:
    made = Character.objects.create(key="rim-vein", name="Vein along the rim", organ="leaf", sense="eye")
    CharacterState.objects.create(character=made, key="there", text="runs along the rim")
    return made


@pytest.fixture
def photo(school) -> Photo:
    return give_picture(SpecimenFactory())


def page(photo: Photo) -> str:
    return reverse("species:photo_page", args=[photo.key])


def box(of: Character, **more: object) -> dict[str, object]:
    return {
        "character": of.pk,
        "shape": "rectangle",
        "x": "25",
        "y": "50",
        "width": "50",
        "height": "25",
        **more,
    }


def test_a_rectangle_is_kept_as_fractions_and_shown(signed_in, tutor, photo, character):
    client, state = signed_in(tutor), character.states.get()
    assert client.post(page(photo), box(character, state=state.pk)).status_code == 302
    shown = regions_of([photo.pk])[photo.pk]
    assert [(each.frame, each.character_key, each.state_key) for each in shown] == [
        (Frame(0.25, 0.5, 0.5, 0.25), "rim-vein", "there")
    ]
    content = client.get(page(photo)).content.decode()
    assert '<rect class="region" x="100" y="280" width="200" height="140"/>' in content
    assert "runs along the rim" in content
    assert Region.objects.get().drawn_by == tutor.user


def test_a_circle_has_a_radius_of_the_width(signed_in, tutor, photo, character):
    values = {"character": character.pk, "shape": "circle", "x": "50", "y": "50", "radius": "12.5"}
    content = signed_in(tutor).post(page(photo), values, follow=True).content.decode()
    assert '<circle class="region" cx="200" cy="280" r="50"/>' in content


def test_several_on_one_photograph_and_the_same_one_twice_is_one(signed_in, tutor, photo, character):
    client = signed_in(tutor)
    for left in ("25", "30", "25"):
        client.post(page(photo), box(character, x=left))
    assert [each.number for each in regions_of([photo.pk])[photo.pk]] == [1, 2]


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"x": "60"}, "reaches over the edge"),
        ({"x": "101"}, "less than or equal to 100"),
        ({"width": "0.5"}, "too small to be seen"),
        ({"width": ""}, "draw it on the picture, or write the number"),
        ({"shape": "circle"}, "draw it on the picture, or write the number"),
        ({"x": "NaN"}, "Enter a number"),
        ({"character": "999"}, "Select a valid choice"),
        ({"shape": "star"}, "Select a valid choice"),
    ],
)
def test_what_cannot_be_drawn_is_a_sentence_and_what_was_written_stays(
    signed_in, tutor, photo, character, wrong, sentence
):
    response = signed_in(tutor).post(page(photo), box(character, **wrong))
    assert response.status_code == 422
    assert sentence in response.content.decode()
    assert 'value="25"' in response.content.decode()
    assert not Region.objects.exists()


def test_a_state_of_another_character_is_refused(signed_in, tutor, photo, character):
    other = Character.objects.create(key="smell", name="Smell", organ="leaf", sense="nose")
    response = signed_in(tutor).post(page(photo), box(other, state=character.states.get().pk))
    assert "That is a state of “Vein along the rim”" in response.content.decode()
    with pytest.raises(ValueError, match="is no state of"):
        draw_region(photo, Frame(0, 0, 1, 1), other, character.states.get(), by=None, now=timezone.now())


def test_neither_the_step_nor_the_database_takes_a_frame_beside_the_picture(photo, character):
    with pytest.raises(RegionRefusal):
        draw_region(photo, Frame(0.9, 0, 0.2, 0.2), character, by=None, now=timezone.now())
    for wrong in ({"x": 0.9, "width": 0.2, "height": 0.2}, {"x": 0.1}, {"x": 0.1, "radius": 0.1, "width": 0.1}):
        with pytest.raises(IntegrityError), transaction.atomic():
            Region.objects.create(photo=photo, character=character, y=0, drawn_at=timezone.now(), **wrong)


def test_a_frame_can_be_rubbed_out_on_its_own_photograph_only(signed_in, tutor, photo, character):
    region = draw_region(photo, Frame(0, 0, 1, 1), character, by=None, now=timezone.now())
    other = give_picture(SpecimenFactory())
    client = signed_in(tutor)
    client.post(reverse("species:region_remove", args=[other.key, region.pk]))
    assert Region.objects.count() == 1
    client.post(reverse("species:region_remove", args=[photo.key, region.pk]))
    assert not Region.objects.exists()


def test_determiners_look_and_keepers_draw(client, signed_in, participant, assessor, photo, character):
    assert client.get(page(photo)).status_code == 302
    assert signed_in(participant).get(page(photo)).status_code == 403
    shown = signed_in(assessor).get(page(photo))
    assert shown.status_code == 200
    assert "Draw a frame" not in shown.content.decode()
    assert signed_in(assessor).post(page(photo), box(character)).status_code == 403
    assert not Region.objects.exists()


def test_the_page_of_a_photograph_names_no_plant(signed_in, tutor, photo):
    assert photo.specimen.species.name not in signed_in(tutor).get(page(photo)).content.decode()


def test_regions_of_many_photographs_are_one_query(photo, character):
    for left in (0, 0.1, 0.2):
        draw_region(photo, Frame(left, 0, 0.5, 0.5), character, by=None, now=timezone.now())
    other = give_picture(SpecimenFactory())
    with CaptureQueriesContext(connection) as queries:
        found = regions_of([photo.pk, other.pk])
    assert (len(queries), len(found[photo.pk]), found[other.pk]) == (1, 3, [])
