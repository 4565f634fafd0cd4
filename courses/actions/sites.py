"""Keeping sites: the locality that the photo bank knows, and the school's use of it, one to one."""

from django.db import IntegrityError, transaction

from courses.models import Site
from species.models import Locality


class LocalityHasSite(Exception):
    """The place has become a site meanwhile."""


def keep_site(site: Site, locality: Locality) -> Site:
    """Save a new or changed site with its place. Raises LocalityHasSite; nothing is half saved."""
    try:
        with transaction.atomic():
            locality.save()
            site.locality = locality
            site.save()
    except IntegrityError as error:
        raise LocalityHasSite from error
    return site
