"""The pages of the character table: looked through, changed after a look at what follows, and put back."""

import pytest
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from species.models import StateRecord, TableEdit
from species.rules.vocabulary import Frequency, Stage
from tests.species.test_edit_table import marks

HEMLOCK = "conium-maculatum"
MARKS = reverse("species:table_cell", args=[HEMLOCK, "stem_marks"])
PAGES = [
    reverse("species:tables"),
    reverse("species:disagreements"),
    reverse("species:table_csv"),
    reverse("species:table_import"),
    reverse("species:table", args=[HEMLOCK]),
    MARKS,
]


@pytest.fixture
def flora(school) -> None:
    call_command("load_flora", verbosity=0)


def sent(response, **changes: str) -> dict[str, str]:
    """What a browser would send from the form on a page, with some choices changed."""
    form = response.context["form"]
    values = {name: form[name].value() for name in form.fields}
    values.update(changes)
    return {name: str(value) for name, value in values.items() if value not in (None, False, "")}


@pytest.mark.parametrize("address", PAGES)
def test_the_table_is_for_those_who_may_change_species(client, signed_in, flora, participant, tutor, assessor, address):
    assert client.get(address).status_code == 302
    for person in (participant, assessor):
        assert signed_in(person).get(address).status_code == 403
    assert signed_in(tutor).get(address).status_code == 200


def test_a_stranger_changes_nothing(client, signed_in, flora, participant, tutor):
    values = sent(signed_in(tutor).get(MARKS), why="no")
    assert signed_in(participant).post(MARKS, {**values, "save": "1"}).status_code == 403
    assert not TableEdit.objects.exists()


def test_unknown_species_and_characters_are_not_found(signed_in, flora, tutor):
    for args in (["no-plant"], [HEMLOCK, "no_character"], ["no-plant", "stem_marks"]):
        name = "species:table" if len(args) == 1 else "species:table_cell"
        assert signed_in(tutor).get(reverse(name, args=args)).status_code == 404


def test_the_form_shows_what_stands_there(signed_in, flora, tutor):
    form = signed_in(tutor).get(MARKS).context["form"]
    assert form["leafy.blotched"].value() == "usually"
    assert not form["unknown.leafy"].value()


def test_a_look_shows_what_follows_and_saves_nothing(signed_in, flora, tutor):
    """Sorrel is told from lords-and-ladies by a sheath, which its list calls decisive."""
    client, address = signed_in(tutor), reverse("species:table_cell", args=["rumex-acetosa", "petiole_sheath"])
    asked = client.get(address)
    values = {name: value for name, value in sent(asked, why="seen so").items() if "." not in name}
    unknown = {name: "on" for name in asked.context["form"].fields if name.startswith("unknown.")}
    response = client.post(address, {**values, **unknown, "look": "1"})
    what = response.context["preview"]
    lost = next(each for each in what.pairs if each.pair.key == "sorrel-arum").lost
    assert {line.after for line in lost} == {"is not known on both sides"}
    assert any(line.pair.key == "sorrel-arum" and line.is_new for line in what.standing)
    assert "new by this change" in response.content.decode()
    assert not TableEdit.objects.exists()


def save(client, address: str, **changes: str):
    """Look, then save what was looked at."""
    looked = client.post(address, {**sent(client.get(address)), **changes, "look": "1"})
    return client.post(address, {**sent(looked), "save": "1"}, follow=True)


def test_what_was_looked_at_is_saved_with_who_and_why(signed_in, flora, tutor):
    response = save(signed_in(tutor), MARKS, **{"leafy.blotched": "sometimes", "why": "by the ford"})
    assert "Saved." in response.content.decode()
    edit = TableEdit.objects.get()
    assert (edit.by, edit.why) == (tutor.user, "by the ford")
    assert marks().grid[Stage.LEAFY]["blotched"] == Frequency.SOMETIMES
    shown = signed_in(tutor).get(MARKS).content.decode()
    assert "Tilda Tutor" in shown
    assert "by the ford" in shown


