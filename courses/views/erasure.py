"""A person's own data and their request to be erased; the requests, for organisers."""

from datetime import datetime, time
from uuid import UUID

from django.contrib import messages
from django.core.serializers.json import DjangoJSONEncoder
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import patch_cache_control
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.erasure import (
    AlreadyAsked,
    AlreadyDecided,
    NamedByTheSchool,
    OwnRequest,
    ask_to_be_erased,
    decline_erasure,
    erase,
    take_request_back,
)
from courses.actions.own_data import take_own_data
from courses.actions.roles import LastOrganiser
from courses.forms.protection import ConfirmForm, DeclineForm, RecordForm
from courses.models import ErasureRequest, Person, Role
from courses.queries.erasure import erasure_lists, erasure_page, latest_request, names_kept, past_keeping

from .access import for_people, for_roles, person_of


@require_http_methods(["GET", "HEAD", "POST"])
@for_people
def own_data(request: HttpRequest) -> HttpResponse:
    """What somebody can take away of their own, and asking to be erased."""
    person, is_sent = person_of(request), request.method == "POST"
    form = ConfirmForm(request.POST if is_sent else None, address=person.user.email)
    if is_sent and form.is_valid():
        try:
            ask_to_be_erased(person, now=timezone.now())
        except AlreadyAsked:
            messages.error(request, _("You have asked already: see below until when it is answered."))
        else:
            messages.success(request, _("The school has your request, and a letter is on its way to you."))
        return redirect("courses:own_data")
    latest = latest_request(person)
    context = {"form": form, "latest": latest, "names": names_kept(person, timezone.localdate())}
    return render(request, "courses/protection/own_data.html", context, status=422 if form.errors else 200)


@require_safe
@for_people
def own_data_file(request: HttpRequest) -> HttpResponse:
    """Everything that the school holds of the viewer, in one file."""
    told = take_own_data(person_of(request), timezone.now())
    answer = JsonResponse(told, encoder=DjangoJSONEncoder, json_dumps_params={"indent": 2, "ensure_ascii": False})
    answer["Content-Disposition"] = 'attachment; filename="my-data.json"'
    patch_cache_control(answer, private=True, no_store=True)
    return answer


@require_POST
@for_people
def erasure_take_back(request: HttpRequest) -> HttpResponse:
    """Take one's request back."""
    waiting = ErasureRequest.objects.undecided().filter(person=person_of(request)).first()
    if waiting is None:
        messages.error(request, _("There is no request to take back."))
        return redirect("courses:own_data")
    try:
        take_request_back(waiting, timezone.now())
    except AlreadyDecided:
        messages.error(request, _("It was answered meanwhile: look at your letters."))
    else:
        messages.success(request, _("You have taken your request back: nothing is erased."))
    return redirect("courses:own_data")


@require_safe
@for_roles(Role.ORGANISER)
def erasures(request: HttpRequest) -> HttpResponse:
    """Requests that wait, with the day by which they are answered, and those that were."""
    today = timezone.localdate()
    waiting, done = erasure_lists(today)
    context = {"waiting": waiting, "done": done, "past": past_keeping(today)}
    return render(request, "courses/protection/erasures.html", context)


@require_safe
@for_roles(Role.ORGANISER)
def erasure(request: HttpRequest, key: str) -> HttpResponse:
    """What would go, what stays and why; and the answer."""
    return _page(request, _found(key), DeclineForm())


@require_POST
@for_roles(Role.ORGANISER)
def erasure_grant(request: HttpRequest, key: str) -> HttpResponse:
    """Erase the person."""
    try:
        done = erase(_found(key), by=person_of(request), now=timezone.now())
    except (AlreadyDecided, OwnRequest, LastOrganiser, NamedByTheSchool) as refusal:
        messages.error(request, _refusal(refusal))
        return redirect("courses:erasure", key)
    said = _("Erased. A last letter is on its way, and its address goes with it.")
    if done.names_until is not None and done.completed_at is None:
        said = _("Erased, but for the name on certificates, which goes by itself when their time is over.")
    messages.success(request, said)
    return redirect("courses:erasures")


@require_POST
@for_roles(Role.ORGANISER)
def erasure_decline(request: HttpRequest, key: str) -> HttpResponse:
    """Say no, with a reason."""
    found, form = _found(key), DeclineForm(request.POST)
    if not form.is_valid():
        return _page(request, found, form)
    try:
        decline_erasure(found, by=person_of(request), reason=form.cleaned_data["reason"], now=timezone.now())
    except (AlreadyDecided, OwnRequest) as refusal:
        messages.error(request, _refusal(refusal))
        return redirect("courses:erasure", key)
    messages.success(request, _("Declined: the person is told why, and where they can complain."))
    return redirect("courses:erasures")


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def erasure_record(request: HttpRequest, uuid: UUID) -> HttpResponse:
    """Record a request that came by letter, by telephone or in person."""
    person = get_object_or_404(Person.objects.select_related("user"), uuid=uuid)
    form = RecordForm(request.POST if request.method == "POST" else None, today=timezone.localdate())
    if request.method == "POST" and form.is_valid():
        came = timezone.make_aware(datetime.combine(form.cleaned_data["came_on"], time(12)))
        try:
            made = ask_to_be_erased(person, now=timezone.now(), asked_at=came, recorded_by=person_of(request))
        except AlreadyAsked:
            form.add_error(None, _("There is a request that waits already, or the person is erased."))
        else:
            return redirect("courses:erasure", made.key)
    url = reverse("courses:person", args=[uuid])
    title = _("%(name)s asks to be erased") % {"name": person.name}
    context = {"form": form, "title": title, "label": _("Record the request"), "back_url": url}
    return render(request, "courses/form.html", context, status=422 if form.errors else 200)


def _found(key: str) -> ErasureRequest:
    rows = ErasureRequest.objects.select_related("person__user", "decided_by", "recorded_by")
    found: ErasureRequest = get_object_or_404(rows, key=key)
    return found


def _page(request: HttpRequest, found: ErasureRequest, form: DeclineForm) -> HttpResponse:
    page = erasure_page(found, timezone.localdate())
    context = {"page": page, "form": form, "is_own": found.person_id == person_of(request).pk}
    trail = [(reverse("courses:erasures"), _("Requests to be erased"))]
    answer = {**context, "trail": trail}
    return render(request, "courses/protection/erasure.html", answer, status=422 if form.errors else 200)


def _refusal(refusal: Exception) -> str:
    if isinstance(refusal, OwnRequest):
        return _("This is your own request: another organiser answers it.")
    if isinstance(refusal, LastOrganiser):
        return _("Nobody else is an organiser: give somebody that role first. Nothing was erased.")
    if isinstance(refusal, NamedByTheSchool):
        return _("The school’s own details name this person: change them first. Nothing was erased.")
    return _("It was answered or taken back meanwhile: nothing was done.")
