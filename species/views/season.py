"""What shows when: in the region for everybody, at one place for those who keep the bank."""

from dataclasses import dataclass

from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from species.documents.calendar import draw_calendar
from species.models import Locality, Module, Species
from species.queries.calendar_words import calendar_note, calendar_words
from species.queries.flora import nearest_to
from species.queries.season import SeasonPage, plants_seen_at, season_page
from species.views.access import for_holders
from species.views.asked import asked_day
from species.views.printing import letterhead, printed


@dataclass(frozen=True)
class Asked:
    """Which plants an address asks for, what they are called together, and what was wrong with the address."""

    plants: QuerySet[Species]
    title: str
    notices: tuple[str, ...]


@require_safe
def season(request: HttpRequest) -> HttpResponse:
    """What shows in the region on a day: of all plants, of a module or of chosen plants."""
    asked = _asked_plants(request)
    day, wrong = asked_day(request.GET.get("date"), timezone.localdate())
    page = season_page(asked.plants, asked.title, day)
    notices = [*asked.notices, *([wrong] if wrong else [])]
    return _page(request, page, notices, reverse("species:calendar"))


@require_safe
def calendar(request: HttpRequest) -> HttpResponse:
    """The year of the same plants on one page A4."""
    asked = _asked_plants(request)
    words = calendar_words(season_page(asked.plants, asked.title, timezone.localdate()), letterhead(request))
    return printed(request, lambda: draw_calendar(words), "calendar.pdf")


@require_safe
@for_holders("species.view_specimen")
def place(request: HttpRequest, pk: int) -> HttpResponse:
    """What shows at one place, where it runs early or late."""
    found = get_object_or_404(Locality, pk=pk)
    day, wrong = asked_day(request.GET.get("date"), timezone.localdate())
    page = season_page(plants_seen_at(found), found.name, day, found.days_late)
    return _page(request, page, [wrong] if wrong else [], reverse("species:place_calendar", args=[pk]))


@require_safe
@for_holders("species.view_specimen")
def place_calendar(request: HttpRequest, pk: int) -> HttpResponse:
    """The year of one place on one page A4."""
    found = get_object_or_404(Locality, pk=pk)
    page = season_page(plants_seen_at(found), found.name, timezone.localdate(), found.days_late)
    words = calendar_words(page, letterhead(request))
    return printed(request, lambda: draw_calendar(words), "calendar.pdf")


def _page(request: HttpRequest, page: SeasonPage, notices: list[str], calendar_url: str) -> HttpResponse:
    kept = request.GET.copy()
    kept.pop("date", None)
    may_see_places = request.user.has_perm("species.view_specimen")
    context = {
        "page": page,
        "notices": notices,
        "note": calendar_note(page.days_late),
        "kept": [(name, value) for name, values in kept.lists() for value in values if name in ("module", "species")],
        "calendar_url": calendar_url + (f"?{kept.urlencode()}" if kept else ""),
        "modules": Module.objects.all(),
        "chosen_module": request.GET.get("module", ""),
        "places": Locality.objects.all() if may_see_places else [],
        "trail": [(reverse("species:index"), _("Plants"))],
    }
    return render(request, "species/season.html", context)


def _asked_plants(request: HttpRequest) -> Asked:
    """The plants of `module`, or those named by `species` (keys), or all; names that are not there are said."""
    key, keys = request.GET.get("module", ""), request.GET.getlist("species")
    everything = Species.objects.all()
    if key:
        module = Module.objects.filter(key=key).first()
        if module is not None:
            return Asked(everything.filter(modules=module), module.title, ())
        sentence = _("There is no module “%(asked)s”: choose one from the list. Here are all plants.")
        return Asked(everything, _("all plants"), (sentence % {"asked": key[:40]},))
    if not keys:
        return Asked(everything, _("all plants"), ())
    plants = everything.filter(key__in=keys)
    known = set(plants.values_list("key", flat=True))
    notices = tuple(_no_such_plant(each) for each in dict.fromkeys(keys) if each not in known)
    if not known:
        return Asked(everything, _("all plants"), notices)
    return Asked(plants, _("%(number)s chosen plants") % {"number": len(known)}, notices)


def _no_such_plant(asked: str) -> str:
    near = ", ".join(nearest_to(asked.replace("-", " "))[:3])
    words = {"asked": asked[:60], "near": near}
    if near:
        return _("There is no plant “%(asked)s”. Nearest: %(near)s.") % words
    return _("There is no plant “%(asked)s”.") % words
