"""Small words that several sentences need: numbers, stages, dates."""

from datetime import datetime

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from species.models.flora import STAGE_WORDS

SMALL_NUMBERS = [
    _("no"),
    _("one"),
    _("two"),
    _("three"),
    _("four"),
    _("five"),
    _("six"),
    _("seven"),
    _("eight"),
    _("nine"),
    _("ten"),
    _("eleven"),
    _("twelve"),
]
STAGES = dict(STAGE_WORDS)


def in_words(number: int) -> str:
    """A number up to twelve as a word, a larger one in figures."""
    return str(SMALL_NUMBERS[number]) if 0 <= number < len(SMALL_NUMBERS) else str(number)


def stage_word(stage: str) -> str:
    """What a stage is called on pages."""
    return str(STAGES.get(stage, stage))


def moment_word(moment: datetime) -> str:
    """A date with its time, in the zone of the school."""
    return date_format(timezone.localtime(moment), "DATETIME_FORMAT")
