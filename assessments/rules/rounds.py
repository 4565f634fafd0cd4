"""Several papers asked for together, of which no two have a plant in common: a round.

Length, side, species and stage lie inside one another. So a round that is dealt out in that order, one question to
each paper in turn, gives every paper the whole or the next whole number of its share of each of them, and no paper
leaves bounds that hold, times the number of papers, for the round. Whoever can draw the round can draw the papers.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .blueprint import DANGEROUS_SHARE, Blueprint, Candidate, Quota, pair_quotas, stage_quotas
from .standard import PairFacts


@dataclass(frozen=True, slots=True)
class Round:
    """So many papers to one blueprint. ``quotas`` hold for all papers together; each takes at most one stage."""

    papers: int
    paper: Blueprint
    quotas: tuple[Quota, ...]

    def __post_init__(self) -> None:
        if self.papers < 1:
            raise ValueError("A round has at least one paper.")

    @property
    def whole(self) -> Blueprint:
        """The round as one long paper; the bounds of its dangerous plants are ``dangerous_bounds``."""
        most = self.paper.per_species
        return Blueprint(
            self.paper.length * self.papers,
            self.quotas,
            dangerous_share=None,
            per_species=None if most is None else most * self.papers,
            per_place_and_day=self.paper.per_place_and_day,
        )

    @property
    def dangerous_bounds(self) -> tuple[int, int]:
        """Fewest and most dangerous plants of the round."""
        least, most = self.paper.dangerous_bounds
        return least * self.papers, most * self.papers


def even_round(papers: int, paper: Blueprint, pairs: Sequence[PairFacts]) -> Round:
    """A round that asks what each paper asks, and over all papers for every species and required stage evenly.

    A short paper cannot ask for every plant in every stage; a round of them can. Of each side two fifths of the
    questions are spread, as in a single paper; the rest is left to chance.
    """
    if papers < 1:
        raise ValueError("A round has at least one paper.")
    share = DANGEROUS_SHARE[0] * paper.length * papers
    dangerous = {pair.mistaken for pair in pairs}
    edible = {pair.gathered for pair in pairs} - dangerous
    of_each = int(share / (len(dangerous) or 1))
    even = (*pair_quotas(pairs, of_each, int(share / (len(edible) or 1))), *stage_quotas(_stages(pairs, of_each)))
    asked = {quota.name: quota for quota in even}
    for quota in paper.quotas:
        known = asked.get(quota.name)
        if known is None or known.at_least < quota.at_least * papers:
            asked[quota.name] = _times(quota, papers)
    return Round(papers, paper, tuple(asked.values()))


def _stages(pairs: Iterable[PairFacts], of_each: int) -> dict[tuple[str, str], int]:
    required: dict[str, dict[str, None]] = {}
    for pair in pairs:
        required.setdefault(pair.mistaken, {}).update(dict.fromkeys(pair.required_stages))
    return {(species, stage): of_each // len(stages) for species, stages in required.items() for stage in stages}


def _times(quota: Quota, papers: int) -> Quota:
    return Quota(
        quota.name, quota.at_least * papers, quota.species, quota.stages, quota.side, importance=quota.importance
    )


def dealt(questions: Iterable[Candidate], papers: int) -> tuple[tuple[Candidate, ...], ...]:
    """The questions of a round as its papers; their order within a paper means nothing yet."""
    ordered = sorted(questions, key=lambda each: (str(each.side), each.species, each.stage, each.key))
    return tuple(tuple(ordered[number::papers]) for number in range(papers))
