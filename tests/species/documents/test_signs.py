"""Small drawings of states: every state that can be drawn has one, and no two of a character look alike."""

import pytest

from species.documents.signs.catalogue import DRAWN, drawing_of
from species.documents.signs.sketch import SIDE, Stroke
from species.rules.vocabulary import Trust
from tests.species.flora import flora

NOT_DRAWN = {"leaf_smell", "root_smell"}  # a smell cannot be drawn
CELLS = [(character, state) for character, (_hand, states) in DRAWN.items() for state in states]


def points(strokes: tuple[Stroke, ...]) -> list[float]:
    return [number for stroke in strokes for _letter, numbers in stroke.pieces for number in numbers]


def test_every_state_that_either_plant_of_a_pair_shows_is_drawn() -> None:
    table = flora().lookalikes
    pairs = {each.key: each for each in table.pairs}
    shown = {
        (score.character, score.state)
        for each in table.pair_characters
        if each.character and each.trust != Trust.NOT_TO_BE_RELIED_ON
        for score in table.scores
        if score.character == each.character and score.species in (pairs[each.pair].gathered, pairs[each.pair].mistaken)
    }
    assert len(shown) > 150
    assert {cell for cell in shown if not drawing_of(*cell) and cell[0] not in NOT_DRAWN} == set()


@pytest.mark.parametrize(("character", "state"), CELLS)
def test_a_drawing_stays_near_its_box_and_has_ink(character: str, state: str) -> None:
    strokes = drawing_of(character, state)
    assert any(stroke.width for stroke in strokes)
    assert min(points(strokes)) > -8
    assert max(points(strokes)) < SIDE + 8


@pytest.mark.parametrize("character", sorted(DRAWN))
def test_no_two_states_of_a_character_look_alike(character: str) -> None:
    states = DRAWN[character][1]
    assert len(
        {
            tuple(stroke.d for stroke in drawing_of(character, state))
            + tuple(stroke.fill for stroke in drawing_of(character, state))
            for state in states
        }
    ) == len(states)


def test_what_is_not_known_has_no_drawing() -> None:
    assert drawing_of("leaf_smell", "garlic") == ()
    assert drawing_of("leaf_margin", "no such state") == ()
