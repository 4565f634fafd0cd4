"""Sentences that every paper of this room carries."""

from django.utils.translation import gettext as _


def cautions() -> tuple[str, ...]:
    """The usual cautions, short and plain."""
    return (
        _("Be certain of the plant at every step; if you are not, leave it."),
        _("This paper is not a licence and gives no medical advice."),
        _("Keep to the law where you are, ask whoever owns the land, and spare what is protected."),
        _("Mind allergies, medicines, pregnancy and children; when ill, ask a licensed professional."),
    )
