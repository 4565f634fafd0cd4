"""Answers to two plants and their names, for the rules that look at many answers together."""

from datetime import UTC, date, datetime

from assessments.rules.evidence import AnswerFacts, Confidence, Decision, SpecimenFacts
from assessments.rules.names import NameBook, SpeciesNames
from assessments.rules.standard import WEIGHTS, PairFacts, SideBar, StandardFacts

GOOD, BAD = "bonus-goodleaf", "malus-badleaf"
BOOK = NameBook(
    [
        SpeciesNames(GOOD, "Bonus", "Bonus goodleaf", ("goodleaf",), ("Old goodleaf",)),
        SpeciesNames(BAD, "Malus", "Malus badleaf", ("badleaf",)),
    ]
)
STANDARD = StandardFacts(
    "test",
    "Test",
    1,
    SideBar.of("0.20", 10, "0.10"),
    SideBar.of("0.50", 5, "0.10"),
    WEIGHTS,
    3,
    2,
    24,
    pairs=(PairFacts("pair", GOOD, BAD),),
)
AT = datetime(2026, 5, 1, tzinfo=UTC)


def answer_to(
    shown: str, decision: Decision, *, said: str = "", named: str | None = None, specimen: str = "s"
) -> AnswerFacts:
    """One sure answer to a photograph."""
    facts = SpecimenFacts(specimen, specimen, shown, "rosette", specimen, date(2026, 4, 1))
    return AnswerFacts(facts, decision, AT, 1, AT, named_species=named, said=said, confidence=Confidence.SURE)
