"""The bank for its keepers, and naming specimens without having been told."""

from django.conf import settings
from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from species.actions.determinations import determine
from species.actions.outsiders import invite_outsider
from species.forms.naming import NamingForm, OutsiderForm
from species.models import DeterminerLink, Specimen
from species.queries.bank import FILTERS, bank_counts, card_of, filter_choices, specimens_in_bank
from species.queries.flora import species_matching
from species.queries.pictures import picture_of
from species.queries.to_name import next_to_name, next_to_name_by_link

from .access import for_holders, user_of

PER_PAGE = 24


@require_safe
@for_holders("species.view_specimen")
def bank(request: HttpRequest) -> HttpResponse:
    """Counts by species and stage, and the specimens that fit the filters."""
    filters = {name: request.GET.get(name, "") for name in FILTERS}
    page = Paginator(specimens_in_bank(filters), PER_PAGE).get_page(request.GET.get("page"))
    context = {
        "counts": bank_counts(),
        "page": page,
        "cards": [card_of(each) for each in page.object_list],
        "filters": filters,
        "choices": filter_choices(),
        "is_filtered": any(filters.values()),
        "in_tray": Specimen.objects.in_the_tray().count(),
        "trail": [(reverse("species:index"), _("Plants"))],
    }
    return render(request, "species/bank.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders("species.add_determination")
def to_name(request: HttpRequest) -> HttpResponse:
    """The next specimen that lacks a second name; the first name is not shown."""
    user = user_of(request)
    if request.method == "POST":
        waiting = Specimen.objects.waiting_for_determination_by(user.pk)
        found = waiting.filter(key=request.POST.get("specimen", "")).first()
        if found is None:
            messages.info(request, _("That specimen is named already; here is the next one."))
            return redirect("species:to_name")
        form = NamingForm(request.POST)
        if form.is_valid():
            said = form.cleaned_data
            determine(
                found,
                said=said["said"],
                species=said["species"],
                characters=said["characters"],
                now=timezone.now(),
                by=user,
            )
            messages.success(request, _("Recorded. Here is the next one."))
            return redirect("species:to_name")
    else:
        found, form = next_to_name(user.pk), NamingForm()
    return _naming_page(request, found, form)


def _naming_page(
    request: HttpRequest, found: Specimen | None, form: NamingForm, link: DeterminerLink | None = None
) -> HttpResponse:
    photos = [p for p in found.photos.all() if p.renditions.all()] if found else []
    pictures = [(picture_of(photo, blind=True), photo.key) for photo in photos]
    context = {
        "specimen": found,
        "pictures": pictures,
        "form": form,
        "link": link,
        "species": species_matching(""),
        "trail": [] if link else [(reverse("species:bank"), _("The bank"))],
    }
    return render(request, "species/to_name.html", context, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "HEAD", "POST"])
def name_by_link(request: HttpRequest, link_key: str) -> HttpResponse:
    """The same for somebody outside the school, invited by a link."""
    link = get_object_or_404(DeterminerLink, key=link_key)
    if not DeterminerLink.objects.usable(timezone.localdate()).filter(pk=link.pk).exists():
        return render(request, "species/link_over.html", {"link": link}, status=410)
    if request.method == "POST":
        asked = link.specimens.filter(key=request.POST.get("specimen", "")).first()
        form = NamingForm(request.POST)
        if asked is None:
            messages.info(request, _("That specimen is not among those of your invitation; here is the next one."))
            return redirect("species:name_by_link", link_key)
        if form.is_valid():
            said = form.cleaned_data
            determine(
                asked,
                said=said["said"],
                species=said["species"],
                characters=said["characters"],
                now=timezone.now(),
                link=link,
            )
            messages.success(request, _("Thank you, it is recorded."))
            return redirect("species:name_by_link", link_key)
        return _naming_page(request, asked, form, link)
    return _naming_page(request, next_to_name_by_link(link), NamingForm(), link)


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders("species.add_determinerlink")
def outsider_new(request: HttpRequest) -> HttpResponse:
    """Ask somebody outside the school."""
    form = OutsiderForm(request.POST) if request.method == "POST" else OutsiderForm()
    if form.is_bound and form.is_valid():
        values = form.cleaned_data
        address = settings.PUBLIC_ADDRESS + reverse("species:name_by_link", args=["KEY"]).replace("KEY", "{key}")
        invite_outsider(
            values["name"], values["email"], list(values["specimens"]), user_of(request), timezone.now(), address
        )
        messages.success(request, _("The invitation is sent."))
        return redirect("species:bank")
    context = {"form": form, "trail": [(reverse("species:bank"), _("The bank"))]}
    return render(request, "species/outsider.html", context, status=422 if form.is_bound else 200)
