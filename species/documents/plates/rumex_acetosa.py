"""Common sorrel: arrow leaves with sharp lobes pointing back, and a fringed papery tube at every joint."""

from math import cos, radians, sin

from species.documents.plates.frame import Drawing, Inset
from species.documents.plates.individual import Individual, mix
from species.documents.plates.leaf import Pose, draw_blade, look_of
from species.documents.plates.lens import LeafDetail, leaf_against_light
from species.documents.plates.outline import Outline, arrow, profile
from species.documents.plates.papery_tube import papery_tube
from species.documents.plates.posture import crumbs, earth_inset, fan, near_edge
from species.documents.plates.regions import LEAF_AGAINST_LIGHT, LEAF_FEET
from species.documents.plates.seedling import FirstLeaf, SeedLeaves, undivided_seedling
from species.documents.plates.sorrel_panicle import draw_panicle
from species.documents.plates.stem import draw_stem, taper
from species.documents.plates.svg import Point, Sheet, along, bow, ovals
from species.documents.plates.veins import cross_net, pinnate

NAME = "common sorrel (Rumex acetosa)"
STAGES = ("rosette", "leafy", "flower", "fruit", "seedling")
FORMS = ("typical", "shade", "young", "unlobed", "spreading-lobes", "spotted")
UNITS = {"rosette": 46.0, "leafy": 26.0, "flower": 22.0, "fruit": 22.0}


class Habit:
    """What is settled once for the whole plant."""

    def __init__(self, individual: Individual) -> None:
        form, typical = individual.form, individual.form == "typical"
        # Only the first leaves, those of a rosette, can lack lobes.
        bare = form == "unlobed" or (typical and individual.chance(0.1))
        self.lobed = not (bare and individual.stage == "rosette")
        self.spread = (
            individual.between(28, 36)
            if form == "spreading-lobes" or (typical and individual.chance(0.15))
            else individual.between(8, 16)
        )
        self.spotted = form == "spotted" or (typical and individual.chance(0.1))
        self.red = individual.between(0.25, 0.75)
        self.waved = individual.between(0.0, 0.03)
        self.male = individual.chance(0.5)
        self.unit = UNITS.get(individual.stage, 40.0)
        self.stalk = mix(individual.green_stem, individual.coloured("#A8584A"), self.red)


FIRST = FirstLeaf(LeafDetail("edge"), 2.0, 0.9, 0.9, 0.6)


def draw(individual: Individual) -> Drawing:
    if individual.stage == "seedling":
        return undivided_seedling(
            individual, SeedLeaves(ratio=2.6, stalk=0.4), FIRST, ("first leaves oval, without lobes",)
        )
    return _grown(individual)


def _grown(individual: Individual) -> Drawing:
    sheet = Sheet()
    habit = Habit(individual)
    if individual.stage == "rosette":
        anchor, joint = _rosette(sheet, individual, habit)
    else:
        anchor, joint = _stemmed(sheet, individual, habit)
    lens = sheet.layer()
    leaf_against_light(lens, individual, LeafDetail("edge"))
    second = sheet.layer()
    if individual.stage == "rosette":
        earth_inset(second, lambda inset: _enlarged_crown(inset, individual, habit), individual.rng)
    else:
        _enlarged_joint(second, individual, habit)
    return Drawing(
        sheet,
        _characters(individual, habit),
        (Inset(lens, anchor, LEAF_AGAINST_LIGHT), Inset(second, joint, LEAF_FEET)),
        features=_features(individual, habit),
    )


def _features(individual: Individual, habit: Habit) -> tuple[str, ...]:
    shape = "blades with two lobes pointing back" if habit.lobed else "oval blades without lobes"
    spikes = {"flower": "a branched spike of tiny reddish flowers", "fruit": "hanging three-winged fruits"}
    panicle = (spikes[individual.stage],) if individual.stage in spikes else ()
    return (
        shape,
        "side veins that run out towards the edge",
        "a papery tube with a fringed rim where stalk meets stem",
        *panicle,
    )


