"""Sites: list, page, a new one, changing one."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from courses.actions.sites import LocalityHasSite, keep_site
from courses.forms.sites import KnownLocalityForm, LocalityForm, SiteForm
from courses.models import Role, Site
from courses.queries.sites import site_lines, site_page
from species.models import Locality

from .access import for_roles

STAFF = (Role.ORGANISER, Role.TUTOR)


@require_safe
@for_roles(*STAFF)
def sites(request: HttpRequest) -> HttpResponse:
    """All sites, with permissions that end soon or have ended."""
    return render(request, "courses/sites.html", {"lines": site_lines(timezone.now(), timezone.localdate())})


@require_safe
@for_roles(*STAFF)
def site(request: HttpRequest, pk: int) -> HttpResponse:
    """One site: the way there, permission, hazards, the emergency card, what is planned there."""
    found = get_object_or_404(Site.objects.select_related("locality"), pk=pk)
    page = site_page(found, timezone.now(), timezone.localdate())
    return render(request, "courses/site.html", {"page": page, "site": found, "trail": _trail()})


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(*STAFF)
def site_new(request: HttpRequest) -> HttpResponse:
    """A site at a place that the photo bank knows, or at a new one."""
    known = KnownLocalityForm(request.POST or request.GET or None)
    chosen = known.cleaned_data["locality"] if known.is_valid() else None
    place = LocalityForm(request.POST or None, instance=chosen or Locality())
    return _form_page(request, Site(), place, known, title=_("A new site"), trail=_trail())


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(*STAFF)
def site_edit(request: HttpRequest, pk: int) -> HttpResponse:
    """Change a site and its place."""
    found = get_object_or_404(Site.objects.select_related("locality"), pk=pk)
    place = LocalityForm(request.POST or None, instance=found.locality)
    url = reverse("courses:site", args=[pk])
    trail = [*_trail(), (url, found.locality.name)]
    return _form_page(request, found, place, None, title=_("Change the site"), back_url=url, trail=trail)


def _form_page(
    request: HttpRequest, row: Site, place: LocalityForm, known: KnownLocalityForm | None, **context: Any
) -> HttpResponse:
    form = SiteForm(request.POST or None, instance=row)
    if request.method == "POST" and all([place.is_valid(), form.is_valid(), known is None or known.is_valid()]):
        try:
            kept = keep_site(form.save(commit=False), place.save(commit=False))
        except LocalityHasSite:
            place.add_error("name", _("There is a site at this place already: change that one."))
        else:
            messages.success(request, _("The site is saved."))
            return redirect("courses:site", kept.pk)
    forms = [each for each in (known, place, form) if each is not None]
    context = {"back_url": reverse("courses:sites"), **context, "forms": forms}
    return render(request, "courses/form.html", context)


def _trail() -> list[tuple[str, str]]:
    return [(reverse("courses:sites"), _("Sites"))]
