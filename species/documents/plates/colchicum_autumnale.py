"""Meadow saffron in spring: stalkless leaves that sheathe each other from one point, at times a fat capsule."""

from math import cos, pi, radians, sin

from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual, mix, tint
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.outline import profile
from species.documents.plates.posture import crumbs, earth_inset, fan, near_edge
from species.documents.plates.regions import LEAF_AGAINST_LIGHT, LEAF_FEET
from species.documents.plates.resting import Rest, rooted
from species.documents.plates.saffron_goblet import draw_goblets
from species.documents.plates.storage import draw_corm
from species.documents.plates.svg import Point, Sheet, arch, smooth
from species.documents.plates.veins import parallel

NAME = "meadow saffron (Colchicum autumnale)"
STAGES = ("rosette", "fruit", "flower", "dormant")
FORMS = ("typical", "shade", "young", "broad-leaved", "white-flowered")
UNIT = 32.0


def draw(individual: Individual) -> Drawing:
    if individual.stage == "flower":
        return draw_goblets(individual)
    if individual.stage == "dormant":
        sheet = Sheet()
        at = draw_corm(sheet, individual)
        rest = Rest("corm", ("a fat corm in a brown skin, deep in the ground",), skin="#6B4A33")
        return rooted(sheet, individual, rest, at, at)
    return _spring(individual)


def _spring(individual: Individual) -> Drawing:
    sheet = Sheet()
    fruiting = individual.stage == "fruit"
    feet = [0.0]
    anchor = (0.0, -100.0)
    if individual.chance(0.5):
        feet.insert(0, individual.between(130, 190) * (1 if individual.chance(0.5) else -1))
    for x in feet:
        main = x == feet[-1]
        leaves = individual.count(3, 5) if main else 3
        anchor = _tuft(sheet, individual, x, leaves, fruiting and main)
    crumbs(sheet, feet, individual.rng, 22)
    lens = sheet.layer()
    leaf_against_light(lens, individual, LeafDetail("parallel"))
    second = sheet.layer()
    earth_inset(second, lambda inset: _enlarged_foot(inset, individual, fruiting), individual.rng)
    insets = (Inset(lens, anchor, LEAF_AGAINST_LIGHT), Inset(second, (feet[-1], -50.0), LEAF_FEET))
    return Drawing(sheet, _characters(fruiting), insets, features=_features(fruiting))


def _features(fruiting: bool) -> tuple[str, ...]:
    fruit = ("a fat green capsule among the leaves",) if fruiting else ()
    return ("leaves without stalks that sheathe each other from one point", "parallel veins", "entire edge", *fruit)


def _characters(fruiting: bool) -> dict[str, str]:
    states = {
        "growth_form": "herb",
        "leaf_emergence": "tuft_stalkless",
        "leaf_division": "undivided",
        "blade_shape": "lanceolate",
        "leaf_base": "sheathing",
        "leaf_margin": "entire",
        "venation": "parallel",
        "leaf_spots": "none",
        "leaf_hairs": "hairless",
        "leaf_arrangement": "basal",
        "leaf_stalk": "stalkless",
    }
    if fruiting:
        states |= {"fruit_type": "capsule", "fruit_position": "among_leaves"}
    return states


def _tuft(sheet: Sheet, individual: Individual, x: float, leaves: int, fruiting: bool) -> Point:
    """Leaves from one point: the inner ones first, each outer one wrapped round those before it."""
    headings = sorted(
        fan(individual, leaves, individual.between(19, 24) if fruiting else individual.between(12, 20)), key=abs
    )
    anchor = (x, -100.0)
    for k, heading in enumerate(headings):
        anchor = _leaf(sheet, individual, x, heading, 30 + 6 * k)
    if fruiting:
        _capsule(sheet, individual, x + individual.between(-8, 8), -individual.between(3.4, 4.6) * UNIT)
    return anchor


