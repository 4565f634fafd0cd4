"""What the school asks of leaders and assistants: set, changed, dropped."""

from django.db import transaction
from django.utils.text import slugify

from courses.models import Requirement
from courses.queries.sentences.requirements import requirement_name
from courses.rules.requirements import BY_DEFAULT, DAYS_IN_A_MONTH
from courses.rules.requirements import Requirement as Kind

KEY_LENGTH = Requirement._meta.get_field("key").max_length or 40
KINDS = {Kind.CERTIFICATE: Requirement.Kind.CERTIFICATE, Kind.ASSISTED_WALKS: Requirement.Kind.WALKS}


def keep_requirement(requirement: Requirement) -> Requirement:
    """Save what is asked of leaders or assistants; a new one gets a key from its title."""
    if not requirement.key:
        requirement.key = _free_key(requirement.title)
    requirement.save()
    return requirement


def drop_requirement(pk: int) -> None:
    """Ask it no longer. Nothing happens where it was dropped before."""
    Requirement.objects.filter(pk=pk).delete()


def write_down_the_usual() -> None:
    """Set what is asked of leaders as long as nothing is set, so that more can be asked beside it.

    Nothing happens where something is set.
    """
    with transaction.atomic():
        if Requirement.objects.filter(part=Requirement.Part.LEADER).exists():
            return
        for order, asked in enumerate(BY_DEFAULT, 1):
            kind = KINDS.get(asked.requirement, Requirement.Kind.PROOF)
            keep_requirement(
                Requirement(
                    title=requirement_name(asked.requirement),
                    part=Requirement.Part.LEADER,
                    kind=kind,
                    proof=asked.requirement.value if kind is Requirement.Kind.PROOF else "",
                    number=asked.number,
                    within_months=round(asked.within_days / DAYS_IN_A_MONTH) if asked.within_days else None,
                    order=order,
                )
            )


def _free_key(title: str) -> str:
    base = slugify(title)[: KEY_LENGTH - 4] or "asked"
    taken = set(Requirement.objects.filter(key__startswith=base).values_list("key", flat=True))
    return next(key for n in range(1, len(taken) + 2) if (key := base if n == 1 else f"{base}-{n}") not in taken)
