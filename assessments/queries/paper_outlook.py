"""What would come of a paper if it were set now: whether everybody's can be drawn, what is missing, what could be set.

The page that shows it and the step that refuses a paper ask the same question here.
"""

from collections import defaultdict
from collections.abc import Collection, Hashable, Mapping, Sequence
from dataclasses import dataclass

from django.contrib.auth.models import User

from assessments.models import Paper
from assessments.rules.blueprint import Blueprint
from assessments.rules.kinds.drawing import KindShortage
from assessments.rules.nearest import Choice, longer_paper, nearest_paper
from assessments.rules.shortfall import Shortage
from assessments.rules.standard import PairFacts, StandardFacts

from .bank import Share, shares_of
from .drawing import Missing, draw_paper
from .flora import the_flora
from .paper_cures import Cure, cures_of
from .paper_plan import PaperPlan, blueprint_planned, pairs_planned
from .people import name_of
from .sentences.shortfalls import exact_sentences
from .standards import standard_facts

MOST_QUESTIONS = 60
MOST_TRIES = 4
"""So often a nearer paper is tried for the other kinds of question, which are drawn after the ones that count."""


@dataclass(frozen=True)
class Lack:
    """What is missing, in a sentence, and for whom by name; for everybody where nobody is named."""

    sentence: str
    who: tuple[str, ...] = ()

    def __str__(self) -> str:
        return f"{self.sentence} ({', '.join(self.who)})" if self.who else self.sentence


@dataclass(frozen=True)
class Offer:
    """A paper that can be set instead: `longer` keeps every quota; `given_way` are those that ask for less."""

    plan: PaperPlan
    longer: bool
    given_way: tuple[Shortage, ...] = ()


@dataclass(frozen=True)
class Outlook:
    """What would come of a plan for these people."""

    people: int
    lacks: tuple[Lack, ...] = ()
    cures: tuple[Cure, ...] = ()
    offers: tuple[Offer, ...] = ()

    @property
    def is_possible(self) -> bool:
        return not self.lacks


def outlook_of(plan: PaperPlan, people: Sequence[User], seed: int) -> Outlook:
    """Draw the paper for everybody on trial; nothing of it is kept."""
    ask = _Asking.about(plan, people)
    missing = ask.missing(plan, seed)
    if not missing:
        return Outlook(len(people))
    return Outlook(
        len(people),
        _lacks(missing, people),
        cures_of(missing.values(), ask.facts, ask.pairs, list(ask.shares)),
        tuple(ask.offers(plan, missing, seed)),
    )


@dataclass(frozen=True)
class _Asking:
    """The facts that are needed to try plans over the same pairs for the same people."""

    facts: StandardFacts
    pairs: tuple[PairFacts, ...]
    shares: Mapping[int, Share]

    @classmethod
    def about(cls, plan: PaperPlan, people: Sequence[User]) -> "_Asking":
        facts = standard_facts(plan.standard)
        pairs = pairs_planned(plan, facts.dangerous_pairs)
        return cls(facts, pairs, shares_of([person.pk for person in people], facts, pairs))

    def missing(self, plan: PaperPlan, seed: int) -> dict[int, Missing]:
        """By person why their paper cannot be drawn; nobody where all can."""
        paper = Paper(**plan.columns)
        drawn = {key: draw_paper(paper, share, self.pairs, seed) for key, share in self._distinct.items()}
        found = {person: drawn[_key_of(share)] for person, share in self.shares.items()}
        return {person: each for person, each in found.items() if isinstance(each, Missing)}

    @property
    def _distinct(self) -> dict[Hashable, Share]:
        """The shares, each once: people who have met the same plants are tried together."""
        return {_key_of(share): share for share in self.shares.values()}

    def offers(self, plan: PaperPlan, missing: Mapping[int, Missing], seed: int) -> list[Offer]:
        choices = [Choice(share.candidates, share.answered) for share in self._distinct.values()]
        asked = blueprint_planned(plan, self.pairs)
        found = []
        if any(each.shortfall for each in missing.values()):
            room = MOST_QUESTIONS - sum(plan.kinds.values())
            longer = longer_paper(choices, asked, room)
            if longer is not None:
                found.append(self._offer(plan, asked, longer, seed))
        found.append(self._offer(plan, asked, nearest_paper(choices, asked), seed))
        return [offer for offer in found if offer is not None]

    def _offer(self, plan: PaperPlan, asked: Blueprint, nearer: Blueprint | None, seed: int) -> Offer | None:
        """The plan to this blueprint, with as many questions of the other kinds as everybody can be put."""
        if nearer is None:
            return None
        offered = plan.to(nearer, asked)
        for _try in range(MOST_TRIES):
            missing = self.missing(offered, seed)
            if not missing:
                return Offer(offered, nearer.length > asked.length, _given_way(nearer, asked))
            kinds = [short for each in missing.values() for short in each.kinds]
            if not kinds:
                return None
            offered = _with_fewer(offered, kinds)
        return None


def _key_of(share: Share) -> Hashable:
    return share.candidates, frozenset(share.answered.items())


def _with_fewer(plan: PaperPlan, short: Sequence[KindShortage]) -> PaperPlan:
    fewer = dict(plan.kinds)
    for each in short:
        fewer[each.kind] = min(fewer[each.kind], each.available)
    return plan.with_kinds(fewer)


def _given_way(nearer: Blueprint, asked: Blueprint) -> tuple[Shortage, ...]:
    both = zip(asked.quotas, nearer.quotas, strict=True)
    return tuple(
        Shortage(quota.name, quota.at_least, less.at_least) for quota, less in both if less.at_least < quota.at_least
    )


def _lacks(missing: Mapping[int, Missing], people: Collection[User]) -> tuple[Lack, ...]:
    flora, short = the_flora(), defaultdict[str, list[str]](list)
    for person in people:
        for sentence in exact_sentences(missing[person.pk], flora) if person.pk in missing else ():
            short[sentence].append(name_of(person))
    return tuple(Lack(sentence, () if len(names) == len(people) else tuple(names)) for sentence, names in short.items())
