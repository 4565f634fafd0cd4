"""Tap the deciding feature on the photo. It teaches; it is no evidence of what somebody would gather."""

from .shape import Kind

KIND = Kind(key="point_at_it", counts=False, asks_name=False, asks_decision=False)
