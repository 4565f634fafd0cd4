"""The ledger of one person and one species as it grows: each answer is taken once, in order, and never looked at
again.

A ``Tally`` says what ``ledger.open_ledger``, ``stages.stage_cover`` and ``live.live_run`` say of the same answers,
but what one more answer costs does not depend on how many came before: an individual, and a place on a day, are
looked up by their key. It can only grow. Where an answer comes late, a specimen is voided or named anew, or a window
opens, it is thrown away and made again.
"""

from collections import OrderedDict, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from . import evalue
from .evidence import AnswerFacts, Medium, in_order
from .ledger import Counts, takes_over
from .live import LiveRun
from .names import NameBook
from .stages import StageCover
from .standard import Side, SideBar, StandardFacts, WindowFacts
from .treatment import Effect, Reader, Reading
from .windows import WeightedWindow, weighted


class OutOfOrder(ValueError):
    """An answer comes before one that was taken already: the tally has to be made again from all answers."""


class AnotherSpecies(ValueError):
    """An answer belongs to the ledger of another species, or to none."""


@dataclass(slots=True)
class _Entry:
    """What an individual counts as. ``live``: it was judged in front of the living plant. ``stage_misses`` and
    ``live_clean`` are the figures of its window just before it came."""

    reading: Reading
    live: bool
    stage_misses: int
    live_clean: int


@dataclass(slots=True)
class _Stage:
    """Clean specimens of a stage since its last miss, and its misses."""

    clean: int = 0
    misses: int = 0


class WindowTally:
    """One species in one window. ``live`` counts the individuals among ``counts`` that were met live."""

    def __init__(self, window: WeightedWindow, bar: SideBar) -> None:
        self.window, self.bar = window, bar
        self.live = 0
        self._by_effect = dict.fromkeys(Effect, 0)
        self._entries: dict[str, _Entry] = {}
        self._stages: defaultdict[str, _Stage] = defaultdict(_Stage)
        self._live_clean = self._run_from = self._live_misses = 0
        self._occasions: OrderedDict[tuple[str, date], int] = OrderedDict()

    @property
    def number(self) -> int:
        return self.window.number

    @property
    def weight(self) -> Fraction:
        return self.window.weight

    @property
    def counts(self) -> Counts:
        by_effect = self._by_effect
        return Counts(by_effect[Effect.CLEAN], by_effect[Effect.MISS], by_effect[Effect.NEUTRAL])

    @property
    def clean_needed(self) -> int:
        """Clean specimens needed in all with the misses so far."""
        return evalue.clean_needed(self._by_effect[Effect.MISS], self.bar, self.weight)

    @property
    def still_needed(self) -> int:
        """Clean specimens still missing; 0 once passed."""
        return evalue.still_needed(self._by_effect[Effect.CLEAN], self._by_effect[Effect.MISS], self.bar, self.weight)

    @property
    def passed(self) -> bool:
        return self.still_needed == 0

    def stage_cover(self, stage: str, needed: int) -> StageCover:
        """How far one stage is covered. ``clean`` counts since the last miss, ``misses`` counts them all."""
        found = self._stages.get(stage) or _Stage()
        return StageCover(stage, found.clean, found.misses, needed)

    def live_run(self, clean_needed: int, occasions_needed: int, not_required: str = "") -> LiveRun:
        """The live run as it stands. Meant, as in ``live.live_run``, for the first window of a period."""
        return LiveRun(
            clean=self._live_clean - self._run_from,
            occasions=len(self._occasions),
            misses=self._live_misses,
            clean_needed=clean_needed,
            occasions_needed=occasions_needed,
            not_required=not_required,
        )

    def take(self, reading: Reading) -> None:
        """The next reading of the species; the tally of the species hands them in."""
        if reading.judged is Effect.NONE or not self.window.holds(reading.answer.shown_at):
            return
        live = reading.answer.medium is Medium.LIVE and reading.judged is not Effect.NEUTRAL
        entry = self._entries.get(reading.individual)
        if entry is None:
            self._enter(reading, live)
        elif takes_over(reading, entry.reading):
            self._withdraw(entry)
            self._enter(reading, live or entry.live)
        elif live and not entry.live:
            self._meet(entry)

    def _enter(self, reading: Reading, live: bool) -> None:
        """An individual enters at the end."""
        stage = self._stages[reading.stage]
        entry = _Entry(reading, live, stage.misses, self._live_clean)
        self._entries[reading.individual] = entry
        self._by_effect[reading.effect] += 1
        if reading.effect is Effect.MISS:
            stage.clean, stage.misses = 0, stage.misses + 1
        elif reading.effect is Effect.CLEAN:
            stage.clean += 1
        if live:
            self._enter_live(entry)

    def _withdraw(self, entry: _Entry) -> None:
        """An individual leaves its place because it was gathered; only one that was not gathered before can."""
        self._by_effect[entry.reading.effect] -= 1
        stage = self._stages[entry.reading.stage]
        if entry.reading.effect is Effect.CLEAN and entry.stage_misses == stage.misses:
            stage.clean -= 1
        if entry.live and entry.reading.effect is not Effect.NONE:
            self.live -= 1
        # a live run needs no mending here: the gather that follows ends it

    def _enter_live(self, entry: _Entry) -> None:
        if entry.reading.effect is not Effect.NONE:
            self.live += 1
        if entry.reading.judged is Effect.MISS:
            self._live_misses += 1
            self._begin_run(self._live_clean)
        else:
            self._live_clean += 1
            specimen = entry.reading.answer.specimen
            self._occasions[specimen.locality, specimen.day] = self._live_clean
            self._occasions.move_to_end((specimen.locality, specimen.day))

    def _meet(self, entry: _Entry) -> None:
        """A plant gathered on a photo is gathered live as well: its miss, where it stands, is a live one now."""
        entry.live = True
        self.live += 1
        self._live_misses += 1
        self._begin_run(entry.live_clean)

    def _begin_run(self, after: int) -> None:
        """The run is what follows so many clean live individuals. Every occasion is dropped once at most."""
        self._run_from = max(self._run_from, after)
        while self._occasions and next(iter(self._occasions.values())) <= self._run_from:
            self._occasions.popitem(last=False)


