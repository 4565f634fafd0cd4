"""The calendar feed against the checklist IC-1 … IC-10 (RFC 5545; the numbers are those of our own list).

The outside reader is the icalendar library, and where it is lenient the lines themselves are read.
"""

import re
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from django.urls import reverse
from django.utils import timezone
from icalendar import Calendar

from courses.actions.calendar import end_address, renew_address
from courses.actions.meetings import cancel_meeting, keep_meeting, restore_meeting
from courses.documents.calendar import CalendarEntry, write_calendar
from courses.models import CalendarAddress, Meeting
from tests.factories.courses import make_meeting

LONDON = ZoneInfo("Europe/London")


def entry(**fields) -> CalendarEntry:
    start = datetime(2026, 5, 4, 9, tzinfo=UTC)
    facts = {"uid": "meeting-k@x.example", "title": "Walk", "starts_at": start, "ends_at": start + timedelta(hours=3)}
    return CalendarEntry(**{**facts, "stamp": start, **fields})


def events_of(content: bytes):
    return [each for each in Calendar.from_ical(content).walk() if each.name == "VEVENT"]


def feed_of(client, person) -> bytes:
    address = CalendarAddress.objects.filter(person=person, ended_at__isnull=True).first()
    address = address or renew_address(person, timezone.now())
    return client.get(reverse("courses:calendar_feed", args=[address.key])).content


def keep(meeting: Meeting, **fields) -> Meeting:
    for name, value in fields.items():
        setattr(meeting, name, value)
    return keep_meeting(meeting, modules=[], assistants=[], now=timezone.now())


def test_ic_1_version_and_product_stand_once_and_the_type_is_text_calendar(client, participant, course) -> None:
    address = renew_address(participant, timezone.now())
    answer = client.get(reverse("courses:calendar_feed", args=[address.key]))
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"
    assert answer.content.count(b"VERSION:2.0") == answer.content.count(b"PRODID:") == 1


def test_ic_2_every_event_has_what_it_must(client, participant, course) -> None:
    make_meeting(course)
    make_meeting(course)
    events = events_of(feed_of(client, participant))
    assert len(events) == 2
    assert all(name in event for event in events for name in ("UID", "DTSTAMP", "DTSTART"))
    assert all(event["DTSTAMP"].dt.tzinfo is not None for event in events)


def test_ic_3_the_uid_is_that_of_the_meeting_in_every_feed_and_after_every_move(
    client, participant, tutor, course
) -> None:
    meeting = make_meeting(course)
    first = events_of(feed_of(client, participant))[0]["UID"]
    keep(meeting, starts_at=meeting.starts_at + timedelta(days=1), ends_at=meeting.ends_at + timedelta(days=1))
    assert events_of(feed_of(client, participant))[0]["UID"] == first
    assert events_of(feed_of(client, tutor))[0]["UID"] == first
    assert first.startswith(f"meeting-{meeting.key}@")
    assert participant.user.email not in first


def test_ic_4_the_sequence_grows_with_a_move_and_not_with_a_new_title(client, participant, course) -> None:
    meeting = make_meeting(course)
    keep(meeting, title="Another title")
    before = events_of(feed_of(client, participant))[0]
    keep(meeting, place="The barn", site=None)
    after = events_of(feed_of(client, participant))[0]
    assert (before["SEQUENCE"], after["SEQUENCE"]) == (0, 1)
    assert after["LAST-MODIFIED"].dt >= before["LAST-MODIFIED"].dt


def test_ic_5_a_cancelled_meeting_stays_and_says_so_and_comes_back(client, participant, course) -> None:
    meeting = make_meeting(course)
    cancel_meeting(meeting, now=timezone.now())
    event = events_of(feed_of(client, participant))[0]
    assert (event["STATUS"], event["SEQUENCE"]) == ("CANCELLED", 1)
    restore_meeting(meeting, now=timezone.now())
    event = events_of(feed_of(client, participant))[0]
    assert (event["STATUS"], event["SEQUENCE"]) == ("CONFIRMED", 2)


def test_ic_5_it_stays_for_sixty_days_and_a_place_not_settled_is_tentative() -> None:
    assert events_of(write_calendar("", [entry(is_settled=False)]))[0]["STATUS"] == "TENTATIVE"


def test_ic_5_what_was_stays_for_sixty_days(client, participant, course, time_machine) -> None:
    meeting = make_meeting(course)
    address = renew_address(participant, timezone.now())
    url = reverse("courses:calendar_feed", args=[address.key])
    time_machine.move_to(meeting.ends_at + timedelta(days=59))
    assert len(events_of(client.get(url).content)) == 1
    course.ends_on += timedelta(days=30)
    course.save()
    time_machine.move_to(meeting.ends_at + timedelta(days=61))
    assert events_of(client.get(url).content) == []


