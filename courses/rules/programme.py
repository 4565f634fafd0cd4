"""Which module fits which week: what shows then decides, dangerous plants first. Pure."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from species.rules.season import Calendar, stages_showing
from species.rules.vocabulary import Stage

ABOVE_GROUND = frozenset(Stage) - {Stage.DORMANT}


@dataclass(frozen=True)
class Teachable:
    """A module as planning sees it: its key, its species, and which of them are dangerous."""

    key: str
    species: tuple[str, ...]
    dangerous: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Fit:
    """How a module fits a day: which of its species show something above ground, and which do not."""

    module: str
    showing: tuple[str, ...]
    hidden: tuple[str, ...]
    dangerous_showing: int

    @property
    def share(self) -> float:
        """Share of the module's species that show; 1 for a module without species."""
        count = len(self.showing) + len(self.hidden)
        return len(self.showing) / count if count else 1.0


def fit_of(module: Teachable, calendars: Mapping[str, Calendar], day: date, days_late: int = 0) -> Fit:
    """What of a module can be met on a day at a place that runs some days late (negative: early)."""
    showing: list[str] = []
    hidden: list[str] = []
    for key in module.species:
        stages = set(stages_showing(calendars.get(key, {}), day, days_late))
        (showing if stages & ABOVE_GROUND else hidden).append(key)
    dangerous = len(module.dangerous.intersection(showing))
    return Fit(module.key, tuple(showing), tuple(hidden), dangerous)


def propose_programme(
    modules: Sequence[Teachable], calendars: Mapping[str, Calendar], days: Sequence[date], days_late: int = 0
) -> list[Fit]:
    """One module per day: not taught yet before taught already, what shows before what does not, then the
    order of teaching. Every module comes once before any comes twice."""
    times = {module.key: 0 for module in modules}
    order = {module.key: n for n, module in enumerate(modules)}
    programme = []
    for day in days:
        fits = [fit_of(module, calendars, day, days_late) for module in modules]
        best = min(
            fits,
            key=lambda f: (
                times[f.module] + (0 if f.dangerous_showing or f.share == 1 else 2),
                -round(f.share, 1),
                order[f.module],
            ),
        )
        times[best.module] += 1
        programme.append(best)
    return programme
