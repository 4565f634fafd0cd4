"""How large the plants on a plate are: one distribution for all species that are mistaken for each other.

Size tells nothing (or, for the berries, only the berry itself does), so the scale bar must not tell either: for one
seed and stage it is the same on both sides of every pair. A species module draws in its own units; here it is
settled how many centimetres the width of the page stands for.
"""

from random import Random

from species.documents.plates.individual import Individual

Range = tuple[float, float]

# Keys of species that stand together, and centimetres across the page by stage; "grown" where a stage is not named.
COMPANIES: tuple[tuple[frozenset[str], dict[str, Range]], ...] = (
    (
        frozenset(
            {
                "aegopodium-podagraria",
                "allium-ursinum",
                "arum-maculatum",
                "colchicum-autumnale",
                "convallaria-majalis",
                "mercurialis-perennis",
                "rumex-acetosa",
            }
        ),
        {"seedling": (7, 12), "dormant": (8, 12), "grown": (24, 36)},
    ),
    (
        frozenset(
            {
                "achillea-millefolium",
                "anthriscus-sylvestris",
                "conium-maculatum",
                "conopodium-majus",
                "daucus-carota",
                "helosciadium-nodiflorum",
                "oenanthe-crocata",
                "pastinaca-sativa",
                "smyrnium-olusatrum",
            }
        ),
        {"seedling": (7, 12), "dormant": (28, 46), "rosette": (26, 46), "grown": (55, 90)},
    ),
    (
        frozenset({"digitalis-purpurea", "symphytum-officinale"}),
        {"seedling": (6, 10), "dormant": (24, 40), "rosette": (30, 44), "grown": (40, 58)},
    ),
    (
        frozenset({"atropa-bella-donna", "vaccinium-myrtillus"}),
        {"seedling": (6, 10), "dormant": (28, 40), "leafy": (32, 42), "grown": (15, 19)},
    ),
    (
        frozenset({"lysimachia-arvensis", "stellaria-media"}),
        {"seedling": (4, 7), "grown": (13, 20)},
    ),
    (
        frozenset({"hypochaeris-radicata", "taraxacum-officinale-agg"}),
        {"seedling": (5, 9), "rosette": (22, 34), "grown": (26, 40)},
    ),
)
# A stage in which a species is mistaken for nothing, and whose parts are much smaller than those of its company.
OWN: dict[tuple[str, str], Range] = {("conopodium-majus", "dormant"): (14, 22)}
YOUNG = 0.7


def page_cm(individual: Individual) -> float:
    """Centimetres of plant across the width of the page, from company, stage and seed; a young plant is smaller."""
    for number, (company, ranges) in enumerate(COMPANIES):
        if individual.species in company:
            own = OWN.get((individual.species, individual.stage))
            low, high = own or ranges.get(individual.stage, ranges["grown"])
            chosen = Random(f"scale/{number}/{individual.stage}/{individual.seed}").uniform(low, high)
            return chosen * (YOUNG if individual.form == "young" else 1.0)
    raise LookupError(f"{individual.species} stands in no company, so the size of its plate is not settled")
