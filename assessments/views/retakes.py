"""The public page that explains why sitting again does not help."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from assessments.queries.retakes_page import retakes_blocks

from .standing import standards_in_use


@require_safe
def retakes(request: HttpRequest) -> HttpResponse:
    """Luck under rules that forget, and under ours, with the numbers of the standards in use."""
    return render(request, "assessments/retakes.html", {"blocks": retakes_blocks(standards_in_use())})
