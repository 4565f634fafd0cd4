"""The readiness list: who may lead, what is missing, what lapses soon."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from courses.actions.requirements import record_requirement
from courses.forms.board import BoardForm
from courses.forms.certificates import RequirementForm
from courses.models import Role
from courses.queries.board import board, board_choices, board_lines
from courses.queries.board_walks import walk_lines
from courses.queries.readiness import on_the_way

from .access import for_roles, person_of

PEOPLE_PER_PAGE = 50


@require_safe
@for_roles(Role.ORGANISER, Role.TUTOR)
def readiness(request: HttpRequest) -> HttpResponse:
    """People against requirements, as far as they answer to the filters; and the walks that need somebody."""
    now, form, everybody = timezone.now(), BoardForm(request.GET, choices=board_choices()), on_the_way()
    found = board(form.ask, everybody, now)
    page = Paginator(found.found, PEOPLE_PER_PAGE).get_page(request.GET.get("page"))
    context = {
        "board": found,
        "page": page,
        "lines": board_lines(list(page.object_list), form.ask.part, now),
        "form": form,
        "walks": walk_lines(everybody, now),
    }
    return render(request, "courses/readiness/readiness.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def requirement_new(request: HttpRequest) -> HttpResponse:
    """Record a ticket or a policy that somebody showed."""
    if request.method == "POST":
        form = RequirementForm(request.POST)
        if form.is_valid():
            record_requirement(form.instance, person_of(request), timezone.localdate())
            messages.success(request, _("It is recorded."))
            return redirect("courses:readiness")
    else:
        form = RequirementForm(initial={"person": request.GET.get("person"), "kind": request.GET.get("kind")})
    back = reverse("courses:readiness")
    context = {"form": form, "title": _("A proof that was shown"), "back_url": back, "trail": [(back, _("Readiness"))]}
    return render(request, "courses/form.html", context, status=422 if form.is_bound else 200)
