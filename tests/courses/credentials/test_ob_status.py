"""The list of what was revoked, and the look of strangers: OB-25 to OB-35, one test each by number."""

import base64
import json
import subprocess
import sys
import zlib
from pathlib import Path

import pytest
from django.conf import settings
from django.core.management import CommandError, call_command
from django.urls import reverse
from django.utils import timezone
from joserfc import jws
from joserfc.jwk import RSAKey

from courses.actions.certificates import record_event
from courses.actions.editions import follow_with_editions, sign_edition
from courses.models import Certificate, CertificateEvent
from courses.queries.credential_check import credential_verdict
from courses.queries.credentials import places_taken
from courses.rules.status_bits import LENGTH, encoded_list
from tests.courses.credentials.conftest import Shown
from tests.courses.credentials.standards import CONTEXTS, load_context, standard_json
from tests.factories.certificates import make_certificate, make_facts
from tests.species.darwin.standards import standards_file


def bits_set(encoded: str) -> list[int]:
    """An own reading of the list: zlib instead of gzip, a text of noughts and ones instead of masks."""
    packed = base64.urlsafe_b64decode(encoded[1:] + "=" * (-(len(encoded) - 1) % 4))
    whole = "".join(f"{byte:08b}" for byte in zlib.decompress(packed, wbits=31))
    return [place for place, bit in enumerate(whole) if bit == "1"]


def step(certificate: Certificate, kind: str, by) -> Certificate:
    record_event(certificate, kind, by, "A reason", now=timezone.now())
    certificate.refresh_from_db()
    return certificate


@pytest.fixture
def listed(client):
    """The list as its address gives it: the places that are revoked."""
    return lambda: bits_set(Shown(client.get("/issuer/status/1/").content.decode()).subject["encodedList"])


def test_ob_25_one_status_entry_with_its_place_as_text(shown, issued) -> None:
    status, place = shown.said["credentialStatus"], str(issued.status_index)
    lies_at = "https://school.example/issuer/status/1/"
    assert status == {
        "id": f"{lies_at}#{place}",
        "type": "BitstringStatusListEntry",
        "statusPurpose": "revocation",
        "statusListIndex": place,
        "statusListCredential": lies_at,
    }


def test_ob_26_what_was_revoked_stays_revoked_for_ever(shown, issued, organiser, listed) -> None:
    first = issued.status_index
    assert listed() == []
    assert step(issued, "suspended", organiser).status_index == first
    assert listed() == [first]
    second = step(issued, "lifted", organiser).status_index
    assert second != first
    assert listed() == [first]
    lifted = issued.credential
    step(issued, "withdrawn", organiser)
    assert listed() == sorted([first, second])
    states = [credential_verdict(token, timezone.now()).status for token in (shown.token, lifted)]
    assert states == ["revoked", "revoked"]


def test_ob_26_a_narrowed_one_is_signed_anew_over_what_is_left(participant, standard, organiser, school) -> None:
    facts = make_facts(3, check_address="https://school.example/check/k/").as_json()
    held = sign_edition(make_certificate(participant, standard, organiser, facts=facts))
    before = held.status_index
    left = CertificateEvent.objects.create(
        certificate=held, kind="narrowed", happened_at=timezone.now(), by=organiser, reason="x",
        facts={"pairs": ["pair-1", "pair-3"]},
    )  # fmt: skip
    follow_with_editions(left)
    held.refresh_from_db()
    results = Shown(held.credential).subject["result"]
    assert [each["resultDescription"].rpartition("#")[2] for each in results] == ["pair-1", "pair-3"]
    assert before in places_taken()
    assert left.facts["pairs"] == ["pair-1", "pair-3"]


def test_ob_26_what_is_narrowed_while_suspended_is_signed_when_it_is_lifted(issued, organiser) -> None:
    step(issued, "suspended", organiser)
    suspended = issued.credential
    kept = [pair["key"] for pair in issued.facts["pairs"]]
    narrowed = CertificateEvent.objects.create(
        certificate=issued, kind="narrowed", happened_at=timezone.now(), by=organiser, reason="x", facts={"pairs": kept}
    )
    follow_with_editions(narrowed)
    issued.refresh_from_db()
    assert issued.credential == suspended
    step(issued, "lifted", organiser)
    assert credential_verdict(issued.credential, timezone.now()).status == "genuine"


@pytest.mark.parametrize("places", [[], [0], [7], [8], [LENGTH - 1], [0, 7, 8, 131_071]])
def test_ob_27_the_bits_lie_where_the_standard_says(places) -> None:
    encoded = encoded_list(places)
    assert bits_set(encoded) == places
    assert encoded[0] == "u"
    assert "=" not in encoded


def test_ob_27_a_place_outside_the_list_is_refused() -> None:
    for place in (-1, LENGTH):
        with pytest.raises(ValueError, match="no place"):
            encoded_list([place])


