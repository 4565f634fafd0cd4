"""The register of a meeting, kept on a telephone: four buttons a person, each of them a form of its own."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from courses.actions.register import RegisterClosed, mark_presence
from courses.forms.meetings import AlsoHereForm
from courses.models import Meeting, Person, Presence
from courses.queries.register import register_of
from courses.queries.visible import meetings_run_by

from .access import for_people, is_by_htmx, person_of, viewer_for


@require_safe
@for_people
def register(request: HttpRequest, key: str) -> HttpResponse:
    """Everybody who is expected, what is said of them, and how many of each."""
    meeting = _kept_by_viewer(request, key)
    kept = register_of(meeting, timezone.now())
    form = AlsoHereForm(listed=[line.person.pk for line in kept.lines]) if kept.is_open else None
    return render(request, "courses/register.html", {"register": kept, "form": form, "trail": _trail(meeting)})


@require_POST
@for_people
def register_mark(request: HttpRequest, key: str, pk: int) -> HttpResponse:
    """One tap: answers with the line alone to htmx, with the whole register otherwise."""
    meeting = _kept_by_viewer(request, key)
    listed = [line.person for line in register_of(meeting, timezone.now()).lines if line.person.pk == pk]
    if not listed or request.POST.get("presence") not in Presence.values:
        return _not_marked(request, meeting, _("Nothing was marked: open the register again and tap once more."))
    try:
        mark_presence(meeting, listed[0], Presence(request.POST["presence"]), by=person_of(request), now=timezone.now())
    except RegisterClosed:
        return _not_marked(request, meeting, _closed(meeting))
    if not is_by_htmx(request):
        return redirect(reverse("courses:register", args=[key]) + f"#person-{pk}")
    kept = register_of(meeting, timezone.now())
    line = next(each for each in kept.lines if each.person.pk == pk)
    return render(request, "courses/_register_answer.html", {"register": kept, "line": line})


@require_POST
@for_people
def register_add(request: HttpRequest, key: str) -> HttpResponse:
    """Somebody came who is not on the register."""
    meeting = _kept_by_viewer(request, key)
    listed = [line.person.pk for line in register_of(meeting, timezone.now()).lines]
    form = AlsoHereForm(request.POST, listed=listed)
    if not form.is_valid():
        return _not_marked(request, meeting, _("Choose somebody from the list who is not on the register yet."))
    found: Person = form.cleaned_data["person"]
    try:
        mark_presence(meeting, found, Presence.PRESENT, by=person_of(request), now=timezone.now())
    except RegisterClosed:
        return _not_marked(request, meeting, _closed(meeting))
    messages.success(request, _("%s is on the register.") % found.name)
    return redirect("courses:register", key)


def _kept_by_viewer(request: HttpRequest, key: str) -> Meeting:
    kept = meetings_run_by(viewer_for(request)).select_related("course", "site__locality")
    found: Meeting = get_object_or_404(kept, key=key)
    return found


def _not_marked(request: HttpRequest, meeting: Meeting, sentence: str) -> HttpResponse:
    messages.error(request, sentence)
    url = reverse("courses:register", args=[meeting.key])
    if not is_by_htmx(request):
        return redirect(url)
    answer = HttpResponse(status=204)
    answer["HX-Redirect"] = url  # the whole page again, with the sentence on it
    return answer


def _closed(meeting: Meeting) -> str:
    if meeting.cancelled_at is not None:
        return _("This meeting is cancelled: nobody can be marked. Restore it first if it takes place after all.")
    return _("The register opens on the day of the meeting: nobody can be marked before.")


def _trail(meeting: Meeting) -> list[tuple[str, str]]:
    return [(reverse("courses:meeting", args=[meeting.key]), meeting.title)]
