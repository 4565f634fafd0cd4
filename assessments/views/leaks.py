"""When a picture or a whole paper got out: what rests on it, taking it out of tests, and whether answers count."""

from collections.abc import Callable

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST

from assessments.actions.leaks import withdraw_leaked
from assessments.actions.refusals import Refused
from assessments.actions.voiding import void_specimen
from assessments.forms.leaks import LeakForm, VoidForm
from assessments.models import Paper
from assessments.queries.leaks import leak_of, specimens_shown_in
from species.models import Specimen
from species.rules.vocabulary import Use

from .access import for_holders, holds_any, user_of

LOOK, WITHDRAW, DECIDE = "assessments.view_evidence", "species.add_specimen", "assessments.decide_appeal"
_PLACES: dict[str, Callable[[str], tuple[str, str]]] = {
    "plant_leaked": lambda key: (reverse("species:specimen", args=[key]), _("The specimen")),
    "paper_leaked": lambda key: (reverse("assessments:paper", args=[key]), _("The test")),
}


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(LOOK)
def plant_leaked(request: HttpRequest, key: str) -> HttpResponse:
    """A specimen of the tests whose pictures got out."""
    found = Specimen.objects.filter(key=get_object_or_404(Specimen, key=key, use=Use.ASSESSMENT.value).key)
    return _page(request, found, _("Pictures of a plant got out"), "plant_leaked", key)


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(LOOK)
def paper_leaked(request: HttpRequest, key: str) -> HttpResponse:
    """A paper that got out: every plant that was drawn for anybody."""
    paper = get_object_or_404(Paper, key=key)
    title = _("“%(title)s” got out") % {"title": paper.title}
    return _page(request, specimens_shown_in(paper), title, "paper_leaked", key)


@require_POST
@for_holders(DECIDE)
def plant_void(request: HttpRequest, key: str) -> HttpResponse:
    """Decide that no answer to a plant counts."""
    specimen = get_object_or_404(Specimen, key=key, use=Use.ASSESSMENT.value)
    form = VoidForm(request.POST)
    try:
        if not form.is_valid():
            raise Refused(" ".join(str(each[0]) for each in form.errors.values()))
        void_specimen(specimen, user_of(request), form.cleaned_data["why"], timezone.now())
    except Refused as refusal:
        form.add_error(None, refusal.sentence)
        found, title = Specimen.objects.filter(pk=specimen.pk), _("Pictures of a plant got out")
        return _page(request, found, title, "plant_leaked", key, form)
    messages.success(request, _("No answer to it counts, for or against. Whoever answered it is told."))
    return redirect("assessments:plant_leaked", key)


def _page(
    request: HttpRequest,
    specimens: QuerySet[Specimen],
    title: str,
    name: str,
    key: str,
    void: VoidForm | None = None,
) -> HttpResponse:
    posted = request.POST if request.method == "POST" and void is None else None
    form, user = LeakForm(posted), user_of(request)
    may_withdraw = holds_any(user, WITHDRAW, DECIDE)
    if posted is not None and not may_withdraw:
        raise PermissionDenied
    if posted is not None and form.is_valid():
        try:
            number = withdraw_leaked(specimens, form.cleaned_data["reason"], timezone.now())
        except Refused as refusal:
            form.add_error(None, refusal.sentence)
        else:
            said = ngettext("%(n)s plant is out of all tests now.", "%(n)s plants are out of all tests now.", number)
            messages.success(request, said % {"n": number})
            return redirect(f"assessments:{name}", key)
    context = {
        "title": title,
        "leak": leak_of(specimens),
        "form": form,
        "void": (void or VoidForm()) if name == "plant_leaked" and holds_any(user, DECIDE) else None,
        "address": reverse(f"assessments:{name}", args=[key]),
        "may_withdraw": may_withdraw,
        "key": key,
        "trail": [_PLACES[name](key)],
    }
    return render(request, "assessments/leaked.html", context, status=200 if request.method != "POST" else 422)
