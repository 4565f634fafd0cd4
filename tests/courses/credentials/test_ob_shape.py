"""What an open credential holds: OB-1 to OB-15 of the school's list, one test each by number."""

import hashlib
import re
from datetime import UTC, datetime, timedelta

import pytest
from jsonschema import Draft201909Validator, FormatChecker

from courses.documents.credential import plain
from courses.models import Application
from courses.queries.credentials import first_award
from tests.courses.credentials.standards import expanded, standard_json, values_in
from tests.factories.certificates import make_certificate

HOST = "https://school.example"


def nodes(tree):
    yield tree
    for each in tree.values() if isinstance(tree, dict) else tree if isinstance(tree, list) else ():
        yield from nodes(each)


def test_ob_01_the_contexts_are_three_in_their_order(shown) -> None:
    assert shown.said["@context"] == [
        "https://www.w3.org/ns/credentials/v2",
        "https://purl.imsglobal.org/spec/ob/v3p0/context-3.0.3.json",
        "https://purl.imsglobal.org/spec/ob/v3p0/extensions.json",
    ]


def test_ob_02_what_must_be_there_is_there_and_the_id_is_no_number(shown, issued) -> None:
    assert shown.said["type"] == ["VerifiableCredential", "OpenBadgeCredential"]
    assert {"id", "issuer", "validFrom", "credentialSubject"} <= set(shown.said)
    assert issued.number not in shown.said["id"]
    assert re.fullmatch(rf"{HOST}/check/[\w-]{{22,}}/\d+/", shown.said["id"])


def test_ob_03_the_issuer_is_an_embedded_profile(shown, school) -> None:
    assert shown.said["issuer"] == {"id": f"{HOST}/issuer/", "type": ["Profile"], "name": school.name, "url": HOST}


def test_ob_04_times_carry_their_zone_and_the_end_is_after_the_beginning(shown, issued) -> None:
    stamps = [shown.said[name] for name in ("validFrom", "validUntil", "awardedDate")]
    assert all(re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", stamp) for stamp in stamps)
    starts, ends, awarded = (datetime.fromisoformat(stamp) for stamp in stamps)
    assert starts < ends
    assert awarded == issued.issued_at.astimezone(UTC).replace(microsecond=0)


def test_ob_04_a_renewal_keeps_the_day_of_the_first_award(issued, stranger, standard, organiser) -> None:
    asked = Application.objects.create(
        person=stranger, standard=standard, applied_at=issued.issued_at, renews=issued, statement=True
    )
    later = make_certificate(
        stranger, standard, organiser, number="2027-0001", application=asked, issued_at=issued.issued_at + timedelta(9)
    )
    assert first_award(later) == issued.issued_at


def test_ob_05_the_subject_is_the_certificate_and_never_the_person(shown, participant) -> None:
    assert shown.subject["type"] == ["AchievementSubject"]
    assert re.fullmatch(r"urn:uuid:[0-9a-f-]{36}", shown.subject["id"])
    assert str(participant.uuid) not in shown.subject["id"]


def test_ob_06_the_holder_is_a_salted_hash_and_the_name_is_nowhere(shown, participant) -> None:
    (identity,) = shown.subject["identifier"]
    text = participant.user.email.lower() + identity["salt"]
    assert identity["identityHash"] == "sha256$" + hashlib.sha256(text.encode()).hexdigest()
    assert (identity["identityType"], identity["hashed"]) == ("emailAddress", True)
    assert len(identity["salt"]) == 32
    held = " ".join(values_in(shown.said))
    assert participant.name not in held
    assert participant.user.email not in held


def test_ob_07_the_number_and_the_achievement_are_named(shown, issued) -> None:
    assert shown.subject["licenseNumber"] == issued.number
    achievement = shown.subject["achievement"]
    assert achievement["achievementType"] == "Certification"
    assert achievement["criteria"]["narrative"]
    assert {"id", "type", "name", "description", "version", "inLanguage"} <= set(achievement)


def test_ob_08_every_dangerous_pair_is_described_once(shown, pair) -> None:
    (described,) = shown.subject["achievement"]["resultDescription"]
    assert described["id"] == f"{shown.subject['achievement']['id']}#{pair.key}"
    assert described["name"] == "Goodleaf told from badleaf"
    assert described["resultType"] == "Status"
    assert (described["allowedValue"], described["requiredValue"]) == (["Failed", "Completed"], "Completed")


def test_ob_09_every_described_pair_has_one_result(shown) -> None:
    described = [each["id"] for each in shown.subject["achievement"]["resultDescription"]]
    assert [each["resultDescription"] for each in shown.subject["result"]] == described
    assert {each["status"] for each in shown.subject["result"]} == {"Completed"}


def test_ob_10_a_result_says_stages_and_counts_and_nothing_private(shown) -> None:
    assert "15 specimens by photograph, 3 live at 3 meetings" in shown.subject["result"][0]["value"]
    assert not any(word in str(shown.said) for word in ("missed", "would have been gathered", "%", "Test Coast"))


def test_ob_11_it_points_to_the_page_of_the_version_which_never_changes(shown, standard, client) -> None:
    (target,) = shown.subject["achievement"]["alignment"]
    assert target["targetUrl"] == f"{HOST}/standards/{standard.key}/{standard.version}/"
    address = target["targetUrl"].removeprefix(HOST)
    assert client.get(address).status_code == 200
    standard.name = "Another"
    with pytest.raises(Exception, match="never edited"):
        standard.save()


def test_ob_12_the_evidence_is_a_narrative_without_names_or_links(shown, organiser, assessor) -> None:
    (evidence,) = shown.said["evidence"]
    assert set(evidence) == {"type", "narrative"}
    assert "18 specimens decided on" in evidence["narrative"]
    assert not any(person.name in str(shown.said) for person in (organiser, assessor))


def test_ob_13_nothing_is_null_or_empty(shown) -> None:
    assert not [each for each in nodes(shown.said) if each is None or each in ([], {}, "")]


def test_ob_14_it_names_its_schema_and_keeps_to_it(shown) -> None:
    (named,) = shown.said["credentialSchema"]
    assert named["type"] == "1EdTechJsonSchemaValidator2019"
    assert named["id"].endswith("ob_v3p0_achievementcredential_schema.json")
    schema = standard_json("ob3/ob_v3p0_achievementcredential_schema.json")
    checked = Draft201909Validator(schema, format_checker=FormatChecker())
    assert [fault.message for fault in checked.iter_errors(shown.credential)] == []
    assert not checked.is_valid({**shown.credential, "validFrom": "yesterday"})


def test_ob_15_every_value_is_known_to_the_contexts(shown) -> None:
    found = values_in(expanded(shown.credential))
    lost = [text for text in values_in(shown.credential) if not any(text in each for each in found)]
    # what the contexts translate into addresses of their own
    assert [text for text in lost if not text[:1].isupper()] == []
    spoilt = {**shown.credential, "pairsPassed": "a term of our own"}
    assert "a term of our own" not in values_in(expanded(spoilt))


def test_ob_15_no_mark_up_in_any_text(shown) -> None:
    assert plain("<b>badleaf</b>") == "‹b›badleaf‹/b›"
    assert not [text for text in values_in(shown.said) if "<" in text]
