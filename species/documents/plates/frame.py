"""The page of a plate: paper, ground, insets, scale bar and the word "drawing" written into the picture.

How a species module looks::

    NAME = "ramsons (Allium ursinum)"            # used only where the plant may be named
    STAGES = ("rosette", "flower", "fruit")      # the first one is drawn when nothing else is asked
    FORMS = ("typical", "shade", "young")        # forms it knows how to draw, "typical" first

    def draw(individual: Individual) -> Drawing: ...

The module draws on a `Sheet` in its own coordinates: (0, 0) is the point where the plant leaves the ground, y is
negative upwards. Draw the plant about 900 units tall; the frame scales and moves it so that it fills its box
exactly, says with a scale bar how large that is (`company.py`, the same for all sides of a pair), and draws the
ground at y = 0 (or, with `ground=False`, shows a cut shoot). What lies at y > 0 is under the ground.
Insets are drawn around (0, 0) in a circle of radius 100; `anchor` is the place on the plant they enlarge.

Every plate of a pair has the same number of insets: a lens and a section, in that order, and for the carrot family
one more. Placing depends on the seed only.
"""

from dataclasses import dataclass, field

from species.documents.plates.company import page_cm
from species.documents.plates.individual import INK, Individual
from species.documents.plates.lettering import handwriting
from species.documents.plates.paper import GROUND_Y, HEIGHT, KINDS, WIDTH, draw_paper
from species.documents.plates.regions import Enlarged, Extent, Region, regions_of
from species.documents.plates.svg import Point, Sheet, element, strokes, transform

TOP_Y = 75.0
BOX_WIDTH = 640.0
LOW_WIDTH, LOW_HEIGHT = 760.0, 600.0
INSET_RADIUS = 132.0
INSET_X = 334.0
SCALE_STEPS = (1, 2, 5, 10, 20, 50)


@dataclass(frozen=True)
class Inset:
    """A circle beside the plant: what `sheet` holds around (0, 0), clipped at radius 100.

    `anchor` is the place on the plant it enlarges, `shows` the characters that can be read in it.
    """

    sheet: Sheet
    anchor: Point | None = None
    shows: tuple[str, ...] = ()


@dataclass(frozen=True)
class Drawing:
    """What a species module drew, before it is put on paper.

    `characters` maps character ids of the state table to the state that was really drawn.
    """

    sheet: Sheet
    characters: dict[str, str]
    insets: tuple[Inset, ...] = ()
    ground: bool = True
    features: tuple[str, ...] = field(default=())


@dataclass(frozen=True)
class Layout:
    """Where things stand on the page; made from the seed alone, the same for every species."""

    side: int
    label_side: int
    inset_y: tuple[float, ...]
    plant_x: float
    paper: int


def layout_of(individual: Individual, inset_count: int) -> Layout:
    rng = individual.layout_rng()
    side = rng.choice((-1, 1))
    label_side = rng.choice((-1, 1))
    first = rng.uniform(195, 235)
    step = rng.uniform(305, 335) if inset_count < 3 else rng.uniform(288, 300)
    rows = tuple(first + i * step for i in range(inset_count))
    return Layout(side, label_side, rows, WIDTH / 2 - side * rng.uniform(126, 138), rng.randrange(KINDS))


def compose(individual: Individual, drawing: Drawing) -> str:
    """The finished SVG document of a drawing."""
    layout = layout_of(individual, len(drawing.insets))
    page = Sheet(drawing.sheet.definitions)
    draw_paper(page, layout.paper, drawing.ground)
    scale, x, y = _placing(drawing, layout)
    page.raw(
        element(
            "g",
            drawing.sheet.content(),
            transform=transform(x, y, scale),
            stroke_linecap="round",
            stroke_linejoin="round",
        )
    )
    for inset, centre_y in zip(drawing.insets, layout.inset_y, strict=True):
        _inset(page, inset, (WIDTH / 2 + layout.side * INSET_X, centre_y), (scale, x, y))
    _scale_bar(page, WIDTH / page_cm(individual), layout.label_side)
    _label(page, layout.label_side)
    return _document(page)


def regions(individual: Individual, drawing: Drawing) -> dict[str, tuple[Region, ...]]:
    """Where the characters of a drawing lie on the page that `compose` makes of it."""
    layout = layout_of(individual, len(drawing.insets))
    scale, x, y = _placing(drawing, layout)
    sheet = drawing.sheet
    plant = Extent(x + sheet.left * scale, y + sheet.top * scale, x + sheet.right * scale, y + sheet.bottom * scale, y)
    insets = []
    for inset, centre_y in zip(drawing.insets, layout.inset_y, strict=True):
        anchor = None if inset.anchor is None else (x + inset.anchor[0] * scale, y + inset.anchor[1] * scale)
        insets.append(Enlarged((WIDTH / 2 + layout.side * INSET_X, centre_y), INSET_RADIUS, anchor, inset.shows))
    return regions_of(tuple(drawing.characters), plant, tuple(insets))


