"""Tables of this room to take away: what a list on a page shows, as many queries as the page."""

from collections.abc import Iterable
from datetime import datetime

from django.contrib.auth.models import User
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from assessments.documents.tables import written_table
from assessments.models import Paper, Seat, SpotTest

from .papers import papers_with_counts, seats_of_paper
from .people import name_of
from .result_table import local_moment
from .sittings import SeatState, seat_state
from .spot_tests import station_lines
from .standing_page import LedgerLine, StandingPage

STATE_WORDS = {
    SeatState.COMING: gettext_lazy("not open yet"),
    SeatState.OPEN: gettext_lazy("open now"),
    SeatState.UNDER_WAY: gettext_lazy("begun"),
    SeatState.HANDED_IN: gettext_lazy("handed in"),
    SeatState.RESULT: gettext_lazy("handed in, counted"),
    SeatState.MISSED: gettext_lazy("closed without being begun"),
    SeatState.ANNULLED: gettext_lazy("annulled"),
}


def papers_table() -> bytes:
    """The papers that the school set, newest first."""
    columns = [_("title"), _("standard"), _("questions"), _("opens"), _("closes"), _("set by")]
    columns += [_("may sit it"), _("begun"), _("handed in")]
    return written_table(
        columns,
        (
            [
                row.title,
                row.standard,
                row.questions,
                local_moment(row.opens_at),
                _moment(row.closes_at),
                name_of(row.set_by),
                row.seat_count,
                row.opened_count,
                row.handed_in_count,
            ]
            for row in papers_with_counts()
        ),
    )


def seats_table(paper: Paper, now: datetime) -> bytes:
    """Who may sit one paper and how far they are. No result is among it."""
    columns = [_("name"), _("e-mail"), _("state"), _("opens"), _("closes"), _("times the time allowed")]
    columns += [_("begun at"), _("handed in at"), _("annulled because")]
    return written_table(columns, (_seat_row(seat, state) for seat, state in seats_of_paper(paper, now)))


def _seat_row(seat: Seat, state: SeatState) -> list[object]:
    sitting = getattr(seat, "sitting", None)
    return [
        name_of(seat.person),
        seat.person.email,
        STATE_WORDS[state],
        local_moment(seat.opens_at),
        _moment(seat.closes_at),
        seat.time_factor.normalize(),
        _moment(sitting.opened_at if sitting else None),
        _moment(sitting.handed_in_at if sitting else None),
        sitting.annulled_why if sitting else "",
    ]


def own_seats_table(seats: Iterable[Seat], now: datetime) -> bytes:
    """The tests of one person, as their own list shows them."""
    columns = [_("title"), _("standard"), _("questions"), _("opens"), _("closes"), _("state")]
    return written_table(
        columns,
        (
            [
                seat.paper.title,
                seat.paper.standard,
                seat.paper.questions,
                local_moment(seat.opens_at),
                _moment(seat.closes_at),
                STATE_WORDS[seat_state(seat, now)],
            ]
            for seat in seats
        ),
    )


def spot_tests_table(tests: Iterable[SpotTest]) -> bytes:
    """Spot tests, the newest first."""
    columns = [_("title"), _("held"), _("place"), _("set by")]
    return written_table(
        columns, ([row.title, local_moment(row.held_at), row.locality, name_of(row.set_by)] for row in tests)
    )


def stations_table(test: SpotTest, viewer: User) -> bytes:
    """The stations of one spot test; a name only for whoever has given one, as on its page."""
    columns = [_("number"), _("stage"), _("plant"), _("scientific name"), _("confirmed"), _("struck out because")]
    return written_table(
        columns,
        (
            [
                line.number,
                line.stage,
                line.common_name,
                line.name,
                _("yes") if line.is_confirmed else _("no"),
                line.struck_out_why,
            ]
            for line in station_lines(test, viewer)
        ),
    )


def standing_table(page: StandingPage) -> bytes:
    """Where somebody stands, a row a pair: both ledgers, and the sentence of the page."""
    columns = [_("gathered"), _("taken for it"), _("passed"), _("how it stands")]
    columns += [
        _("clean, dangerous side"),
        _("misses, dangerous side"),
        _("still needed, dangerous side"),
        _("recognised, edible side"),
        _("not recognised, edible side"),
        _("still needed, edible side"),
    ]
    return written_table(
        columns,
        (
            [
                pair.gathered.common_name,
                pair.mistaken.common_name,
                _("yes") if pair.passed else _("no"),
                pair.sentence,
                *_figures(pair.dangerous),
                *_figures(pair.edible),
            ]
            for pair in page.pairs
        ),
    )


def _figures(ledger: LedgerLine) -> list[int]:
    return [ledger.clean, ledger.misses, ledger.still]


def _moment(moment: datetime | None) -> str:
    return local_moment(moment) if moment is not None else ""
