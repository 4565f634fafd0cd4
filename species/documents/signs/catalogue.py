"""Which states of which characters have a small drawing, and the one door to them: `drawing_of`."""

from collections.abc import Callable
from functools import cache

from species.documents.signs import clusters, divided, flowers, fruits, leaves, standing, stems, umbels
from species.documents.signs.sketch import Sketch, Stroke

Hand = Callable[[Sketch, str], None]
MODULES = (leaves, divided, standing, stems, flowers, umbels, clusters, fruits)
DRAWN: dict[str, tuple[Hand, tuple[str, ...]]] = {key: each for module in MODULES for key, each in module.DRAWN.items()}


@cache
def drawing_of(character: str, state: str) -> tuple[Stroke, ...]:
    """The strokes of a state, in a box of 64 by 64; empty for what cannot be drawn, such as a smell."""
    hand, states = DRAWN.get(character, (None, ()))
    if hand is None or state not in states:
        return ()
    sketch = Sketch()
    hand(sketch, state)
    return tuple(sketch.strokes)
