"""The joining form: one's own, and what the tutors of a course read of it."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.health import fill_form, open_notes, own_notes, withdraw_consent
from courses.forms.health import JoiningFormForm
from courses.models import Consent, Enrolment, Role
from courses.queries.health import WORDS, WORDS_VERSION, own_form, places_with_forms, reads_notes_of
from courses.rules.notes import FIELDS, Agreed

from .access import for_people, for_roles, person_of, viewer_for


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
@for_people
def joining(request: HttpRequest, key: str) -> HttpResponse:
    """Tell, change or look at what the tutors of a course should know."""
    enrolment, now = _own_place(request, key), timezone.now()
    own = own_form(enrolment)
    words = {kind.value: text for kind, text in WORDS.items()}
    form = JoiningFormForm(request.POST if request.method == "POST" else None, words=words, initial=_told(own))
    if request.method == "POST" and form.is_valid():
        fill_form(enrolment, form.notes, Agreed(form.agreed, WORDS_VERSION), now)
        messages.success(request, _("Kept. You can change it here at any time."))
        return redirect("courses:joining", key)
    trail = [(reverse("courses:course", args=[key]), enrolment.course.title)]
    context = {"form": form, "own": own, "course": enrolment.course, "trail": trail}
    return render(request, "courses/joining.html", context, status=422 if form.errors else 200)


@require_POST
@for_people
def consent_withdraw(request: HttpRequest, key: str, kind: str) -> HttpResponse:
    """Take one consent back."""
    enrolment = _own_place(request, key)
    if kind not in Consent.Kind.values:
        raise Http404
    withdraw_consent(enrolment, kind, timezone.now())
    if kind == Consent.Kind.HEALTH:
        messages.success(request, _("Taken back, and what you wrote about your health is erased. You can still come."))
    else:
        messages.success(request, _("Taken back."))
    return redirect("courses:joining", key)


@never_cache
@require_safe
@for_roles(Role.TUTOR)
def joining_notes(request: HttpRequest, key: str) -> HttpResponse:
    """What the participants of one's own course have told. Every reading is written down and shown to them."""
    course = get_object_or_404(reads_notes_of(viewer_for(request)), key=key)
    places = list(places_with_forms(course))
    notes = open_notes(places, person_of(request), timezone.now())
    lines = [(place, notes.get(place.pk), _agreed(place)) for place in places]
    trail = [(reverse("courses:course", args=[key]), course.title)]
    silent = [place.person for place, told, _agreed_to in lines if told is None]
    context = {"course": course, "lines": lines, "silent": silent, "trail": trail}
    return render(request, "courses/joining_notes.html", context)


def _agreed(place: Enrolment) -> set[str]:
    return {each.kind for each in place.consents.all() if each.withdrawn_at is None}


def _own_place(request: HttpRequest, key: str) -> Enrolment:
    mine = Enrolment.objects.with_a_place().filter(person=person_of(request), course__key=key)
    return get_object_or_404(mine.select_related("course"))


def _told(own: Any) -> dict[str, object]:
    told: dict[str, object] = {f"agrees_{kind}": kind in own.agreed for kind in Consent.Kind.values}
    if own.form is not None and own.form.erased_at is None:
        notes = own_notes(own.form)
        told |= {name: getattr(notes, name) for name in FIELDS}
    return told