def _leaf(sheet: Sheet, individual: Individual, x: float, heading: float, foot: float) -> Point:
    """One leaf: a broad sheath at the foot that passes into the blade with no stalk between."""
    young = 0.62 if individual.form == "young" else 1.0
    long = individual.between(15, 22) * individual.size * young * UNIT
    narrow = individual.between(2.9, 3.6) if individual.form == "broad-leaved" else individual.between(3.4, 5.4)
    side = 1 if heading > 0 else -1
    outline = profile(
        long,
        long / narrow,
        individual.between(0.75, 0.95),
        individual.between(1.1, 1.35),
        individual.lopsided,
        wave=individual.between(0, 0.03),
        foot=foot,
    )
    lean = heading * 0.35
    pose = Pose(
        (x + side * foot * 0.12, 5.0),
        lean,
        long,
        (heading - lean) + side * individual.between(6, 34),
        individual.between(-0.4, 0.4),
        individual.between(-0.6, 0.6),
        late=individual.between(0.9, 1.5),
    )
    draw_blade(sheet, outline, pose, look_of(individual, midrib=2.6), parallel(outline, individual.count(13, 21)))
    return near_edge(outline, pose)


def _capsule(sheet: Sheet, individual: Individual, x: float, y: float, scale: float = 1.0, ink: float = 1.9) -> None:
    """A fat egg-shaped capsule with three seams, standing among the leaves; (x, y) is its foot."""
    tall, wide = individual.between(112, 140) * scale, individual.between(34, 40) * scale
    colour = individual.coloured("#86A868")
    points = [
        (x + wide * sin(pi * t) ** 0.75 * s, y - tall * t)
        for s, run in ((1, range(10)), (-1, range(9, 0, -1)))
        for t in [k / 9 for k in run]
    ]
    wash = sheet.glow(
        (x - wide * 0.35, y - tall * 0.58),
        tall * 0.62,
        [(0, tint(colour, 0, 0.13), 1), (0.6, colour, 1), (1, mix(colour, "#3E5A38", 0.45), 1)],
    )
    sheet.shape(points, wash, INK, ink)
    seams = [[(x + wide * k * sin(pi * t) ** 0.75, y - tall * t) for t in (0.04, 0.3, 0.6, 0.96)] for k in (-0.3, 0.42)]
    sheet.path("".join(smooth(s) for s in seams), stroke=mix(colour, INK, 0.6), width=ink * 0.75)
    for turn in (-20, 6, 28):
        a = radians(turn - 90)
        sheet.line([(x, y - tall * 0.98), (x + cos(a) * 16 * scale, y - tall + sin(a) * 16 * scale)], INK, ink * 0.8)


def _enlarged_foot(inset: Sheet, individual: Individual, fruiting: bool) -> None:
    """Three leaf bases, one inside the other, all from one point, with no stalk anywhere."""
    colour = mix(individual.green, "#DCE3B4", 0.3)
    side = 1 if individual.chance(0.5) else -1
    inset.path("M-26 20L-20 -120L24 -120L26 20Z", fill=tint(colour, 0, -0.1))
    for k, (lean, foot, mouth) in enumerate(((-6, 22, -46), (34, 30, -14), (-40, 38, 14))):
        _sheath(inset, tint(colour, 0, -0.02 * k), lean * side, foot, mouth)
    if fruiting:
        _capsule(inset, individual, 0.0, -14.0, 0.85, 2.4)


def _sheath(inset: Sheet, colour: str, lean: float, foot: float, mouth: float) -> None:
    """One leaf base: `foot` half its width in the soil, `mouth` where its edge crosses over, `lean` its side."""
    s = 1 if lean > 0 else -1
    inner = [(-s * foot, 70.0), (-s * foot * 0.96, mouth + 22.0), (-s * foot * 0.4, mouth + 2.0)]
    rising = [(lean * 0.3 - s * 6, mouth - 26.0), (lean - s * 22, -80.0), (lean * 1.5 - s * 24, -120.0)]
    outer = [(lean * 1.8 + s * 44, -120.0), (lean * 1.2 + s * 34, -60.0), (s * foot * 1.02, 10.0), (s * foot, 70.0)]
    around = smooth([*inner, *rising, *outer])
    stops = [(0, tint(colour, 0, 0.07), 1), (1, tint(colour, 0, -0.06), 1)]
    inset.path(around + "Z", fill=inset.gradient((-40, 0), (40, 0), stops))
    inset.path(around, stroke=INK, width=2.5)
    veins = []
    for f in (0.1, 0.4, 0.7):
        low = [(s * foot * f, 66.0), (s * foot * f * 1.05, 14.0)]
        veins.append([*low, (lean * 1.2 + s * (10 + 26 * f), -60.0), (lean * 1.65 + s * (10 + 34 * f), -118.0)])
    inset.path(arch(veins), stroke=mix(colour, INK, 0.6), width=1.0, opacity=0.8)
