"""Spot tests: setting one up, a second name for each station, and recording what somebody answered."""

from dataclasses import replace

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.actions import spot_tests as actions
from assessments.actions.refusals import Refused
from assessments.actions.sittings import Given
from assessments.forms.kinds.name_and_decide import NameAndDecide
from assessments.forms.live import RecognisedForm, SecondNameForm, SpotTestForm, StationForm
from assessments.models import SpotTest, Station
from assessments.queries.competence import names_beyond, stations_beyond
from assessments.queries.flora import the_flora
from assessments.queries.people import people_called
from assessments.queries.sentences.competence import why_beyond
from assessments.queries.spot_tests import recorded_people, station_lines
from species.models import Species

from .access import for_holders, user_of

HOLD = "assessments.add_spottest"


@require_safe
@for_holders(HOLD)
def spot_tests(request: HttpRequest) -> HttpResponse:
    """Every spot test, the newest first."""
    rows = SpotTest.objects.select_related("locality", "set_by").order_by("-held_at")[:60]
    beyond = names_beyond(user_of(request), timezone.now(), the_flora())
    return render(request, "assessments/spot_tests.html", {"tests": rows, "beyond": beyond})


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(HOLD)
def spot_test_new(request: HttpRequest) -> HttpResponse:
    """Where, when, and what it is called; stations follow."""
    if request.method == "POST":
        form = SpotTestForm(request.POST)
        if form.is_valid():
            made = actions.set_up_spot_test(**form.cleaned_data, by=user_of(request))
            return redirect("assessments:spot_test", made.key)
    else:
        form = SpotTestForm(initial={"held_at": timezone.localtime()})
    context = {"form": form, "title": _("A spot test")}
    return render(request, "assessments/form.html", context, status=422 if form.is_bound else 200)


@require_safe
@for_holders(HOLD)
def spot_test(request: HttpRequest, key: str) -> HttpResponse:
    """Its stations and who was recorded; names only for those who gave one."""
    return _page(request, get_object_or_404(SpotTest, key=key), StationForm(flora=the_flora()))


@require_POST
@for_holders(HOLD)
def station_add(request: HttpRequest, key: str) -> HttpResponse:
    """One more station, by whoever set the test."""
    test = get_object_or_404(SpotTest, key=key, set_by=user_of(request))
    form = StationForm(request.POST, flora=the_flora())
    if not form.is_valid():
        return _page(request, test, form, status=422)
    said, species_id = form.cleaned_data["plant"]
    actions.add_station(
        test, Species.objects.get(pk=species_id), said, form.cleaned_data["stage"], user_of(request), timezone.now()
    )
    return redirect("assessments:spot_test", key)


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(HOLD)
def station_name(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """A second person names the plant at a station without being shown the first name."""
    station = get_object_or_404(
        Station.objects.select_related("spot_test", "specimen"), spot_test__key=key, number=number
    )
    form = (
        SecondNameForm(request.POST, flora=the_flora())
        if request.method == "POST"
        else SecondNameForm(flora=the_flora())
    )
    if form.is_bound and form.is_valid():
        said, species_id = form.cleaned_data["plant"]
        try:
            species = Species.objects.filter(pk=species_id).first()
            actions.name_station(station, species, said, user_of(request), timezone.now())
        except Refused as refusal:
            for sentence in refusal.sentences:
                form.add_error(None, sentence)
        else:
            messages.success(request, _("Your name for it is recorded."))
            return redirect("assessments:spot_test", key)
    title = _("Station %(number)s: name it yourself") % {"number": number}
    context = {"form": form, "title": title, "plant_names": True, "flora": the_flora()}
    return render(request, "assessments/form.html", context, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(HOLD)
def spot_test_record(request: HttpRequest, key: str) -> HttpResponse:
    """What one person answered, station by station; empty stations are left out."""
    test, flora = get_object_or_404(SpotTest, key=key), the_flora()
    numbers = list(test.stations.filter(struck_out_why="").values_list("number", flat=True))
    posted = request.POST if request.method == "POST" else None
    forms = {n: NameAndDecide(posted, flora=flora, prefix=f"s{n}", use_required_attribute=False) for n in numbers}
    how = RecognisedForm(posted, use_required_attribute=False)
    problems: list[str] = []
    if posted is not None:
        person = _who(posted.get("person", ""), problems)
        filled = {n: form for n, form in forms.items() if not form.is_blank}
        valid = [form.is_valid() for form in (how, *filled.values())]
        if person is not None and all(valid):
            answers = {n: Given(**form.given) for n, form in filled.items()}
            try:
                recognised = how.cleaned_data["recognised"]
                actions.record_answers(test, person, answers, user_of(request), timezone.now(), recognised=recognised)
            except Refused as refusal:
                problems += [str(sentence) for sentence in refusal.sentences]
            else:
                messages.success(request, _("Recorded."))
                return redirect("assessments:spot_test", key)
        for number in set(forms) - set(filled):
            forms[number] = NameAndDecide(flora=flora, prefix=f"s{number}", use_required_attribute=False)
    context = {
        "test": test,
        "forms": list(forms.items()),
        "how": how,
        "flora": flora,
        "problems": problems,
        "beyond": _beyond(test, user_of(request)),
        "person": posted.get("person", "") if posted else request.GET.get("person", ""),
    }
    return render(request, "assessments/spot_test_record.html", context, status=422 if posted is not None else 200)


def _who(line: str, problems: list[str]) -> User | None:
    found = people_called([line])
    if found.people:
        return found.people[0]
    problems.append(_("Write whose answers these are: the name as the school has it, or the e-mail address."))
    return None


def _beyond(test: SpotTest, user: User) -> list[str]:
    """What they cannot record here, as far as they may be told: of a plant that they have still to name, nothing."""
    return why_beyond(replace(stations_beyond(test, user), untold=()))


def _page(request: HttpRequest, test: SpotTest, form: StationForm, status: int = 200) -> HttpResponse:
    user, flora = user_of(request), the_flora()
    context = {
        "test": test,
        "lines": station_lines(test, user),
        "people": recorded_people(test),
        "form": form,
        "is_setter": test.set_by_id == user.pk,
        "flora": flora,
        "beyond_here": _beyond(test, user),
        "beyond": names_beyond(user, test.held_at, flora),
    }
    return render(request, "assessments/spot_test.html", context, status=status)
