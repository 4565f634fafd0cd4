"""A small blueprint, what could be photographed for it, and banks for the tests of the wanted list."""

from datetime import date

from assessments.rules.blueprint import Blueprint, Candidate, pair_quotas, stage_quotas
from assessments.rules.standard import PairFacts, Side
from assessments.rules.wanted import Kind, Named, Naming

D, E = Side.DANGEROUS, Side.EDIBLE
STAGES = ("rosette", "flower")
PAIRS = (
    PairFacts("parsley", "cow-parsley", "hemlock", required_stages=STAGES),
    PairFacts("ramsons", "ramsons", "lily", required_stages=("flower",)),
)
SIDES = {"hemlock": D, "lily": D, "cow-parsley": E, "ramsons": E}
KINDS = [
    Kind("hemlock", "rosette", D, 0),
    Kind("hemlock", "flower", D, 3),
    Kind("lily", "flower", D, 2),
    Kind("cow-parsley", "rosette", E, 0),
    Kind("ramsons", "flower", E, 1),
]
PAPER = Blueprint(5, (*pair_quotas(PAIRS, 1, 1), *stage_quotas({("hemlock", "rosette"): 1})), per_species=3)


def specimen(key, species="hemlock", stage="rosette", naming=Naming.CONFIRMED, **more):
    facts = {"individual": key, "locality": key, "day": date(2031, 4, 1), **more}
    return Named(Candidate(key=key, species=species, stage=stage, side=SIDES[species], **facts), naming)


def full_bank(of_each=8):
    return [specimen(f"{k.species}{k.stage}{n}", k.species, k.stage) for k in KINDS for n in range(of_each)]


def candidates_of(supply):
    return [each.specimen for each in supply if each.naming is Naming.CONFIRMED]
