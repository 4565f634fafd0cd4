"""The months by name, in the language of the page."""

from collections.abc import Iterable

from django.utils.dates import MONTHS, MONTHS_3
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from species.rules.season import spells


def month_name(number: int) -> str:
    """The month in full: 4 is April."""
    return str(MONTHS[number])


def short_month_name(number: int) -> str:
    """The month in three letters or so: 4 is Apr."""
    return str(capfirst(str(MONTHS_3[number])))


def months_in_words(months: Iterable[int], *, short: bool = False) -> str:
    """Months as a reader says them: "March to May, October"; a run over the new year begins before it."""
    name = short_month_name if short else month_name
    found = []
    for spell in spells(months):
        if spell.is_all_year:
            return _("all year")
        if spell.first == spell.last:
            found.append(name(spell.first))
        else:
            found.append(_("%(first)s to %(last)s") % {"first": name(spell.first), "last": name(spell.last)})
    return ", ".join(found)
