"""A calendar of meetings as iCalendar (RFC 5545). Frozen facts in, bytes out; the same facts, the same bytes."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from icalendar import Calendar, Event, vUri

PRODUCT = "-//Kenspeckle//meetings//EN"


@dataclass(frozen=True)
class CalendarEntry:
    """One meeting as a calendar shows it: nothing of other people, of health or of results.

    uid: the same for ever, in every feed. sequence: grows when date, time, place or state changes. stamp: when the
    meeting was last changed in any way. Times are aware; they are written in UTC.
    """

    uid: str
    title: str
    starts_at: datetime
    ends_at: datetime
    stamp: datetime
    sequence: int = 0
    place: str = ""
    link: str = ""
    is_cancelled: bool = False
    is_settled: bool = True

    @property
    def status(self) -> str:
        if self.is_cancelled:
            return "CANCELLED"
        return "CONFIRMED" if self.is_settled else "TENTATIVE"


def write_calendar(name: str, entries: Sequence[CalendarEntry]) -> bytes:
    """The calendar, in the order of its entries. Without any it is an empty calendar, which is no error."""
    calendar = Calendar()
    calendar.add("PRODID", PRODUCT)
    calendar.add("VERSION", "2.0")
    calendar.add("X-WR-CALNAME", name)
    calendar.add("REFRESH-INTERVAL;VALUE=DURATION", "PT1H")
    for entry in entries:
        calendar.add_component(_event(entry))
    written: bytes = calendar.to_ical(sorted=False)
    return written


def _event(entry: CalendarEntry) -> Event:
    event = Event()
    event.add("UID", entry.uid)
    event.add("DTSTAMP", entry.stamp)
    event.add("LAST-MODIFIED", entry.stamp)
    event.add("SEQUENCE", entry.sequence)
    event.add("DTSTART", _in_utc(entry.starts_at))
    event.add("DTEND", _in_utc(entry.ends_at))
    event.add("SUMMARY", entry.title)
    if entry.place:
        event.add("LOCATION", entry.place)
    if entry.link:
        event.add("URL", vUri(entry.link))
    event.add("STATUS", entry.status)
    return event


def _in_utc(moment: datetime) -> datetime:
    return moment.astimezone(UTC)
