"""Plans: what a standard asks before anybody sits it, against what the bank holds, as page and command read them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from django.utils.translation import gettext as _

from assessments.models import Standard
from assessments.rules.outlook import OtherNumbers, Outlook, outlook
from assessments.rules.standard import StandardFacts

from .flora import Flora
from .planning_bank import NOTHING, Holding, holdings_for
from .standards import facts_of, standards_with_parts


@dataclass(frozen=True)
class Plan:
    """One standard, or a draft of other numbers in its place, with the holdings of its species by key."""

    name: str
    outlook: Outlook
    holdings: Mapping[str, Holding]
    is_draft: bool = False

    @property
    def held(self) -> dict[str, int]:
        """Specimens of each dangerous species that one person could have counted."""
        return {species: self.holdings.get(species, NOTHING).countable for species in self.outlook.dangerous.species}

    @property
    def smallest(self) -> int:
        """The fewest of these; no person can be shown more of every species."""
        return min(self.held.values())


def version_name(standard: Standard) -> str:
    """A version as pages that know several of them call it."""
    name = _("%(name)s, version %(version)s") % {"name": standard.name, "version": standard.version}
    return name if standard.in_use_since else _("%(name)s (draft)") % {"name": name}


def facts_by_version(standards: Sequence[Standard]) -> list[StandardFacts]:
    """The versions as the rules read them, in this order."""
    found = facts_of(standards_with_parts().filter(pk__in=[each.pk for each in standards]))
    return [found[each.pk] for each in standards]


def plans_of(first: Standard, second: Standard | None, numbers: OtherNumbers | None) -> list[Plan]:
    """The plan of a standard; beside it that of a second, or of either with other numbers.

    The numbers go into the second where there is one, else into the first, which then stands beside its draft.
    TooManySpecimens or ValueError for numbers that `planning_numbers` has a sentence for.
    """
    standards = [first, second] if second is not None else [first]
    facts = facts_by_version(standards)
    names = [version_name(each) for each in standards]
    drafted = [False for _each in facts]
    if numbers is not None:
        if second is None:
            facts, names, drafted = [*facts, facts[0]], [*names, names[0]], [*drafted, False]
        facts[-1], drafted[-1] = numbers.of(facts[-1]), True
        names[-1] = _("%(name)s, with other numbers") % {"name": names[-1]}
    rows = zip(names, facts, holdings_for(facts), drafted, strict=True)
    return [Plan(name, outlook(each), held, draft) for name, each, held, draft in rows]


def verdict(plan: Plan, flora: Flora) -> tuple[bool, str]:
    """Whether anybody at all could meet the standard from the bank, and the sentence that says so."""
    least = plan.outlook.least
    short = [species for species, held in plan.held.items() if held < least[species]]
    if short:
        names = ", ".join(
            _("%(plant)s (%(held)s of %(least)s)")
            % {"plant": flora.common(species), "held": plan.held[species], "least": least[species]}
            for species in short
        )
        return False, _(
            "As the bank is, nobody can pass from photographs alone, however good: it lacks specimens of %(names)s."
        ) % {"names": names}
    wanted = plan.outlook.wanted
    if wanted is not None and plan.smallest >= wanted:
        return True, _(
            "The bank is big enough: of every dangerous plant it holds at least %(held)s specimens that could count "
            "for one person, and %(wanted)s are wanted."
        ) % {"held": plan.smallest, "wanted": wanted}
    if wanted is None:
        return True, _(
            "No bank is big enough for people who miss one in a hundred: nine in ten of them never pass all."
        )
    return True, _(
        "Somebody without a miss can pass. For people who miss one in a hundred the bank is small: %(held)s of the "
        "scarcest dangerous plant, where %(wanted)s are wanted so that nine in ten of them pass all."
    ) % {"held": plan.smallest, "wanted": wanted}


def week_words(questions_a_week: float) -> str:
    """Questions a week as printed: whole ones, rounded up."""
    return str(ceil(round(questions_a_week, 9)))
