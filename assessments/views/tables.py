"""Tables and files to take away: one's own results, and the lists of those who set tests."""

from django.contrib.auth.models import User
from django.core.serializers.json import DjangoJSONEncoder
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404
from django.utils import timezone
from django.utils.cache import patch_cache_control
from django.views.decorators.http import require_safe

from assessments.actions.handing_in import note_results_seen, settle_overdue
from assessments.models import Paper, SpotTest, Standard
from assessments.queries import tables
from assessments.queries.flora import the_flora
from assessments.queries.own_record import own_record
from assessments.queries.result_table import results_table
from assessments.queries.results import results_of
from assessments.queries.sittings import seats_with_papers
from assessments.queries.standards import standards_with_parts
from assessments.queries.standing_page import standing_page
from assessments.queries.standings import standing_of

from .access import for_holders, signed_in, user_of

SET, SEE, HOLD = "assessments.add_paper", "assessments.view_evidence", "assessments.add_spottest"


@require_safe
@signed_in
def my_results(request: HttpRequest) -> HttpResponse:
    """All that the viewer answered and what it counts as, as a table."""
    now, user = timezone.now(), user_of(request)
    settle_overdue(now)
    flora = the_flora()
    standards = list(standards_with_parts().filter(pk__in=Standard.objects.in_use()).order_by("leads_walks", "name"))
    lines = results_of([user.pk], standards, flora, now)[user.pk]
    note_results_seen([user.pk], now)
    return _csv(results_table(lines, standards, flora), "my-results.csv")


@require_safe
@signed_in
def my_record(request: HttpRequest) -> HttpResponse:
    """Everything that this room holds about the viewer, as JSON."""
    now, user = timezone.now(), user_of(request)
    settle_overdue(now)
    written = {"indent": 2, "ensure_ascii": False}
    answer = JsonResponse(own_record(user, now), encoder=DjangoJSONEncoder, json_dumps_params=written)
    note_results_seen([user.pk], now)
    return _kept(answer, "my-record.json")


@require_safe
@signed_in
def my_standing_table(request: HttpRequest, standard_key: str) -> HttpResponse:
    """Where the viewer stands, a row a pair."""
    return _standing(user_of(request), standard_key)


@require_safe
@for_holders(SEE)
def standing_table_of(request: HttpRequest, person_pk: int, standard_key: str) -> HttpResponse:
    """Where somebody else stands, a row a pair."""
    return _standing(get_object_or_404(User, pk=person_pk), standard_key)


def _standing(person: User, standard_key: str) -> HttpResponse:
    now = timezone.now()
    settle_overdue(now)
    standard = Standard.objects.in_use().filter(key=standard_key).first()
    if standard is None:
        raise Http404
    flora = the_flora()
    table = tables.standing_table(standing_page(standing_of(person, standard, now, flora), flora))
    note_results_seen([person.pk], now)
    return _csv(table, f"standing-{standard_key}.csv")


@require_safe
@signed_in
def my_papers_table(request: HttpRequest) -> HttpResponse:
    """The viewer's own tests."""
    now = timezone.now()
    settle_overdue(now)
    seats = seats_with_papers().of(user_of(request).pk).order_by("-opens_at", "-id")
    return _csv(tables.own_seats_table(seats, now), "my-tests.csv")


@require_safe
@for_holders(SET, SEE)
def papers_table(_request: HttpRequest) -> HttpResponse:
    """The papers that the school set."""
    settle_overdue(timezone.now())
    return _csv(tables.papers_table(), "tests.csv")


@require_safe
@for_holders(SET, SEE)
def seats_table(_request: HttpRequest, key: str) -> HttpResponse:
    """Who may sit one paper, and how far they are."""
    now = timezone.now()
    settle_overdue(now)
    return _csv(tables.seats_table(get_object_or_404(Paper, key=key), now), "sitters.csv")


@require_safe
@for_holders(HOLD)
def spot_tests_table(_request: HttpRequest) -> HttpResponse:
    """Every spot test."""
    rows = SpotTest.objects.select_related("locality", "set_by").order_by("-held_at")
    return _csv(tables.spot_tests_table(rows), "spot-tests.csv")


@require_safe
@for_holders(HOLD)
def stations_table(request: HttpRequest, key: str) -> HttpResponse:
    """The stations of one spot test."""
    return _csv(tables.stations_table(get_object_or_404(SpotTest, key=key), user_of(request)), "stations.csv")


def _csv(content: bytes, name: str) -> HttpResponse:
    return _kept(HttpResponse(content, "text/csv; charset=utf-8"), name)


def _kept(answer: HttpResponse, name: str) -> HttpResponse:
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    patch_cache_control(answer, private=True, no_store=True)
    return answer
