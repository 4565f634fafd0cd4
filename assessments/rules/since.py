"""Since when a standing has been a pass: the day that a certificate is counted from."""

from collections.abc import Callable, Sequence
from datetime import datetime

from .evidence import AnswerFacts


def passing_since(answers: Sequence[AnswerFacts], passes: Callable[[Sequence[AnswerFacts]], bool]) -> datetime | None:
    """The moment of the paper or spot test with which the pass began that still holds; None without a pass.

    ``answers``: everything a person answered, in any order. ``passes``: whether a part of them, up to some
    paper or spot test, is a pass. A pass that was lost and won again counts from the second time.
    """
    if not passes(answers):
        return None
    moments = sorted({answer.opened_at for answer in answers})
    since = moments[-1]
    for moment in reversed(moments[:-1]):
        if not passes([answer for answer in answers if answer.opened_at <= moment]):
            break
        since = moment
    return since
