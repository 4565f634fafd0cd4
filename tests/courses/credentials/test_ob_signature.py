"""How a credential is signed, where its keys are, and what is refused: OB-16 to OB-24, one test each by number."""

import json
from datetime import datetime, timedelta

import pytest
from django.conf import settings
from django.urls import reverse
from django.utils import timezone
from joserfc import jws
from joserfc.jwk import RSAKey
from jwcrypto.jwk import JWK
from jwcrypto.jws import JWS

from courses.actions.certificates import record_event
from courses.actions.signing_keys import keys_to_sign_with, rotate_signing_key
from courses.queries.credential_check import credential_verdict
from courses.queries.signing_keys import signing_keys, signing_keys_file
from courses.rules.tokens import KEY_BITS
from tests.courses.credentials.conftest import Shown
from tests.courses.credentials.forging import altered, packed, signed_with, unsigned

HOST = "https://school.example"
PRIVATE_PARTS = {"d", "p", "q", "dp", "dq", "qi"}


def verdict(token: str, days: int = 0):
    return credential_verdict(token, timezone.now() + timedelta(days=days))


def test_ob_16_the_head_holds_three_words(shown) -> None:
    assert set(shown.header) == {"alg", "kid", "typ"}
    assert (shown.header["alg"], shown.header["typ"]) == ("RS256", "JWT")


def test_ob_17_the_claims_repeat_the_credential(shown) -> None:
    said = shown.said
    assert (said["iss"], said["jti"], said["sub"]) == (said["issuer"]["id"], said["id"], shown.subject["id"])
    assert said["nbf"] == datetime.fromisoformat(said["validFrom"]).timestamp()
    assert said["exp"] == datetime.fromisoformat(said["validUntil"]).timestamp()
    assert "vc" not in said


def test_ob_18_the_address_of_the_key_answers_with_one_public_key(shown, client) -> None:
    answer = client.get(shown.header["kid"].removeprefix(HOST))
    key = answer.json()
    assert (key["kty"], key["kid"]) == ("RSA", shown.header["kid"])
    assert not PRIVATE_PARTS & set(key)
    assert RSAKey.import_key(key).raw_value.key_size == KEY_BITS == 3072
    assert client.get("/issuer/keys/another.json").status_code == 404


def test_ob_19_the_set_holds_the_same_keys_and_says_whose_they_are(shown, client) -> None:
    answer = client.get("/.well-known/jwks.json")
    assert answer["Content-Type"] == "application/jwk-set+json"
    keys = answer.json()["keys"]
    assert shown.header["kid"] in [key["kid"] for key in keys]
    assert {key["iss"] for key in keys} == {shown.said["iss"]}
    assert not [key for key in keys if PRIVATE_PARTS & set(key)]


def test_ob_19_what_an_old_key_signed_verifies_after_the_key_was_replaced(shown, client) -> None:
    name = rotate_signing_key()
    assert signing_keys().current == name
    assert shown.header["kid"] not in f"{HOST}/issuer/keys/{name}.json"
    assert verdict(shown.token).status == "genuine"
    assert client.get(shown.header["kid"].removeprefix(HOST)).status_code == 200
    stored = json.loads(signing_keys_file().read_text())["keys"]
    assert [bool(PRIVATE_PARTS & set(key)) for key in stored] == [False] * (len(stored) - 1) + [True]


def test_ob_20_the_issuer_answers_with_its_profile(shown, client, school) -> None:
    profile = client.get(shown.said["iss"].removeprefix(HOST)).json()
    assert {name: profile[name] for name in ("id", "type", "name", "url")} == shown.said["issuer"]


def test_ob_21_every_address_is_encrypted_and_of_the_school(shown) -> None:
    said = shown.said
    ours = [said["id"], said["iss"], shown.header["kid"], said["credentialStatus"]["id"]]
    ours.append(shown.subject["achievement"]["id"])
    assert [each for each in ours if not each.startswith(f"{HOST}/")] == []


def test_ob_22_the_file_is_plain_text_for_the_holder_and_nobody_else(signed_in, participant, stranger, issued) -> None:
    address = reverse("courses:certificate_credential", args=[issued.number])
    answer = signed_in(participant).get(address)
    assert answer["Content-Type"].startswith("text/plain")
    assert answer["Content-Disposition"].endswith('.jwt"')
    assert answer.content.decode() == issued.credential
    assert "Access-Control-Allow-Origin" not in answer
    assert signed_in(stranger).get(address).status_code == 404


@pytest.mark.parametrize("name", ["issuer", "key_set", "issuer_status", "issuer_achievement", "issuer_key"])
def test_ob_22_programs_read_from_anywhere_what_is_public(client, issued, standard, name) -> None:
    words = {"issuer_achievement": [standard.key, standard.version], "issuer_key": [signing_keys().current]}
    answer = client.get(reverse(f"courses:{name}", args=words.get(name, [])))
    assert answer.status_code == 200
    assert answer["Access-Control-Allow-Origin"] == "*"
    assert not answer.cookies


