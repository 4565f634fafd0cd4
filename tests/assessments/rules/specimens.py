"""Makers of plain evidence for the tests of the rules: a small hedge bank with two pairs.

Cow parsley is gathered and hemlock mistaken for it; sweet cicely too. Ramsons is gathered, lily mistaken.
"""

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from itertools import count
from typing import Any

from assessments.rules.evidence import AnswerFacts, Decision, Medium, SpecimenFacts
from assessments.rules.ledger import Ledger, open_ledger
from assessments.rules.names import NameBook, SpeciesNames
from assessments.rules.standard import PARTICIPANT, Bars, PairFacts, Side, StandardFacts, WindowFacts
from assessments.rules.standing import Standing, standing
from assessments.rules.treatment import Effect, Reason

START = datetime(2031, 3, 1, 9, 0, tzinfo=UTC)
PERIOD_END = datetime(2033, 3, 1, 9, 0, tzinfo=UTC)
WINDOW = WindowFacts(1, START, PERIOD_END)
GATHER, REFUSE, LEAVE = Decision.GATHER, Decision.REFUSE, Decision.LEAVE

NAMES = NameBook(
    [
        SpeciesNames("hemlock", "Conium", "Conium maculatum", ("hemlock",), ("Cicuta officinalis",)),
        SpeciesNames(
            "cow-parsley",
            "Anthriscus",
            "Anthriscus sylvestris",
            ("cow parsley", "Queen Anne's lace"),
            ("Chaerophyllum sylvestre",),
            ("Anthriscus sylvestris agg.",),
            frozenset({"cow-parsley-agg"}),
        ),
        SpeciesNames("cow-parsley-agg", "Anthriscus", "Anthriscus aggregate"),
        SpeciesNames("bur-chervil", "Anthriscus", "Anthriscus caucalis", ("bur chervil", "beaked parsley")),
        SpeciesNames("cicely", "Myrrhis", "Myrrhis odorata", ("sweet cicely", "beaked parsley")),
        SpeciesNames("ramsons", "Allium", "Allium ursinum", ("ramsons", "wild garlic")),
        SpeciesNames("lily", "Convallaria", "Convallaria majalis", ("lily-of-the-valley",)),
        SpeciesNames("dandelion", "Taraxacum", "Taraxacum officinale agg.", ("dandelion",)),
    ]
)
HEMLOCK_PAIR = PairFacts("cowparsley-hemlock", "cow-parsley", "hemlock")
CICELY_PAIR = PairFacts("cicely-hemlock", "cicely", "hemlock")
LILY_PAIR = PairFacts("ramsons-lily", "ramsons", "lily")

_numbers = count(1)


def standard(*pairs: PairFacts, bars: Bars = PARTICIPANT, **changes: Any) -> StandardFacts:
    """A standard with these pairs (cow parsley and hemlock if none is named) that asks for no live run."""
    pairs = pairs or (HEMLOCK_PAIR,)
    facts = StandardFacts(
        key="test",
        name="Test",
        version=1,
        dangerous=bars.dangerous,
        edible=bars.edible,
        window_weights=bars.window_weights,
        live_run=0,
        live_occasions=0,
        valid_months=24,
        pairs=pairs,
    )
    return replace(facts, **changes)


def shown(
    species: str | None,
    decision: Decision | None,
    named: str | None = None,
    *,
    key: str = "",
    individual: str = "",
    stage: str = "flower",
    locality: str = "",
    day: date | None = None,
    at: datetime | None = None,
    void: bool = False,
    drawn: bool = False,
    **answer: Any,
) -> AnswerFacts:
    """One answer to a specimen of its own, from a place of its own, a minute after the one made before it."""
    number = next(_numbers)
    key = key or f"s{number}"
    moment = at or START + timedelta(minutes=number)
    specimen = SpecimenFacts(
        key,
        individual or key,
        species,
        stage,
        locality or f"place{number}",
        day or moment.date(),
        void,
        drawn,
    )
    facts = AnswerFacts(specimen, decision, moment, number, moment, named_species=named)
    return replace(facts, **answer)


def live(species: str, decision: Decision, named: str | None = None, **more: Any) -> AnswerFacts:
    """One answer in front of the living plant."""
    return shown(species, decision, named, medium=Medium.LIVE, **more)


def caught(times: int, species: str = "hemlock", **more: Any) -> list[AnswerFacts]:
    """So many different specimens of a dangerous species, all refused."""
    return [shown(species, REFUSE, species, **more) for _ in range(times)]


def gathered(times: int, species: str = "hemlock", **more: Any) -> list[AnswerFacts]:
    """So many different specimens of a dangerous species, all gathered."""
    return [shown(species, GATHER, "cow-parsley", **more) for _ in range(times)]


def recognised(times: int, species: str = "cow-parsley", **more: Any) -> list[AnswerFacts]:
    """So many different specimens of an edible species, all gathered by their right name."""
    return [shown(species, GATHER, species, **more) for _ in range(times)]


def hemlock_ledger(
    answers: Iterable[AnswerFacts],
    facts: StandardFacts | None = None,
    windows: tuple[WindowFacts, ...] = (WINDOW,),
) -> Ledger:
    """The ledger of hemlock."""
    return open_ledger("hemlock", Side.DANGEROUS, facts or standard(), answers, windows, NAMES)


def parsley_ledger(
    answers: Iterable[AnswerFacts],
    facts: StandardFacts | None = None,
    windows: tuple[WindowFacts, ...] = (WINDOW,),
) -> Ledger:
    """The ledger of cow parsley."""
    return open_ledger("cow-parsley", Side.EDIBLE, facts or standard(), answers, windows, NAMES)


def counts(ledger: Ledger, window: int = 1) -> tuple[int, int, int]:
    """Clean, misses, neutral in a window."""
    found = next(w.counts for w in ledger.windows if w.number == window)
    return found.clean, found.misses, found.neutral


def treated(ledger: Ledger) -> list[tuple[Effect, Reason]]:
    """Effect and reason of every answer, in order."""
    return [(treatment.effect, treatment.reason) for treatment in ledger.treatments]


def stand(
    answers: Iterable[AnswerFacts],
    facts: StandardFacts | None = None,
    windows: tuple[WindowFacts, ...] = (WINDOW,),
) -> Standing:
    """Where somebody stands."""
    return standing(facts or standard(), answers, windows, NAMES)


ONE_WINDOW = (Fraction(1),)
