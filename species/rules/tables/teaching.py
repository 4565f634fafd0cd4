"""The tables of modules: what is taught together, in which order."""

from collections.abc import Collection

from species.rules.tables.cells import Cells, Tables
from species.rules.tables.records import ModuleMemberRecord, ModuleRecord, Teaching

Keys = Collection[str]


def read_teaching(tables: Tables, species: Keys, pairs: Keys) -> Teaching:
    """All tables of modules, given the keys of species and of pairs."""
    modules = [_module(cells) for cells in tables.rows("modules.csv")]
    keys = {each.key for each in modules}
    return Teaching(
        modules=tuple(modules),
        species=tuple(_member(cells, keys, "species", species) for cells in tables.rows("module_species.csv")),
        pairs=tuple(_member(cells, keys, "pair", pairs) for cells in tables.rows("module_pairs.csv")),
    )


def _module(cells: Cells) -> ModuleRecord:
    return ModuleRecord(
        cells.number, cells.key(), cells.text("title", 120, required=True),
        cells.text("text", 12_000, required=True),
    )  # fmt: skip


def _member(cells: Cells, modules: Keys, what: str, known: Keys) -> ModuleMemberRecord:
    return ModuleMemberRecord(
        cells.number, cells.reference("module", "module", modules), cells.reference(what, what, known)
    )
