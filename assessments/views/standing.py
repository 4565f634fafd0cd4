"""Where somebody stands, pair by pair: for themselves, and for holders of the permission."""

from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from assessments.actions.handing_in import note_results_seen, settle_overdue
from assessments.models import Standard
from assessments.queries.flora import the_flora
from assessments.queries.people import name_of
from assessments.queries.standing_links import StandingLinks
from assessments.queries.standing_page import standing_page
from assessments.queries.standings import standing_of

from .access import for_holders, signed_in, user_of

SEE = "assessments.view_evidence"


@require_safe
@signed_in
def my_standing(request: HttpRequest, standard_key: str = "") -> HttpResponse:
    """Where the viewer stands under one standard in use; the first one where none is named."""
    return _page(request, user_of(request), standard_key, is_own=True)


@require_safe
@for_holders(SEE)
def standing_of_person(request: HttpRequest, person_pk: int, standard_key: str) -> HttpResponse:
    """Where somebody else stands."""
    return _page(request, get_object_or_404(User, pk=person_pk), standard_key, is_own=False)


def standards_in_use() -> list[Standard]:
    """The standards that somebody can stand under, participants' ones first."""
    return list(Standard.objects.in_use().order_by("leads_walks", "name"))


def _page(request: HttpRequest, person: User, standard_key: str, *, is_own: bool) -> HttpResponse:
    now = timezone.now()
    settle_overdue(now)
    standards = standards_in_use()
    chosen = next((each for each in standards if each.key == standard_key or not standard_key), None)
    if chosen is None and standard_key:
        raise Http404
    context: dict[str, object] = {
        "standards": standards,
        "standard": chosen,
        "is_own": is_own,
        "name": name_of(person),
        "person": person,
    }
    if chosen is not None:
        flora, links = the_flora(), StandingLinks(chosen.key, None if is_own else person.pk)
        context["page"] = standing_page(standing_of(person, chosen, now, flora), flora, links)
        note_results_seen([person.pk], now)
    return render(request, "assessments/standing.html", context)
