"""Choose the state you can see that decides. It teaches; it is no evidence of what somebody would gather."""

from .shape import Kind

KIND = Kind(key="which_character", counts=False, asks_name=False, asks_decision=False)