def _document(page: Sheet) -> str:
    head = (
        element("title", "drawing")
        + element("metadata", "drawing made by a program, not a photograph")
        + element("defs", "".join(page.definitions))
    )
    return element(
        "svg",
        head + page.content(),
        xmlns="http://www.w3.org/2000/svg",
        role="img",
        viewBox=f"0 0 {WIDTH} {HEIGHT}",
        width=WIDTH,
        height=HEIGHT,
    )


def _placing(drawing: Drawing, layout: Layout) -> tuple[float, float, float]:
    """Scale and place of the plant so that it fills its box."""
    sheet = drawing.sheet
    wide = max(sheet.right - sheet.left, 1.0)
    shift = 0.0
    if drawing.ground:
        tall = max(-sheet.top, 1.0)
        box = BOX_WIDTH
        if tall / wide * BOX_WIDTH < LOW_HEIGHT:
            # A low, wide plant may spread below the insets.
            box, shift = LOW_WIDTH, layout.side * (LOW_WIDTH - BOX_WIDTH) / 2
        scale = min((GROUND_Y - TOP_Y) / tall, box / wide)
        y = GROUND_Y
    else:
        tall = max(sheet.bottom - sheet.top, 1.0)
        scale = min((GROUND_Y + 60 - TOP_Y) / tall, BOX_WIDTH / wide)
        y = TOP_Y + (GROUND_Y + 60 - TOP_Y - tall * scale) / 2 - sheet.top * scale
    return scale, layout.plant_x + shift - (sheet.left + sheet.right) / 2 * scale, y


def _inset(page: Sheet, inset: Inset, centre: Point, placing: tuple[float, float, float]) -> None:
    cx, cy = centre
    if inset.anchor is not None:
        _leader(page, centre, inset.anchor, placing)
    page.disc(cx, cy, INSET_RADIUS, "#FBF7EC")
    clip = page.clip("M-100 0A100 100 0 1 0 100 0A100 100 0 1 0 -100 0Z")
    inner = element("g", inset.sheet.content(), clip_path=clip, stroke_linecap="round", stroke_linejoin="round")
    page.raw(element("g", inner, transform=transform(cx, cy, INSET_RADIUS / 100)))
    page.disc(cx, cy, INSET_RADIUS, "none", INK, 2.2)
    page.disc(cx + 1.2, cy + 1.5, INSET_RADIUS + 4, "none", INK, 0.8, 0.5)


def _leader(page: Sheet, centre: Point, anchor: Point, placing: tuple[float, float, float]) -> None:
    scale, x, y = placing
    ax, ay = anchor[0] * scale + x, anchor[1] * scale + y
    dx, dy = ax - centre[0], ay - centre[1]
    far = (dx * dx + dy * dy) ** 0.5 or 1.0
    if far <= INSET_RADIUS:
        return
    start = (centre[0] + dx / far * INSET_RADIUS, centre[1] + dy / far * INSET_RADIUS)
    stop = (ax - dx / far * 9, ay - dy / far * 9)
    page.path(strokes([[start, stop]]), stroke=INK, width=1.1, opacity=0.7, stroke_dasharray="7 5")
    page.disc(ax, ay, 9, "none", INK, 1.2, 0.8)


def _scale_bar(page: Sheet, units_per_cm: float, label_side: int) -> None:
    """A bar of a round number of centimetres, 90 to 260 units long where that can be."""
    step = next((s for s in SCALE_STEPS if s * units_per_cm >= 90), SCALE_STEPS[-1])
    long = step * units_per_cm
    x = WIDTH - 70 - long if label_side < 0 else 70.0
    y = 1190.0
    ticks = [[(x, y - 7), (x, y + 7)], [(x + long, y - 7), (x + long, y + 7)], [(x, y), (x + long, y)]]
    page.path(strokes(ticks), stroke=INK, width=2)
    pen, wide = handwriting(f"{step} cm", 0, 0, 15)
    page.raw(
        element(
            "path",
            d=pen,
            fill="none",
            stroke=INK,
            stroke_width="2",
            stroke_linecap="round",
            transform=transform(x + (long - wide) / 2, y - 16),
        )
    )


def _label(page: Sheet, label_side: int) -> None:
    """The word that says what this picture is, where it cannot be cropped away unnoticed."""
    pen, wide = handwriting("drawing", 0, 0, 21)
    x = 70.0 if label_side < 0 else WIDTH - 70 - wide
    page.raw(
        element(
            "path",
            d=pen,
            fill="none",
            stroke=INK,
            stroke_width="2.4",
            stroke_linecap="round",
            stroke_linejoin="round",
            transform=transform(x, 1196),
        )
    )
