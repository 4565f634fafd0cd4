"""Lords-and-ladies: arrow leaves, each alone from the soil, with a vein that runs right round inside the edge."""

from math import cos, radians, sin

from species.documents.plates.arum_hood import draw_hood
from species.documents.plates.arum_spike import draw_spike
from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import INK, Individual
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.outline import Outline, arrow, profile
from species.documents.plates.posture import crumbs, earth_inset, fan, near_edge
from species.documents.plates.regions import HEAD, LEAF_AGAINST_LIGHT, LEAF_FEET
from species.documents.plates.resting import Rest, rooted
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.stem import draw_stem, taper
from species.documents.plates.storage import draw_lying_tuber
from species.documents.plates.svg import Point, Sheet, bow, ovals, smooth
from species.documents.plates.veins import Vein, cross_net, lobe_veins, pinnate, rim

NAME = "lords-and-ladies (Arum maculatum)"
STAGES = ("rosette", "flower", "fruit", "dormant", "seedling")
FORMS = ("typical", "shade", "young", "spotted", "unspotted", "unlobed", "back-pointing", "yellow-club")
UNIT = 32.0
SPOT = "#3A2438"


class Habit:
    """What is settled once for the whole plant: lobes, spots, colour of the club."""

    def __init__(self, individual: Individual) -> None:
        form = individual.form
        juvenile = individual.chance(0.25) and individual.stage == "rosette"
        self.lobed = form not in ("unlobed", "young") and not (form == "typical" and juvenile)
        self.back = form == "back-pointing" or (form == "typical" and individual.chance(0.2))
        self.spotted = form == "spotted" or (form != "unspotted" and individual.chance(0.35))
        self.yellow = form == "yellow-club" or individual.chance(0.25)
        self.waved = individual.between(0.0, 0.03)


FIRST = FirstLeaf(LeafDetail("rim"), 2.0, 0.95, 1.1, 0.6)


def draw(individual: Individual) -> Drawing:
    if individual.stage == "seedling":
        return undivided_seedling(
            individual, SeedLeaves(count=0), FIRST, ("one small oval blade, its rim vein already there",)
        )
    if individual.stage == "dormant":
        sheet = Sheet()
        at = draw_lying_tuber(sheet, individual)
        rest = Rest("round_tuber", ("a small lying tuber with a bud at one end",), skin="#B79B78")
        return rooted(sheet, individual, rest, at, at)
    return draw_spike(individual) if individual.stage == "fruit" else _leafy(individual)


def _leafy(individual: Individual) -> Drawing:
    sheet = Sheet()
    habit = Habit(individual)
    flowering = individual.stage == "flower"
    feet: list[float] = []
    anchor = (0.0, -100.0)
    leaves = individual.count(2, 3) if flowering else individual.count(2, 4)
    headings = fan(individual, leaves, individual.between(13, 17) if flowering else individual.between(8, 15))
    gap = individual.between(34, 48)
    for heading in headings:
        foot = (
            heading / 15 * gap + (30 if flowering and heading > 0 else -20 if flowering else 0),
            individual.between(1, 7),
        )
        feet.append(foot[0])
        anchor = _leaf(sheet, individual, habit, foot, heading)
    club = _hood(sheet, individual, habit) if flowering else (0.0, 0.0)
    crumbs(sheet, feet, individual.rng)
    lens = sheet.layer()
    leaf_against_light(lens, individual, LeafDetail("rim"))
    second = sheet.layer()
    if flowering:
        _enlarged_club(second, individual, habit)
    else:
        earth_inset(second, lambda inset: _enlarged_feet(inset, individual), individual.rng)
    near = Inset(second, club, HEAD) if flowering else Inset(second, (feet[-1], -24.0), LEAF_FEET)
    insets = (Inset(lens, anchor, LEAF_AGAINST_LIGHT), near)
    return Drawing(sheet, _characters(individual, habit), insets, features=_features(habit, flowering))


def _features(habit: Habit, flowering: bool) -> tuple[str, ...]:
    shape = "arrow-shaped blades" if habit.lobed else "oval blades without lobes"
    spots = "dark blotches" if habit.spotted else "no blotches"
    hood = ("a club in a pale hood",) if flowering else ()
    return (
        shape,
        "side veins that join one vein running right round inside the edge",
        spots,
        "each leaf alone on a fleshy stalk from the soil",
        *hood,
    )


def _characters(individual: Individual, habit: Habit) -> dict[str, str]:
    base = "arrow_sharp_back" if habit.back else "arrow_blunt_out"
    states = {
        "growth_form": "herb",
        "leaf_emergence": "single_stalked",
        "leaf_division": "undivided",
        "blade_shape": "arrow" if habit.lobed else "elliptic",
        "leaf_base": base if habit.lobed else "tapering",
        "leaf_margin": "wavy" if habit.waved > 0.02 else "entire",
        "venation": "netted_rim_vein",
        "leaf_spots": "dark_blotches" if habit.spotted else "none",
        "leaf_hairs": "hairless",
        "leaf_arrangement": "basal",
        "leaf_stalk": "stalked",
        "petiole_sheath": "sheath",
    }
    if individual.stage == "flower":
        states |= {
            "inflorescence": "spadix",
            "flower_colour": "yellow" if habit.yellow else "brown_purple",
            "petals": "none",
            "flowers_leafless": "no",
        }
    return states


