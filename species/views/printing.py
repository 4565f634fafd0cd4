"""Sheets and cards on paper, for everybody who may see the pages that they print."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from species.documents.field_card import draw_field_card
from species.documents.flow import DoesNotFit
from species.documents.fonts import CannotPrint
from species.documents.pair_sheet import draw_pair_pocket, draw_pair_sheet
from species.documents.pair_words import Letterhead
from species.models import Pair, Species
from species.queries.field_card_words import field_card_words
from species.queries.pair_page import pair_page
from species.queries.pair_words import pair_words
from species.views.asked import asked_of_pair


@require_safe
def pair_sheet(request: HttpRequest, key: str) -> HttpResponse:
    """A pair on one sheet A4, in the month and stage that are asked for."""
    rows = Pair.objects.with_both_species().prefetch_related("gathered__common_names", "mistaken__common_names")
    found = get_object_or_404(rows, key=key)
    asked = asked_of_pair(request, found, timezone.localdate())
    words = pair_words(pair_page(found, asked.month, asked.number), letterhead(request))
    return printed(request, lambda: draw_pair_sheet(words), f"{key}.pdf")


@require_safe
def pair_pocket(request: HttpRequest, key: str) -> HttpResponse:
    """A pair on two sheets A6."""
    rows = Pair.objects.with_both_species().prefetch_related("gathered__common_names", "mistaken__common_names")
    found = get_object_or_404(rows, key=key)
    asked = asked_of_pair(request, found, timezone.localdate())
    words = pair_words(pair_page(found, asked.month, asked.number), letterhead(request))
    return printed(request, lambda: draw_pair_pocket(words), f"{key}-pocket.pdf")


@require_safe
def field_card(request: HttpRequest, key: str) -> HttpResponse:
    """The card of one plant for the pocket."""
    plant = get_object_or_404(Species.objects.prefetch_related("common_names", "synonyms"), key=key)
    words = field_card_words(plant, letterhead(request))
    return printed(request, lambda: draw_field_card(words), f"{key}.pdf")


def letterhead(request: HttpRequest) -> Letterhead:
    """The school's name and its words for an emergency, worded as on every page."""
    school, call = render_to_string("species/letterhead.txt", request=request).strip("\n").split("\n")[:2]
    return Letterhead(school, call)


def printed(request: HttpRequest, draw: Callable[[], bytes], name: str) -> HttpResponse:
    """The finished PDF, or a sentence why it cannot be printed."""
    try:
        content = draw()
    except DoesNotFit:
        return _refused(request, _("The words do not fit their sheet. Shorten the longest texts, or print the page."))
    except CannotPrint as error:
        sentence = _("These letters cannot be printed: %(letters)s. Write the name without them, or print the page.")
        return _refused(request, sentence % {"letters": error.letters})
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{name}"'
    return response


def _refused(request: HttpRequest, sentence: str) -> HttpResponse:
    return render(request, "species/not_printed.html", {"sentence": sentence}, status=422)
