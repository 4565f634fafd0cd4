"""The fixed tables between the words of the school and those of the vocabularies, read both ways."""

import re

from species.rules.vocabulary import Settlement, Stage

LIFE_STAGES = {
    Stage.SEEDLING: "seedling",
    Stage.ROSETTE: "rosette",
    Stage.LEAFY: "leafy stem",
    Stage.DORMANT: "dormant",
}
REPRODUCTIVE_CONDITIONS = {Stage.FLOWER: "flower", Stage.FRUIT: "fruit"}

VERIFICATION = {
    Settlement.UNDETERMINED: "not determined",
    Settlement.SINGLE: "determined by one person",
    Settlement.CONFIRMED: "confirmed by a second person",
    Settlement.DISPUTED: "disputed",
}

WHOLE_PLANT, UNSPECIFIED = "entireOrganism", "unspecifiedPart"
SUBJECT_PARTS = (
    WHOLE_PLANT, "stem", "leaf", "inflorescence", "flower", "fruit", "seed", "bud", "bark", "twig", UNSPECIFIED,
)  # fmt: skip
_WORDS_FOR_PARTS = {"whole plant": WHOLE_PLANT, "plant": WHOLE_PLANT, "habit": WHOLE_PLANT, "": ""}

BASES_OF_RECORD = ("HumanObservation", "MachineObservation", "PreservedSpecimen")
"""Those of Darwin Core's classes that a photographed plant can be."""

KINGDOM, CODE, UNNAMED_PLANT = "Plantae", "ICN", "Plantae"
"""A specimen that nobody named, or that people disagree about, is a plant."""

ACCEPTED, SYNONYM, WIDER_NAME = "accepted", "synonym", "proParteSynonym"
"""The last: a name that covers the species and others, as an aggregate does."""

DESCRIPTION_TYPES = {
    "life": "growth",
    "habitat": "habitat",
    "status": "distribution",
    "legal": "legislation",
    "note": "general",
    "hazard_toxin": "toxin",
    "hazard_parts": "poisonous parts",
    "hazard_signs": "signs of poisoning",
    "hazard_onset": "onset of poisoning",
    "hazard_severity": "severity of poisoning",
    "hazard_uncertain": "uncertain about the poison",
}
USE, PHENOLOGY = "use", "phenology"
TEXT_LANGUAGE, METADATA_LANGUAGE = "en", "eng"

_LICENCE = re.compile(r"CC[ -](BY(?:[ -]NC)?(?:[ -](?:SA|ND))?)[ -]?([1-4]\.[0-9])?$", re.IGNORECASE)
_ZERO = re.compile(r"(?:CC[ -]?0|CC[ -]zero|public domain dedication)(?: 1\.0)?$", re.IGNORECASE)
_ADDRESS = re.compile(r"https?://(?:www\.)?creativecommons\.org/(?:licenses|publicdomain)/\S+$", re.IGNORECASE)


def part_of_subject(part: str) -> str:
    """The word of the vocabulary for a part as people write it; unspecified where it has none, as for a root."""
    word = " ".join(part.casefold().split())
    if word in _WORDS_FOR_PARTS:
        return _WORDS_FOR_PARTS[word]
    singular = {each: each for each in SUBJECT_PARTS} | {f"{each}s": each for each in SUBJECT_PARTS}
    return singular.get(word) or {"leaves": "leaf"}.get(word, UNSPECIFIED)


def licence_address(licence: str) -> str:
    """The address of an open licence, or an empty text: then the picture may not be passed on."""
    text = " ".join(licence.split())
    if _ADDRESS.match(text):
        return text
    if _ZERO.match(text):
        return "https://creativecommons.org/publicdomain/zero/1.0/"
    found = _LICENCE.match(text)
    if found is None:
        return ""
    kind = found[1].casefold().replace(" ", "-")
    return f"https://creativecommons.org/licenses/{kind}/{found[2] or '4.0'}/"
