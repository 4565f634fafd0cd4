"""What is said of a package of questions: what it holds, and what stays in the school and why."""

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from assessments.queries.packages.bank import Packaged

from .kinds import kind_word

LOSES_THE_RULE: Promise = gettext_lazy(
    "Marks alone lose the safety rule. In another program these questions give a point for each right answer, so "
    "somebody who would gather a deadly plant can still come out with a good mark. Whoever uses them has to look at "
    "every wrong answer whose row in the table says what harm it does."
)


def packaged_sentences(packaged: Packaged) -> tuple[str, ...]:
    """What a package holds, then what stays in the school."""
    number, counts = len(packaged.questions), packaged.counts
    kinds = ", ".join(
        _("%(kind)s: %(number)s") % {"kind": kind_word(key), "number": counts[key]}
        for key in dict.fromkeys(each.kind for each in sorted(packaged.questions, key=lambda each: each.kind))
    )
    said = [ngettext("%(number)s question.", "%(number)s questions.", number) % {"number": number}]
    if kinds:
        said.append(f"{kinds}.")
    if counts["for assessment"]:
        said.append(_("Of these %(number)s serve for tests.") % {"number": counts["for assessment"]})
    return (*said, *left_out_sentences(packaged))


def left_out_sentences(packaged: Packaged) -> tuple[str, ...]:
    """What stays in the school, one sentence each."""
    left = packaged.left_out
    counted = (
        (left.drawings, _("Drawings that stay, since a drawing is no observation: %(number)s.")),
        (
            left.without_licence,
            _("Pictures that stay until somebody notes whose they are and under which licence: %(number)s."),
        ),
        (left.without_file, _("Pictures whose files are not there: %(number)s.")),
        (
            left.several_fields,
            _("Pictures on which the feature lies in several fields, too many for one right answer: %(number)s."),
        ),
        (
            packaged.reworded,
            _("Pictures whose description named a plant, so that it was left out: %(number)s. Mend it in the bank."),
        ),
    )
    said = [sentence % {"number": number} for number, sentence in counted if number]
    said += [_("Questions of this kind cannot be taken yet: %s.") % kind_word(each) for each in left.kinds]
    return tuple(said)