def test_what_was_not_looked_at_is_not_saved(signed_in, flora, tutor):
    client = signed_in(tutor)
    looked = client.post(MARKS, {**sent(client.get(MARKS)), "why": "x", "look": "1"})
    response = client.post(MARKS, {**sent(looked), "leafy.blotched": "sometimes", "save": "1"})
    assert response.context["preview"] is not None
    assert not TableEdit.objects.exists()


def test_a_change_can_be_put_back(signed_in, flora, tutor):
    client, before = signed_in(tutor), marks().grid
    save(client, MARKS, **{"leafy.blotched": "sometimes", "why": "by the ford"})
    back = client.post(MARKS, {**sent(client.get(MARKS, {"back": "1"})), "look": "1"})
    client.post(MARKS, {**sent(back), "save": "1"})
    assert marks().grid == before
    assert [each.why for each in TableEdit.objects.order_by("number")] == ["by the ford", "Change 1 taken back"]


@pytest.mark.parametrize("number", ["77", "x", "-1", "99999999999"])
def test_putting_back_what_never_was_shows_what_is(signed_in, flora, tutor, number):
    assert signed_in(tutor).get(MARKS, {"back": number}).context["form"]["leafy.blotched"].value() == "usually"


def test_of_two_who_write_the_later_is_told_and_loses_no_word(signed_in, flora, tutor, organiser):
    values = sent(signed_in(tutor).get(MARKS), why="mine", **{"leafy.blotched": "sometimes"})
    save(signed_in(organiser), MARKS, **{"leafy.flushed": "", "why": "theirs"})
    response = signed_in(tutor).post(MARKS, {**values, "save": "1"})
    shown = response.content.decode()
    assert response.status_code == 409
    assert "Olga Organiser changed this on" in shown
    assert (response.context["form"]["why"].value(), response.context["form"]["leafy.blotched"].value()) == (
        "mine",
        "sometimes",
    )
    assert TableEdit.objects.get().why == "theirs"
    looked = signed_in(tutor).post(MARKS, {**sent(response), "look": "1"})
    signed_in(tutor).post(MARKS, {**sent(looked), "save": "1"})
    assert TableEdit.objects.count() == 2


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"leafy.blotched": "always"}, "is always shown, so no other state can be shown there"),
        ({"unknown.leafy": "on"}, "is ticked as not known, but a state is shown there"),
        ({"leafy.blotched": "", "leafy.flushed": "", "leafy.plain": ""}, "no state is ever shown"),
        ({"leafy.blotched": "often"}, "not one of the available choices"),
        ({"why": ""}, "This field is required"),
    ],
)
def test_what_cannot_be_is_refused_in_words(signed_in, flora, tutor, changes, sentence):
    client = signed_in(tutor)
    response = client.post(MARKS, {**sent(client.get(MARKS), why="so"), **changes, "look": "1"})
    assert response.status_code == 422
    assert sentence in response.content.decode()
    assert not TableEdit.objects.exists()


def test_disagreements_of_the_whole_flora_are_listed(signed_in, flora, tutor):
    address = reverse("species:disagreements")
    assert "No disagreement" in signed_in(tutor).get(address).content.decode()
    StateRecord.objects.filter(species__key="rumex-acetosa", state__character__key="petiole_sheath").delete()
    lines = signed_in(tutor).get(address).context["lines"]
    assert {(each.pair.key, each.said) for each in lines} == {("sorrel-arum", "is not known on both sides")}


def test_the_table_of_a_species_asks_as_often_however_much_was_changed(signed_in, flora, tutor):
    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            client.get(reverse("species:table", args=[HEMLOCK]))
        return len(queries)

    client = signed_in(tutor)
    asked()
    few = asked()
    save(client, MARKS, **{"leafy.blotched": "sometimes", "why": "x"})
    assert asked() == few


def test_the_way_to_the_table_is_shown_to_those_who_may_go_it(client, signed_in, flora, tutor):
    plants, plant = reverse("species:index"), reverse("species:species", args=[HEMLOCK])
    to_all, to_one = f'href="{reverse("species:tables")}"', f'href="{reverse("species:table", args=[HEMLOCK])}"'
    assert to_all not in client.get(plants).content.decode()
    assert to_one not in client.get(plant).content.decode()
    assert to_all in signed_in(tutor).get(plants).content.decode()
    assert to_one in signed_in(tutor).get(plant).content.decode()
