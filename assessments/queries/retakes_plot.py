"""The plot of the page that explains why sitting again does not help: three lines, in places of a small drawing."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from assessments.rules.retakes import Comparison

WIDTH, HEIGHT = 400, 270
LEFT, RIGHT, TOP, BOTTOM = 52, 258, 14, 220
LINE_OF_WORDS = 17
"""Words beside the ends of two lines are kept at least so far apart."""


@dataclass(frozen=True)
class PlotLine:
    """One line: its class in the style sheet, its points as an SVG polyline takes them, and the word at its end."""

    css_class: str
    points: str
    word: str
    word_y: int


@dataclass(frozen=True)
class Tick:
    """A mark on an axis: where, and its words."""

    at: int
    word: str


@dataclass(frozen=True)
class Plot:
    """Everything that `assessments/_retakes_plot.html` draws, in units of its view box."""

    width: int
    height: int
    left: int
    right: int
    top: int
    bottom: int
    lines: tuple[PlotLine, ...]
    shares: tuple[Tick, ...]
    attempts: tuple[Tick, ...]


def retakes_plot(found: Comparison) -> Plot:
    """The chance to be let through, by the number of tries, under the three rules."""
    tries = found.tries
    rows = (
        ("plot-run", [each.run for each in tries], _("any clean run")),
        ("plot-best", [each.best for each in tries], _("best of all tries")),
        ("plot-here", [each.here for each in tries], _("here")),
    )
    words = apart([_y(shares[-1]) + 5 for _css, shares, _word in rows])
    lines = tuple(PlotLine(css, _points(shares), word, y) for (css, shares, word), y in zip(rows, words, strict=True))
    last = tries[-1].attempts
    return Plot(
        width=WIDTH,
        height=HEIGHT,
        left=LEFT,
        right=RIGHT,
        top=TOP,
        bottom=BOTTOM,
        lines=lines,
        shares=tuple(Tick(_y(percent / 100), f"{percent} %") for percent in (0, 25, 50, 75, 100)),
        attempts=tuple(Tick(_x(n - 1, last), str(n)) for n in (1, 5, 10, 15, 20) if n <= last),
    )


def _points(shares: Sequence[float]) -> str:
    return " ".join(f"{_x(place, len(shares))},{_y(share)}" for place, share in enumerate(shares))


def _x(place: int, count: int) -> int:
    return round(LEFT + (RIGHT - LEFT) * place / max(1, count - 1))


def _y(share: float) -> int:
    return round(BOTTOM - (BOTTOM - TOP) * share)


def apart(heights: Sequence[int]) -> list[int]:
    """Heights from the top down, each moved down as far as it would touch the one above it."""
    placed: list[int] = []
    for height in heights:
        placed.append(max(height, placed[-1] + LINE_OF_WORDS) if placed else height)
    return placed
