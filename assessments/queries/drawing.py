"""A whole paper for one person: the questions of its blueprint, and those of the other kinds among them."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from random import Random

from assessments.models import Paper
from assessments.rules.assembly import assemble
from assessments.rules.blueprint import Candidate
from assessments.rules.kinds.drawing import Botany, Drawn, KindShortage, draw_kinds, mixed_in
from assessments.rules.kinds.shape import Clue, Mark, PictureFacts
from assessments.rules.shortfall import Shortfall
from assessments.rules.standard import PairFacts
from species.models import PairCharacter, Photo
from species.queries.regions import regions_of
from species.rules.vocabulary import Stage, Trust

from .bank import Share, blueprint_of

NAME_AND_DECIDE = "name_and_decide"
LOOKING = ("look", "count")
"""A character can be asked of a picture when the sense it takes begins with one of these."""


@dataclass(frozen=True)
class Missing:
    """Why a paper cannot be drawn: its blueprint falls short, or there is too little for the other kinds."""

    shortfall: Shortfall | None = None
    kinds: tuple[KindShortage, ...] = ()


def draw_paper(paper: Paper, share: Share, pairs: Sequence[PairFacts], seed: int) -> tuple[Drawn, ...] | Missing:
    """The questions of one person in their order. The same share and seed give the same paper.

    Asks the database nothing where every question is to be named and decided.
    """
    assembled = assemble(share.candidates, blueprint_of(paper, pairs), seed, share.answered)
    if isinstance(assembled, Shortfall):
        return Missing(shortfall=assembled)
    questions = tuple(Drawn(NAME_AND_DECIDE, (each,)) for each in assembled.questions)
    if not paper.kinds:
        return questions
    taken = {each.individual for each in assembled.questions}
    left = [each for each in share.candidates if each.individual not in taken]
    chance = Random(f"{seed} kinds")
    more = draw_kinds(paper.kinds, left, botany_of(left, pairs), chance.getrandbits(63))
    found = tuple(each for each in more if isinstance(each, Drawn))
    if len(found) < len(more):
        return Missing(kinds=tuple(each for each in more if isinstance(each, KindShortage)))
    return mixed_in(questions, found, chance.getrandbits(63))


def botany_of(plants: Sequence[Candidate], pairs: Sequence[PairFacts]) -> Botany:
    """What can be asked about these plants as plants of these pairs; three queries, however many."""
    pictures = pictures_of_specimens([int(each.key) for each in plants])
    return Botany(
        tuple(pairs), clues_of([pair.key for pair in pairs]), {str(key): each for key, each in pictures.items()}
    )


def clues_of(pair_keys: Iterable[str]) -> dict[tuple[str, str], tuple[Clue, ...]]:
    """By pair and stage, the characters that a picture can show, as far as they can be trusted; one query."""
    rows = PairCharacter.objects.filter(pair__key__in=list(pair_keys), character__isnull=False, needs_digging=False)
    rows = rows.exclude(trust=Trust.NOT_TO_BE_RELIED_ON).select_related("pair", "character").order_by("pair", "order")
    found: dict[tuple[str, str], list[Clue]] = defaultdict(list)
    for row in rows:
        character = row.character
        if character is None or not character.sense.startswith(LOOKING):
            continue
        clue = Clue(
            character.key, character.name, row.gathered_text, row.mistaken_text, row.trust == Trust.DECISIVE.value
        )
        for stage in row.stages or [each.value for each in Stage]:
            found[row.pair.key, stage].append(clue)
    return {place: tuple(clues) for place, clues in found.items()}


def pictures_of_specimens(specimens: Sequence[int]) -> dict[int, tuple[PictureFacts, ...]]:
    """By specimen its pictures with what is marked on them; two queries."""
    photos = Photo.objects.filter(specimen__in=specimens).order_by("specimen", "order", "id")
    rows = list(photos.values_list("specimen_id", "pk", "width", "height"))
    regions = regions_of([pk for _specimen, pk, _width, _height in rows])
    found: dict[int, list[PictureFacts]] = defaultdict(list)
    for specimen, pk, width, height in rows:
        marks = tuple(Mark(region.character_key, region.frame) for region in regions[pk])
        found[specimen].append(PictureFacts(pk, width / height, marks))
    return {specimen: tuple(each) for specimen, each in found.items()}
