"""Two plants: which would you gather, or neither. With one of two edible, guessing has another chance of a
miss, so a right answer proves nothing; gathering the dangerous one is a miss all the same."""

from .shape import Kind

KIND = Kind(key="side_by_side", counts=False, asks_name=False, asks_decision=True)
