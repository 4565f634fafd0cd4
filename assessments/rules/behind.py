"""The very answers behind each figure of a ledger, so that a page can open every figure it prints.

A figure names a part of a ledger; ``answers_behind`` gives the answers of that part, and their number is the
figure. In one window clean, misses, neutral and aside together are all answers to the species.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from .ledger import Ledger, Treatment, WindowLedger
from .live import decided_live, run_at_the_end
from .stages import clean_in_stage
from .treatment import Effect, Reading, Reason

TAKEN = (Reason.ANSWERED_BEFORE, Reason.GATHERED_BEFORE, Reason.GATHERED_LATER)
"""Another answer to the same plant counts in the place of this one."""
ASIDE = (Reason.SPECIMEN_VOID, Reason.SITTING_ANNULLED, Reason.DRAWING)
"""Answers that do not even take the place of a later one."""


class PartKind(StrEnum):
    """Kinds of parts; a stage and a reason say besides which one."""

    ALL = "all"
    CLEAN = "clean"
    MISSES = "misses"
    NEUTRAL = "neutral"
    COUNTED = "counted"
    PHOTOGRAPHS = "photographs"
    LIVE = "live"
    LIVE_RUN = "live-run"
    ASIDE = "aside"
    ELSEWHERE = "elsewhere"
    STAGE = "stage"
    REASON = "reason"


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a ledger, written in addresses as ``clean`` or ``stage-rosette``."""

    kind: PartKind
    of: str = ""

    def __str__(self) -> str:
        return f"{self.kind}-{self.of}" if self.of else str(self.kind)

    @classmethod
    def read(cls, text: str) -> "Part | None":
        """The part that is written so; None where there is none. A reason has to be one, a stage may be any."""
        whole = {str(kind): kind for kind in PartKind if kind not in (PartKind.STAGE, PartKind.REASON)}
        if text in whole:
            return cls(whole[text])
        kind, _, of = text.partition("-")
        if kind == PartKind.STAGE and of:
            return cls(PartKind.STAGE, of)
        if kind == PartKind.REASON and of in set(Reason):
            return cls(PartKind.REASON, of)
        return None


@dataclass(frozen=True, slots=True)
class ReasonCount:
    """How many answers count as this in one window, and for this reason."""

    effect: Effect
    part: Part
    count: int


def answers_behind(ledger: Ledger, window: WindowLedger, part: Part) -> tuple[Treatment, ...]:
    """The answers of one part of a ledger as seen from one of its windows, in order.

    The live run is always looked at in the widest window, as ``live.live_run`` does.
    """
    if part.kind is PartKind.ALL:
        return ledger.treatments
    if part.kind in (PartKind.ASIDE, PartKind.ELSEWHERE, PartKind.REASON):
        return tuple(each for each in ledger.treatments if _is_of(each, window, part))
    wanted = {id(reading.answer) for reading in _readings(ledger, window, part)}
    return tuple(each for each in ledger.treatments if id(each.answer) in wanted)


def _readings(ledger: Ledger, window: WindowLedger, part: Part) -> Iterable[Reading]:
    if part.kind is PartKind.STAGE:
        return clean_in_stage(window, part.of)
    if part.kind is PartKind.LIVE_RUN:
        return run_at_the_end(decided_live(ledger.windows[0]))
    counted = window.counted
    decided = [reading for reading in counted if reading.effect is not Effect.NEUTRAL]
    live = [reading for reading in counted if reading.individual in window.met_live]
    return {
        PartKind.CLEAN: [reading for reading in counted if reading.effect is Effect.CLEAN],
        PartKind.MISSES: [reading for reading in counted if reading.effect is Effect.MISS],
        PartKind.NEUTRAL: [reading for reading in counted if reading.effect is Effect.NEUTRAL],
        PartKind.COUNTED: decided,
        PartKind.LIVE: live,
        PartKind.PHOTOGRAPHS: [reading for reading in decided if reading.individual not in window.met_live],
    }[part.kind]


def _is_of(treatment: Treatment, window: WindowLedger, part: Part) -> bool:
    here = window.number in treatment.windows
    if part.kind is PartKind.ASIDE:
        return not here
    if part.kind is PartKind.ELSEWHERE:
        return not here and bool(treatment.windows)
    return treatment.reason == part.of and (here or not treatment.windows)


def reason_counts(ledger: Ledger, window: WindowLedger) -> tuple[ReasonCount, ...]:
    """What became of every answer, seen from one window: for, against, neither, and what does not count."""
    found: Counter[tuple[Effect, Part]] = Counter()
    for each in ledger.treatments:
        if each.windows and window.number not in each.windows:
            found[Effect.NONE, Part(PartKind.ELSEWHERE)] += 1
        else:
            found[each.effect, Part(PartKind.REASON, each.reason)] += 1
    order = list(Effect)
    ranked = sorted(found.items(), key=lambda item: (order.index(item[0][0]), -item[1]))
    return tuple(ReasonCount(effect, part, count) for (effect, part), count in ranked)


def decided_by(ledger: Ledger, treatment: Treatment) -> Treatment | None:
    """The other answer to the same plant that counts in the place of this one; None where there is none."""
    if treatment.reason not in TAKEN:
        return None
    mine = treatment.answer.specimen.individual
    others = [
        each
        for each in ledger.treatments
        if each.answer.specimen.individual == mine and each is not treatment and each.reason not in (*TAKEN, *ASIDE)
    ]
    return next((each for each in others if each.effect is not Effect.NONE), next(iter(others), None))
