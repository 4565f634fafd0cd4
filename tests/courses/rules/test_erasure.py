"""When a request is answered, how long a certificate keeps its name, and what counts as a trace of somebody."""

from datetime import date
from unicodedata import normalize

import pytest

from courses.rules.erasure import Traces, answer_by, name_until, without

PAT = Traces(("Pat Participant",), ("pat.participant@example.org",), ("+44 7700 900123",))
ANN = Traces((), ("ann+o'dee@example.org",))
CODE = "Erased person 1A2B3C"


def swept(text: str, traces: Traces = PAT) -> str:
    pattern = traces.pattern
    assert pattern is not None
    return without(text, pattern, CODE)


@pytest.mark.parametrize(
    ("asked", "answered"),
    [
        (date(2026, 3, 10), date(2026, 4, 10)),
        (date(2026, 1, 31), date(2026, 2, 28)),
        (date(2028, 1, 31), date(2028, 2, 29)),
        (date(2026, 12, 31), date(2027, 1, 31)),
    ],
)
def test_a_request_is_answered_within_a_month(asked: date, answered: date) -> None:
    assert answer_by(asked) == answered


def test_a_certificate_keeps_its_name_three_years_longer_than_it_is_valid() -> None:
    assert name_until(date(2028, 5, 2)) == date(2031, 5, 2)
    assert name_until(date(2028, 2, 29)) == date(2031, 2, 28)


@pytest.mark.parametrize(
    "text",
    [
        "Pat Participant came late.",
        "PAT  PARTICIPANT",
        "pat\nparticipant's boots",
        "Participant, Pat",
        "write to Pat.Participant@example.org, please",
        "call +44 7700 900123",
        "call 447700900123",
        "call +44 (7700) 900-123",
        "call 07700 900123",
        "call 07700–900123",
        "call +44 (0)7700 900123",
        "call 0044 7700 900123",
    ],
)
def test_a_trace_is_found_however_it_is_written(text: str) -> None:
    said = swept(text)
    assert CODE in said
    assert "articipant" not in said.lower()
    assert "900" not in said


@pytest.mark.parametrize(
    "text",
    [
        "Pat Participanton",
        "Spat Participant",
        "Pat the participant",
        "old.pat.participant@example.org",
        "pat.participant@example.organic",
        "pat.participant@example.org.uk",
        "call +45 7700 900123",
        "107700900123",
        "9447700900123",
    ],
)
def test_what_only_looks_like_it_stays(text: str) -> None:
    assert swept(text) == text


@pytest.mark.parametrize("form", ["NFC", "NFD"])
def test_accents_are_found_in_either_form(form: str) -> None:
    assert swept(normalize(form, "Zoë Müller was here"), Traces(("Zoë Müller",))) == f"{CODE} was here"


@pytest.mark.parametrize("text", ["call +353 87 123 4567", "call (087) 123 4567", "call +353 (0)87 1234567"])
def test_a_number_as_it_is_dialled_at_home_is_found_from_abroad(text: str) -> None:
    assert swept(text, Traces((), (), ("087 1234567",))).removeprefix("call ").lstrip("(") == CODE


@pytest.mark.parametrize("known", ["Nuala O'Dee-Byrne", "Nuala O’Dee-Byrne"])
@pytest.mark.parametrize(
    "text", ["Nuala O'Dee-Byrne", "Nuala O’Dee‐Byrne", "Nuala O&#x27;Dee-Byrne", "O&rsquo;Dee-Byrne, Nuala"]
)
def test_a_name_is_found_with_any_apostrophe_and_as_html(known: str, text: str) -> None:
    assert swept(f"<p>{text}</p>", Traces((known,))) == f"<p>{CODE}</p>"


def test_an_address_is_found_as_a_link_writes_it() -> None:
    found = swept('<a href="mailto:ann%2Bo%27dee@example.org">ann+o&#x27;dee@example.org</a>', ANN)
    assert found == f'<a href="mailto:{CODE}">{CODE}</a>'


def test_a_name_of_one_word_and_a_short_number_are_no_traces() -> None:
    assert Traces(("Rose",), (), ("12345",)).pattern is None


def test_nothing_known_is_nothing_to_look_for() -> None:
    assert Traces((" ",), ("",), ("",)).pattern is None


def test_texts_are_found_however_deep_they_lie() -> None:
    pattern = PAT.pattern
    assert pattern is not None
    held = {"who": ["Pat Participant", {"Pat Participant": 3}], "count": 7, "none": None}
    assert without(held, pattern, CODE) == {"who": [CODE, {CODE: 3}], "count": 7, "none": None}


def test_a_code_with_a_backslash_is_taken_as_it_is() -> None:
    pattern = PAT.pattern
    assert pattern is not None
    assert without("Pat Participant", pattern, r"\1") == r"\1"
