"""Keys of addresses: long enough not to be found by trying, and safe in a table and on a command line."""

import secrets

from django.apps import apps
from django.db import models

from species.rules.keys import BYTES, new_key


def test_a_key_holds_128_random_bits_in_letters_for_addresses() -> None:
    assert BYTES * 8 == 128
    some = {new_key() for _ in range(2000)}
    assert len(some) == 2000
    # RFC 4648, part 5: 16 bytes are 22 letters of the alphabet for addresses, without padding.
    assert all(len(key) == 22 and key.replace("-", "").replace("_", "").isalnum() and key.isascii() for key in some)


def test_a_key_that_would_begin_with_a_minus_is_drawn_again(monkeypatch) -> None:
    drawn = iter(["-first", "-second", "third-"])
    monkeypatch.setattr(secrets, "token_urlsafe", lambda size: next(drawn))
    assert new_key() == "third-"


def test_every_model_draws_its_keys_here() -> None:
    keys = [
        field
        for model in apps.get_models()
        if model._meta.app_label in {"species", "assessments", "courses"}
        for field in model._meta.get_fields()
        if isinstance(field, models.CharField) and field.unique and field.has_default() and callable(field.default)
    ]
    assert len(keys) > 10
    assert {str(field) for field in keys if field.default is not new_key} == set()
