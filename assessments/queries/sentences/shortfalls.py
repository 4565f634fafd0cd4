"""What the bank lacks for a paper, in words."""

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from assessments.queries.drawing import Missing
from assessments.queries.flora import Flora
from assessments.rules.kinds.drawing import KindShortage
from assessments.rules.shortfall import DANGEROUS_SHARE, LENGTH, Shortage, Shortfall

from .kinds import kind_word
from .words import stage_word


def missing_sentences(missing: Missing, flora: Flora) -> list[str]:
    """Why a paper cannot be drawn, whichever of its questions are short; the exact things first, then one way out."""
    if missing.shortfall is None:
        return _kind_sentences(missing)
    said = {shortage.name for shortage in missing.shortfall.short} | {LENGTH}
    rest = [shortage for shortage in missing.shortfall.one_way_out if shortage.name not in said]
    return [*exact_sentences(missing, flora), *(shortage_sentence(shortage, flora) for shortage in rest)]


def exact_sentences(missing: Missing, flora: Flora) -> list[str]:
    """Why a paper cannot be drawn, without a way out: each of these holds whatever else is changed."""
    shortfall = missing.shortfall
    if shortfall is None:
        return _kind_sentences(missing)
    sentences = [shortage_sentence(shortage, flora) for shortage in shortfall.short]
    if shortfall.least_questions is not None and shortfall.least_questions > shortfall.length:
        sentences.append(
            _("What is asked for takes %(least)s questions, and the paper has %(length)s.")
            % {"least": shortfall.least_questions, "length": shortfall.length}
        )
    if sentences:
        return sentences
    shorter = [shortage for shortage in shortfall.one_way_out if shortage.name == LENGTH]
    return [shortage_sentence(each, flora) for each in shorter] or [_conflict_sentence(shortfall, flora)]


def _kind_sentences(missing: Missing) -> list[str]:
    return [
        _(
            "Questions of the kind “%(kind)s”: %(asked)s asked for, %(available)s can be put. It takes plants that are "
            "left over from the other questions%(needs)s."
        )
        % {"kind": kind_word(each.kind), "needs": _needs(each), "asked": each.asked, "available": each.available}
        for each in missing.kinds
    ]


def _conflict_sentence(shortfall: Shortfall, flora: Flora) -> str:
    """Each of these could be had, but not all of them together."""
    words = [_condition_word(name, flora) for name in shortfall.conflict]
    if not words:
        return _("The bank does not hold enough specimens for this paper.")
    return _("These cannot be had together in one paper of %(length)s: %(conditions)s.") % {
        "length": shortfall.length,
        "conditions": ", ".join(words),
    }


def _condition_word(name: str, flora: Flora) -> str:
    if name == LENGTH:
        return _("the number of questions")
    return _("two to three fifths dangerous plants") if name == DANGEROUS_SHARE else quota_word(name, flora)


def _needs(shortage: KindShortage) -> str:
    return _(", with a frame drawn round what decides") if shortage.kind == "point_at_it" else ""


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
        % {"what": quota_word(shortage.name, flora), **figures}
    )


def quota_word(name: str, flora: Flora) -> str:
    """A plant, or a plant in a stage, as a quota is named after it."""
    species, comma, stage = name.partition(", ")
    return f"{flora.common(species)}, {stage_word(stage)}" if comma else flora.common(species)
