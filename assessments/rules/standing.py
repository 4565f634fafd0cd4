"""Where a person stands under a standard, from evidence alone: the same evidence, the same standing, any day.

``standing`` is the one entrance. Nothing in it is rounded in favour of the person: a pass is a comparison of
whole numbers, and a certificate needs every dangerous pair (intersection-union; Berger 1982).
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from .evidence import AnswerFacts, Decision, in_order
from .gaps import Gap, all_gaps, dangerous_approach
from .ledger import Ledger, Treatment, open_ledger
from .live import LiveRun, live_run
from .names import NameBook
from .pairs import PairVerdict, pair_verdict
from .standard import Side, StandardFacts, WindowFacts
from .treatment import Effect, Reason, set_aside
from .ways import Way, best_approach, way_to_pass


@dataclass(frozen=True, slots=True)
class Standing:
    """One person under one standard.

    ``gaps`` is empty exactly when ``passed``; what a page shows as missing and what a refusal says are both
    this tuple. ``ways`` hold, per species with something missing, the specimens that would close the gaps.
    ``set_aside`` are the answers that belong to no ledger, each with its reason.
    """

    standard: StandardFacts
    dangerous: tuple[Ledger, ...]
    edible: tuple[Ledger, ...]
    pairs: tuple[PairVerdict, ...]
    gaps: tuple[Gap, ...]
    ways: tuple[Way, ...]
    set_aside: tuple[Treatment, ...]

    @property
    def passed(self) -> bool:
        """Every dangerous pair is passed, and there is at least one."""
        return bool(self.pairs) and all(pair.passed for pair in self.pairs)

    @property
    def treatments(self) -> tuple[Treatment, ...]:
        """What became of every answer, in the order in which they count."""
        every = [t for ledger in (*self.dangerous, *self.edible) for t in ledger.treatments]
        order = {id(a): n for n, a in enumerate(in_order([t.answer for t in (*every, *self.set_aside)]))}
        return tuple(sorted((*every, *self.set_aside), key=lambda t: order[id(t.answer)]))

    @property
    def specimens_still_needed(self) -> int:
        """Specimens that are missing in all if every further answer is clean."""
        return sum(way.specimens for way in self.ways)

    def ledger(self, species: str, side: Side) -> Ledger:
        """The ledger of a species. KeyError if the standard has none."""
        for ledger in self.dangerous if side is Side.DANGEROUS else self.edible:
            if ledger.species == species:
                return ledger
        raise KeyError(species)

    def pair(self, key: str) -> PairVerdict:
        """The verdict on a pair. KeyError if it is not a dangerous pair of the standard."""
        for verdict in self.pairs:
            if verdict.key == key:
                return verdict
        raise KeyError(key)


def standing(
    standard: StandardFacts,
    answers: Iterable[AnswerFacts],
    windows: Sequence[WindowFacts],
    names: NameBook,
) -> Standing:
    """Where a person stands.

    ``answers``: everything they ever answered in assessments, in any order. ``windows``: those of the one
    period that is looked at; none at all means that nothing has counted yet.
    """
    by_species: dict[str | None, list[AnswerFacts]] = defaultdict(list)
    for answer in answers:
        by_species[answer.specimen.species].append(answer)

    def ledgers(side: Side) -> dict[str, Ledger]:
        return {
            species: open_ledger(species, side, standard, by_species.get(species, ()), windows, names)
            for species in standard.species(side)
        }

    dangerous, edible = ledgers(Side.DANGEROUS), ledgers(Side.EDIBLE)
    runs = {species: _live(standard, ledger) for species, ledger in dangerous.items()}
    verdicts = tuple(
        pair_verdict(pair, dangerous[pair.mistaken], edible[pair.gathered], runs[pair.mistaken], standard.stage_clean)
        for pair in standard.dangerous_pairs
    )
    return Standing(
        standard=standard,
        dangerous=tuple(dangerous.values()),
        edible=tuple(edible.values()),
        pairs=verdicts,
        gaps=all_gaps(verdicts, edible, standard.stage_clean),
        ways=_ways(verdicts, standard.stage_clean),
        set_aside=_outside(by_species, standard, {*dangerous, *edible}),
    )


def _live(standard: StandardFacts, ledger: Ledger) -> LiveRun:
    reason = standard.live_not_required.get(ledger.species, "")
    return live_run(ledger.windows[0], standard.live_run, standard.live_occasions, reason)


def _ways(verdicts: Sequence[PairVerdict], stage_clean: int) -> tuple[Way, ...]:
    ways = []
    for species in dict.fromkeys(verdict.pair.mistaken for verdict in verdicts):
        mine = [verdict for verdict in verdicts if verdict.pair.mistaken == species]
        if not all(verdict.approach.met and verdict.live.met for verdict in mine):
            ways.append(way_to_pass(species, dangerous_approach(mine, stage_clean), mine[0].live))
    for ledger in {v.pair.gathered: v.edible for v in verdicts}.values():
        if not ledger.passed:
            ways.append(way_to_pass(ledger.species, best_approach(ledger, (), stage_clean), None))
    return tuple(ways)


def _outside(
    by_species: dict[str | None, list[AnswerFacts]], standard: StandardFacts, known: set[str]
) -> tuple[Treatment, ...]:
    """The answers whose specimen belongs to no species of the standard, or to none at all today."""
    rest = [a for species, mine in by_species.items() if species not in known for a in mine]
    return tuple(
        Treatment(a, a.specimen.species, None, Effect.NONE, set_aside(a, standard) or Reason.NOT_IN_STANDARD)
        for a in in_order(rest)
    )


def misses_since(standard: StandardFacts, answers: Iterable[AnswerFacts], moment: datetime) -> tuple[AnswerFacts, ...]:
    """Dangerous species of the standard that were gathered after a moment, whatever period that was in.

    A certificate given at that moment is under review as soon as there is one.
    """
    dangerous = frozenset(standard.species(Side.DANGEROUS))
    return tuple(
        answer
        for answer in in_order(list(answers))
        if answer.specimen.species in dangerous
        and answer.decision is Decision.GATHER
        and answer.shown_at > moment
        and set_aside(answer, standard) is None
    )
