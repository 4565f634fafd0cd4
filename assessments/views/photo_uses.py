"""What uses a photograph, for those who keep the bank."""

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from assessments.queries.photo_uses import uses_of_photo
from species.models import Photo

from .access import signed_in, user_of


@require_safe
@signed_in
def photo_uses(request: HttpRequest, key: str) -> HttpResponse:
    """Papers, spot tests, answers and frames that hold on to a photograph."""
    if not user_of(request).has_perm("species.view_specimen"):
        raise PermissionDenied(_("This page is for those who work for the school."))
    photo = get_object_or_404(Photo.objects.select_related("specimen"), key=key)
    context = {
        "uses": uses_of_photo(photo),
        "plant": photo.specimen,
        "trail": [
            (reverse("species:bank"), _("The bank")),
            (reverse("species:photo_page", args=[key]), _("Photograph")),
        ],
    }
    return render(request, "assessments/photo_uses.html", context)
