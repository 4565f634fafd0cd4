"""The way from somebody's courses to practising what they have taught."""

from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from courses.queries.practice import pairs_taught_to

from .access import for_people, person_of


@require_safe
@for_people
def course_practice(request: HttpRequest) -> HttpResponse:
    """On to practice, over the pairs that this person's courses have taught so far; over all where there are none."""
    keys = pairs_taught_to(person_of(request), timezone.now())
    address = reverse("assessments:practice")
    if keys:
        return redirect(f"{address}?{urlencode([('pair', key) for key in keys])}")
    messages.info(request, _("No course has taught you a pair yet. These are the pairs that the school asks for."))
    return redirect(address)
