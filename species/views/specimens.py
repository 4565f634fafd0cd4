"""One specimen, and the steps that can be taken with it."""

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from species.actions.specimens import SpecimenRefusal, mend_specimen, retire_specimen, set_use
from species.forms.specimens import MendForm, RetireForm
from species.models import Specimen
from species.queries.opinions import waits_for_the_school
from species.queries.pictures import picture_of
from species.queries.specimen_sentences import sentence_on_step
from species.rules.vocabulary import Use

from .access import for_holders


@require_safe
@for_holders("species.view_specimen")
def specimen(request: HttpRequest, key: str) -> HttpResponse:
    """One specimen with its pictures and everything that was said of it; one in the tray is sorted first."""
    if request.user.has_perm("species.add_specimen") and Specimen.objects.in_the_tray().filter(key=key).exists():
        return redirect("species:tray_group", key)
    return _page(request, key)


@require_POST
@for_holders("species.add_specimen")
def specimen_mend(request: HttpRequest, key: str) -> HttpResponse:
    """Correct stage, day and form."""
    found = get_object_or_404(Specimen, key=key)
    form = MendForm(request.POST, today=timezone.localdate())
    if not form.is_valid():
        return _page(request, key, mend=form)
    values = form.cleaned_data
    return _step(request, found, lambda: mend_specimen(found, **values), _("It is corrected."))


@require_POST
@for_holders("species.add_specimen")
def specimen_use(request: HttpRequest, key: str) -> HttpResponse:
    """Set it aside for the other use."""
    found = get_object_or_404(Specimen, key=key)
    other = Use.TEACHING if found.use == Use.ASSESSMENT else Use.ASSESSMENT
    return _step(request, found, lambda: set_use(found, other), _("It serves for the other use now."))


@require_POST
@for_holders("species.add_specimen")
def specimen_retire(request: HttpRequest, key: str) -> HttpResponse:
    """Take it out of the bank."""
    found = get_object_or_404(Specimen, key=key)
    form = RetireForm(request.POST)
    if not form.is_valid():
        return _page(request, key, retire=form)
    why, today = form.cleaned_data["why"], timezone.localdate()
    return _step(
        request, found, lambda: retire_specimen(found, why=why, today=today), _("It is taken out of the bank.")
    )


def _step(request: HttpRequest, found: Specimen, step: Callable[[], None], done: str) -> HttpResponse:
    try:
        step()
    except SpecimenRefusal as refusal:
        messages.error(request, sentence_on_step(refusal.why, refusal.uses))
    else:
        messages.success(request, done)
    return redirect("species:specimen", found.key)


def _page(
    request: HttpRequest, key: str, mend: MendForm | None = None, retire: RetireForm | None = None
) -> HttpResponse:
    rows = Specimen.objects.select_related("species", "individual__locality").prefetch_related(
        "species__common_names",
        "photos__renditions",
        "determinations__species",
        "determinations__determiner",
        "determinations__link",
        "determinations__brought_by",
        "second_looks__asked_by",
    )
    found = get_object_or_404(rows, key=key)
    initial = {"stage": found.stage, "seen_on": found.seen_on, "form": found.form}
    context = {
        "specimen": found,
        "pictures": [(picture_of(photo), photo.key) for photo in found.photos.all() if photo.renditions.all()],
        "waits_for_the_school": waits_for_the_school(found.determinations.all()),
        "mend": mend or MendForm(initial=initial, today=timezone.localdate()),
        "retire": retire or RetireForm(),
        "trail": [(reverse("species:bank"), _("The bank"))],
    }
    return render(request, "species/specimen.html", context, status=422 if mend or retire else 200)
