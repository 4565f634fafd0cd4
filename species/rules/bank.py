"""What stands in the way of a step with a specimen of the bank: the codes, worded elsewhere."""

from enum import StrEnum


class Why(StrEnum):
    """Why something cannot be done with a specimen."""

    IN_USE = "something points to it"
    WAS_PUBLIC = "it has been shown for teaching"
    NO_STAGE = "it has no stage"
    DAY_AHEAD = "its day lies ahead"
    RETIRED = "it was taken out of the bank"
    OTHER_USE = "the same plant on the same day serves for the other use"
