"""The live run: whether what somebody can do with photos holds in front of the plant.

The live individuals that the person decided on must end in an unbroken clean run that is long enough and
comes from enough occasions. Neutral ones are passed over; those beyond the two of a place and day are in.
A live individual that is gathered later, on a photo too, is a miss in the run at that moment.
The whole unbroken run is looked at, not only its last few, so that one more clean specimen never undoes it.
An occasion is one locality on one day, however many spot tests were held there.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from .ledger import WindowLedger
from .treatment import Effect, Reading


@dataclass(frozen=True, slots=True)
class LiveRun:
    """The clean run of live specimens as it stands, against what is asked.

    ``clean`` live specimens since the last live miss, from ``occasions``; ``misses`` live ones in all.
    ``not_required`` is the reason why the species needs no live run ("" if it does).
    """

    clean: int
    occasions: int
    misses: int
    clean_needed: int
    occasions_needed: int
    not_required: str = ""

    @property
    def met(self) -> bool:
        return bool(self.not_required) or (self.still_needed == 0 and self.occasions_still_needed == 0)

    @property
    def still_needed(self) -> int:
        """Live specimens still missing. One for each missing occasion at least."""
        if self.not_required:
            return 0
        return max(0, self.clean_needed - self.clean, self.occasions_still_needed)

    @property
    def occasions_still_needed(self) -> int:
        return 0 if self.not_required else max(0, self.occasions_needed - self.occasions)

    @property
    def photographs_only(self) -> bool:
        """Whether a certificate must say that the species was met on photographs only."""
        return bool(self.not_required) and self.clean == 0


def live_run(ledger: WindowLedger, clean_needed: int, occasions_needed: int, not_required: str = "") -> LiveRun:
    """The live run in the widest window of a period (its first, which holds all evidence of the period)."""
    live = decided_live(ledger)
    run = run_at_the_end(live)
    occasions = {(r.answer.specimen.locality, r.answer.specimen.day) for r in run}
    return LiveRun(
        clean=len(run),
        occasions=len(occasions),
        misses=sum(1 for reading in live if reading.judged is Effect.MISS),
        clean_needed=clean_needed,
        occasions_needed=occasions_needed,
        not_required=not_required,
    )


def decided_live(ledger: WindowLedger) -> list[Reading]:
    """The live individuals of a window that the person decided on, in order; neutral ones are passed over."""
    met = (reading for reading in ledger.entries if reading.individual in ledger.met_live)
    return [reading for reading in met if reading.judged in (Effect.CLEAN, Effect.MISS)]


def run_at_the_end(live: Sequence[Reading]) -> list[Reading]:
    """The clean ones since the last miss."""
    run: list[Reading] = []
    for reading in live:
        if reading.judged is Effect.MISS:
            run = []
        else:
            run.append(reading)
    return run