class Tally:
    """One person and one species on one side of a standard, in the windows of one period.

    Same arguments as ``ledger.open_ledger``, but for the answers, which come one by one.
    """

    def __init__(
        self, species: str, side: Side, standard: StandardFacts, windows: Sequence[WindowFacts], names: NameBook
    ) -> None:
        self.species, self.side = species, side
        bar = standard.bar(side)
        self.windows = tuple(WindowTally(window, bar) for window in weighted(windows, standard.window_weights))
        self._reader = Reader(species, side, standard, names)
        self._last: AnswerFacts | None = None

    @property
    def passed(self) -> bool:
        return any(window.passed for window in self.windows)

    def take(self, answer: AnswerFacts) -> Reading:
        """The next answer, and how it is read.

        Raises AnotherSpecies, or OutOfOrder if it belongs before the last one taken. After either, the tally
        is what it was before.
        """
        if answer.specimen.species != self.species:
            raise AnotherSpecies(f"An answer to {answer.specimen.species} is none of {self.species}.")
        if self._last is not None and in_order([self._last, answer])[0] is not self._last:
            raise OutOfOrder(f"An answer opened at {answer.opened_at} comes after {self._last.opened_at}.")
        self._last = answer
        reading = self._reader.read(answer)
        for window in self.windows:
            window.take(reading)
        return reading


def tally_of(
    species: str,
    side: Side,
    standard: StandardFacts,
    answers: Iterable[AnswerFacts],
    windows: Sequence[WindowFacts],
    names: NameBook,
) -> Tally:
    """The tally of a species from everything a person ever answered, in any order; the rest may follow by ``take``."""
    tally = Tally(species, side, standard, windows, names)
    for answer in in_order([a for a in answers if a.specimen.species == species]):
        tally.take(answer)
    return tally