def _characters(individual: Individual, habit: Habit) -> dict[str, str]:
    rosette = individual.stage == "rosette"
    states = {
        "growth_form": "herb",
        "leaf_emergence": "crown" if rosette else "on_stem",
        "leaf_division": "undivided",
        "blade_shape": "arrow" if habit.lobed else "ovate",
        "leaf_base": "arrow_sharp_back" if habit.lobed else "tapering",
        "leaf_margin": "wavy" if habit.waved > 0.02 else "entire",
        "venation": "netted_to_edge",
        "leaf_spots": "dark_blotches" if habit.spotted else "none",
        "leaf_hairs": "hairless",
        "leaf_arrangement": "basal" if rosette else "alternate",
        "petiole_sheath": "papery_tube",
    }
    if not rosette:
        states |= {"stem_hairs": "hairless", "stem_section": "ridged"}
    if individual.stage == "flower":
        states |= {"inflorescence": "panicle", "petals": "tiny", "flower_colour": "reddish"}
    if individual.stage == "fruit":
        states["fruit_type"] = "nutlets"
        del states["leaf_emergence"]
    return states


def _rosette(sheet: Sheet, individual: Individual, habit: Habit) -> tuple[Point, Point]:
    """Leaves from one crown, each stalk out of its own papery sleeve."""
    leaves = individual.count(3, 4) if individual.form == "young" else individual.count(4, 6)
    anchor, order = (0.0, 0.0), sorted(fan(individual, leaves, individual.between(15, 20)), key=abs)
    for k, heading in enumerate(order):
        foot = (heading * 1.1, 4.0)
        anchor = _basal_leaf(sheet, individual, habit, foot, heading, 1.0 if k % 2 else 0.86)
    for heading in order[-3:]:
        a = radians(heading * 0.75)
        line = [(heading * 1.1 + sin(a) * u, 4 - cos(a) * u) for u in (0.0, 24.0, individual.between(44, 58))]
        papery_tube(sheet, individual, line, 24.0, 9)
    crumbs(sheet, [-14.0, 14.0], individual.rng)
    return anchor, (order[-1] * 1.7, -44.0)


def _basal_leaf(sheet: Sheet, individual: Individual, habit: Habit, foot: Point, heading: float, grow: float) -> Point:
    young = 0.62 if individual.form == "young" else 1.0
    long = individual.between(7.5, 11.0) * individual.size * young * habit.unit * grow
    stalk = individual.between(8.0, 13.0) * (1 + 0.5 * individual.shade) * individual.size * young * habit.unit * grow
    side = 1 if heading > 0 else -1
    a = radians(heading * 0.7)
    end = (foot[0] + sin(a) * stalk, foot[1] - cos(a) * stalk)
    draw_stem(
        sheet,
        bow(foot, end, -0.05 * heading / 15 * stalk, 10),
        taper(13, 8),
        mix(habit.stalk, individual.green_stem, 0.5),
        foot=habit.stalk,
    )
    pose = Pose(
        end,
        heading + individual.between(-6, 8) * side,
        long,
        side * individual.between(5, 40),
        individual.between(-0.5, 0.5),
        individual.between(-0.5, 0.5),
        late=1.5,
    )
    return _blade(sheet, individual, habit, pose, long)


def _blade(
    sheet: Sheet, individual: Individual, habit: Habit, pose: Pose, long: float, lobes: bool | None = None
) -> Point:
    wide = long / individual.between(2.5, 3.4)
    if habit.lobed if lobes is None else lobes:
        outline = arrow(
            long, wide, 0.4, 0.95, individual.between(0.19, 0.27), habit.spread, True, individual.lopsided, habit.waved
        )
    else:
        outline = profile(long, wide * 1.1, 0.98, 0.95, individual.lopsided, wave=habit.waved, foot=8)
    side_veins = pinnate(outline, individual.count(6, 9), 50, 0.94, width=1.0, start=0.02)
    red = mix(individual.leaf_green(), "#9C4A3C", 0.35) if individual.chance(0.15) else individual.leaf_green()
    look = look_of(individual, pale_veins=True, green=red, midrib=2.8)
    draw_blade(sheet, outline, pose, look, [*cross_net(side_veins, 2), *side_veins])
    if habit.spotted:
        _spots(sheet, individual, outline, pose)
    return near_edge(outline, pose, 0.5)


def _spots(sheet: Sheet, individual: Individual, outline: Outline, pose: Pose) -> None:
    """Round fungus spots, dark with a pale heart."""
    ring, heart = [], []
    for _ in range(individual.count(4, 12)):
        x = outline.length * individual.between(0.1, 0.85)
        side = 1 if individual.chance(0.5) else -1
        px, py = pose.place(x, outline.reach(side, x) * individual.between(0.15, 0.75), side)
        radius = individual.between(4.5, 8.0)
        ring.append((px, py, radius, radius, 0.0))
        heart.append((px, py, radius * 0.42, radius * 0.42, 0.0))
    sheet.path(ovals(ring), fill="#5B2A35", opacity=0.85)
    sheet.path(ovals(heart), fill="#C9AE8C")


