"""Plots of lines in a small drawing, made on the server: for plans, and for the report of a standard."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .retakes_plot import LINE_OF_WORDS, PlotLine, Tick, apart

WIDTH, HEIGHT = 400, 270
LEFT, RIGHT, TOP, BOTTOM = 58, 286, 14, 220
CSS_CLASSES = ("plot-best", "plot-run", "plot-here")
"""Lines are told apart by how they are drawn, not by colour alone: plain, dotted, thick."""
ROUND_STEPS = (1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000)
MOST_TICKS = 6

Point = tuple[float, float]


@dataclass(frozen=True)
class Axis:
    """One axis: what it measures, its ends, and its marks with their words."""

    label: str
    low: float
    high: float
    ticks: tuple[tuple[float, str], ...]


@dataclass(frozen=True)
class LevelLine:
    """A line across the plot: its height, its word, and the height of the word beside it."""

    at: int
    word: str
    word_y: int


@dataclass(frozen=True)
class LinePlot:
    """Everything that `assessments/_planning_plot.html` draws, in units of its view box.

    `title` and `words` say it to those who cannot see it; `level` is a line across, with its word.
    """

    key: str
    title: str
    words: str
    along: str
    up: str
    lines: tuple[PlotLine, ...]
    ticks_up: tuple[Tick, ...]
    ticks_along: tuple[Tick, ...]
    level: LevelLine | None = None
    width: int = WIDTH
    height: int = HEIGHT
    left: int = LEFT
    right: int = RIGHT
    top: int = TOP
    bottom: int = BOTTOM


@dataclass(frozen=True)
class Curve:
    """One line before it is drawn: the word at its end, and its points from left to right."""

    word: str
    points: Sequence[Point]


def line_plot(
    key: str,
    title: str,
    words: str,
    axes: tuple[Axis, Axis],
    curves: Sequence[Curve],
    level: tuple[float, str] | None = None,
) -> LinePlot:
    """A plot of up to three curves over two axes (along, up). `key` makes its ids unique on the page."""
    along, up = axes
    shown = [(style, curve) for style, curve in zip(CSS_CLASSES, curves, strict=False) if curve.points]
    ends = [curve.points[-1][1] for _style, curve in shown]
    crosses = level is not None and up.low <= level[0] <= up.high
    if level is not None and crosses:
        ends.append(level[0])
    places = _word_places([_at(up, end, BOTTOM, TOP) + 5 for end in ends])
    lines = tuple(
        PlotLine(style, _points(axes, curve.points), curve.word, place)
        for (style, curve), place in zip(shown, places, strict=False)
    )
    return LinePlot(
        key=key,
        title=title,
        words=words,
        along=along.label,
        up=up.label,
        lines=lines,
        ticks_up=tuple(Tick(_at(up, value, BOTTOM, TOP), word) for value, word in up.ticks),
        ticks_along=tuple(Tick(_at(along, value, LEFT, RIGHT), word) for value, word in along.ticks),
        level=LevelLine(_at(up, level[0], BOTTOM, TOP), level[1], places[-1]) if level and crosses else None,
    )


def _word_places(heights: Sequence[int]) -> list[int]:
    """Where the words at the ends of lines stand, in the order given: apart from each other, and off the axis."""
    order = sorted(range(len(heights)), key=lambda place: heights[place])
    placed: list[int] = []
    for height in reversed(apart([heights[place] for place in order])):
        placed.append(min(height, placed[-1] - LINE_OF_WORDS if placed else BOTTOM))
    by_place = dict(zip(reversed(order), placed, strict=True))
    return [by_place[place] for place in range(len(heights))]


def _points(axes: tuple[Axis, Axis], points: Iterable[Point]) -> str:
    along, up = axes
    return " ".join(f"{_at(along, x, LEFT, RIGHT)},{_at(up, y, BOTTOM, TOP)}" for x, y in points)


def _at(axis: Axis, value: float, start: int, end: int) -> int:
    share = (min(max(value, axis.low), axis.high) - axis.low) / (axis.high - axis.low)
    return round(start + (end - start) * share)


def counting_axis(label: str, highest: float, low: float = 0) -> Axis:
    """An axis of whole numbers that holds the highest value, with a few round marks."""
    highest = max(highest, low + 1)
    step = next((step for step in ROUND_STEPS if (highest - low) / step <= MOST_TICKS), ROUND_STEPS[-1])
    marks = [value for value in range(0, int(highest) + step + 1, step) if value >= low]
    top = next((value for value in marks if value >= highest), marks[-1])
    return Axis(label, low, max(top, highest), tuple((float(v), str(v)) for v in marks if v <= top))


def share_axis(label: str, highest: float = 1.0) -> Axis:
    """An axis of shares from nothing, marked in per cent."""
    step = next(step for step in (1, 2, 5, 10, 20, 25) if 100 * highest / step <= MOST_TICKS or step == 25)
    marks = range(0, round(100 * highest) + 1, step)
    return Axis(label, 0.0, highest, tuple((mark / 100, f"{mark}\N{NO-BREAK SPACE}%") for mark in marks))