def test_ob_27_the_list_is_signed_and_another_library_verifies_it(client, issued, public_key) -> None:
    answer = client.get("/issuer/status/1/")
    read = jws.deserialize_compact(answer.content.decode(), RSAKey.import_key(public_key), algorithms=["RS256"])
    said = json.loads(read.payload)
    assert said["type"] == ["VerifiableCredential", "BitstringStatusListCredential"]
    assert said["credentialSubject"]["statusPurpose"] == "revocation"
    assert said["id"] == "https://school.example/issuer/status/1/"


def test_ob_28_places_are_drawn_and_never_given_twice(issued, monkeypatch, stranger, standard, organiser) -> None:
    old = step(step(issued, "suspended", organiser), "lifted", organiser)
    revoked = next(iter(places_taken() - {old.status_index}))
    drawn = iter([revoked, old.status_index, 4711])
    monkeypatch.setattr("courses.actions.editions.secrets.randbelow", lambda _length: next(drawn))
    facts = make_facts(1, check_address="https://school.example/check/k/").as_json()
    other = sign_edition(make_certificate(stranger, standard, organiser, number="2026-0999", facts=facts))
    assert other.status_index == 4711


def test_ob_28_the_list_may_be_kept_as_long_as_it_says(client, issued) -> None:
    answer = client.get("/issuer/status/1/")
    seconds = Shown(answer.content.decode()).subject["ttl"] // 1000
    assert answer["Cache-Control"] == f"public, max-age={seconds}"


def test_ob_29_no_reason_and_no_number_is_published(client, issued, organiser) -> None:
    step(issued, "withdrawn", organiser)
    said = json.dumps(Shown(client.get("/issuer/status/1/").content.decode()).said)
    assert issued.number not in said
    assert "A reason" not in said


def test_ob_30_the_credential_leads_to_the_check_page_by_its_random_key(client, shown, issued) -> None:
    answer = client.get(shown.said["id"].removeprefix("https://school.example"))
    assert answer["Location"] == reverse("courses:check", args=[issued.key])
    assert len(base64.urlsafe_b64decode(issued.key + "==")) >= 16


def test_ob_31_the_check_script_finds_no_fault(shown, tmp_path) -> None:
    script = standards_file("check/credential.py")
    file = tmp_path / "credential.json"
    file.write_text(json.dumps(shown.credential))
    good = subprocess.run([sys.executable, str(script), str(file)], capture_output=True, text=True)
    assert (good.returncode, good.stdout.strip()) == (0, "no fault found")
    file.write_text(json.dumps({**shown.credential, "credentialSubject": {**shown.subject, "result": []}}))
    assert subprocess.run([sys.executable, str(script), str(file)], capture_output=True).returncode == 1


def test_ob_32_the_script_in_another_language_finds_no_fault(issued, tmp_path) -> None:
    script = standards_file("check/outsider.mjs")
    call_command("export_credential", issued.number, str(tmp_path))
    ran = subprocess.run(["node", str(script), str(tmp_path)], capture_output=True, text=True)
    if "ERR_MODULE_NOT_FOUND" in ran.stderr:
        pytest.skip("the packages that outsider.mjs names in its head are not installed beside it")
    assert (ran.returncode, "FAILED" in ran.stdout) == (0, False)


def test_ob_34_nothing_is_fetched_and_nothing_embedded_is_signed(shown) -> None:
    assert "proof" not in shown.said
    assert set(shown.said["@context"]) <= set(CONTEXTS)
    with pytest.raises(ValueError, match="would have to fetch"):
        load_context("https://elsewhere.example/context.json")
    assert standard_json(CONTEXTS[shown.said["@context"][0]])


def test_ob_35_nowhere_it_is_called_certified(shown) -> None:
    said = json.dumps(shown.said).lower()
    assert "certified" not in said
    assert "1edtech certified" not in Path(settings.BASE_DIR, "README.md").read_text().lower()


def test_a_certificate_is_exported_with_what_a_stranger_needs(issued, tmp_path) -> None:
    call_command("export_credential", issued.number, str(tmp_path / "new"))
    names = sorted(each.name for each in (tmp_path / "new").iterdir())
    assert names == [
        f"certificate-{issued.number}.jwt",
        "credential.json.txt",
        "issuer.json.txt",
        "keys.json",
        "status.jwt.txt",
    ]
    assert (tmp_path / "new" / names[0]).read_text() == issued.credential


def test_a_number_that_is_none_is_refused_in_a_sentence(school, tmp_path) -> None:
    with pytest.raises(CommandError, match="no certificate 2026-9999"):
        call_command("export_credential", "2026-9999", str(tmp_path))


def test_one_from_before_there_were_files_is_signed_when_it_is_exported(
    participant, standard, organiser, school, tmp_path
) -> None:
    facts = make_facts(1, check_address="https://school.example/check/k/").as_json()
    held = make_certificate(participant, standard, organiser, facts=facts)
    call_command("export_credential", held.number, str(tmp_path))
    held.refresh_from_db()
    assert credential_verdict(held.credential, timezone.now()).status == "genuine"