def _stemmed(sheet: Sheet, individual: Individual, habit: Habit) -> tuple[Point, Point]:
    """An upright ridged stem with alternate leaves, lower ones stalked, upper ones clasping."""
    flowering = individual.stage in ("flower", "fruit")
    unit = habit.unit
    tall = (individual.between(36, 44) if flowering else individual.between(22, 30)) * individual.size * unit
    lean = individual.between(-0.08, 0.08) * tall
    line = bow((0.0, 4.0), (lean, -tall), individual.between(-0.05, 0.05) * tall, 20)
    for heading in fan(individual, 3, individual.between(28, 36)):
        _basal_leaf(sheet, individual, habit, (heading * 0.3, 4.0), heading, 0.85)
    draw_stem(sheet, line, taper(18, 8), mix(individual.green_stem, habit.stalk, 0.5), foot=habit.stalk, ridges=3)
    if flowering:
        draw_panicle(sheet, individual, line, unit, habit.stalk, habit.male)
    joints = (0.17, 0.32, 0.46, 0.58) if flowering else (0.2, 0.42, 0.62, 0.8, 0.95)
    side = 1 if individual.chance(0.5) else -1
    anchor = joint = (0.0, 0.0)
    for k, share in enumerate(joints):
        place, way = along(line, share)
        anchor_here = _stem_leaf(sheet, individual, habit, place, side * (1 if k % 2 else -1), k / len(joints))
        tube = [(place[0] + way[0] * u, place[1] + way[1] * u) for u in (-4.0, 18.0, 40.0 - 12 * share)]
        papery_tube(sheet, individual, tube, 27.0 - 9 * share, 8)
        if k == 1:
            anchor, joint = anchor_here, tube[1]
    crumbs(sheet, [0.0], individual.rng)
    return anchor, joint


def _stem_leaf(sheet: Sheet, individual: Individual, habit: Habit, place: Point, side: int, height: float) -> Point:
    long = individual.between(7.5, 9.5) * (1 - 0.45 * height) * individual.size * habit.unit
    stalk = max(0.0, 3.2 - 5 * height) * habit.unit
    heading = side * individual.between(34, 50)
    a = radians(heading)
    end = (place[0] + sin(a) * stalk, place[1] - cos(a) * stalk)
    if stalk > 8:
        draw_stem(sheet, bow(place, end, side * 6, 6), taper(9, 7), habit.stalk)
    pose = Pose(
        end,
        heading,
        long,
        -side * individual.between(5, 28),
        individual.between(-0.4, 0.4),
        individual.between(-0.4, 0.4),
        late=1.3,
    )
    return _blade(sheet, individual, habit, pose, long, lobes=habit.lobed or height > 0.3)


def _enlarged_crown(inset: Sheet, individual: Individual, habit: Habit) -> None:
    """Two leaf stalks from one crown, each out of a fringed papery tube."""
    side = 1 if individual.chance(0.5) else -1
    for lean, top in ((-side * 54.0, -1.0), (side * 40.0, 1.0)):
        line = bow((lean * 0.16, 70.0), (lean, -116.0), -top * side * 6, 10)
        draw_stem(inset, line, taper(28, 22), habit.stalk, ink=2.2, ridges=1)
        papery_tube(inset, individual, line[:5], 44.0, 9, 2.2)


def _enlarged_joint(inset: Sheet, individual: Individual, habit: Habit) -> None:
    """Ridged stem, leaf stalk, and the fringed papery tube round the joint."""
    side = 1 if individual.chance(0.5) else -1
    stem = mix(individual.green_stem, habit.stalk, 0.6)
    draw_stem(inset, bow((0.0, 112.0), (-side * 6.0, -112.0), side * 3, 10), taper(44, 38), stem, ridges=4, ink=2.4)
    draw_stem(inset, bow((side * 10.0, 52.0), (side * 88.0, -64.0), -side * 8, 8), taper(22, 18), habit.stalk, ink=2.2)
    papery_tube(inset, individual, [(side * 2.0, 66.0), (0.0, 20.0), (-side * 2.0, -26.0)], 62.0, 10, 2.2)
