"""What the bank lacks for a paper, in words."""

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from assessments.queries.flora import Flora
from assessments.rules.shortfall import DANGEROUS_SHARE, LENGTH, Shortage, Shortfall

from .words import stage_word


def shortfall_sentences(shortfall: Shortfall, flora: Flora) -> list[str]:
    """Why a paper cannot be drawn, the exact things first, then one way out."""
    sentences = [shortage_sentence(shortage, flora) for shortage in shortfall.short]
    if shortfall.least_questions is not None and shortfall.least_questions > shortfall.length:
        sentences.append(
            _("What is asked for takes %(least)s questions, and the paper has %(length)s.")
            % {"least": shortfall.least_questions, "length": shortfall.length}
        )
    known = {shortage.name for shortage in shortfall.short}
    rest = [shortage for shortage in shortfall.one_way_out if shortage.name not in known]
    sentences += [shortage_sentence(shortage, flora) for shortage in rest]
    return sentences or [_("The bank does not hold enough specimens for this paper.")]


def shortage_sentence(shortage: Shortage, flora: Flora) -> str:
    """One condition that cannot be met: what it asks for, and what can be had."""
    figures = {"asked": shortage.asked, "available": shortage.available}
    if shortage.name == LENGTH:
        return (
            ngettext(
                "The bank fills %(available)s of %(asked)s question: set a shorter paper, or add specimens.",
                "The bank fills %(available)s of %(asked)s questions: set a shorter paper, or add specimens.",
                shortage.asked,
            )
            % figures
        )
    if shortage.name == DANGEROUS_SHARE:
        return (
            _(
                "Between two and three fifths of a paper are dangerous plants: %(asked)s are asked for, "
                "%(available)s would come of it."
            )
            % figures
        )
    return capfirst(
        _("%(what)s: %(asked)s asked for, %(available)s left in the bank.")
        % {"what": _what(shortage.name, flora), **figures}
    )


def _what(name: str, flora: Flora) -> str:
    species, comma, stage = name.partition(", ")
    return f"{flora.common(species)}, {stage_word(stage)}" if comma else flora.common(species)
