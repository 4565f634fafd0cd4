"""Sorting what came in: proposals, groups, and one group with everything that is said of it."""

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from species.actions.sorting import Sorted, finish_sorting, move_pictures, put_together
from species.actions.specimens import PLACE_UNKNOWN, SpecimenRefusal
from species.forms.sorting import PARTS, SortForm
from species.models import Locality, Specimen
from species.queries.flora import species_matching
from species.queries.specimen_sentences import sentence_on_step
from species.queries.tray import met_before, proposals_for, tiles_of, tray_groups
from species.rules.vocabulary import Use

from .access import for_holders, user_of


@require_safe
@for_holders("species.add_specimen")
def tray(request: HttpRequest) -> HttpResponse:
    """Everything that waits to be sorted, and what of it looks like one plant."""
    groups = tray_groups()
    context = {
        "groups": groups,
        "proposals": proposals_for(groups),
        "trail": [(reverse("species:bank"), _("The bank"))],
    }
    return render(request, "species/tray.html", context)


@require_POST
@for_holders("species.add_specimen")
def tray_together(request: HttpRequest) -> HttpResponse:
    """Make one specimen of each set of groups that was agreed to, or of those that were ticked."""
    sets = [text.split(",") for text in request.POST.getlist("proposal")] or [request.POST.getlist("chosen")]
    made = 0
    for keys in sets:
        try:
            put_together(keys)
        except SpecimenRefusal as refusal:
            messages.error(request, sentence_on_step(refusal.why))
        else:
            made += 1
    if made:
        done = ngettext("Put together to one specimen.", "Put together to %(made)s specimens.", made)
        messages.success(request, done % {"made": made})
    return redirect("species:tray")


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders("species.add_specimen")
def tray_group(request: HttpRequest, key: str) -> HttpResponse:
    """One group: its pictures, and all that is to be said before it leaves the tray."""
    rows = Specimen.objects.in_the_tray().select_related("species", "individual__locality")
    found = get_object_or_404(rows.prefetch_related("photos__renditions"), key=key)
    if request.method != "POST":
        return _page(request, found, _form(found, initial=_initial(found)))
    form = _form(found, request.POST)
    if not form.is_valid():
        return _page(request, found, form)
    values = {name: form.cleaned_data[name] for name in Sorted.__dataclass_fields__}
    said = Sorted(**{**values, "use": Use(values["use"])})
    try:
        finish_sorting(key, said, by=user_of(request), now=timezone.now())
    except SpecimenRefusal as refusal:
        form.add_error(None, sentence_on_step(refusal.why, lacking=refusal.lacking))
        return _page(request, found, form)
    messages.success(request, _("It is in the bank now."))
    following = Specimen.objects.in_the_tray().order_by("seen_on", "pk").first()
    return redirect("species:tray_group", following.key) if following else redirect("species:tray")


@require_POST
@for_holders("species.add_specimen")
def tray_move(request: HttpRequest, key: str) -> HttpResponse:
    """Move the ticked pictures to another group, or to one of their own."""
    chosen, target = request.POST.getlist("photo"), request.POST.get("to", "")
    return _step(request, key, lambda: move_pictures(key, chosen, target), _("The pictures were moved."))


def _step(request: HttpRequest, key: str, step: Callable[[], Specimen], done: str) -> HttpResponse:
    try:
        step()
    except SpecimenRefusal as refusal:
        messages.error(request, sentence_on_step(refusal.why))
    else:
        messages.success(request, done)
    is_there = Specimen.objects.in_the_tray().filter(key=key).exists()
    return redirect("species:tray_group", key) if is_there else redirect("species:tray")


def _initial(found: Specimen) -> dict[str, object]:
    photo = found.photos.all()[0]
    return {
        "stage": found.stage,
        "form": "" if found.form == "typical" else found.form,
        "seen_on": found.seen_on,
        "locality": "" if found.individual.locality.name == PLACE_UNKNOWN else found.individual.locality.name,
        "photographer": photo.photographer,
        "rights_holder": photo.rights_holder or photo.photographer,
        "licence": photo.licence,
    }


def _form(found: Specimen, *args: object, **kwargs: object) -> SortForm:
    return SortForm(*args, today=timezone.localdate(), tiles=tiles_of(found), met_before=met_before(found), **kwargs)


def _page(request: HttpRequest, found: Specimen, form: SortForm) -> HttpResponse:
    groups = tray_groups()
    context = {
        "specimen": found,
        "number": next(group.number for group in groups if group.specimen.pk == found.pk),
        "tiles": tiles_of(found),
        "others": [group for group in groups if group.specimen.pk != found.pk],
        "form": form,
        "parts": PARTS,
        "plants": species_matching(""),
        "places": Locality.objects.all(),
        "trail": [(reverse("species:bank"), _("The bank")), (reverse("species:tray"), _("Sort what came in"))],
    }
    return render(request, "species/tray_group.html", context, status=422 if form.is_bound else 200)
