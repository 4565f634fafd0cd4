"""The answers behind the figures of a standing: for the person themselves, and for holders of the permission."""

from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from assessments.actions.handing_in import note_results_seen, settle_overdue
from assessments.actions.previews import note_previews
from assessments.models import Standard
from assessments.queries.flora import Flora, the_flora
from assessments.queries.ledger_page import EntryLine, People, ledger_page, set_aside_entries
from assessments.queries.people import name_of
from assessments.queries.standing_links import StandingLinks
from assessments.queries.standings import standing_of
from assessments.rules.behind import Part, PartKind
from assessments.rules.standard import Side
from assessments.rules.standing import Standing

from .access import for_holders, signed_in, user_of
from .standing import SEE


@require_safe
@signed_in
def my_ledger(request: HttpRequest, standard_key: str, species_key: str, side: str) -> HttpResponse:
    """The viewer's own answers to one species."""
    return _ledger(request, _Looked(request, user_of(request), standard_key, is_own=True), species_key, side)


@require_safe
@for_holders(SEE)
def ledger_of_person(
    request: HttpRequest, person_pk: int, standard_key: str, species_key: str, side: str
) -> HttpResponse:
    """Somebody else's answers to one species."""
    person = get_object_or_404(User, pk=person_pk)
    return _ledger(request, _Looked(request, person, standard_key, is_own=False), species_key, side)


@require_safe
@signed_in
def my_set_aside(request: HttpRequest, standard_key: str) -> HttpResponse:
    """The viewer's own answers that belong to no pair of the standard."""
    return _set_aside(request, _Looked(request, user_of(request), standard_key, is_own=True))


@require_safe
@for_holders(SEE)
def set_aside_of_person(request: HttpRequest, person_pk: int, standard_key: str) -> HttpResponse:
    """Somebody else's answers that belong to no pair of the standard."""
    person = get_object_or_404(User, pk=person_pk)
    return _set_aside(request, _Looked(request, person, standard_key, is_own=False))


class _Looked:
    """One person's standing under one standard in use, as it is looked at now; or not found."""

    def __init__(self, request: HttpRequest, person: User, standard_key: str, *, is_own: bool) -> None:
        now = self.now = timezone.now()
        settle_overdue(now)
        self.standard = get_object_or_404(Standard.objects.in_use(), key=standard_key)
        self.flora: Flora = the_flora()
        self.standing: Standing = standing_of(person, self.standard, now, self.flora)
        note_results_seen([person.pk], now)
        self.people = People(person, user_of(request))
        self.links = StandingLinks(standard_key, None if is_own else person.pk)
        self.is_own, self.name = is_own, name_of(person)

    @property
    def context(self) -> dict[str, object]:
        up = _("Where you stand") if self.is_own else _("Where %(name)s stands") % {"name": self.name}
        return {
            "standard": self.standard,
            "is_own": self.is_own,
            "name": self.name,
            "trail": [(self.links.standing, up)],
        }

    def note(self, entries: tuple[EntryLine, ...]) -> None:
        """Pictures of somebody else's answers are previews of what the viewer might be asked one day."""
        if not self.is_own:
            note_previews(self.people.viewer, {each.specimen for each in entries if each.picture}, self.now)


def _ledger(request: HttpRequest, looked: _Looked, species_key: str, side: str) -> HttpResponse:
    part = Part.read(request.GET.get("show", str(PartKind.ALL)))
    window = request.GET.get("window", "")
    try:
        ledger = looked.standing.ledger(species_key, Side(side))
        number = int(window) if window else ledger.nearest.number
    except (KeyError, ValueError):
        raise Http404 from None
    page = part and ledger_page(ledger, part, number, looked.people, looked.flora, looked.links)
    if not page:
        raise Http404
    looked.note(page.entries)
    context = {**looked.context, "page": page, "plant_title": capfirst(page.plant.common_name)}
    return render(request, "assessments/ledger.html", context)


def _set_aside(request: HttpRequest, looked: _Looked) -> HttpResponse:
    entries = set_aside_entries(looked.standing, looked.people, looked.flora)
    looked.note(entries)
    return render(request, "assessments/set_aside.html", {**looked.context, "entries": entries})
