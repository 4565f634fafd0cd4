"""What of a person goes from this room when they are erased: who they were as somebody from outside."""

from collections.abc import Iterable
from datetime import date

from species.models import DeterminerLink


def forget_outsider(addresses: Iterable[str], code: str, today: date) -> None:
    """Let a code stand for whoever was asked at these addresses to name plants; their links end, their names count."""
    for address in addresses:
        links = DeterminerLink.objects.filter(email__iexact=address)
        links.filter(withdrawn_on__isnull=True).update(withdrawn_on=today)
        links.update(name=code, email="")
