"""The ledger of one person and one species: what counts in which window, and why the rest does not.

In a window an individual counts once: as a miss if it was gathered there (dangerous side), otherwise as what
its first answer says, provided that answer lies in the window. So a gather takes an earlier clean back.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from . import evalue
from .evidence import AnswerFacts, Medium, in_order
from .names import NameBook
from .standard import Side, SideBar, StandardFacts, WindowFacts
from .treatment import Effect, Reading, Reason, read_answers
from .windows import WeightedWindow, weighted


@dataclass(frozen=True, slots=True)
class Treatment:
    """One answer as a page can show it: what it counts as, why, and in which windows (numbers)."""

    answer: AnswerFacts
    species: str | None
    side: Side | None
    effect: Effect
    reason: Reason
    windows: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Counts:
    """Individuals of one species by what they count as."""

    clean: int = 0
    misses: int = 0
    neutral: int = 0

    @property
    def decided(self) -> int:
        """Individuals that speak for or against the person."""
        return self.clean + self.misses


@dataclass(frozen=True, slots=True)
class WindowLedger:
    """One species in one window. ``entries`` hold the deciding reading of every individual, in order,
    those beyond the two of a place and day included (their effect is none). ``met_live`` are the individuals
    that were judged in front of the living plant."""

    window: WeightedWindow
    bar: SideBar
    entries: tuple[Reading, ...]
    counts: Counts
    met_live: frozenset[str]

    @property
    def number(self) -> int:
        return self.window.number

    @property
    def weight(self) -> Fraction:
        return self.window.weight

    @property
    def counted(self) -> tuple[Reading, ...]:
        """The readings that enter the counts."""
        return tuple(reading for reading in self.entries if reading.effect is not Effect.NONE)

    @property
    def clean_needed(self) -> int:
        """Clean specimens needed in all with the misses so far."""
        return evalue.clean_needed(self.counts.misses, self.bar, self.weight)

    @property
    def still_needed(self) -> int:
        """Clean specimens still missing; 0 once passed."""
        return evalue.still_needed(self.counts.clean, self.counts.misses, self.bar, self.weight)

    @property
    def passed(self) -> bool:
        return self.still_needed == 0

    @property
    def log_e(self) -> float:
        return evalue.log_e(self.counts.clean, self.counts.misses, self.bar)

    @property
    def threshold(self) -> Fraction:
        """What e has to reach in this window."""
        return evalue.threshold(self.bar, self.weight)

    @property
    def upper_limit(self) -> float:
        """Upper limit of the share of misses, valid whenever it is looked at."""
        spent = self.bar.alpha * self.weight
        return evalue.anytime_upper_limit(self.counts.clean, self.counts.misses, spent, self.bar.ratio)

    @property
    def live(self) -> int:
        """How many of the decided specimens were live."""
        return sum(1 for reading in self.counted if reading.individual in self.met_live)

    @property
    def span(self) -> tuple[datetime, datetime] | None:
        """When the first and the last counted specimen were shown; None without evidence."""
        moments = [reading.answer.shown_at for reading in self.counted]
        return (min(moments), max(moments)) if moments else None


@dataclass(frozen=True, slots=True)
class Ledger:
    """One person and one species under one standard: a ledger per window, and every answer's treatment."""

    species: str
    side: Side
    windows: tuple[WindowLedger, ...]
    treatments: tuple[Treatment, ...]

    @property
    def passed(self) -> bool:
        return any(window.passed for window in self.windows)

    @property
    def passing(self) -> WindowLedger | None:
        """The window that passes; the earliest, which holds the most, where several do."""
        return next((window for window in self.windows if window.passed), None)

    @property
    def nearest(self) -> WindowLedger:
        """The window that passes, or else the one that asks for the fewest clean specimens more."""
        return min(self.windows, key=lambda window: window.still_needed)


def entries_in(window: WeightedWindow, readings: Sequence[Reading]) -> tuple[Reading, ...]:
    """The deciding reading of each individual in a window, in order of the readings."""
    deciding: dict[str, tuple[int, Reading]] = {}
    for place, reading in enumerate(readings):
        if reading.judged is Effect.NONE or not window.holds(reading.answer.shown_at):
            continue
        standing = deciding.get(reading.individual)
        if standing is None or takes_over(reading, standing[1]):
            deciding[reading.individual] = (place, reading)
    return tuple(reading for _, reading in sorted(deciding.values(), key=lambda pair: pair[0]))


def takes_over(later: Reading, earlier: Reading) -> bool:
    """A gather takes the place of whatever an individual counted as, except of a gather before it."""
    return later.reason is Reason.GATHERED_DANGEROUS and earlier.reason is not Reason.GATHERED_DANGEROUS


def open_ledger(
    species: str,
    side: Side,
    standard: StandardFacts,
    answers: Iterable[AnswerFacts],
    windows: Sequence[WindowFacts],
    names: NameBook,
) -> Ledger:
    """The ledger of a species from everything a person ever answered, for the windows of one period."""
    mine = in_order([a for a in answers if a.specimen.species == species])
    readings = read_answers(species, side, standard, mine, names)
    bar = standard.bar(side)
    ledgers = tuple(window_ledger(window, bar, readings) for window in weighted(windows, standard.window_weights))
    numbers = _numbers_by_reading(ledgers)
    treatments = tuple(_treatment(species, side, r, numbers.get(id(r), ()), ledgers) for r in readings)
    return Ledger(species, side, ledgers, treatments)


def window_ledger(window: WeightedWindow, bar: SideBar, readings: Sequence[Reading]) -> WindowLedger:
    """One window of a ledger from the readings of one species, which must be in order."""
    entries = entries_in(window, readings)
    effects = [reading.effect for reading in entries]
    counts = Counts(effects.count(Effect.CLEAN), effects.count(Effect.MISS), effects.count(Effect.NEUTRAL))
    met_live = frozenset(
        r.individual
        for r in readings
        if r.answer.medium is Medium.LIVE
        and r.judged in (Effect.CLEAN, Effect.MISS)
        and window.holds(r.answer.shown_at)
    )
    return WindowLedger(window, bar, entries, counts, met_live)


def _numbers_by_reading(ledgers: Sequence[WindowLedger]) -> dict[int, tuple[int, ...]]:
    """For each reading, by identity (two answers may say the same): the windows in which it stands."""
    numbers: dict[int, tuple[int, ...]] = {}
    for ledger in ledgers:
        for reading in ledger.entries:
            numbers[id(reading)] = (*numbers.get(id(reading), ()), ledger.number)
    return numbers


def _treatment(
    species: str, side: Side, reading: Reading, numbers: tuple[int, ...], ledgers: Sequence[WindowLedger]
) -> Treatment:
    if reading.effect is Effect.NONE:
        return Treatment(reading.answer, species, side, Effect.NONE, reading.reason)
    if numbers:
        return Treatment(reading.answer, species, side, reading.effect, reading.reason, numbers)
    return Treatment(reading.answer, species, side, Effect.NONE, _why_nowhere(reading, ledgers))


def _why_nowhere(reading: Reading, ledgers: Sequence[WindowLedger]) -> Reason:
    """Why an answer that would count stands in no window."""
    if not any(ledger.window.holds(reading.answer.shown_at) for ledger in ledgers):
        return Reason.OUTSIDE_EVERY_WINDOW
    gathered = reading.reason is Reason.GATHERED_DANGEROUS
    return Reason.GATHERED_BEFORE if gathered else Reason.GATHERED_LATER
