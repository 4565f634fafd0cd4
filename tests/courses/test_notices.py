"""Notices of the tests: every kind has words, each is written once, and to the right person."""

import re
from pathlib import Path

import pytest
from django.utils import timezone

from assessments.models import Notice
from courses.actions.notices import write_notices
from courses.models import Letter
from courses.queries.sentences.notices import is_worded, notice_words

ROOM = Path(__file__).parents[2] / "assessments" / "actions"


def noted(person, kind="paper_set", **facts) -> Notice:
    facts = facts or {"paper": "k", "title": "First test", "opens_at": "2026-05-04T08:00:00+00:00"}
    return Notice.objects.create(person=person.user, kind=kind, facts=facts, happened_at=timezone.now())


def test_every_kind_that_the_tests_note_has_words() -> None:
    source = "".join(path.read_text() for path in ROOM.rglob("*.py"))
    noted_kinds = set(re.findall(r"note_for\(\s*[^,]+(?:\[[^\]]*\])?,\s*\"(\w+)\"", source))
    assert {"paper_set", "sitting_closed_itself", "appeal_received", "window_opened"} <= noted_kinds
    assert [kind for kind in sorted(noted_kinds) if not is_worded(kind)] == []


def test_a_notice_becomes_one_letter_however_often_the_worker_runs(participant) -> None:
    notice = noted(participant)
    assert write_notices(timezone.now()) == 1
    assert write_notices(timezone.now()) == 0
    letter = Letter.objects.get()
    assert (letter.to, letter.person) == (participant.user.email, participant)
    assert "First test" in letter.subject
    assert "/sit/k/" in letter.text
    notice.refresh_from_db()
    assert notice.sent_at is not None


def test_the_hour_is_that_of_the_school(participant) -> None:
    words = notice_words(noted(participant))
    assert "09:00" in words.lines[0]  # 8:00 in UTC, in summer time


def test_a_sentence_that_ends_with_an_hour_ends_with_one_full_stop(participant) -> None:
    assert words_of_first(participant).endswith(":00.")


def words_of_first(participant) -> str:
    return notice_words(noted(participant)).lines[0]


def test_whoever_has_left_is_not_written_to(participant) -> None:
    participant.left_on = timezone.localdate()
    participant.save()
    noted(participant)
    assert write_notices(timezone.now()) == 1
    assert not Letter.objects.exists()


def test_a_kind_without_words_is_reported_and_stops_nothing(participant, caplog) -> None:
    noted(participant, kind="unheard_of", a=1)
    noted(participant)
    assert write_notices(timezone.now()) == 2
    assert "unheard_of" in caplog.text
    assert Letter.objects.count() == 1


@pytest.mark.parametrize(
    ("kind", "facts", "word"),
    [
        ("sitting_closed_itself", {"paper": "k", "title": "T"}, "closed by itself"),
        ("sitting_annulled", {"paper": "k", "title": "T", "why": "A guest sat it"}, "A guest sat it"),
        ("window_opened", {"number": 2, "retraining": "two walks"}, "two walks"),
        ("appeal_received", {"appeal": "k", "decide_by": "2026-05-04"}, "never counts against you"),
        ("appeal_decided", {"appeal": "k", "outcome": "dismissed", "reasons": "Plain to see"}, "Plain to see"),
        ("plant_void", {"answers": [], "standards": []}, "taken out"),
    ],
)
def test_each_kind_says_what_happened(participant, kind, facts, word) -> None:
    words = notice_words(noted(participant, kind=kind, **facts))
    assert word in " ".join(words.lines)
    assert words.path.startswith("/")


def test_one_that_lacks_its_facts_is_reported_once_and_stops_nothing(participant, caplog) -> None:
    noted(participant, kind="paper_set", title="No paper")
    noted(participant)
    assert write_notices(timezone.now()) == 2
    assert "of the kind paper_set cannot be worded" in caplog.text
    assert Letter.objects.count() == 1
    assert write_notices(timezone.now()) == 0