@pytest.mark.parametrize(
    ("local", "utc"),
    [
        ((2026, 3, 28, 10), "20260328T100000Z"),  # the day before summer time
        ((2026, 3, 29, 10), "20260329T090000Z"),  # the day it begins
        ((2026, 10, 24, 10), "20261024T090000Z"),
        ((2026, 10, 25, 10), "20261025T100000Z"),
        ((2026, 10, 25, 1), "20261025T000000Z"),  # the hour that comes twice: the first of the two
    ],
)
def test_ic_6_times_are_in_utc_on_both_sides_of_a_change_of_the_clocks(local, utc) -> None:
    start = datetime(*local, tzinfo=LONDON)
    lines = write_calendar("", [entry(starts_at=start, ends_at=start + timedelta(hours=2))]).decode().splitlines()
    assert f"DTSTART:{utc}" in lines
    assert not any("TZID" in line for line in lines)


def test_ic_7_lines_are_folded_at_75_octets_and_never_inside_a_letter() -> None:
    title = "Été, \U0001f33f; Bärlauchwiesenspaziergangsvorbereitungstreffen\\ " * 4 + "\nzweite Zeile"
    content = write_calendar("", [entry(title=title)])
    lines = content.split(b"\r\n")
    assert b"\n" not in content.replace(b"\r\n", b"")
    assert all(len(line) <= 75 for line in lines)
    assert all(line.decode() is not None for line in lines)  # each line alone is whole letters
    assert events_of(content)[0]["SUMMARY"] == title
    assert b"\\," in content


def test_ic_8_the_address_is_secret_private_and_never_redirects(client, participant, course) -> None:
    address = renew_address(participant, timezone.now())
    assert len(address.key) >= 22  # 128 bits in base 64
    answer = client.get(reverse("courses:calendar_feed", args=[address.key]))
    assert answer.status_code == 200
    assert {"private", "no-store"} <= set(re.split(r",\s*", answer["Cache-Control"]))
    assert answer["X-Robots-Tag"] == "noindex"
    assert client.get(reverse("courses:calendar_feed", args=["unknown"])).status_code == 404


def test_ic_8_a_new_address_ends_the_old_and_switching_off_ends_all(client, signed_in, participant, course) -> None:
    old = renew_address(participant, timezone.now())
    signed_in(participant).post(reverse("courses:calendar_renew"))
    new = CalendarAddress.objects.get(person=participant, ended_at__isnull=True)
    assert client.get(reverse("courses:calendar_feed", args=[old.key])).status_code == 404
    assert client.get(reverse("courses:calendar_feed", args=[new.key])).status_code == 200
    end_address(participant, timezone.now())
    assert client.get(reverse("courses:calendar_feed", args=[new.key])).status_code == 404


def test_ic_9_nothing_of_others_of_health_or_of_places_of_plants(client, participant, tutor, course) -> None:
    meeting = make_meeting(course, leader=tutor)
    meeting.note = "Somebody is allergic"
    meeting.save()
    content = feed_of(client, participant).decode()
    assert tutor.name not in content
    assert "allergic" not in content
    assert not any(word in content for word in ("ATTENDEE", "ORGANIZER", "GEO:", "DESCRIPTION"))


def test_ic_10_the_feed_is_empty_once_the_place_is_given_up_and_gone_after_sixty_days(
    client, participant, course, time_machine
) -> None:
    make_meeting(course)
    url = reverse("courses:calendar_feed", args=[renew_address(participant, timezone.now()).key])
    participant.enrolments.update(withdrawn_at=timezone.now())
    empty = client.get(url)
    assert (empty.status_code, events_of(empty.content)) == (200, [])
    time_machine.move_to(timezone.now() + timedelta(days=61))
    assert client.get(url).status_code == 410


def test_ic_10_it_is_not_asked_for_without_end(client, participant, course) -> None:
    url = reverse("courses:calendar_feed", args=[renew_address(participant, timezone.now()).key])
    codes = [client.get(url).status_code for _ in range(61)]
    assert codes == [200] * 60 + [429]


def test_the_same_facts_give_the_same_bytes() -> None:
    entries = [entry(), entry(uid="other@x.example")]
    assert write_calendar("School", entries) == write_calendar("School", entries)


def test_the_feed_asks_as_often_for_many_meetings_as_for_one(client, participant, course, django_assert_num_queries):
    make_meeting(course)
    url = reverse("courses:calendar_feed", args=[renew_address(participant, timezone.now()).key])
    client.get(url)
    for _ in range(20):
        make_meeting(course)
    with django_assert_num_queries(6):
        client.get(url)


def test_the_page_gives_the_address_to_its_owner_only(signed_in, participant, stranger, course) -> None:
    url = reverse("courses:calendar")
    assert "You have no address yet" in signed_in(participant).get(url).content.decode()
    signed_in(participant).post(reverse("courses:calendar_renew"))
    key = CalendarAddress.objects.get(person=participant).key
    assert key in signed_in(participant).get(url).content.decode()
    assert key not in signed_in(stranger).get(url).content.decode()
