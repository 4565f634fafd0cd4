"""`manage.py open_school`: a school and its organiser, or a sentence and nothing at all."""

from dataclasses import replace
from io import StringIO

import pytest
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.core.management import CommandError, call_command
from django.utils import timezone

from courses.actions.opening import SchoolExists, SchoolWords, open_school, problems_with, write_settings
from courses.actions.people import take_in
from courses.management.commands import open_school as command
from courses.models import Person, School
from courses.queries.people import viewer_of
from species.models import Species

WORDS = SchoolWords(
    name="Harbour School",
    address="https://harbour.example/",
    time_zone="Europe/Dublin",
    language="en-gb",
    emergency_number="112",
    poisons_number="",
    organiser_name="Olga Organiser",
)
EMAIL = "Olga@Harbour.example"
OPTIONS = dict(vars(WORDS))


def opened(words: SchoolWords = WORDS, email: str = EMAIL):
    return open_school(words, email, today=timezone.localdate())


@pytest.fixture
def own_folder(settings, tmp_path):
    """A folder that does not hold the invented school."""
    settings.DEMO, settings.VAR_DIR = False, tmp_path
    return tmp_path


def run(**options: str | None) -> str:
    out = StringIO()
    call_command("open_school", EMAIL, stdout=out, **{**OPTIONS, **options})
    return out.getvalue()


def test_a_school_opens_with_an_organiser_who_can_sign_in(db) -> None:
    school, organiser = opened()
    assert (school.address, school.email) == ("https://harbour.example", "olga@harbour.example")
    assert not school.is_demo
    assert viewer_of(organiser.user, timezone.localdate()).is_organiser
    assert organiser.user.emailaddress_set.get().verified


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"name": " "}, "The school needs a name"),
        ({"name": "n" * 121}, "120 letters"),
        ({"organiser_name": ""}, "The organiser needs a name"),
        ({"address": "harbour.example"}, "https://school.example"),
        ({"address": "https://"}, "https://school.example"),
        ({"address": "https://[harbour"}, "https://school.example"),
        ({"address": "https://harbour.example\nKENSPECKLE_DEMO=yes"}, "https://school.example"),
        ({"time_zone": "Europe/Atlantis"}, "not a time zone"),
        ({"time_zone": "../etc"}, "not a time zone"),
        ({"time_zone": ""}, "not a time zone"),
        ({"language": "tlh"}, "not a language"),
        ({"emergency_number": " "}, "may not be empty"),
    ],
)
def test_each_wrong_word_is_named_and_nothing_is_made(db, changed, words) -> None:
    wrong = replace(WORDS, **changed)
    assert len(problems_with(wrong, EMAIL)) == 1
    assert words in problems_with(wrong, EMAIL)[0]
    with pytest.raises(ValidationError):
        opened(wrong)
    assert not School.objects.exists()
    assert not User.objects.exists()


def test_everything_wrong_is_said_at_once() -> None:
    assert len(problems_with(SchoolWords("", "", "", "", "", "", ""), "olga")) == 7


def test_a_second_school_is_refused(school) -> None:
    with pytest.raises(SchoolExists, match="Test School"):
        opened()
    assert not Person.objects.exists()


def test_the_settings_are_lines_of_their_own(tmp_path) -> None:
    path = write_settings(tmp_path / "new", WORDS)
    assert path.read_text(encoding="utf-8").splitlines() == [
        "KENSPECKLE_ADDRESS=https://harbour.example",
        "KENSPECKLE_TIME_ZONE=Europe/Dublin",
        "KENSPECKLE_LANGUAGE=en-gb",
    ]


@pytest.mark.django_db
class TestCommand:
    """The command itself."""

    def test_it_opens_with_flora_and_settings(self, own_folder) -> None:
        told = run()
        assert "Harbour School is open" in told
        assert "https://harbour.example/account/login/" in told
        assert (own_folder / "settings.env").exists()
        assert Species.objects.exists()

    def test_it_refuses_in_the_folder_of_the_invented_school(self, settings) -> None:
        settings.DEMO = True
        with pytest.raises(CommandError, match="invented school"):
            run()
        assert not School.objects.exists()

    def test_it_refuses_a_second_time_and_changes_nothing(self, own_folder) -> None:
        run()
        with pytest.raises(CommandError, match="belongs to Harbour School already"):
            run(name="Another School")
        assert School.objects.get().name == "Harbour School"

    def test_it_says_everything_that_is_wrong_and_writes_no_settings(self, own_folder) -> None:
        with pytest.raises(CommandError, match=r"not a time zone.*Nothing was made"):
            run(time_zone="Nowhere")
        assert not (own_folder / "settings.env").exists()
        assert not School.objects.exists()

    def test_an_address_that_is_taken_is_refused(self, own_folder) -> None:
        take_in(EMAIL, "Earlier", today=timezone.localdate(), roles=())
        with pytest.raises(CommandError, match="signs in with"):
            run()
        assert not School.objects.exists()

    def test_it_asks_for_what_was_left_out(self, own_folder, monkeypatch) -> None:
        asked = []
        monkeypatch.setattr("builtins.input", lambda question: asked.append(question) or "")
        run(time_zone=None, emergency_number=None)
        assert asked == ["Time zone [Europe/London]: ", "Emergency number [112]: "]
        assert School.objects.get().time_zone == "Europe/London"

    def test_without_a_keyboard_it_says_which_option_to_give(self) -> None:
        def silent(_question: str) -> str:
            raise EOFError

        with pytest.raises(CommandError, match="no keyboard to ask for: Time zone"):
            command.ask("Time zone", "", silent)
