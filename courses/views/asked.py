"""What the school asks of leaders and assistants."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.asked import drop_requirement, keep_requirement, write_down_the_usual
from courses.forms.leading import AskedForm
from courses.models import Requirement, Role

from .access import for_roles


@require_safe
@for_roles(Role.ORGANISER)
def requirements(request: HttpRequest) -> HttpResponse:
    """What is asked, in order; where nothing is set, what is usual."""
    rows = list(Requirement.objects.all())
    context = {
        "rows": rows,
        "is_usual": not any(row.part == Requirement.Part.LEADER for row in rows),
        "trail": [(reverse("courses:readiness"), _("Readiness"))],
    }
    return render(request, "courses/readiness/requirements.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def requirement_keep(request: HttpRequest, pk: int = 0) -> HttpResponse:
    """Set or change one requirement."""
    row = get_object_or_404(Requirement, pk=pk) if pk else Requirement()
    form = AskedForm(request.POST if request.method == "POST" else None, instance=row)
    if request.method == "POST" and form.is_valid():
        keep_requirement(form.save(commit=False))
        messages.success(request, _("Kept. The list follows at once."))
        return redirect("courses:requirements")
    back = reverse("courses:requirements")
    context = {
        "form": form,
        "title": _("What is asked"),
        "intro": _("As soon as one thing is set for leaders, only what is set is asked of them."),
        "back_url": back,
        "trail": [(reverse("courses:readiness"), _("Readiness")), (back, _("What is asked of leaders"))],
    }
    return render(request, "courses/form.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def requirement_drop(request: HttpRequest, pk: int) -> HttpResponse:
    """Ask something no longer: asks once more before it is done, since people become ready by it."""
    if request.method == "POST":
        drop_requirement(pk)
        messages.success(request, _("It is asked no longer. The list follows at once."))
        return redirect("courses:requirements")
    back = reverse("courses:requirements")
    context = {
        "row": get_object_or_404(Requirement, pk=pk),
        "back_url": back,
        "trail": [(reverse("courses:readiness"), _("Readiness")), (back, _("What is asked of leaders"))],
    }
    return render(request, "courses/readiness/drop.html", context)


@require_POST
@for_roles(Role.ORGANISER)
def requirements_usual(request: HttpRequest) -> HttpResponse:
    """Write the usual down, so that more can be asked beside it."""
    write_down_the_usual()
    return redirect("courses:requirements")
