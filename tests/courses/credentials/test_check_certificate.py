"""`manage.py check_certificate`: a file or a number, what is said of it, and how the command ends."""

import json

import pytest
from django.core.management import CommandError, call_command
from django.urls import reverse
from django.utils import timezone

from courses.actions.certificates import record_event
from courses.actions.signing_keys import rotate_signing_key
from courses.models import Certificate
from tests.courses.credentials.forging import altered, unsigned


@pytest.fixture
def told(capsys):
    """What the command says of something, and how it ends."""

    def ask(given, *options: str) -> tuple[str, int]:
        try:
            call_command("check_certificate", str(given), *options)
        except SystemExit as ended:
            return capsys.readouterr().out, int(ended.code or 0)
        return capsys.readouterr().out, 0

    return ask


@pytest.fixture
def file(shown, tmp_path):
    kept = tmp_path / "certificate.jwt"
    kept.write_text(shown.token)
    return kept


def test_a_genuine_file_is_genuine_before_and_after_the_key_is_replaced(told, file) -> None:
    assert "genuine and current" in told(file)[0]
    rotate_signing_key()
    assert told(file)[1] == 0


def test_altered_and_unsigned_files_end_with_one(told, file, shown) -> None:
    for text, word in ((altered(shown.token, name="x"), "altered"), (unsigned(shown.token), "one way")):
        file.write_text(text)
        said, code = told(file)
        assert (word in said, code) == (True, 1)


def test_a_revoked_file_says_so_and_where_to_look(told, file, issued, organiser) -> None:
    record_event(issued, "withdrawn", organiser, "x", now=timezone.now())
    said, code = told(file, "--json")
    assert (json.loads(said)["status"], json.loads(said)["number"], code) == ("revoked", issued.number, 1)


def test_a_number_says_its_state(told, issued, organiser) -> None:
    said, code = told(issued.number)
    assert ("current" in said, code) == (True, 0)
    record_event(issued, "suspended", organiser, "x", now=timezone.now())
    said, code = told(issued.number)
    assert ("suspended" in said, code) == (True, 1)


def test_what_is_neither_is_refused_in_a_sentence(school, tmp_path) -> None:
    with pytest.raises(CommandError, match="2026-9999"):
        call_command("check_certificate", "2026-9999")
    (tmp_path / "x.jwt").write_bytes(b"\xff\xfe")
    with pytest.raises(CommandError, match=r"ends in \.jwt"):
        call_command("check_certificate", str(tmp_path / "x.jwt"))


def test_nothing_is_issued_that_cannot_be_signed(signed_in, organiser, passed, monkeypatch, tmp_path) -> None:
    spoilt = tmp_path / "keys.json"
    spoilt.write_text("{}")
    for module in ("queries", "actions"):
        monkeypatch.setattr(f"courses.{module}.signing_keys.signing_keys_file", lambda: spoilt)
    address = reverse("courses:application_decide", args=[passed.pk])
    answer = signed_in(organiser).post(address, {"issue": "yes"}, follow=True)
    assert "could not be signed" in answer.content.decode()
    assert not Certificate.objects.exists()
