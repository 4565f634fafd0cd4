"""Asking somebody outside the school to name specimens, by a link."""

from collections.abc import Collection
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.core.mail import send_mail
from django.db import transaction
from django.template.loader import render_to_string
from django.utils import timezone

from species.models import DeterminerLink, Specimen

USABLE_FOR = timedelta(days=30)


def invite_outsider(
    name: str, email: str, specimens: Collection[Specimen], by: User, now: datetime, address: str
) -> DeterminerLink:
    """Make the link and write to the outsider. `address`: of the page, with {key} where the key goes."""
    with transaction.atomic():
        link = DeterminerLink.objects.create(
            name=name.strip(),
            email=email.strip().lower(),
            invited_by=by,
            invited_at=now,
            closes_on=timezone.localdate(now + USABLE_FOR),
        )
        link.specimens.set(specimens)
        facts = {"link": link, "address": address.replace("{key}", link.key), "count": len(specimens)}
        text = render_to_string("species/mail/name_these.txt", facts)
        subject, _blank, body = text.strip().partition("\n")
        transaction.on_commit(lambda: send_mail(subject.strip(), body.strip(), None, [link.email]), robust=True)
    return link
