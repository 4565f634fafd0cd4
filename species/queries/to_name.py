"""The next specimen that wants a name."""

from species.models import DeterminerLink, Specimen


def next_to_name(user_id: int) -> Specimen | None:
    """The next specimen that lacks a second name and that this person has not named; the oldest first."""
    rows = Specimen.objects.waiting_for_determination_by(user_id).filter(photos__isnull=False)
    return rows.prefetch_related("photos__renditions").order_by("added_at", "pk").distinct().first()


def next_to_name_by_link(link: DeterminerLink) -> Specimen | None:
    """The next specimen of an invitation that is in the bank still and that the outsider has not named."""
    rows = link.specimens.in_the_bank().exclude(determinations__link=link).prefetch_related("photos__renditions")
    return rows.order_by("added_at", "pk").first()
