"""What nobody should go by, from one distribution for all species: flush, bloom, whether it is dug up."""

from random import Random

import numpy as np

from species.documents.plates.individual import Individual

DUG_SHARE = {"rosette": 0.35, "leafy": 0.35, "flower": 0.25, "fruit": 0.15, "dormant": 1.0}


# Shown growing, as the plants are that they are mistaken for.
LEFT_IN_THE_GROUND = frozenset({"aegopodium-podagraria"})


def is_dug(individual: Individual) -> bool:
    """Whether the root is shown; by stage and seed alone, so that both sides of a pair agree."""
    if individual.form == "dug" or individual.stage == "dormant":
        return True
    if individual.species in LEFT_IN_THE_GROUND:
        return False
    return Random(f"dug/{individual.stage}/{individual.seed}").random() < DUG_SHARE[individual.stage]


def flush_of(individual: Individual) -> float:
    """Strength of an even purple flush, 0 for none; about three plants in ten have one."""
    if individual.form == "flushed" or individual.chance(0.28):
        return individual.between(0.75, 1.0)
    return 0.0


def bloom_of(individual: Individual) -> float:
    """Strength of a bluish bloom on the stem."""
    return individual.between(0.0, 0.35)


def stream(individual: Individual) -> np.random.RandomState:
    """A numeric random stream that hangs on the individual's own."""
    return np.random.RandomState(individual.rng.getrandbits(30))
