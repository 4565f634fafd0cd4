"""Keeping the legal grounds that the school fills in."""

from collections.abc import Mapping

from django.db import transaction

from courses.models import LegalGround
from courses.rules.inventory.shape import Activity


def keep_grounds(grounds: Mapping[str, str]) -> None:
    """Keep the ground of each purpose (its key); an empty one is taken away. ValueError for an unknown purpose."""
    with transaction.atomic():
        for key, words in grounds.items():
            activity = Activity(key).value
            if words.strip():
                LegalGround.objects.update_or_create(activity=activity, defaults={"words": words.strip()})
            else:
                LegalGround.objects.filter(activity=activity).delete()
