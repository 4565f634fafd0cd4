"""The tables of characters, their states and the lookalike pairs."""

from collections.abc import Collection, Mapping

from species.rules.tables.cells import Cells, Tables
from species.rules.tables.problems import Fault
from species.rules.tables.records import (
    CharacterRecord,
    CombinationRecord,
    Lookalikes,
    PairCharacterRecord,
    PairRecord,
    ScoreRecord,
    StateRecord,
)
from species.rules.vocabulary import Danger, Frequency, Stage, Trust

Keys = Collection[str]


def read_lookalikes(tables: Tables, species: Keys, sources: Keys) -> Lookalikes:
    """All tables of characters and pairs, given the keys of species and of sources."""
    characters = [_character(cells) for cells in tables.rows("characters.csv")]
    states_of: dict[str, set[str]] = {each.key: set() for each in characters}
    states = [_state(cells, states_of) for cells in tables.rows("states.csv")]
    for state in states:
        states_of.setdefault(state.character, set()).add(state.key)
    features = {each.key for each in characters}
    pairs = [_pair(cells, species, sources) for cells in tables.rows("pairs.csv")]
    keys = {each.key for each in pairs}
    return Lookalikes(
        characters=tuple(characters),
        states=tuple(states),
        scores=tuple(_score(cells, species, states_of) for cells in tables.rows("state_table.csv")),
        pairs=tuple(pairs),
        combinations=tuple(_combination(cells, keys) for cells in tables.rows("pair_stages.csv")),
        pair_characters=tuple(_pair_character(cells, keys, features) for cells in tables.rows("pair_characters.csv")),
    )


def _character(cells: Cells) -> CharacterRecord:
    return CharacterRecord(
        row=cells.number,
        key=cells.key(),
        name=cells.text("name", 120, required=True),
        organ=cells.text("organ", 60, required=True),
        sense=cells.text("sense", 30, required=True),
        stages=cells.choices("stages", Stage),
        reliability=cells.text("reliability", 200, required=True),
        why=cells.text("why"),
        needs_digging=cells.yes_or_no("needs_digging"),
    )


def _state(cells: Cells, characters: Keys) -> StateRecord:
    return StateRecord(
        cells.number, cells.reference("character", "character", characters), cells.key(),
        cells.text("text", 200, required=True),
    )  # fmt: skip


def _score(cells: Cells, species: Keys, states: Mapping[str, Keys]) -> ScoreRecord:
    """`states` holds the keys of the states of each character."""
    character = cells.reference("character", "character", states)
    return ScoreRecord(
        row=cells.number,
        species=cells.reference("species", "species", species),
        character=character,
        state=cells.reference("state", "state of this character", states.get(character, ())),
        frequency=cells.choice("frequency", Frequency),
        stages=cells.choices("stages", Stage, required=False),
    )


def _pair(cells: Cells, species: Keys, sources: Keys) -> PairRecord:
    return PairRecord(
        row=cells.number,
        key=cells.key(longest=80),
        gathered=cells.reference("gathered", "species", species),
        mistaken=cells.reference("mistaken", "species", species),
        danger=cells.choice("danger", Danger),
        core=cells.yes_or_no("core"),
        part=cells.text("part", 80),
        what_goes_wrong=cells.text("what_goes_wrong", required=True),
        where_together=cells.text("where_together", required=True),
        rule=cells.text("rule", required=True),
        third_species=cells.text("third_species"),
        sources=cells.references("sources", "source", sources),
    )


def _combination(cells: Cells, pairs: Keys) -> CombinationRecord:
    return CombinationRecord(
        cells.number, cells.reference("pair", "pair", pairs), cells.choice("gathered_stage", Stage),
        cells.choice("mistaken_stage", Stage),
    )  # fmt: skip


def _pair_character(cells: Cells, pairs: Keys, characters: Keys) -> PairCharacterRecord:
    trust = cells.choice("trust", Trust)
    warned_of = trust == Trust.NOT_TO_BE_RELIED_ON
    record = PairCharacterRecord(
        row=cells.number,
        pair=cells.reference("pair", "pair", pairs),
        character=cells.reference("character", "character", characters, required=False),
        label=cells.text("label", 80),
        trust=trust,
        stages=cells.choices("stages", Stage, required=not warned_of),
        gathered=cells.text("gathered", 300),
        mistaken=cells.text("mistaken", 300),
        one_way=cells.text("one_way", 200),
        needs_digging=cells.yes_or_no("needs_digging"),
        note=cells.text("note", required=warned_of),
    )
    if bool(record.character) == bool(record.label):
        cells.fault("label", Fault.LABEL_OR_CHARACTER)
    if not warned_of and not (record.gathered and record.mistaken):
        cells.fault("gathered" if not record.gathered else "mistaken", Fault.SIDE_MISSING)
    return record
