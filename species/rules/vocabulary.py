"""The closed lists of words that the botany is written in.

Values are what stands in the data files and in the database; the words on pages come from translations.
"""

from enum import StrEnum


class Edibility(StrEnum):
    """What the school says about eating a species."""

    EDIBLE = "edible"
    WITH_PRECAUTIONS = "edible with precautions"
    NOT_EATEN = "not eaten"
    POISONOUS = "poisonous"
    DEADLY = "deadly"


class Stage(StrEnum):
    """What of a plant is showing, in the order in which it shows through a life."""

    SEEDLING = "seedling"
    ROSETTE = "rosette"
    LEAFY = "leafy"
    FLOWER = "flower"
    FRUIT = "fruit"
    DORMANT = "dormant"


class Danger(StrEnum):
    """What happens to somebody who eats the mistaken species of a pair."""

    DANGEROUS = "dangerous"
    UNPLEASANT = "unpleasant"
    HARMLESS = "harmless"


class Frequency(StrEnum):
    """How often a species shows a state; a state that is not listed is never shown."""

    ALWAYS = "always"
    USUALLY = "usually"
    SOMETIMES = "sometimes"


class Trust(StrEnum):
    """How far a character may be relied on to tell a pair apart."""

    DECISIVE = "decisive"
    SUPPORTING = "supporting"
    NOT_TO_BE_RELIED_ON = "not to be relied on"


class Use(StrEnum):
    """What a specimen of the bank is for; one specimen never serves both."""

    TEACHING = "teaching"
    ASSESSMENT = "assessment"


class Settlement(StrEnum):
    """How well the name of a specimen is established."""

    UNDETERMINED = "undetermined"
    SINGLE = "single"
    CONFIRMED = "confirmed"
    DISPUTED = "disputed"
