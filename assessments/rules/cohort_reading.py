"""How one answer is read where the answers of many people are looked at together: by its name, and by its claim.

What an answer counts for is decided elsewhere (``treatment``), from everything that a person ever answered. Here
an answer stands for itself, so that a map or a table of a class can be drawn from the tests of that class.
"""

from collections.abc import Iterable

from .confusion_map import ANOTHER, NOTHING, Said
from .evidence import AnswerFacts, Decision
from .flags import KEY, LEFT, UNNAMED
from .kinds.catalogue import counts_as_evidence
from .names import NameBook, NameKind, plain
from .standard import Side, StandardFacts
from .treatment import Effect, asked_of, judge_dangerous, judge_edible, set_aside


def answers_to_look_at(answers: Iterable[AnswerFacts], standard: StandardFacts) -> tuple[AnswerFacts, ...]:
    """Those that were given and are evidence today, in kinds of question that ask for a name and a decision."""
    return tuple(
        answer
        for answer in answers
        if answer.decision is not None and counts_as_evidence(answer.kind) and set_aside(answer, standard) is None
    )


def as_said(answer: AnswerFacts, names: NameBook) -> Said:
    """The cell of the map in which the answer stands; a synonym or an aggregate stands with the right name."""
    shown = answer.specimen.species or ""
    return Said(shown, _named(answer, names), answer.decision is Decision.GATHER)


def _named(answer: AnswerFacts, names: NameBook) -> str:
    kind = names.kind(answer)
    if kind is NameKind.RIGHT:
        return answer.specimen.species or ""
    if kind is NameKind.NOTHING:
        return NOTHING
    species = names.read(answer).species
    return next(iter(species)) if len(species) == 1 else ANOTHER


def as_answer_to_item(answer: AnswerFacts, names: NameBook) -> str:
    """What the flags read: as keyed, left alone, without a name of a plant, or the other plant that was named.

    Two other names are the same only if they are the same plant, or the same words.
    """
    if answer.decision in (None, Decision.LEAVE):
        return LEFT
    kind = names.kind(answer)
    if kind is NameKind.RIGHT:
        return KEY
    if kind in (NameKind.NOTHING, NameKind.GENUS_ONLY):
        return UNNAMED
    species = names.read(answer).species
    return next(iter(species)) if len(species) == 1 else f"words {plain(answer.said)}"


def claim_was_right(answer: AnswerFacts, standard: StandardFacts, names: NameBook) -> bool | None:
    """Whether what somebody said they were sure of is right: as the rule judges the answer by itself, and by its
    name for a plant that the standard does not ask for. None where they left it, and so claimed nothing, or where
    the rule takes no side.
    """
    species = answer.specimen.species
    if species is None or answer.decision in (None, Decision.LEAVE):
        return None
    if species in standard.species(Side.DANGEROUS):
        if answer.decision is Decision.GATHER:
            return False
        effect, _reason = judge_dangerous(answer, asked_of(species, Side.DANGEROUS, standard), names)
    elif species in standard.species(Side.EDIBLE):
        effect, _reason = judge_edible(answer, asked_of(species, Side.EDIBLE, standard), names)
    else:
        return names.kind(answer) is NameKind.RIGHT
    return None if effect is Effect.NEUTRAL else effect is Effect.CLEAN
