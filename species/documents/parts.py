"""The parts of a sheet, which stand under one another; each knows its height in a given type."""

from dataclasses import dataclass
from typing import Protocol

from species.documents.flow import Block, Run, draw_blocks, height_of
from species.documents.page import QUIET, RUST, WARM, Paper
from species.documents.pair_words import PlantWords, SignWords, StateWords
from species.documents.printed_picture import draw_picture, draw_strokes

GUTTER = 10.0


class Part(Protocol):
    """Something that stands on a sheet. `holder`: the element that it shares with its neighbours of the same holder."""

    @property
    def holder(self) -> str: ...

    def height(self, size: float) -> float: ...

    def draw(self, paper: Paper, x: float, top: float, size: float) -> None: ...


@dataclass(frozen=True)
class Words:
    """Blocks over the whole width."""

    blocks: tuple[Block, ...]
    width: float
    holder: str = ""

    def height(self, size: float) -> float:
        return height_of(self.blocks, size, self.width)

    def draw(self, paper: Paper, x: float, top: float, size: float) -> None:
        draw_blocks(paper, self.blocks, x, top, self.width, size)


@dataclass(frozen=True)
class Alarm:
    """A sentence about danger in a box of rust; it stands before anything else."""

    text: str
    width: float
    holder: str = ""

    @property
    def _blocks(self) -> tuple[Block, ...]:
        return (Block((Run(self.text, bold=True, colour=RUST),), scale=1.15, above=0),)

    def height(self, size: float) -> float:
        return height_of(self._blocks, size, self.width - size * 1.2) + size * 1.5

    def draw(self, paper: Paper, x: float, top: float, size: float) -> None:
        tall = self.height(size) - size * 0.5
        with paper.ornament() as canvas:
            canvas.setStrokeColor(RUST)
            canvas.setLineWidth(1.2)
            canvas.rect(x, top - tall, self.width, tall)
        draw_blocks(paper, self._blocks, x + size * 0.6, top - size * 0.4, self.width - size * 1.2, size)


@dataclass(frozen=True)
class Months:
    """The year in twelve cells: the month's short name over its word."""

    months: tuple[tuple[str, str], ...]
    width: float
    holder: str = ""

    def height(self, size: float) -> float:
        return size * 3.1

    def draw(self, paper: Paper, x: float, top: float, size: float) -> None:
        cell = self.width / len(self.months)
        with paper.ornament() as canvas:
            canvas.setStrokeColor(WARM)
            canvas.setLineWidth(0.5)
            for column in range(len(self.months) + 1):
                canvas.line(x + column * cell, top, x + column * cell, top - size * 2.6)
            for row in (0, 2.6):
                canvas.line(x, top - size * row, x + self.width, top - size * row)
        with paper.group("Table"):
            for row, role in enumerate(("TH", "TD")):
                with paper.group("TR"):
                    for column, texts in enumerate(self.months):
                        middle = x + (column + 0.5) * cell
                        text, y = texts[row], top - size * (1.0 + row * 1.15)
                        paper.text(middle, y, text, size * 0.85, role=role, centred=True, bold=row == 1)


@dataclass(frozen=True)
class Plants:
    """The two names over the two pictures."""

    plants: tuple[PlantWords, PlantWords]
    picture_height: float
    width: float
    holder: str = ""

    @property
    def _column(self) -> float:
        return (self.width - GUTTER) / 2

    def _names(self, plant: PlantWords) -> tuple[Block, ...]:
        name = Run(plant.common, bold=True), Run(" "), Run(plant.scientific, italic=True, language="la")
        warning = Run(plant.warning, bold=plant.is_danger, colour=RUST if plant.is_danger else QUIET)
        return Block(name, role="H2", scale=1.1, above=0), Block((warning,), scale=0.95, above=0)

    def _caption(self, plant: PlantWords) -> tuple[Block, ...]:
        if plant.picture is None or not plant.picture.caption:
            return ()
        return (Block((Run(plant.picture.caption, colour=QUIET),), scale=0.8, role="Caption", above=0.2),)

    def _tall(self, size: float) -> tuple[float, float]:
        names = max(height_of(self._names(plant), size, self._column) for plant in self.plants)
        captions = max(height_of(self._caption(plant), size, self._column) for plant in self.plants)
        return names + size * 0.3, captions

    def height(self, size: float) -> float:
        names, captions = self._tall(size)
        pictures = self.picture_height if any(plant.picture for plant in self.plants) else 0
        return names + pictures + captions + size * 0.6

    def draw(self, paper: Paper, x: float, top: float, size: float) -> None:
        names, _captions = self._tall(size)
        for side, plant in enumerate(self.plants):
            left = x + side * (self._column + GUTTER)
            draw_blocks(paper, self._names(plant), left, top, self._column, size)
            if plant.picture is not None:
                draw_picture(paper, plant.picture, left, top - names, self._column, self.picture_height)
                draw_blocks(paper, self._caption(plant), left, top - names - self.picture_height, self._column, size)


