"""One drawn plant: everything that varies, drawn from a seed and from nothing else.

What nobody should rely on (green, shine, size, number of veins, bites) has one common distribution for all
species, so that it can never give a side of a pair away. The decisive characters belong to the species modules.
"""

from colorsys import hls_to_rgb, rgb_to_hls
from functools import cached_property
from math import exp
from random import Random

INK = "#2B2A26"
PAPER = "#F6F0E2"


def _channels(colour: str) -> tuple[float, float, float]:
    return int(colour[1:3], 16) / 255, int(colour[3:5], 16) / 255, int(colour[5:7], 16) / 255


def _hex(red: float, green: float, blue: float) -> str:
    return "#" + "".join(f"{round(max(0.0, min(1.0, part)) * 255):02X}" for part in (red, green, blue))


def mix(one: str, other: str, share: float) -> str:
    """`one` with `share` (0 to 1) of `other` stirred in."""
    return _hex(*(a + (b - a) * share for a, b in zip(_channels(one), _channels(other), strict=True)))


def tint(colour: str, hue: float = 0.0, light: float = 0.0) -> str:
    """A colour moved by `hue` degrees and `light` (-1 to 1) of lightness."""
    h, lightness, s = rgb_to_hls(*_channels(colour))
    return _hex(*hls_to_rgb((h + hue / 360) % 1.0, max(0.0, min(1.0, lightness + light)), s))


class Individual:
    """A plant of one species, stage and form, made by its seed.

    `rng` is the plant's own random stream (species, stage, form and seed); `layout_rng()` depends on the seed
    alone, so that framing never differs between species.
    """

    def __init__(self, seed: int, species: str, stage: str, form: str = "typical") -> None:
        self.seed, self.species, self.stage, self.form = seed, species, stage, form
        self.rng = Random(f"{species}/{stage}/{form}/{seed}")
        own = Random(f"looks/{species}/{stage}/{form}/{seed}")
        self.size = exp(max(-0.4, min(0.4, own.gauss(0.0, 0.18))))
        self.shade = own.uniform(0.6, 1.0) if form == "shade" else own.triangular(0.0, 0.5, 0.1)
        self.hue = own.uniform(-4.0, 4.0)
        self.light = own.uniform(-0.05, 0.05)
        self.shine = own.uniform(0.0, 1.0) * (1 - 0.8 * self.shade)
        self.tone = own.triangular(0.0, 1.0, 0.45)
        self.lopsided = own.uniform(-0.06, 0.06)
        self.yellowing = own.uniform(0.15, 0.45) if own.random() < 0.12 else 0.0

    def layout_rng(self) -> Random:
        return Random(f"layout/{self.seed}")

    # Numbers

    def between(self, low: float, high: float) -> float:
        return self.rng.uniform(low, high)

    def count(self, low: int, high: int) -> int:
        """A whole number, middling ones more often."""
        return min(high, int(self.rng.triangular(low, high + 0.999)))

    def chance(self, probability: float) -> bool:
        return self.rng.random() < probability

    def near(self, value: float, share: float = 0.1) -> float:
        """The value give or take a share of it."""
        return value * (1 + self.rng.uniform(-share, share))

    # Colours

    def coloured(self, colour: str) -> str:
        """A colour of this species with this plant's own shift of hue and lightness."""
        return tint(colour, self.hue, self.light)

    @cached_property
    def green(self) -> str:
        """The green of the upper side of its leaves; one distribution for every species."""
        base = mix("#8FA95C", "#4B7347", self.tone)
        return tint(base, self.hue, self.light - 0.04 * self.shade)

    @cached_property
    def green_below(self) -> str:
        return mix(self.green, "#DCE6C0", 0.38)

    @cached_property
    def green_stem(self) -> str:
        return mix(self.green, "#C2D394", 0.42)

    def leaf_green(self) -> str:
        """The green of one more leaf: near the plant's own."""
        return tint(self.green, self.rng.uniform(-3, 3), self.rng.uniform(-0.03, 0.03))
