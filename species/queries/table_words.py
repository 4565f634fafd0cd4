"""What a cell of the state table says, in words."""

from collections.abc import Iterable, Mapping

from django.utils.translation import gettext as _

from species.models.flora import STAGE_WORDS
from species.models.pairs import FREQUENCY_WORDS
from species.rules.separation import Score
from species.rules.vocabulary import Stage

STAGES = dict(STAGE_WORDS)
FREQUENCIES = dict(FREQUENCY_WORDS)


def words_of(scores: Iterable[Score], texts: Mapping[str, str]) -> str:
    """The lines in words; `texts` holds what each state is called. "not known" where there is no line."""
    said = [_line(each, texts.get(each.state, each.state)) for each in scores]
    return "; ".join(said) or _("not known")


def _line(score: Score, text: str) -> str:
    words = _("{often} {state}").format(state=text, often=FREQUENCIES[score.frequency.value])
    if not score.stages:
        return words
    return _("{line}, at {stages}").format(line=words, stages=stage_words(score.stages))


def stage_words(stages: Iterable[Stage]) -> str:
    """Stages in the order of a life, in words."""
    found = frozenset(stages)
    return ", ".join(str(STAGES[stage.value]) for stage in Stage if stage in found)