def test_ob_22_pages_for_people_are_not_open_to_programs(client, issued) -> None:
    assert "Access-Control-Allow-Origin" not in client.get(reverse("courses:check", args=[issued.key]))


def test_ob_23_a_genuine_one_is_genuine(shown, issued) -> None:
    assert (verdict(shown.token).status, verdict(shown.token).number) == ("genuine", issued.number)


@pytest.mark.parametrize("algorithm", ["none", "None", "HS256", "PS256", "ES256"])
def test_ob_23_another_algorithm_is_refused(shown, algorithm) -> None:
    assert verdict(unsigned(shown.token, algorithm)).reason == "algorithm"


def test_ob_23_a_secret_made_of_the_public_key_is_no_signature(shown, public_key) -> None:
    """The public key used as the secret of HS256: the old trick against those who read the algorithm from the token."""
    secret = JWK(kty="oct", k=public_key["n"])
    forged = JWS(json.dumps(shown.said).encode())
    forged.add_signature(secret, None, json.dumps({"alg": "HS256", "kid": shown.header["kid"]}))
    assert verdict(forged.serialize(compact=True)).reason == "algorithm"


@pytest.mark.parametrize(
    "changes", [{"name": "Another"}, {"exp": 9_999_999_999}, {"validUntil": "2999-01-01T00:00:00Z"}]
)
def test_ob_23_altered_words_are_refused(shown, changes) -> None:
    assert verdict(altered(shown.token, **changes)).reason == "signature"


def test_ob_23_a_key_that_is_not_ours_is_refused(shown) -> None:
    stranger = RSAKey.generate_key(2048)
    assert verdict(signed_with(stranger, shown.said, kid=shown.header["kid"])).reason == "signature"
    elsewhere = signed_with(stranger, shown.said, kid="https://elsewhere.example/issuer/keys/x.json")
    assert verdict(elsewhere).reason == "unknown key"


def test_ob_23_a_key_brought_along_is_never_looked_at(shown) -> None:
    stranger = RSAKey.generate_key(2048)
    forged = signed_with(stranger, shown.said, kid=shown.header["kid"], jwk=stranger.as_dict(private=False))
    assert verdict(forged).reason == "header"


def test_ob_23_claims_that_contradict_the_credential_are_refused_under_our_own_key(shown) -> None:
    ours = RSAKey.import_key(dict(keys_to_sign_with().private))
    for changes in (
        {"exp": 9_999_999_999},
        {"sub": "urn:uuid:another"},
        {"vc": {}},
        {"validFrom": "2026-01-01T00:00:00"},
    ):
        kid = f"{HOST}/issuer/keys/{signing_keys().current}.json"
        assert verdict(signed_with(ours, {**shown.said, **changes}, kid=kid)).reason == "claims"


@pytest.mark.parametrize("text", ["", "no token", "a.b.c", "..", "x" * 200_000, f"{packed({'alg': 'RS256'})}.e30."])
def test_ob_23_rubbish_is_refused_in_a_sentence(shown, text) -> None:
    found = verdict(text)
    assert found.status == "not genuine"
    assert len(found.sentence) > 30


def test_ob_23_an_expired_one_says_so(shown) -> None:
    assert verdict(shown.token, days=3000).status == "expired"
    assert verdict(shown.token, days=-3000).status == "not yet"


def test_ob_24_a_correction_is_another_file_under_the_same_number(shown, issued, organiser) -> None:
    record_event(issued, "suspended", organiser, "A doubt", now=timezone.now())
    record_event(issued, "lifted", organiser, "No doubt", now=timezone.now())
    issued.refresh_from_db()
    again = Shown(issued.credential)
    assert again.said["id"] != shown.said["id"]
    assert again.subject["licenseNumber"] == shown.subject["licenseNumber"]
    assert again.subject["identifier"][0]["salt"] != shown.subject["identifier"][0]["salt"]
    assert again.said["awardedDate"] == shown.said["awardedDate"]
    assert (verdict(shown.token).status, verdict(again.token).status) == ("revoked", "genuine")


def test_ob_33_two_other_eyes_read_the_same(shown, public_key) -> None:
    """Signed with jwcrypto; read here with joserfc, and a copy signed with joserfc read with jwcrypto."""
    read = jws.deserialize_compact(shown.token, RSAKey.import_key(public_key), algorithms=["RS256"])
    assert json.loads(read.payload) == shown.said
    private = dict(keys_to_sign_with().private)
    copy = signed_with(RSAKey.import_key(private), shown.said, kid="x")
    back = JWS()
    back.deserialize(copy, JWK(**private))
    assert json.loads(back.payload) == shown.said


def test_the_keys_are_readable_by_their_owner_alone_and_outside_the_database(shown) -> None:
    assert signing_keys_file().stat().st_mode & 0o777 == 0o600
    assert signing_keys_file().is_relative_to(settings.VAR_DIR)
    assert "'d'" not in repr(signing_keys())
