"""Which plates exist, and the one door to them: `draw_plate`."""

from dataclasses import dataclass
from types import ModuleType

from species.documents.plates import (
    achillea_millefolium,
    aegopodium_podagraria,
    allium_ursinum,
    anthriscus_sylvestris,
    arum_maculatum,
    atropa_bella_donna,
    colchicum_autumnale,
    conium_maculatum,
    conopodium_majus,
    convallaria_majalis,
    daucus_carota,
    digitalis_purpurea,
    helosciadium_nodiflorum,
    hypochaeris_radicata,
    lysimachia_arvensis,
    mercurialis_perennis,
    oenanthe_crocata,
    pastinaca_sativa,
    rumex_acetosa,
    smyrnium_olusatrum,
    stellaria_media,
    symphytum_officinale,
    taraxacum_officinale,
    vaccinium_myrtillus,
)
from species.documents.plates.frame import compose, regions
from species.documents.plates.individual import Individual
from species.documents.plates.paper import HEIGHT, WIDTH
from species.documents.plates.regions import Region

# One line per species: the key of the species and the module that draws it.
PLATES: dict[str, ModuleType] = {
    "achillea-millefolium": achillea_millefolium,
    "aegopodium-podagraria": aegopodium_podagraria,
    "allium-ursinum": allium_ursinum,
    "anthriscus-sylvestris": anthriscus_sylvestris,
    "arum-maculatum": arum_maculatum,
    "atropa-bella-donna": atropa_bella_donna,
    "colchicum-autumnale": colchicum_autumnale,
    "conium-maculatum": conium_maculatum,
    "conopodium-majus": conopodium_majus,
    "convallaria-majalis": convallaria_majalis,
    "daucus-carota": daucus_carota,
    "digitalis-purpurea": digitalis_purpurea,
    "helosciadium-nodiflorum": helosciadium_nodiflorum,
    "hypochaeris-radicata": hypochaeris_radicata,
    "lysimachia-arvensis": lysimachia_arvensis,
    "mercurialis-perennis": mercurialis_perennis,
    "oenanthe-crocata": oenanthe_crocata,
    "pastinaca-sativa": pastinaca_sativa,
    "rumex-acetosa": rumex_acetosa,
    "smyrnium-olusatrum": smyrnium_olusatrum,
    "stellaria-media": stellaria_media,
    "symphytum-officinale": symphytum_officinale,
    "taraxacum-officinale-agg": taraxacum_officinale,
    "vaccinium-myrtillus": vaccinium_myrtillus,
}

STAGE_WORDS = {
    "seedling": "as a seedling",
    "rosette": "with its leaves from the ground",
    "leafy": "in leaf",
    "flower": "in flower",
    "fruit": "in fruit",
    "dormant": "in its resting season",
}
COUNTS = ("no", "one", "two", "three", "four")


@dataclass(frozen=True)
class Plate:
    """A finished drawing.

    `alt_blind` says only what every plate of that stage shows, so it can stand in a question; `alt_full` names
    the plant and what was drawn. `characters` maps character ids to the state drawn in this individual, `regions`
    the same ids to the boxes where they can be seen (fractions of width and height, the enlarged detail first).
    """

    svg: str
    width: int
    height: int
    alt_blind: str
    alt_full: str
    characters: dict[str, str]
    regions: dict[str, tuple[Region, ...]]


class NoSuchPlate(LookupError):
    """Raised when a species, stage or form has no drawing; the message says which."""


def draw_plate(species_key: str, stage: str, seed: int, form: str = "typical") -> Plate:
    """Draw one individual. The same four arguments always give the same bytes.

    Raises NoSuchPlate for a species, stage or form that is not drawn.
    """
    if stage not in stages_available(species_key):
        raise NoSuchPlate(f"{species_key} is not drawn in the stage {stage!r}")
    if form not in forms_available(species_key):
        raise NoSuchPlate(f"{species_key} is not drawn in the form {form!r}")
    module = PLATES[species_key]
    individual = Individual(seed, species_key, stage, form)
    drawing = module.draw(individual)
    details = f"{COUNTS[len(drawing.insets)]} enlarged details"
    blind = f"Drawing of one plant {STAGE_WORDS[stage]}, with {details} and a scale bar."
    seen = "; ".join(drawing.features)
    full = f"Drawing of {module.NAME} {STAGE_WORDS[stage]}{': ' + seen if seen else ''}."
    svg = compose(individual, drawing)
    return Plate(svg, WIDTH, HEIGHT, blind, full, dict(drawing.characters), regions(individual, drawing))


def stages_available(species_key: str) -> tuple[str, ...]:
    """Stages that are drawn for a species. Raises NoSuchPlate when the species has no plate."""
    return tuple(_module(species_key).STAGES)


def forms_available(species_key: str) -> tuple[str, ...]:
    """Forms that are drawn for a species, "typical" first. Raises NoSuchPlate likewise."""
    return tuple(_module(species_key).FORMS)


def _module(species_key: str) -> ModuleType:
    try:
        return PLATES[species_key]
    except KeyError:
        raise NoSuchPlate(f"{species_key} has no plate") from None
