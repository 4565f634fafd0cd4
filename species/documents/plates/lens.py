"""What the lens circle shows: a piece of a leaf held against the light, with its edge, veins and hairs.

The circle has radius 100 around (0, 0). One way of drawing for every species; only botany differs.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import cos, pi, radians, sin
from random import Random

from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.svg import Point, Sheet, arch, smooth, straight, strokes


@dataclass(frozen=True)
class LeafDetail:
    """`venation`: parallel, edge (side veins fading at the edge) or rim (side veins joining one line inside it).

    `margin`: entire, crenate or serrate. `hair`: none, sparse, downy or bristly.
    """

    venation: str
    margin: str = "entire"
    hair: str = "none"
    tooth: float = 11.0
    tooth_gap: float = 30.0
    net: int = 4


def leaf_against_light(sheet: Sheet, individual: Individual, detail: LeafDetail) -> None:
    """Draw the detail on the sheet (radius 100)."""
    rng = Random(f"lens/{individual.seed}/{individual.species}/{individual.stage}")
    lit = mix(individual.green, "#E4EEA4", 0.42)
    vein = mix(individual.green, INK, 0.45)
    edge_x = 52.0
    edge = _edge(edge_x, detail)
    trace = smooth if detail.margin == "entire" else straight
    d = trace(edge) + "L-130 130L-130 -130Z"
    glow = sheet.gradient(
        (-100, 60), (80, -60), [(0, tint(lit, 0, -0.05), 1), (0.6, lit, 1), (1, tint(lit, 3, 0.05), 1)]
    )
    sheet.path(d, fill=glow, stroke=mix(lit, INK, 0.25), width=5, stroke_opacity="0.35")
    clip = sheet.clip(d)
    inner = sheet.layer()
    {"parallel": _parallel, "edge": _to_edge, "rim": _to_rim}[detail.venation](inner, rng, vein, lit, edge_x, detail)
    sheet.add(inner, clip_path=clip)
    _hair(sheet, rng, detail, edge)
    sheet.path(trace(edge), stroke=INK, width=2.4)


def _edge(x: float, detail: LeafDetail) -> list[Point]:
    """The edge from top to bottom, bulging a little."""
    if detail.margin == "entire":
        return [(x + 14 * cos(y / 75), y) for y in range(-130, 140, 26)]
    out: list[Point] = []
    gap = detail.tooth_gap
    y = -130.0
    while y < 130:
        base = x + 14 * cos(y / 75)
        if detail.margin == "crenate":
            out += [(base + detail.tooth * sin(pi * k / 5) ** 0.8, y + gap * k / 5) for k in range(5)]
        else:
            # Teeth point towards the tip, which is up.
            out += [
                (base + detail.tooth, y),
                (base + detail.tooth * 0.2, y + gap * 0.12),
                (base, y + gap * 0.2),
                (base + detail.tooth * 0.45, y + gap * 0.62),
            ]
        y += gap
    return out


def _parallel(sheet: Sheet, rng: Random, vein: str, lit: str, edge_x: float, detail: LeafDetail) -> None:
    gap = rng.uniform(17, 22)
    lines, fine = [], []
    x = edge_x - gap * 0.6
    k = 0
    while x > -125:
        line = [(x + 14 * cos(y / 75) * (1 - k * 0.06) + rng.uniform(-0.8, 0.8), y) for y in range(-120, 130, 40)]
        lines.append(line)
        fine.append([(px - gap / 2, py) for px, py in line])
        x -= gap
        k += 1
    pale = mix(lit, "#FBFBE6", 0.55)
    sheet.path(arch(lines), stroke=pale, width=4.4)
    sheet.path(arch(lines), stroke=vein, width=1.5)
    sheet.path(arch(fine), stroke=vein, width=0.7, opacity=0.6)
    ties = []
    for _ in range(26):
        px, py = rng.uniform(-95, edge_x), rng.uniform(-95, 95)
        ties.append([(px, py), (px + gap / 2, py - rng.uniform(2, 8))])
    sheet.path(strokes(ties), stroke=vein, width=0.6, opacity=0.55)


def _branches(rng: Random, edge_x: float) -> list[tuple[Point, float]]:
    """Feet and slants of the side veins that cross the circle."""
    gap = rng.uniform(46, 54)
    first = rng.uniform(-10, 20)
    return [((-115.0, first + gap * k), rng.uniform(-0.66, -0.56)) for k in range(-1, 5)]


def _to_edge(sheet: Sheet, rng: Random, vein: str, lit: str, edge_x: float, detail: LeafDetail) -> None:
    """Side veins that run out, thinning, towards the edge, with a net between."""
    pale = mix(lit, "#FBFBE6", 0.5)
    main: list[list[Point]] = []
    thin: list[list[Point]] = []
    net: list[list[Point]] = []
    runs: list[list[Point]] = []
    for (x0, y0), slant in _branches(rng, edge_x):
        run = [(x0 + 170 * t, y0 + 170 * t * slant - 16 * t * t) for t in (0, 0.2, 0.4, 0.6, 0.8, 0.97)]
        runs.append(run)
        main.append(run[:5])
        thin.append(run[3:])
        px, py = run[4]
        thin.append([(px, py), (px + 14, py + 6), (px + 22, py + 16)])
    _ties(net, runs, detail.net, rng)
    sheet.path(arch(net), stroke=vein, width=0.8, opacity=0.65)
    sheet.path(arch(main), stroke=pale, width=6.5)
    sheet.path(arch(main), stroke=vein, width=2.4)
    sheet.path(arch(thin), stroke=vein, width=1.0, opacity=0.8)


def _to_rim(sheet: Sheet, rng: Random, vein: str, lit: str, edge_x: float, detail: LeafDetail) -> None:
    """Side veins that all join one line running along the edge, a little inside it."""
    pale = mix(lit, "#FBFBE6", 0.55)
    line_x = edge_x - 24
    rim = [(line_x + 14 * cos(y / 75) + 4 * cos(y / 14), y) for y in range(-126, 136, 14)]
    net: list[list[Point]] = []
    runs: list[list[Point]] = []
    for (x0, y0), slant in _branches(rng, edge_x):
        long = line_x + 12 - x0
        run = [(x0 + long * t, y0 + long * t * slant - 20 * t * t) for t in (0, 0.25, 0.5, 0.75, 0.93, 1.0)]
        runs.append(run)
    _ties(net, runs, detail.net, rng)
    sheet.path(arch(net), stroke=vein, width=0.8, opacity=0.65)
    sheet.path(arch(runs), stroke=pale, width=6.5)
    sheet.path(arch(runs), stroke=vein, width=2.4)
    sheet.path(smooth(rim), stroke=pale, width=8.0)
    sheet.path(smooth(rim), stroke=vein, width=3.2)
    outer = [[(x, y), (x + 12, y - 7), (x + 19, y - 16)] for x, y in rim[::2]]
    sheet.path(arch(outer), stroke=vein, width=0.6, opacity=0.5)


def _ties(net: list[list[Point]], runs: list[list[Point]], count: int, rng: Random) -> None:
    for one, two in pairwise(runs):
        for j in range(count):
            t = (j + 0.5 + rng.uniform(-0.25, 0.25)) / count
            i = min(4, int(t * 5))
            part = t * 5 - i
            a = (one[i][0] + (one[i + 1][0] - one[i][0]) * part, one[i][1] + (one[i + 1][1] - one[i][1]) * part)
            b = (two[i][0] + (two[i + 1][0] - two[i][0]) * part, two[i][1] + (two[i + 1][1] - two[i][1]) * part)
            mid = ((a[0] + b[0]) / 2 + rng.uniform(-7, 7), (a[1] + b[1]) / 2)
            net.append([a, mid, b])


def _hair(sheet: Sheet, rng: Random, detail: LeafDetail, edge: list[Point]) -> None:
    """Hairs on the face and standing off the edge."""
    plan = {"none": None, "sparse": (14, 12.0, 1.0), "downy": (150, 13.0, 0.9), "bristly": (30, 30.0, 1.7)}[detail.hair]
    if plan is None:
        return
    count, long, width = plan
    soft = detail.hair != "bristly"
    pieces, bulbs = [], []
    for _ in range(count):
        x, y = rng.uniform(-98, 56), rng.uniform(-96, 96)
        pieces.append(_hair_stroke(x, y, radians(rng.uniform(-130, -40)), long * rng.uniform(0.7, 1.2), soft))
        bulbs.append([(x, y), (x + 0.1, y)])
    for x, y in edge:
        for _ in range(1 if detail.hair != "downy" else 3):
            if detail.hair == "sparse" and rng.random() < 0.7:
                continue
            angle = radians(rng.uniform(-60, 25))
            pieces.append(_hair_stroke(x, y + rng.uniform(-8, 8), angle, long * rng.uniform(0.7, 1.15), soft))
    sheet.path(
        arch(pieces) if soft else strokes(pieces),
        stroke="#FFFDF2" if soft else "#FBF6DE",
        width=width * 1.9,
        opacity=0.8,
    )
    sheet.path(arch(pieces) if soft else strokes(pieces), stroke=INK, width=width, opacity=0.75)
    if not soft:
        sheet.path(strokes(bulbs), stroke="#FBF8E6", width=7.5)
        sheet.path(strokes(bulbs), stroke=INK, width=2.6, opacity=0.6)


def _hair_stroke(x: float, y: float, angle: float, long: float, soft: bool) -> list[Point]:
    end = (x + cos(angle) * long, y + sin(angle) * long)
    if not soft:
        return [(x, y), end]
    return [
        (x, y),
        (x + cos(angle) * long * 0.6, y + sin(angle) * long * 0.6),
        (end[0] - sin(angle) * long * 0.35, end[1] + cos(angle) * long * 0.35),
    ]
