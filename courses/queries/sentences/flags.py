"""Why a photograph should be looked at again, in words."""

from collections.abc import Iterable

from django.utils.translation import gettext_lazy as _

from assessments.rules.flags import Flag

WORDS = {
    Flag.STRONG_AGREE_ON_ANOTHER: _("Most of those who did best on the others call it the same other plant."),
    Flag.ANOTHER_IS_COMMON_AND_STRONG: _(
        "Another name is given at least as often as the right one, by people who did better on the others."
    ),
    Flag.HALF_LEAVE_IT: _("At least half leave it: perhaps the picture does not show enough."),
    Flag.TUTOR_DIFFERS: _("A tutor of this course called it another plant."),
}


def flag_sentences(flags: Iterable[Flag]) -> tuple[str, ...]:
    """One sentence a flag."""
    return tuple(str(WORDS[flag]) for flag in flags)
