"""Contradictions in the tables of species."""

from species.rules.names import squeezed
from species.rules.tables.comparing import calendars
from species.rules.tables.problems import Fault, Problems
from species.rules.tables.records import Plants
from species.rules.vocabulary import Edibility

POISONOUS = frozenset({Edibility.POISONOUS, Edibility.DEADLY})


def check_plants(plants: Plants, problems: Problems) -> None:
    """Names of two species, calendars that show nothing, poisons that are gathered or have no hazard."""
    _check_names(plants, problems)
    _check_calendars(plants, problems)
    _check_hazards(plants, problems)
    _check_parts(plants, problems)


def _check_names(plants: Plants, problems: Problems) -> None:
    names = [("species.csv", each.row, each.key, each.name, "") for each in plants.species]
    names += [("synonyms.csv", each.row, each.species, each.name, "") for each in plants.synonyms]
    names += [("common_names.csv", each.row, each.species, each.name, each.language) for each in plants.common_names]
    owner: dict[str, tuple[str, str, int]] = {}
    first_in: dict[tuple[str, str], str] = {}
    for file, row, species, name, language in names:
        plain = squeezed(name)
        if not plain or not species:
            continue
        other, other_file, other_row = owner.setdefault(plain, (species, file, row))
        here = f"{file}, row {row}"
        if other != species:
            there = f"{other_file}, row {other_row}"
            problems.add(file, row, "name", Fault.NAME_OF_TWO, value=name, other=other, first=there)
        elif first_in.setdefault((plain, language), here) != here:
            problems.add(file, row, "name", Fault.TWICE, value=name, first=first_in[plain, language])


def _check_calendars(plants: Plants, problems: Problems) -> None:
    shown = calendars(plants)
    for each in plants.species:
        calendar = shown.get(each.key, {})
        if each.key and not calendar:
            problems.add("species.csv", each.row, "key", Fault.NOTHING_SHOWS, value=each.key)
        for stage in each.leafless_stages:
            if calendar and stage not in calendar:
                problems.add(
                    "species.csv", each.row, "leafless_stages", Fault.NEVER_SHOWS,
                    value=stage, species=each.key,
                )  # fmt: skip


def _check_hazards(plants: Plants, problems: Problems) -> None:
    warned_of = {each.species for each in plants.hazards}
    for each in plants.species:
        if each.edibility in POISONOUS and each.key not in warned_of:
            problems.add("species.csv", each.row, "edibility", Fault.NO_HAZARD, value=each.edibility, species=each.key)


def _check_parts(plants: Plants, problems: Problems) -> None:
    shown = calendars(plants)
    edibility = {each.key: each.edibility for each in plants.species}
    for each in plants.parts:
        eaten = edibility.get(each.species)
        if eaten in POISONOUS:
            problems.add(
                "parts_used.csv", each.row, "species", Fault.POISON_GATHERED,
                species=each.species, value=eaten,
            )  # fmt: skip
        for stage in each.stages:
            if each.species in shown and not set(each.months) & shown[each.species].get(stage, frozenset()):
                problems.add("parts_used.csv", each.row, "stages", Fault.NOT_GATHERED_THEN, value=stage)
