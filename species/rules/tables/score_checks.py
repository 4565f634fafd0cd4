"""Contradictions in the state table."""

from species.rules.tables.problems import Fault, Problems
from species.rules.tables.records import Lookalikes, ScoreRecord
from species.rules.vocabulary import Frequency, Stage

FILE = "state_table.csv"


def check_scores(lookalikes: Lookalikes, problems: Problems) -> None:
    """States at stages where the character cannot be seen, said twice, or beside one that is always there."""
    stages_of = {each.key: each.stages for each in lookalikes.characters}
    seen: dict[tuple[str, str, Stage], list[ScoreRecord]] = {}
    for each in lookalikes.scores:
        visible = stages_of.get(each.character, ())
        for stage in each.stages:
            if visible and stage not in visible:
                problems.add(FILE, each.row, "stages", Fault.OUTSIDE_CHARACTER, value=stage, character=each.character)
        for stage in each.stages or visible:
            beside = seen.setdefault((each.species, each.character, stage), [])
            clash = _clash(each, beside)
            if clash:
                column, fault, row = clash
                problems.add(FILE, each.row, column, fault, value=each.state, first=f"{FILE}, row {row}")
                break
            beside.append(each)


def _clash(score: ScoreRecord, beside: list[ScoreRecord]) -> tuple[str, Fault, int] | None:
    for other in beside:
        if other.state == score.state:
            return "state", Fault.TWICE, other.row
        if Frequency.ALWAYS in (other.frequency, score.frequency):
            return "frequency", Fault.ALWAYS_AND_MORE, other.row
    return None
