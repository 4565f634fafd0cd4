"""The sheets of paper that plates are drawn on: a few kinds, so that a picture of each is made only once."""

from random import Random

from species.documents.plates.individual import INK, PAPER, mix
from species.documents.plates.svg import Sheet, element, num, smooth, strokes

WIDTH, HEIGHT = 1000, 1250
GROUND_Y = 1075.0
KINDS = 6


def paper_id(kind: int, ground: bool) -> str:
    """The id of the group that holds the paper in a plate: `paper-2-soil`, `paper-2-bare`."""
    return f"paper-{kind}-{'soil' if ground else 'bare'}"


def draw_paper(page: Sheet, kind: int, ground: bool) -> None:
    """Put paper of one of the KINDS on the page, with a strip of ground or without."""
    rng = Random(f"paper/{kind}")
    under = page.layer()
    _wash(under, rng)
    if ground:
        _ground(under, rng)
    page.raw(element("g", under.content(), id=paper_id(kind, ground)))


def _wash(page: Sheet, rng: Random) -> None:
    warm = mix(PAPER, "#E9D9B4", rng.uniform(0.0, 0.2))
    page.raw(element("rect", width=WIDTH, height=HEIGHT, fill=warm))
    for colour in ("#B9C4AE", "#D8BE8E", "#B4C0C6"):
        cx, cy, r = rng.uniform(150, 850), rng.uniform(200, 1000), rng.uniform(300, 520)
        glow = page.glow((cx, cy), r, [(0, colour, 0.30), (0.55, colour, 0.16), (1, colour, 0)])
        page.raw(element("circle", cx=num(cx), cy=num(cy), r=num(r), fill=glow))
    edge = page.glow((WIDTH / 2, HEIGHT / 2), 860, [(0, "#A68A58", 0), (0.72, "#A68A58", 0), (1, "#8A6C3C", 0.26)])
    page.raw(element("rect", width=WIDTH, height=HEIGHT, fill=edge))
    fibres = []
    for _ in range(70):
        fx, fy = rng.uniform(0, WIDTH), rng.uniform(0, HEIGHT)
        fibres.append([(fx, fy), (fx + rng.uniform(-9, 9), fy + rng.uniform(-5, 5))])
    page.path(strokes(fibres), stroke="#7A6A48", width=0.8, opacity=0.28)
    rule = "M26 27L974 25L975 1225L25 1224Z"
    page.path(rule, stroke=INK, width=1.2, opacity=0.45)


def _ground(page: Sheet, rng: Random) -> None:
    """Brush strokes of earth and thin grass; a plant is drawn over them, so its foot stays in plain sight."""
    for tone, rise, fall, strength in (("#A48B62", 9, 66, 0.42), ("#7D6647", 3, 36, 0.34)):
        upper = [(px, GROUND_Y - rng.uniform(0, rise)) for px in range(60, 960, 75)]
        lower = [
            (px, GROUND_Y + fall * (1 - (abs(px - 500) / 640) ** 2) + rng.uniform(-8, 8)) for px in range(930, 40, -75)
        ]
        wash = page.gradient((0, GROUND_Y - 10), (0, GROUND_Y + fall), [(0, tone, strength), (1, tone, 0.03)])
        page.path(smooth([*upper, *lower], True), fill=wash)
    crumbs = []
    for _ in range(46):
        px, py = rng.uniform(70, 930), GROUND_Y + abs(rng.gauss(0, 17)) + 2
        crumbs.append([(px, py), (px + rng.uniform(3, 13), py + rng.uniform(-2.5, 2.5))])
    page.path(strokes(crumbs), stroke="#5A4932", width=1.8, opacity=0.55, stroke_linecap="round")
    blades = []
    for _ in range(rng.randint(9, 14)):
        px, py = rng.uniform(60, 940), GROUND_Y + rng.uniform(2, 12)
        tall, lean = rng.uniform(24, 62), rng.uniform(-20, 20)
        blades.append([(px, py), (px + lean * 0.3, py - tall * 0.6), (px + lean, py - tall)])
    page.path(
        "".join(smooth(blade) for blade in blades), stroke="#8B9465", width=2.2, opacity=0.5, stroke_linecap="round"
    )
