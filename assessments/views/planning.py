"""Planning a standard: what it takes to pass, before anybody sits. For those who set papers."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from assessments.forms.planning import PlanForm
from assessments.models import Standard
from assessments.queries.flora import the_flora
from assessments.queries.planning import plans_of
from assessments.queries.planning_page import planning_page

from .access import for_holders

PLAN = "assessments.add_paper"


@require_safe
@for_holders(PLAN)
def planning(request: HttpRequest) -> HttpResponse:
    """One standard, or two side by side; the choice is in the address, so that it can be kept and sent."""
    if "standard" not in request.GET:
        first = Standard.objects.in_use().order_by("leads_walks", "name").first()
        return _planned(request, PlanForm({"standard": first.pk, "weeks": 8}) if first else PlanForm(), bool(first))
    return _planned(request, PlanForm(request.GET), True)


def _planned(request: HttpRequest, form: PlanForm, is_asked: bool) -> HttpResponse:
    context: dict[str, object] = {"form": form, "has_choices": form.has_choices}
    if not is_asked:
        return render(request, "assessments/planning.html", context)
    if not form.is_valid():
        return render(request, "assessments/planning.html", context, status=422)
    values = form.cleaned_data
    plans = plans_of(values["standard"], values["against"], values["numbers"])
    context["page"] = planning_page(plans, values["weeks"], the_flora())
    context["plans"] = plans
    return render(request, "assessments/planning.html", context)
