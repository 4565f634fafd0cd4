"""Opening another window of evidence after retraining."""

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from assessments.actions.refusals import Refused
from assessments.actions.windows import open_window
from assessments.forms.windows import WindowForm
from assessments.models import Standard
from assessments.queries.people import name_of

from .access import for_holders, user_of


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders("assessments.add_window")
def window_new(request: HttpRequest, person_pk: int) -> HttpResponse:
    """Say what was taught again, and open the window before its first specimen."""
    person = get_object_or_404(User, pk=person_pk)
    form = WindowForm(request.POST) if request.method == "POST" else WindowForm()
    if form.is_bound and form.is_valid():
        try:
            open_window(person, form.cleaned_data["retraining"], user_of(request), timezone.now())
        except Refused as refusal:
            for sentence in refusal.sentences:
                form.add_error(None, sentence)
        else:
            messages.success(request, _("The window is open: what is shown from now on enters it too."))
            first = Standard.objects.in_use().first()
            return redirect("assessments:standing_of", person.pk, first.key if first else "participant")
    title = _("Open a window of evidence for %(name)s") % {"name": name_of(person)}
    context = {"form": form, "title": title}
    return render(request, "assessments/form.html", context, status=422 if form.is_bound else 200)
