"""A paper as somebody means to set it, before there is one."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from assessments.models import Paper, Standard
from assessments.rules.blueprint import Blueprint
from assessments.rules.standard import PairFacts
from species.models import Pair

from .bank import blueprint_of, quotas_for


@dataclass(frozen=True)
class PaperPlan:
    """What a setter decides. `each_stage`: every required stage of each dangerous plant, where it fits in.

    `kinds`: how many of the questions are of each other kind than name it and decide, by key of the kind.
    `dangerous_each`, `edible_each`: at least so many of each plant of that side; None spreads two fifths of the
    paper evenly. `per_species`: at most so many of one plant; None follows from the length. `lowered`: by name of a
    quota what is asked instead, where the bank holds less.
    """

    title: str
    standard: Standard
    pairs: Collection[Pair]
    questions: int
    opens_at: datetime
    closes_at: datetime | None = None
    minutes: int | None = None
    each_stage: bool = True
    kinds: Mapping[str, int] = field(default_factory=dict)
    dangerous_each: int | None = None
    edible_each: int | None = None
    per_species: int | None = None
    lowered: Mapping[str, int] = field(default_factory=dict)

    @property
    def counting(self) -> int:
        """How many questions are left for name it and decide."""
        return self.questions - sum(self.kinds.values())

    @property
    def quotas(self) -> dict[str, Any]:
        """What is written down with the paper, so that everybody's is drawn to the same blueprint."""
        dangerous = [pair for pair in self.pairs if pair.is_dangerous]
        mistaken, gathered = {p.mistaken_id for p in dangerous}, {p.gathered_id for p in dangerous}
        even = quotas_for(self.counting, len(mistaken) or 1, len(gathered - mistaken) or 1)
        said = {name: getattr(self, name) for name in even}
        chosen = {name: even[name] if number is None else number for name, number in said.items()}
        chosen["per_species"] = max(chosen["per_species"], chosen["dangerous_each"], chosen["edible_each"])
        return {**chosen, "each_stage": self.each_stage, "lowered": dict(self.lowered)}

    @property
    def columns(self) -> dict[str, Any]:
        """What a row of a paper holds of it."""
        return {
            "title": self.title.strip(),
            "standard": self.standard,
            "questions": self.questions,
            "kinds": {key: count for key, count in self.kinds.items() if count},
            "minutes": self.minutes,
            "opens_at": self.opens_at,
            "closes_at": self.closes_at,
            "blueprint": self.quotas,
        }

    def with_kinds(self, kinds: Mapping[str, int]) -> "PaperPlan":
        """As many questions that count, and so many of the other kinds."""
        return replace(self, kinds=kinds, questions=self.counting + sum(kinds.values()))

    def to(self, blueprint: Blueprint, asked: Blueprint) -> "PaperPlan":
        """The plan of papers to this blueprint, which came of the one that was asked for."""
        before = {quota.name: quota.at_least for quota in asked.quotas}
        lowered = {quota.name: quota.at_least for quota in blueprint.quotas if quota.at_least < before[quota.name]}
        quotas = self.quotas
        return replace(
            self,
            questions=self.questions + blueprint.length - asked.length,
            dangerous_each=quotas["dangerous_each"],
            edible_each=quotas["edible_each"],
            per_species=quotas["per_species"],
            lowered={**self.lowered, **lowered},
        )


def plan_of(paper: Paper) -> PaperPlan:
    """The plan that a paper was set to; one query."""
    held = paper.blueprint
    plan = PaperPlan(
        title=paper.title,
        standard=paper.standard,
        pairs=list(paper.pairs.all()),
        questions=paper.questions,
        opens_at=paper.opens_at,
        closes_at=paper.closes_at,
        minutes=paper.minutes,
        each_stage=bool(held.get("each_stage")),
        kinds=paper.kinds,
        lowered=held.get("lowered", {}),
    )
    even = plan.quotas
    chosen = {name: held.get(name) for name in ("dangerous_each", "edible_each", "per_species")}
    return replace(plan, **{name: number for name, number in chosen.items() if number != even[name]})


def pairs_planned(plan: PaperPlan, facts: tuple[PairFacts, ...]) -> tuple[PairFacts, ...]:
    """The pairs of a plan as its standard asks for them."""
    keys = {pair.key for pair in plan.pairs}
    return tuple(pair for pair in facts if pair.key in keys)


def blueprint_planned(plan: PaperPlan, pairs: tuple[PairFacts, ...]) -> Blueprint:
    """What the questions that count are drawn to."""
    return blueprint_of(Paper(**plan.columns), pairs)
