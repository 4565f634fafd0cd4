"""The state table: looked through, changed cell by cell with a look at what follows, and put back."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from species.actions.table import Overtaken, Wish, edit_table
from species.forms.table import CellForm, initial_of
from species.models import Character, CharacterState, Species, TableEdit
from species.queries.table_cells import Cell, cell, scores_of_lines
from species.queries.table_page import history, species_counts, table_rows, who_of
from species.queries.table_preview import Preview, all_disagreements, preview
from species.queries.table_words import words_of
from species.rules.grid import fingerprint, grid_of, scores_in

from .access import for_holders, user_of

MAY_EDIT = "species.change_species"


@require_safe
@for_holders(MAY_EDIT)
def tables(request: HttpRequest) -> HttpResponse:
    """All species, and how many of their characters are known."""
    counts, characters = species_counts()
    context = {
        "counts": counts,
        "characters": characters,
        "disagreements": len(all_disagreements()),
        "trail": [(reverse("species:index"), _("Plants"))],
    }
    return render(request, "species/tables.html", context)


@require_safe
@for_holders(MAY_EDIT)
def table(request: HttpRequest, key: str) -> HttpResponse:
    """The table of one species."""
    found = _species(key)
    return render(request, "species/table.html", {"species": found, "rows": table_rows(found), "trail": _trail()})


@require_safe
@for_holders(MAY_EDIT)
def disagreements(request: HttpRequest) -> HttpResponse:
    """Every disagreement between the table and a decisive character."""
    return render(request, "species/disagreements.html", {"lines": all_disagreements(), "trail": _trail()})


@require_http_methods(["GET", "HEAD", "POST"])
@for_holders(MAY_EDIT)
def table_cell(request: HttpRequest, key: str, character: str) -> HttpResponse:
    """One species at one character: changed after a look at what follows."""
    now = cell(_species(key), get_object_or_404(Character, key=character))
    states = list(CharacterState.objects.filter(character=now.character))
    if request.method != "POST":
        return _page(request, now, states, CellForm(initial=_initial(request, now), cell=now, states=states))
    form = CellForm(request.POST, cell=now, states=states)
    if not form.is_valid():
        return _page(request, now, states, form, status=422)
    try:
        if form.cleaned_data["version"] != now.version:
            raise Overtaken(now, _last_edit(now))
        if "save" in request.POST and form.cleaned_data["seen"] == fingerprint(form.grid):
            wish = Wish(now.species, now.character, form.grid, now.version)
            edits = edit_table([wish], by=user_of(request), now=timezone.now(), why=form.cleaned_data["why"])
            messages.success(request, _("Saved.") if edits else _("The table says so already; nothing was changed."))
            return redirect("species:table", key)
    except Overtaken as refusal:
        again = CellForm(_with(request.POST, version=refusal.now.version, seen=""), cell=refusal.now, states=states)
        return _page(request, refusal.now, states, again, status=409, overtaken=_who_overtook(refusal))
    shown = CellForm(_with(request.POST, seen=fingerprint(form.grid)), cell=now, states=states)
    lines = scores_in(form.grid, now.stages, [each.key for each in states])
    what = preview({(now.species.key, now.character.key): lines}, now.species.pk)
    return _page(request, now, states, shown, what=what)


def _initial(request: HttpRequest, now: Cell) -> dict[str, Any]:
    """What stands there, or what stood there before the edit named in the address."""
    number = request.GET.get("back", "")
    edit = None
    if number.isascii() and number.isdigit() and len(number) < 7:
        edit = TableEdit.objects.filter(species=now.species, character=now.character, number=int(number)).first()
    grid = grid_of(scores_of_lines(edit.before), now.stages) if edit else now.grid
    why = _("Change %(number)s taken back") % {"number": edit.number} if edit else ""
    return {**initial_of(grid, now.stages), "version": now.version, "why": why}


def _page(
    request: HttpRequest,
    now: Cell,
    states: list[CharacterState],
    form: CellForm,
    *,
    status: int = 200,
    what: Preview | None = None,
    overtaken: str = "",
) -> HttpResponse:
    context = {
        "cell": now,
        "stands": words_of(now.scores, {each.key: each.text for each in states}),
        "form": form,
        "preview": what,
        "overtaken": overtaken,
        "history": history(now.species, now.character, states),
        "trail": [*_trail(), (reverse("species:table", args=[now.species.key]), now.species.common_name)],
    }
    return render(request, "species/table_cell.html", context, status=status)


def _who_overtook(refusal: Overtaken) -> str:
    edit = refusal.last
    if edit is None:
        return _("Somebody loaded the tables anew while you were writing. What you chose stands below; look again.")
    sentence = _("%(who)s changed this on %(day)s while you were writing (%(why)s). What you chose stands below.")
    when = timezone.localtime(edit.at)
    return sentence % {"who": who_of(edit), "day": f"{when:%Y-%m-%d %H:%M}", "why": edit.why}


def _last_edit(now: Cell) -> TableEdit | None:
    edits = TableEdit.objects.filter(species=now.species, character=now.character)
    return edits.select_related("by").order_by("number").last()


def _with(data: QueryDict, **values: str) -> QueryDict:
    """What was sent, with some fields set anew."""
    changed = data.copy()
    for name, value in values.items():
        changed[name] = value
    return changed


def _species(key: str) -> Species:
    return get_object_or_404(Species.objects.prefetch_related("common_names"), key=key)


def _trail() -> list[tuple[str, str]]:
    return [(reverse("species:index"), _("Plants")), (reverse("species:tables"), _("Character table"))]
