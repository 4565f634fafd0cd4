"""What is done when pictures of a test got out: no test shows them any more. Whether answers count is decided apart."""

from collections.abc import Iterable
from datetime import datetime

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from species.actions.specimens import retire_specimen
from species.models import Specimen

from .refusals import Refused


class LeakRefused(Refused):
    """Nothing was withdrawn."""


def withdraw_leaked(specimens: Iterable[Specimen], reason: str, now: datetime) -> int:
    """Take specimens out of the bank because their pictures got out; those that are out already stay as they are.

    The number withdrawn. What was answered about them stays. Raises LeakRefused.
    """
    if not reason.strip():
        raise LeakRefused(_("Write down how it got out: the reason stays with the plant."))
    why = _("Leaked: %(reason)s") % {"reason": reason.strip()}
    with transaction.atomic():
        still = [each for each in specimens if each.retired_on is None]
        if not still:
            raise LeakRefused(_("Nothing is left to withdraw: no test shows it any more."))
        for specimen in still:
            retire_specimen(specimen, why=why, today=timezone.localdate(now))
    return len(still)
