"""Public pages of what is taught: plants, pairs, modules."""

from django.db.models import Count
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from species.models import Module, Pair, Species
from species.queries.flora import nearest_to, species_matching, species_page
from species.queries.pair_page import danger_order, pair_page
from species.views.asked import asked_of_pair


@require_safe
def index(request: HttpRequest) -> HttpResponse:
    """All plants, or those whose names hold what was typed."""
    text = request.GET.get("q", "").strip()
    found = list(species_matching(text))
    near = nearest_to(text) if text and not found else ()
    return render(request, "species/index.html", {"species": found, "q": text, "near": near})


@require_safe
def species(request: HttpRequest, key: str) -> HttpResponse:
    """One plant."""
    found = get_object_or_404(Species.objects.prefetch_related("common_names"), key=key)
    context = {"page": species_page(found, timezone.localdate()), "trail": _trail()}
    return render(request, "species/species.html", context)


@require_safe
def pairs(request: HttpRequest) -> HttpResponse:
    """All pairs, the dangerous ones first."""
    rows = Pair.objects.with_both_species().prefetch_related("gathered__common_names", "mistaken__common_names")
    in_order = sorted(rows, key=lambda each: (danger_order(each.danger), each.order))
    return render(request, "species/pairs.html", {"pairs": in_order, "trail": _trail()})


@require_safe
def pair(request: HttpRequest, key: str) -> HttpResponse:
    """One pair, side by side, in a chosen month and stage."""
    rows = Pair.objects.with_both_species().prefetch_related("gathered__common_names", "mistaken__common_names")
    found = get_object_or_404(rows, key=key)
    asked = asked_of_pair(request, found, timezone.localdate())
    page = pair_page(found, asked.month, asked.number)
    context = {"page": page, "notices": asked.notices, "trail": _trail("pairs", _("Pairs"))}
    return render(request, "species/pair.html", context)


@require_safe
def modules(request: HttpRequest) -> HttpResponse:
    """The modules in the order of teaching."""
    rows = Module.objects.annotate(
        species_count=Count("species_in_order", distinct=True), pair_count=Count("pairs_in_order", distinct=True)
    )
    return render(request, "species/modules.html", {"modules": rows, "trail": _trail()})


@require_safe
def module(request: HttpRequest, key: str) -> HttpResponse:
    """One module; its print is the page itself."""
    rows = Module.objects.prefetch_related(
        "species_in_order__species__common_names",
        "pairs_in_order__pair__gathered__common_names",
        "pairs_in_order__pair__mistaken__common_names",
    )
    context = {"module": get_object_or_404(rows, key=key), "trail": _trail("modules", _("Modules"))}
    return render(request, "species/module.html", context)


def _trail(*step: str) -> list[tuple[str, str]]:
    """The way up from a page: the plants, and perhaps one list (name of its address, label)."""
    trail = [(reverse("species:index"), _("Plants"))]
    return [*trail, (reverse(f"species:{step[0]}"), step[1])] if step else trail
