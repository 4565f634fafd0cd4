"""The public pages of the standards: what is asked, of which pairs, and why."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from assessments.models import Standard
from assessments.queries.flora import the_flora
from assessments.queries.standards import facts_of, standards_with_parts
from assessments.queries.standing_page import standing_page
from assessments.rules.names import NameBook
from assessments.rules.standing import standing


@require_safe
def standards(request: HttpRequest) -> HttpResponse:
    """Every version that is, or was, in use."""
    rows = Standard.objects.put_to_use().order_by("name", "-version")
    return render(request, "assessments/standards.html", {"standards": rows})


@require_safe
def standard(request: HttpRequest, key: str, version: int) -> HttpResponse:
    """One version. What it asks of somebody who has shown nothing yet is what it asks."""
    found = get_object_or_404(standards_with_parts().put_to_use(), key=key, version=version)
    flora = the_flora()
    facts = facts_of([found])[found.pk]
    asked = standing_page(standing(facts, (), (), NameBook([])), flora)
    context = {
        "standard": found,
        "page": asked,
        "species": [row for row in found.species.all() if row.reason],
        "miss_percent": f"{float(found.miss_limit) * 100:g}",
        "alpha_percent": f"{float(found.miss_alpha) * 100:g}",
    }
    return render(request, "assessments/standard.html", context)
