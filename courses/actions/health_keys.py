"""Making the first key for health notes, and replacing it."""

import os
import secrets

from django.db import transaction

from courses.actions.health import add_key, place_of
from courses.models import JoiningForm
from courses.queries.health_keys import health_keys, keys_file
from courses.rules.notes import FIELDS
from courses.rules.sealing import NONCE_BYTES, KeyRing, key_id_of, seal, unseal


def rotate_health_key() -> int:
    """A new key; every note is sealed with it, and the older keys are thrown away. Gives the number of notes.

    Between the two the file holds all keys, so that a run that is broken off leaves everything readable and
    can simply be begun again.
    """
    add_key()
    ring, count = health_keys(), 0
    with transaction.atomic():
        for form in JoiningForm.objects.select_for_update().filter(erased_at__isnull=True):
            changed = _seal_anew(form, ring)
            count += changed
    _keep_only(ring)
    return count


def _seal_anew(form: JoiningForm, ring: KeyRing) -> int:
    names = [name for name in FIELDS if getattr(form, name) and key_id_of(bytes(getattr(form, name))) != ring.current]
    for name in names:
        text = unseal(bytes(getattr(form, name)), ring, place_of(form, name))
        setattr(form, name, seal(text, ring, place_of(form, name), secrets.token_bytes(NONCE_BYTES)))
    if names:
        form.save(update_fields=names)
    return len(names)


def _keep_only(ring: KeyRing) -> None:
    """Only the current key stays; written beside and put in place at once."""
    beside = keys_file().with_suffix(".new")
    beside.unlink(missing_ok=True)
    handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "w", encoding="ascii") as file:
        file.write(f"{ring.current} {ring.keys[ring.current].hex()}\n")
    beside.replace(keys_file())
