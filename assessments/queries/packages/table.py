"""What the format of a package cannot say, as a table beside it: a row a question, found by its identifier.

The table holds the right answers and the names of the plants; it never lies in the package itself.
"""

from assessments.documents.tables import written_table
from assessments.models.papers import CONFIDENCE_WORDS
from assessments.queries.sentences.kinds import kind_word
from assessments.queries.sentences.words import stage_word
from species.models.bank import USE_WORDS
from species.rules.vocabulary import Use

from .bank import Packaged
from .shape import Asked, BankPlant

COLUMNS = (
    "item",
    "kind",
    "use",
    "pair",
    "right_answer",
    "harm_if_wrong",
    "confidence_asked",
    "specimen",
    "species",
    "stage",
    "determined_by",
    "determined_on",
    "credit",
)
"""The names stay as they are in every language, for programs that read the table."""
BETWEEN = " | "
"""Stands between what is said of two plants of one question."""


def package_table(packaged: Packaged) -> bytes:
    """The table of a package."""
    return written_table(COLUMNS, (_row(each, packaged) for each in packaged.questions))


def _row(asked: Asked, packaged: Packaged) -> list[object]:
    plants = asked.plants
    confidences = "; ".join(str(word) for _value, word in CONFIDENCE_WORDS)
    return [
        asked.item.identifier,
        kind_word(asked.kind),
        BETWEEN.join(dict.fromkeys(_use_word(each) for each in plants)),
        asked.pair,
        asked.item.right,
        asked.harm,
        confidences if asked.asks_how_sure else "",
        BETWEEN.join(each.key for each in plants),
        BETWEEN.join(packaged.plants[each.species].name for each in plants),
        BETWEEN.join(stage_word(each.stage) for each in plants),
        BETWEEN.join(str(each.named_by) for each in plants),
        BETWEEN.join(each.named_on.isoformat() if each.named_on else "" for each in plants),
        BETWEEN.join(asked.credits),
    ]


def _use_word(plant: BankPlant) -> str:
    words = dict(USE_WORDS)
    return str(words[Use.ASSESSMENT.value if plant.is_for_tests else Use.TEACHING.value])
