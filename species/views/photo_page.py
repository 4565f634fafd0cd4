"""One photograph for the bank's keepers: its regions, what uses it, and its end."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from species.actions.photographs import delete_photo
from species.actions.regions import draw_region, rub_out_region
from species.actions.specimens import SpecimenRefusal
from species.forms.regions import RegionForm
from species.models import Photo
from species.queries.pictures import picture_of
from species.queries.regions import regions_of
from species.queries.specimen_sentences import sentence_on_step
from species.queries.specimen_uses import uses_of

from .access import for_holders, user_of

KEEPER = "species.add_specimen"
SHARE_OF_HEIGHT = 25
"""The number in a frame is one such part of the picture's height."""


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders("species.view_specimen")
def photo_page(request: HttpRequest, key: str) -> HttpResponse:
    """The photograph with its regions; whoever keeps the bank draws one more."""
    photo = _photo(key)
    if request.method != "POST":
        return _page(request, photo, RegionForm())
    return _draw(request, key)


@for_holders(KEEPER)
def _draw(request: HttpRequest, key: str) -> HttpResponse:
    photo, form = _photo(key), RegionForm(request.POST)
    if not form.is_valid():
        return _page(request, photo, form)
    values = form.cleaned_data
    draw_region(photo, values["frame"], values["character"], values["state"], by=user_of(request), now=timezone.now())
    messages.success(request, _("The frame is kept."))
    return redirect("species:photo_page", key)


@require_POST
@for_holders(KEEPER)
def region_remove(request: HttpRequest, key: str, pk: int) -> HttpResponse:
    """Rub out one region."""
    if rub_out_region(_photo(key), pk):
        messages.success(request, _("The frame is rubbed out."))
    return redirect("species:photo_page", key)


@require_POST
@for_holders(KEEPER)
def photo_delete(request: HttpRequest, key: str) -> HttpResponse:
    """Delete the photograph and its files, unless something holds on to it."""
    photo = _photo(key)
    try:
        delete_photo(photo)
    except SpecimenRefusal as refusal:
        messages.error(request, sentence_on_step(refusal.why, refusal.uses))
        return redirect("species:photo_page", key)
    messages.success(request, _("The photograph and its files are deleted."))
    return redirect("species:tray" if photo.specimen.is_in_the_tray else "species:bank")


def _photo(key: str) -> Photo:
    rows = Photo.objects.select_related("specimen__species").prefetch_related("renditions")
    return get_object_or_404(rows.filter(renditions__isnull=False).distinct(), key=key)


def _page(request: HttpRequest, photo: Photo, form: RegionForm) -> HttpResponse:
    specimen, keeps = photo.specimen, request.user.has_perm(KEEPER)
    uses = uses_of(specimen)
    context = {
        "photo": photo,
        "picture": picture_of(photo, blind=True),
        "regions": regions_of([photo.pk])[photo.pk],
        "number_size": max(12, photo.height // SHARE_OF_HEIGHT),
        "form": form if keeps else None,
        "uses": uses,
        "may_delete": not uses and (specimen.is_in_the_tray or specimen.photos.count() > 1),
        "trail": [(reverse("species:bank"), _("The bank"))],
    }
    return render(request, "species/photo_page.html", context, status=422 if form.is_bound else 200)
