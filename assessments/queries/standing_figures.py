"""The figures of one ledger, each with the address of the very answers behind it."""

from dataclasses import dataclass
from math import ceil

from django.utils.translation import gettext as _

from assessments.rules.behind import Part, PartKind, answers_behind, reason_counts
from assessments.rules.ledger import Ledger, WindowLedger
from assessments.rules.standard import Side
from assessments.rules.treatment import Effect

from .sentences.ledgers import EFFECT_MARKS, reason_line
from .sentences.treatments import effect_word
from .standing_links import StandingLinks


@dataclass(frozen=True)
class Figure:
    """A number with its label; `url` opens the answers behind it ("" where nobody's answers are shown)."""

    label: str
    value: str
    url: str = ""


@dataclass(frozen=True)
class ReasonLine:
    """How many answers count as this, and why; `status` is the mark beside it, danger's own for a miss that is one."""

    effect: str
    status: str
    is_danger: bool
    reason: str
    count: int
    url: str


class FigureMaker:
    """Makes the figures of one ledger as seen from one window."""

    def __init__(self, ledger: Ledger, window: WindowLedger, links: StandingLinks | None) -> None:
        self.ledger, self.window, self.links = ledger, window, links
        self.edible = ledger.side is Side.EDIBLE

    def url(self, part: Part) -> str:
        """Where the answers of a part are shown."""
        if self.links is None:
            return ""
        return self.links.ledger(self.ledger.species, self.ledger.side, part, self.window.number)

    def figure(self, label: str, value: int | str, kind: PartKind) -> Figure:
        return Figure(label, str(value), self.url(Part(kind)))

    def urls(self) -> dict[str, str]:
        """The addresses behind the words of `pieces/ladder.html`; empty where nobody's answers are shown."""
        if self.links is None:
            return {}
        counted = self.url(Part(PartKind.COUNTED))
        return {
            "clean": self.url(Part(PartKind.CLEAN)),
            "misses": self.url(Part(PartKind.MISSES)),
            "needed": counted,
            "still": counted,
        }

    def figures(self) -> tuple[Figure, ...]:
        """All figures of the window, in the order in which they explain each other."""
        counts, edible = self.window.counts, self.edible
        aside = len(answers_behind(self.ledger, self.window, Part(PartKind.ASIDE)))
        figures = [
            self.figure(_("Recognised") if edible else _("Clean"), counts.clean, PartKind.CLEAN),
            self.figure(_("Not recognised") if edible else _("Misses"), counts.misses, PartKind.MISSES),
        ]
        if not edible:
            figures.append(self.figure(_("Neither for nor against"), counts.neutral, PartKind.NEUTRAL))
        figures += [
            self.figure(_("Answers that do not count here"), aside, PartKind.ASIDE),
            self.figure(_("On photographs"), counts.decided - self.window.live, PartKind.PHOTOGRAPHS),
            self.figure(_("Alive"), self.window.live, PartKind.LIVE),
            self.figure(_("Needed in all"), self.window.clean_needed, PartKind.COUNTED),
            self.figure(_("Still needed"), self.window.still_needed, PartKind.COUNTED),
            self.figure(
                _("Share not recognised that is ruled out") if edible else _("Share of misses that is ruled out"),
                # never down, for the person
                _("above %(share)s %%") % {"share": ceil(100 * self.window.upper_limit)},
                PartKind.COUNTED,
            ),
            self.figure(_("Window of evidence"), self.window.number, PartKind.ALL),
        ]
        return tuple(figures)

    def reasons(self) -> tuple[ReasonLine, ...]:
        """What counted, what was neutral, what does not count, and why."""
        return tuple(
            ReasonLine(
                effect_word(each.effect, self.edible),
                EFFECT_MARKS[each.effect],
                each.effect is Effect.MISS and not self.edible,
                reason_line(each),
                each.count,
                self.url(each.part),
            )
            for each in reason_counts(self.ledger, self.window)
        )