def _leaf(sheet: Sheet, individual: Individual, habit: Habit, foot: Point, heading: float) -> Point:
    """One leaf on its own round stalk."""
    young = 0.62 if individual.form == "young" else 1.0
    long = individual.between(10.5, 14.5) * individual.size * young * UNIT
    stalk = individual.between(9, 15) * (1 + 0.5 * individual.shade) * individual.size * young * UNIT
    stalk *= individual.between(0.6, 0.85) if individual.stage == "flower" else 1.0
    lean = radians(heading * 0.8)
    end = (foot[0] + sin(lean) * stalk, foot[1] - cos(lean) * stalk)
    draw_stem(
        sheet, bow(foot, end, -0.05 * heading / 15 * stalk, 10), taper(16, 11), individual.green_stem, foot="#E6E4C6"
    )
    side = 1 if heading > 0 else -1
    pose = Pose(
        end,
        heading + individual.between(-14, 8) * side,
        long,
        side * individual.between(5, 30 if habit.lobed else 45),
        individual.between(-0.45, 0.45),
        individual.between(-0.45, 0.45),
        late=1.5,
    )
    if habit.lobed:
        return _arrow_blade(sheet, individual, habit, pose, long)
    outline = profile(
        long,
        long / individual.between(2.0, 3.2),
        individual.between(0.98, 1.2),
        individual.between(0.95, 1.2),
        individual.lopsided,
        wave=habit.waved,
        foot=11,
    )
    return _lay(sheet, individual, habit, outline, pose, [])


def _arrow_blade(sheet: Sheet, individual: Individual, habit: Habit, pose: Pose, long: float) -> Point:
    wide = long * individual.between(0.52, 0.68)
    lobe = individual.between(0.27, 0.35)
    spread = individual.between(18, 26) if habit.back else individual.between(46, 62)
    outline = arrow(long, wide, 0.36, 1.15, lobe, spread, habit.back, individual.lopsided, habit.waved)
    return _lay(sheet, individual, habit, outline, pose, lobe_veins(outline, lobe, spread, 0.07 * wide))


def _lay(sheet: Sheet, individual: Individual, habit: Habit, outline: Outline, pose: Pose, more: list[Vein]) -> Point:
    """Blade, side veins, net, and the rim vein that all of them reach."""
    wide = max(y for _, y in outline.left) * 2
    inset = 0.07 * wide
    side_veins = pinnate(outline, individual.count(6, 9), 55, 0.9, inset=inset, start=0.02)
    net = cross_net(side_veins, 3)
    draw_blade(
        sheet, outline, pose, look_of(individual, pale_veins=True), [*net, *side_veins, *more], rim(outline, inset, 2.1)
    )
    if habit.spotted:
        _spots(sheet, individual, outline, pose)
    return near_edge(outline, pose, 0.5)


def _spots(sheet: Sheet, individual: Individual, outline: Outline, pose: Pose) -> None:
    """Black-purple blotches inside the rim vein."""
    places = []
    for _ in range(individual.count(8, 24)):
        x = outline.length * individual.between(0.08, 0.85)
        side = 1 if individual.chance(0.5) else -1
        y = outline.reach(side, x) * individual.between(0.05, 0.78)
        px, py = pose.place(x, y, side)
        long = individual.between(0.1, 0.34) * UNIT
        places.append((px, py, long, long * individual.between(0.4, 0.75), individual.between(0, 180)))
    sheet.path(ovals(places), fill=SPOT, opacity=0.86)


def _hood(sheet: Sheet, individual: Individual, habit: Habit) -> Point:
    """Scape, hood and club in the middle of the plant; gives the place of the club."""
    scale = individual.size * individual.between(0.95, 1.1)
    foot = (individual.between(-6, 6), 4.0)
    stalk = individual.between(6, 9) * UNIT * scale
    lean = individual.between(-0.08, 0.08)
    throat = (foot[0] + lean * stalk, -stalk)
    draw_stem(sheet, bow(foot, throat, 0.0, 6), taper(24, 20), individual.green_stem, foot="#E6E4C6")
    draw_hood(sheet, individual, habit.yellow, throat, 17.0 * UNIT * scale, individual.between(-9, 9))
    return throat[0], throat[1] - 9.0 * UNIT * scale


def _enlarged_club(inset: Sheet, individual: Individual, habit: Habit) -> None:
    """The open part of the hood with the club, near at hand."""
    draw_hood(inset, individual, habit.yellow, (0.0, 212.0), 372.0, individual.between(-5, 5), 2.6)


def _enlarged_feet(inset: Sheet, individual: Individual) -> None:
    """Two round fleshy stalks that go into the soil apart, each out of a plain white sheath."""
    for x, top in ((-34.0, -54.0), (32.0, 56.0)):
        shift = individual.between(-5, 5)
        line = bow((x + shift, 68.0), (top + shift, -112.0), individual.between(-6, 6), 10)
        draw_stem(inset, line, taper(30, 24), individual.green_stem, foot="#EFEBD3", ink=2.2)
        for flip, tall in ((-1, 24.0), (1, 38.0)):
            px = x + shift
            scale = [
                (px - flip * 20, 70.0),
                (px - flip * 19, tall + 16),
                (px - flip * 4, tall - 4),
                (px + flip * 17, tall + 24),
                (px + flip * 20, 70.0),
            ]
            inset.path(smooth(scale) + "Z", fill="#F3EEDC", stroke=INK, width=1.9, opacity=0.93)
