"""What can only be seen across rows and tables: things said twice, and things that contradict each other."""

from collections.abc import Hashable, Iterable

from species.rules.tables.pair_checks import PairChecks
from species.rules.tables.plant_checks import check_plants
from species.rules.tables.problems import Fault, Problems
from species.rules.tables.records import Flora, Teaching
from species.rules.tables.score_checks import check_scores


def check_consistency(flora: Flora, problems: Problems) -> None:
    """Note every contradiction within and between the tables."""
    _check_repeats(flora, problems)
    check_plants(flora.plants, problems)
    check_scores(flora.lookalikes, problems)
    PairChecks(flora.plants, flora.lookalikes, problems).run()
    _check_teaching(flora, problems)


def _check_repeats(flora: Flora, problems: Problems) -> None:
    plants, doubles, units = flora.plants, flora.lookalikes, flora.teaching
    keyed: list[tuple[str, str, Iterable[tuple[int, Hashable]]]] = [
        ("sources.csv", "key", ((each.row, each.key) for each in plants.sources)),
        ("species.csv", "key", ((each.row, each.key) for each in plants.species)),
        ("species.csv", "name", ((each.row, each.name) for each in plants.species)),
        ("showing.csv", "stage", ((each.row, (each.species, each.stage)) for each in plants.showings)),
        ("parts_used.csv", "part", ((each.row, (each.species, each.part)) for each in plants.parts)),
        ("hazards.csv", "species", ((each.row, each.species) for each in plants.hazards)),
        ("characters.csv", "key", ((each.row, each.key) for each in doubles.characters)),
        ("states.csv", "key", ((each.row, (each.character, each.key)) for each in doubles.states)),
        ("pairs.csv", "key", ((each.row, each.key) for each in doubles.pairs)),
        ("pairs.csv", "mistaken", ((each.row, (each.gathered, each.mistaken)) for each in doubles.pairs)),
        (
            "pair_stages.csv", "pair",
            ((each.row, (each.pair, each.gathered_stage, each.mistaken_stage))
             for each in doubles.combinations),
        ),
        ("modules.csv", "key", ((each.row, each.key) for each in units.modules)),
        ("module_species.csv", "species", ((each.row, (each.module, each.member)) for each in units.species)),
        ("module_pairs.csv", "pair", ((each.row, (each.module, each.member)) for each in units.pairs)),
    ]  # fmt: skip
    for file, column, keys in keyed:
        _check_once(file, column, keys, problems)


def _check_once(file: str, column: str, keys: Iterable[tuple[int, Hashable]], problems: Problems) -> None:
    first_row: dict[Hashable, int] = {}
    for row, key in keys:
        words = " ".join(map(str, key)) if isinstance(key, tuple) else str(key)
        if key in first_row and words.strip():
            problems.add(file, row, column, Fault.TWICE, value=words, first=f"{file}, row {first_row[key]}")
        first_row.setdefault(key, row)


def _check_teaching(flora: Flora, problems: Problems) -> None:
    taught = _members(flora.teaching)
    pairs = {each.key: each for each in flora.lookalikes.pairs}
    known = {each.key for each in flora.plants.species}
    for each in flora.teaching.pairs:
        pair = pairs.get(each.member)
        sides = (pair.gathered, pair.mistaken) if pair else ()
        for side in sides:
            if side in known and side not in taught.get(each.module, set()):
                problems.add(
                    "module_pairs.csv", each.row, "pair", Fault.SIDE_NOT_TAUGHT,
                    pair=each.member, species=side, module=each.module,
                )  # fmt: skip


def _members(teaching: Teaching) -> dict[str, set[str]]:
    taught: dict[str, set[str]] = {}
    for each in teaching.species:
        taught.setdefault(each.module, set()).add(each.member)
    return taught
