"""Contradictions in the tables of pairs."""

from species.rules.stages import ListedCharacter
from species.rules.table_changes import too_sure
from species.rules.tables.comparing import (
    calendars,
    combinations_by_pair,
    scores_by_species,
    table_characters,
)
from species.rules.tables.problems import Fault, Problems
from species.rules.tables.records import Lookalikes, PairCharacterRecord, Plants
from species.rules.vocabulary import Danger, Edibility, Stage, Trust


class PairChecks:
    """Pairs against their species, their stages against the calendar, their judgements against the table."""

    def __init__(self, plants: Plants, lookalikes: Lookalikes, problems: Problems) -> None:
        self.lookalikes = lookalikes
        self.problems = problems
        self.edibility = {each.key: each.edibility for each in plants.species}
        self.calendars = calendars(plants)
        self.pairs = {each.key: each for each in lookalikes.pairs}
        self.characters = table_characters(lookalikes)
        self.scores = scores_by_species(lookalikes)
        self.combinations = combinations_by_pair(lookalikes)

    def run(self) -> None:
        self._check_pairs()
        self._check_stages()
        self._check_repeated_characters()
        for listed in self.lookalikes.pair_characters:
            self._check_character_stages(listed)
            self._check_decisive(listed)

    def _check_pairs(self) -> None:
        for each in self.lookalikes.pairs:

            def fault(column: str, what: Fault, row: int = each.row, **values: object) -> None:
                self.problems.add("pairs.csv", row, column, what, **values)

            dangerous = each.danger == Danger.DANGEROUS
            if each.gathered and each.gathered == each.mistaken:
                fault("mistaken", Fault.SAME_SPECIES, value=each.mistaken)
            if self.edibility.get(each.mistaken) == Edibility.DEADLY and not dangerous:
                fault("danger", Fault.TOO_MILD, value=each.danger, species=each.mistaken)
            if each.core and not dangerous:
                fault("core", Fault.CORE_IS_SAFE, value=each.danger)
            if each.key and each.key not in self.combinations:
                fault("key", Fault.NO_COMBINATION, value=each.key)

    def _check_stages(self) -> None:
        for each in self.lookalikes.combinations:
            pair = self.pairs.get(each.pair)
            if pair is None or not {pair.gathered, pair.mistaken} <= self.calendars.keys():
                continue
            months = []
            for column, species, stage in (
                ("gathered_stage", pair.gathered, each.gathered_stage),
                ("mistaken_stage", pair.mistaken, each.mistaken_stage),
            ):
                months.append(self.calendars[species].get(stage, frozenset()))
                if not months[-1]:
                    self.problems.add(
                        "pair_stages.csv", each.row, column, Fault.NEVER_SHOWS, value=stage, species=species
                    )
            if all(months) and not months[0] & months[1]:
                self.problems.add("pair_stages.csv", each.row, "mistaken_stage", Fault.NEVER_TOGETHER, value=each.pair)

    def _check_repeated_characters(self) -> None:
        first_row: dict[tuple[str, str, bool], int] = {}
        for each in self.lookalikes.pair_characters:
            name = each.character or each.label
            what = (each.pair, name, each.trust == Trust.NOT_TO_BE_RELIED_ON)
            first = first_row.setdefault(what, each.row)
            if first != each.row:
                where = f"pair_characters.csv, row {first}"
                self._fault(each, "character", Fault.TWICE, value=f"{each.pair} {name}", first=where)

    def _check_character_stages(self, listed: PairCharacterRecord) -> None:
        character = self.characters.get(listed.character)
        visible = character.stages if character else frozenset(Stage)
        combinations = self.combinations.get(listed.pair, [])
        confused = {stage for combination in combinations for stage in combination.stages}
        for stage in listed.stages:
            if stage not in visible:
                self._fault(listed, "stages", Fault.OUTSIDE_CHARACTER, value=stage, character=listed.character)
            elif confused and stage not in confused:
                self._fault(listed, "stages", Fault.STAGE_NOT_CONFUSED, value=stage, pair=listed.pair)

    def _check_decisive(self, listed: PairCharacterRecord) -> None:
        """A judgement may be more cautious than the table, never less."""
        pair = self.pairs.get(listed.pair)
        if pair is None or not {pair.gathered, pair.mistaken} <= self.edibility.keys():
            return  # a problem already, of the table of pairs
        entry = ListedCharacter(listed.character, frozenset(listed.stages), listed.trust, listed.needs_digging)
        for _each, combination, said in too_sure(
            [entry],
            self.combinations.get(listed.pair, []),
            self.characters,
            self.scores.get(pair.gathered, {}),
            self.scores.get(pair.mistaken, {}),
        ):
            self._fault(
                listed, "trust", Fault.TOO_SURE, value=said, character=listed.character,
                gathered=combination.gathered, mistaken=combination.mistaken,
            )  # fmt: skip

    def _fault(self, listed: PairCharacterRecord, column: str, fault: Fault, **values: object) -> None:
        self.problems.add("pair_characters.csv", listed.row, column, fault, **values)
