"""What is stored of the botany and of the photo bank."""

from .bank import Determination, DeterminerLink, Individual, Locality, Specimen
from .exchange import ArchiveRun
from .flora import CommonName, PartUsed, Showing, Species, Synonym
from .pairs import Character, CharacterState, Pair, PairCharacter, StateRecord
from .photos import Photo, PhotoRendition
from .regions import Region
from .second_looks import SecondLook
from .table import TableEdit
from .teaching import Module, ModulePair, ModuleSpecies

__all__ = [
    "ArchiveRun",
    "Character",
    "CharacterState",
    "CommonName",
    "Determination",
    "DeterminerLink",
    "Individual",
    "Locality",
    "Module",
    "ModulePair",
    "ModuleSpecies",
    "Pair",
    "PairCharacter",
    "PartUsed",
    "Photo",
    "PhotoRendition",
    "Region",
    "SecondLook",
    "Showing",
    "Species",
    "Specimen",
    "StateRecord",
    "Synonym",
    "TableEdit",
]