@dataclass(frozen=True)
class Heads:
    """The head of a table of characters: what it holds, and the two plants."""

    names: tuple[str, str]
    width: float
    holder: str = "Table"

    def height(self, size: float) -> float:
        return size * 1.25

    def draw(self, paper: Paper, x: float, top: float, size: float) -> None:
        column = (self.width + GUTTER) / 2
        with paper.group("TR"):
            for side, name in enumerate(self.names):
                with paper.element("TH", scope="Column"):
                    paper.write(x + side * column, top - size, name, size * 0.85, colour=QUIET)


@dataclass(frozen=True)
class SignRow:
    """One character: its name, under it what either plant shows, drawn where it can be, and what to mind."""

    sign: SignWords
    width: float
    with_drawings: bool = True
    holder: str = "Table"

    @property
    def _column(self) -> float:
        return (self.width - GUTTER) / 2

    def _name(self) -> tuple[Block, ...]:
        return (Block((Run(self.sign.name, bold=True),), role="TH", above=0.15),)

    def _note(self) -> tuple[Block, ...]:
        return (
            (Block((Run(self.sign.note, colour=QUIET),), role="TD", scale=0.88, above=0.05),) if self.sign.note else ()
        )

    def _sides(self) -> tuple[tuple[str, tuple[StateWords, ...]], ...]:
        return (self.sign.gathered, self.sign.gathered_states), (self.sign.mistaken, self.sign.mistaken_states)

    def _beside(self, states: tuple[StateWords, ...], size: float) -> float:
        """The width that the drawings take; each is as wide as 2.6 letters are high."""
        return len(states) * size * 3.0 if self.with_drawings else 0.0

    def _cell(self, text: str) -> tuple[Block, ...]:
        return (Block((Run(text),), role="TD", above=0),)

    def _cells(self, size: float) -> float:
        tall = [size * 2.8] if self.with_drawings and any(states for _text, states in self._sides()) else [0.0]
        tall += [
            height_of(self._cell(text), size, self._column - self._beside(states, size))
            for text, states in self._sides()
        ]
        return max(tall)

    def height(self, size: float) -> float:
        return (
            height_of(self._name(), size, self.width)
            + self._cells(size)
            + height_of(self._note(), size, self.width)
            + size * 0.3
        )

    def draw(self, paper: Paper, x: float, top: float, size: float) -> None:
        with paper.group("TR"):
            y = draw_blocks(paper, self._name(), x, top, self.width, size)
            for side, (text, states) in enumerate(self._sides()):
                left = x + side * (self._column + GUTTER)
                beside = self._beside(states, size)
                for number, state in enumerate(states if self.with_drawings else ()):
                    draw_strokes(paper, state.strokes, left + number * size * 3.0, y - size * 0.15, size * 2.6)
                draw_blocks(paper, self._cell(text), left + beside, y, self._column - beside, size)
            y = draw_blocks(paper, self._note(), x, y - self._cells(size), self.width, size)
        with paper.ornament() as canvas:
            canvas.setStrokeColor(WARM)
            canvas.setLineWidth(0.4)
            canvas.line(x, y - size * 0.15, x + self.width, y - size * 0.15)
