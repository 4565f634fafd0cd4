"""What is it, would you gather it, how sure: the one kind that is evidence, on paper and in the field."""

from .shape import Kind

KIND = Kind(key="name_and_decide", counts=True, asks_name=True, asks_decision=True)
