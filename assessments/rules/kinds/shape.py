"""What every question kind states about itself."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of question.

    ``counts``: whether its answers enter the ledgers. A gather of a dangerous species is a miss in any kind
    that asks for a decision, whether it counts or not.
    """

    key: str
    counts: bool
    asks_name: bool
    asks_decision: bool
