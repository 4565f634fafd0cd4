"""A plan of a paper in words: what everybody's paper holds, what cures what is missing, what could be set instead."""

from collections.abc import Mapping, Sequence

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from assessments.queries.flora import Flora
from assessments.queries.paper_cures import Cure
from assessments.queries.paper_outlook import Offer
from assessments.queries.paper_plan import PaperPlan, blueprint_planned
from assessments.rules.standard import PairFacts
from species.queries.months import months_in_words

from .kinds import kind_word
from .shortfalls import quota_word
from .words import stage_word


def plan_lines(plan: PaperPlan, pairs: tuple[PairFacts, ...], flora: Flora) -> list[str]:
    """What everybody's paper holds, alike in all of them."""
    blueprint = blueprint_planned(plan, pairs)
    least, most = blueprint.dangerous_bounds
    text = _("Name it and decide: %(count)s. %(least)s to %(most)s of these are dangerous plants; how many is drawn.")
    if least == most:
        text = _("Name it and decide: %(count)s. %(least)s of these are dangerous plants.")
    lines = [text % {"count": plan.counting, "least": least, "most": most}]
    lines += [
        _("%(kind)s: %(count)s, for learning only.") % {"kind": kind_word(key), "count": count}
        for key, count in plan.kinds.items()
        if count
    ]
    quotas = [f"{quota_word(each.name, flora)} {each.at_least}" for each in blueprint.quotas]
    if quotas:
        lines.append(_("At least: %(quotas)s. The rest is drawn by chance.") % {"quotas": "; ".join(quotas)})
    return lines + _stages_left_out(plan, pairs, {quota.name for quota in blueprint.quotas}, flora)


def _stages_left_out(plan: PaperPlan, pairs: Sequence[PairFacts], asked: set[str], flora: Flora) -> list[str]:
    """What the standard requires and this paper does not ask for: said, never dropped quietly."""
    required = {(pair.mistaken, stage) for pair in pairs for stage in pair.required_stages}
    left_out = sorted({species for species, stage in required if f"{species}, {stage}" not in asked})
    if not left_out:
        return []
    names = ", ".join(flora.common(each) for each in left_out)
    if plan.each_stage:
        return [
            _("Too short for every required stage of: %(plants)s. Chance decides which are shown.") % {"plants": names}
        ]
    return [_("Chance decides which required stages are shown of: %(plants)s.") % {"plants": names}]


def offer_sentence(offer: Offer, asked: PaperPlan, flora: Flora) -> str:
    """What a paper that can be set changes in the one that was asked for."""
    figures = {"offered": offer.plan.questions, "asked": asked.questions}
    parts = []
    if offer.plan.questions != asked.questions:
        parts.append(
            ngettext("%(offered)s question instead of %(asked)s", "%(offered)s questions instead of %(asked)s",
                     offer.plan.questions) % figures
        )  # fmt: skip
    parts += [_less(quota_word(each.name, flora), each.available, each.asked) for each in offer.given_way]
    parts += _fewer_kinds(offer.plan.kinds, asked.kinds)
    return capfirst("; ".join(parts)) + "."


def _less(what: str, offered: int, asked: int) -> str:
    return _("%(what)s: at least %(offered)s instead of %(asked)s") % {"what": what, "offered": offered, "asked": asked}


def _fewer_kinds(offered: Mapping[str, int], asked: Mapping[str, int]) -> list[str]:
    changed = [(key, count) for key, count in asked.items() if offered.get(key, 0) != count]
    return [
        _("“%(kind)s”: %(offered)s instead of %(asked)s")
        % {"kind": kind_word(key), "offered": offered.get(key, 0), "asked": count}
        for key, count in changed
    ]


def cure_sentence(cure: Cure) -> str:
    """What to name, to settle or to photograph, and when it shows."""
    what = f"{cure.plant.common_name}, {stage_word(cure.stage)}" if cure.stage else cure.plant.common_name
    parts = [_("%(what)s: %(missing)s more wanted.") % {"what": capfirst(what), "missing": cure.missing}]
    if cure.to_name:
        parts.append(
            ngettext("%(count)s lies in the bank with one name: a second person's would confirm it.",
                     "%(count)s lie in the bank with one name: a second person's would confirm them.",
                     cure.to_name) % {"count": cure.to_name}
        )  # fmt: skip
    if cure.to_settle:
        parts.append(_("On %(count)s two people do not agree yet.") % {"count": cure.to_settle})
    if cure.to_photograph:
        parts.append(_("Photograph %(count)s.") % {"count": cure.to_photograph})
        if cure.months:
            parts.append(_("It shows in: %(months)s.") % {"months": months_in_words(cure.months)})
    return " ".join(parts)
