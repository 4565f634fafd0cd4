"""The characters of a pair as they are shown: what either plant shows, drawn and in words, and how far to trust it."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from species.documents.signs.catalogue import drawing_of
from species.documents.signs.sketch import Stroke
from species.models import CharacterState, PairCharacter
from species.models.flora import STAGE_WORDS
from species.models.pairs import FREQUENCY_WORDS
from species.queries.crops import Crop
from species.queries.months import months_in_words
from species.queries.pair_table import PairTable
from species.rules.separation import Combination, Relation, Score, states_at
from species.rules.vocabulary import Frequency, Stage

STAGES = dict(STAGE_WORDS)
OFTEN = dict(FREQUENCY_WORDS)
ORDER = list(Frequency)
SHOWN_STATES = 3
Sides = tuple[dict[str, Crop], dict[str, Crop]]
"""The crops of the gathered and of the mistaken plant in the chosen stage, by the key of the character."""


@dataclass(frozen=True)
class StateShown:
    """One state that a plant shows: its words, how often (empty where always), and the strokes of its drawing."""

    text: str
    often: str
    strokes: tuple[Stroke, ...]


@dataclass(frozen=True)
class Sign:
    """One character of the pair's own list: what either plant shows, how far to trust it, what the table says."""

    name: str
    gathered: str
    mistaken: str
    gathered_states: tuple[StateShown, ...]
    mistaken_states: tuple[StateShown, ...]
    gathered_crop: Crop | None
    mistaken_crop: Crop | None
    """The part of a teaching picture of this stage on which it can be seen, where somebody has marked one."""
    trust: str
    relation: str
    """separates, leans or nothing, by the state table at the chosen stages."""
    note: str
    one_way: str
    sense: str
    """How it is perceived, where looking is not enough: by hand lens, by smell, cut across."""
    needs_digging: bool
    is_visible: bool
    when: str
    """When it can be seen, in a sentence."""

    @property
    def is_drawn(self) -> bool:
        """Whether every state on both sides has a drawing, so that they can stand beside each other."""
        states = (*self.gathered_states, *self.mistaken_states)
        return bool(self.gathered_states and self.mistaken_states) and all(each.strokes for each in states)


def signs_of(table: PairTable, combination: Combination | None, crops: Sides) -> list[Sign]:
    """The pair's own list, in the order in which the table ranks its characters; others after them. One query."""
    ranks = table.ranks(combination) if combination else {}
    order = {key: place for place, key in enumerate(ranks)}
    rows = sorted(table.rows, key=lambda row: order.get(row.character.key if row.character else "", len(order)))
    texts = _state_texts(rows)
    return [_sign(row, table, ranks, combination, texts, crops) for row in rows]


def _state_texts(rows: Sequence[PairCharacter]) -> dict[tuple[str, str], str]:
    characters = {row.character_id for row in rows if row.character_id}
    found = CharacterState.objects.filter(character__in=characters).select_related("character")
    return {(each.character.key, each.key): each.text for each in found}


def _sign(
    row: PairCharacter,
    table: PairTable,
    ranks: dict[str, Relation],
    combination: Combination | None,
    texts: dict[tuple[str, str], str],
    crops: Sides,
) -> Sign:
    key = row.character.key if row.character else ""
    relation = ranks.get(key)
    listed = frozenset(Stage(stage) for stage in row.stages)
    stages = combination.stages if combination and (not listed or combination.stages <= listed) else listed
    sense = row.character.sense if row.character else ""
    return Sign(
        name=str(capfirst(row.name)),
        gathered=row.gathered_text,
        mistaken=row.mistaken_text,
        gathered_states=_shown(key, table.gathered.get(key, ()), stages, texts),
        mistaken_states=_shown(key, table.mistaken.get(key, ()), stages, texts),
        gathered_crop=crops[0].get(key),
        mistaken_crop=crops[1].get(key),
        trust=row.trust,
        relation=relation.value if relation in (Relation.SEPARATES, Relation.LEANS) else "",
        note=row.note,
        one_way=row.one_way,
        sense="" if sense in ("look", "count") else sense,
        needs_digging=row.needs_digging,
        is_visible=combination is not None and (not listed or combination.stages <= listed),
        when=_when(listed, table),
    )


def _shown(
    character: str, scores: Sequence[Score], stages: frozenset[Stage], texts: dict[tuple[str, str], str]
) -> tuple[StateShown, ...]:
    """The states that a plant shows at these stages, the most frequent first."""
    states = {state: min(found, key=ORDER.index) for state, found in states_at(scores, stages).items()}
    in_order = sorted(states.items(), key=lambda each: ORDER.index(each[1]))
    return tuple(
        StateShown(
            texts[character, state],
            "" if often == Frequency.ALWAYS else str(OFTEN[often.value]),
            drawing_of(character, state),
        )
        for state, often in in_order[:SHOWN_STATES]
    )


def _when(listed: frozenset[Stage], table: PairTable) -> str:
    words = [str(STAGES[stage.value]) for stage in Stage if stage in listed]
    if not words:
        return ""
    stages = _("%(these)s or %(last)s") % {"these": ", ".join(words[:-1]), "last": words[-1]} if words[1:] else words[0]
    months = table.months_of(listed)
    if not months:
        return _("Only with %(stages)s, when the two are not mistaken.") % {"stages": stages}
    return _("Only with %(stages)s: %(months)s.") % {"stages": stages, "months": months_in_words(months)}
