"""What one plant's umbels are made of, and how a small solid is seen on the sheet."""

from dataclasses import dataclass

import numpy as np

from species.documents.plates.compound import Numbers


@dataclass(frozen=True)
class UmbelLook:
    """What one plant's umbels are made of; `bracts`, `bracteoles` and `fruit` are state ids.

    `rays`, `flowers`: counts of the main umbel and of each small umbel. `cap`: half angle of the dome in degrees.
    `outer`: how much larger the outward petals are. `closing`: 0 open to 1 drawn together like a nest.
    """

    rays: int
    flowers: int
    bracts: str
    bracteoles: str
    fruit: str
    petal: str
    heart: str
    stalk: str
    outer: float = 1.0
    cap: float = 50.0
    closing: float = 0.0
    bract_count: int = 0
    bracteole_count: int = 0
    dark_middle: bool = False
    fruit_colour: str = "#7F8C4E"
    flower_size: float = 1.0
    fringed: bool = False


@dataclass(frozen=True)
class View:
    """How a small solid stands on the sheet: joint, heading of its axis (degrees, -90 is up), tilt towards us."""

    x: float
    y: float
    heading: float
    tilt: float = 0.32

    def flat(self, solid: Numbers) -> Numbers:
        """Solid coordinates (right, towards us, up) to sheet coordinates."""
        angle = np.radians(self.heading + 90)
        right = solid[..., 0]
        up = solid[..., 2] - self.tilt * solid[..., 1]
        return np.stack(
            [self.x + right * np.cos(angle) + up * np.sin(angle), self.y + right * np.sin(angle) - up * np.cos(angle)],
            axis=-1,
        )
