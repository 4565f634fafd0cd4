"""Appeals in words: what keeps somebody from appealing or deciding, how one stands, what a decision changed."""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from django.utils.formats import date_format
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from assessments.rules.appeals import Bar, NewNames, State, Step

STATE_WORDS = {
    State.RECEIVED: gettext_lazy("Received"),
    State.LOOKED_AT: gettext_lazy("Being looked at"),
    State.DECIDED: gettext_lazy("Decided"),
    State.WITHDRAWN: gettext_lazy("Withdrawn"),
}
STATE_MARKS = {
    State.RECEIVED: "waiting",
    State.LOOKED_AT: "review",
    State.DECIDED: "met",
    State.WITHDRAWN: "withdrawn",
}
OUTCOME_WORDS = {
    Step.VOIDED: gettext_lazy("Uphold: this plant counts for nobody, for or against"),
    Step.NAMED_ANEW: gettext_lazy("Uphold: it counts under its new name, for everybody"),
    Step.DISMISSED: gettext_lazy("Dismiss: the question was right as it stood"),
}
BARS_TO_YOU = {
    Bar.APPEALED: gettext_lazy("It is your own appeal: somebody else decides it."),
    Bar.MAY_NOT_DECIDE: gettext_lazy("You do not decide appeals: assessors and organisers do."),
    Bar.SET_THE_TEST: gettext_lazy("You set this test, so somebody else decides."),
    Bar.NAMED_THE_PLANT: gettext_lazy("You named this plant, so somebody else decides."),
    Bar.ASSESSED_THE_PERSON: gettext_lazy("You assessed this person, so somebody else decides."),
}
BARS_OF_OTHERS = {
    Bar.APPEALED: gettext_lazy("appealed"),
    Bar.MAY_NOT_DECIDE: gettext_lazy("does not decide appeals"),
    Bar.SET_THE_TEST: gettext_lazy("set the test"),
    Bar.NAMED_THE_PLANT: gettext_lazy("named the plant"),
    Bar.ASSESSED_THE_PERSON: gettext_lazy("assessed the person"),
}
STEP_SENTENCES = {
    Step.RECEIVED: gettext_lazy("Received."),
    Step.TAKEN_UP: gettext_lazy("Being looked at."),
    Step.NAMES_ASKED: gettext_lazy("Two people are asked to name the plant anew. Until then it counts for nobody."),
    Step.VOIDED: gettext_lazy("Upheld: the plant counts for nobody any more, neither for nor against."),
    Step.NAMED_ANEW: gettext_lazy("Upheld: two people gave the plant another name, under which it counts now."),
    Step.DISMISSED: gettext_lazy("Dismissed: the question stands."),
    Step.WITHDRAWN: gettext_lazy("Withdrawn by the person who appealed."),
}


def bars_to_you(bars: Iterable[Bar]) -> list[str]:
    """Why the reader may not decide."""
    return [str(BARS_TO_YOU[bar]) for bar in bars]


def bars_of_another(bars: Iterable[Bar]) -> str:
    """Why somebody else may not decide, in one phrase."""
    return ", ".join(str(BARS_OF_OTHERS[bar]) for bar in bars)


def new_names_sentence(found: NewNames) -> str:
    """How far the naming anew is."""
    if found.agreed and found.is_other:
        return _("Two people gave the plant another name, and nobody's name for it differs any more.")
    if found.agreed:
        return _("Two people looked again and gave it the name that it had.")
    if found.people >= 2:
        return _(
            "%(people)s people have named it anew, and the names for it do not all agree. Whoever named it before, or "
            "differently, can look again; while they differ it can only be taken out."
        ) % {"people": found.people}
    return ngettext(
        "%(people)s person has named it anew; two are needed.",
        "%(people)s people have named it anew; two are needed.",
        found.people,
    ) % {"people": found.people}


def day_word(day: Any) -> str:
    """A day as pages write it."""
    return date_format(day, "DATE_FORMAT")


NOTICE_SENTENCES = {
    "plant_waits": gettext_lazy("A plant that you answered is being named anew. Until then it counts for nobody."),
    "plant_void": gettext_lazy("A plant that you answered was taken out: it counts for nobody, for or against."),
    "plant_renamed": gettext_lazy("A plant that you answered was given another name, and counts under that now."),
    "plant_counts_again": gettext_lazy("A plant that you answered was looked at again, and counts as it did before."),
}
"""Notices to everybody who answered the plant; none says who appealed."""


DECISION_SENTENCES = {
    "appeal_received": gettext_lazy("Your appeal is received. It is decided by %(day)s, and never counts against you."),
    "appeal_to_decide": gettext_lazy("An appeal waits for somebody like you to decide it, by %(day)s."),
    "names_wanted": gettext_lazy("A plant is to be named anew by two people who are not told what it was called."),
}


def appeal_notice_lines(kind: str, facts: Mapping[str, Any]) -> list[str]:
    """What a notice about an appeal itself says: to the person, or to those who can do something about it."""
    if kind == "appeal_decided":
        return [_("Your appeal is decided."), str(STEP_SENTENCES[Step(facts["outcome"])]), facts["reasons"]]
    day = day_word(date.fromisoformat(facts["decide_by"]))
    return [str(DECISION_SENTENCES[kind]) % {"day": day}]


def notice_lines(kind: str, facts: Mapping[str, Any]) -> list[str]:
    """What a notice to those concerned says: what happened, which questions it was, what is different for them."""
    lines = [str(NOTICE_SENTENCES[kind])]
    lines += [_("Question %(position)s of “%(title)s”.") % each for each in facts["answers"]]
    for standard in facts["standards"]:
        lines += [_pair_line(pair) for pair in standard["pairs"]]
        if standard["passed_before"] != standard["passed_after"]:
            lines.append(_standard_line(standard))
    if not facts["standards"]:
        lines.append(_("Nothing changes for you by it."))
    return list(dict.fromkeys(lines))


def _standard_line(standard: Mapping[str, Any]) -> str:
    words = {"name": standard["name"], "version": standard["version"]}
    if standard["passed_after"]:
        return _("You now pass %(name)s, version %(version)s.") % words
    return (
        _(
            "You no longer pass %(name)s, version %(version)s. A certificate that rests on it is under review until "
            "you have answered what is missing."
        )
        % words
    )


def _pair_line(pair: Mapping[str, Any]) -> str:
    before, after = pair["before"], pair["after"]
    words = {"gathered": capfirst(pair["gathered"]), "mistaken": pair["mistaken"]}
    if before["passed"] and after["passed"]:
        how = _("still passed")
    elif after["passed"]:
        how = _("passed now")
    elif before["passed"]:
        how = _("no longer passed; missing now: %(after)s") % {"after": _missing(after, pair)}
    else:
        words_of_both = {"before": _missing(before, pair), "after": _missing(after, pair)}
        how = _("missing before: %(before)s; now: %(after)s") % words_of_both
    misses = ""
    if before["misses"] != after["misses"]:
        misses = " " + _("(misses %(before)s, now %(after)s)") % {
            "before": before["misses"],
            "after": after["misses"],
        }
    return f"{_('%(gathered)s told from %(mistaken)s') % words}: {how}{misses}."


def _missing(figures: Mapping[str, Any], pair: Mapping[str, Any]) -> str:
    parts = [
        f"{number} × {name}"
        for number, name in (
            (figures["dangerous_missing"], pair["mistaken"]),
            (figures["edible_missing"], pair["gathered"]),
        )
        if number
    ]
    return ", ".join(parts) or _("nothing of these two")
