"""What the pages that set or change a paper show of a plan: an outlook in words, an example, what else could be set."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.contrib.auth.models import User

from .flora import the_flora
from .paper_example import ExampleLine, Preview, preview_of
from .paper_outlook import Offer, Outlook
from .paper_plan import PaperPlan, pairs_planned
from .sentences.paper_plans import cure_sentence, offer_sentence, plan_lines
from .standards import standard_facts


@dataclass(frozen=True)
class OutlookWords:
    """An outlook in sentences; `offers` with what each changes."""

    people: int
    lacks: tuple[str, ...]
    cures: tuple[str, ...]
    offers: tuple[tuple[str, Offer], ...]
    names_wait: bool


@dataclass(frozen=True)
class Setting:
    """A plan as it was looked at. `holds`: what everybody's paper holds; `example` is empty where none can be drawn."""

    holds: tuple[str, ...]
    outlook: OutlookWords
    example: tuple[ExampleLine, ...] = ()
    dangerous: int = 0


def holds_of(plan: PaperPlan) -> tuple[str, ...]:
    """What everybody's paper holds."""
    facts = standard_facts(plan.standard)
    return tuple(plan_lines(plan, pairs_planned(plan, facts.dangerous_pairs), the_flora()))


def setting_of(plan: PaperPlan, outlook: Outlook, preview: Preview | None = None) -> Setting:
    """The words for a plan whose outlook is known."""
    flora = the_flora()
    words = OutlookWords(
        outlook.people,
        tuple(str(lack) for lack in outlook.lacks),
        tuple(cure_sentence(each) for each in outlook.cures),
        tuple((offer_sentence(each, plan, flora), each) for each in outlook.offers),
        any(each.to_name or each.to_settle for each in outlook.cures),
    )
    return Setting(holds_of(plan), words, preview.lines if preview else (), preview.dangerous if preview else 0)


def looked_at(plan: PaperPlan, people: Sequence[User], seed: int) -> tuple[Setting, list[str]]:
    """The plan drawn on trial, and the keys of the specimens that its example shows."""
    preview = preview_of(plan, people, seed)
    return setting_of(plan, preview.outlook, preview), preview.specimens
