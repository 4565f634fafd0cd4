"""Looking for somebody everywhere in the database, and somebody who left traces everywhere."""

import json
from typing import Any

from django.apps import apps
from django.contrib.sessions.models import Session
from django.utils import timezone

from courses.actions.erasure import ask_to_be_erased, erase
from courses.actions.posting import post_letters
from courses.models import ErasureRequest, Person
from courses.rules.inventory.catalogue import free_texts

NAME, ADDRESS, PHONE = "Pat Participant", "pat.participant@example.org", "+44 7700 900123"
WORDS = (NAME, ADDRESS, "Participant,", "7700 900123", "7700900123")
ON_CERTIFICATES = ["courses.Certificate.facts", "courses.HistoricalCertificate.facts"]


def found_in_database(*words: str) -> list[str]:
    """Every column of every table, packages' and histories' too, that holds one of these words, as `model.field`."""
    wanted = [word.casefold() for word in words]
    found = []
    for model in apps.get_models(include_auto_created=True):
        names = [each.attname for each in model._meta.local_fields]
        for row in model._base_manager.values_list(*names):
            told = zip(names, row, strict=True)
            found += [f"{model._meta.label}.{name}" for name, value in told if _holds(value, wanted)]
    for session in Session.objects.all():
        if _holds(json.dumps(session.get_decoded(), default=str), wanted):
            found.append("sessions.Session decoded")
    return sorted(set(found))


def _holds(value: Any, wanted: list[str]) -> bool:
    if isinstance(value, bytes | memoryview):
        value = bytes(value).decode("utf-8", "replace")
    said = json.dumps(value, default=str, ensure_ascii=False) if isinstance(value, dict | list) else str(value)
    return any(word in said.casefold() for word in wanted)


def write_everywhere(text: str) -> list[str]:
    """Put a text into every free text of every model that has a row; which these were."""
    written = []
    for label, fields in free_texts():
        model = apps.get_model(label)
        row = model._base_manager.first()
        if row is None:
            continue
        for name in fields:
            is_plain = model._meta.get_field(name).get_internal_type() != "JSONField"
            model._base_manager.filter(pk=row.pk).update(**{name: text if is_plain else {"said": [text]}})
            written.append(f"{label}.{name}")
    return written


def erase_now(person: Person, by: Person, now: Any = None) -> ErasureRequest:
    """Asked and granted at one moment."""
    moment = now or timezone.now()
    person.refresh_from_db()
    return erase(ask_to_be_erased(person, now=moment), by=by, now=moment)


def erased_and_posted(person: Person, by: Person) -> ErasureRequest:
    """The same, with the last letter gone."""
    request = erase_now(person, by)
    post_letters(timezone.now())
    return request
