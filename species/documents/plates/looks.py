"""The stems, leaf stalks and sheaths that most of the family share, from what the species decides."""

from dataclasses import replace

from species.documents.plates.closeup import StalkLook
from species.documents.plates.individual import Individual, mix
from species.documents.plates.tube import FLUSH, SheathLook, StemLook
from species.documents.plates.unreliable import bloom_of, flush_of


def ridged_stem(individual: Individual, hairs: str, inside: str, ridges: int) -> StemLook:
    """A ridged stem, plain or evenly flushed."""
    flush = flush_of(individual)
    return StemLook(
        hairs,
        "flushed" if flush else "plain",
        "ridged",
        inside,
        individual.green_stem,
        flush=flush,
        ridges=ridges,
        bloom=bloom_of(individual),
    )


def leaf_stalk(individual: Individual, stem: StemLook, hairs: str, grooved: bool | None = None) -> StalkLook:
    """A ridged leaf stalk that may share the stem's flush; grooved or round by chance unless the species says."""
    flush = stem.flush * 0.8 if stem.flush and individual.chance(0.6) else 0.0
    deep = individual.chance(0.5) if grooved is None else grooved
    look = replace(
        stem,
        hairs=hairs,
        marks="flushed" if flush else "plain",
        flush=flush,
        ridges=9,
        bloom=0.0,
        section="ridged",
        blotches=0.0,
    )
    return StalkLook(look, "grooved" if deep else "round")


def plain_sheath(individual: Individual, stalk: StalkLook, swell: float) -> SheathLook:
    """A green sheath, flushed when its stalk is."""
    return SheathLook(mix(individual.green_stem, FLUSH, 0.5 * stalk.look.flush), swell)
