"""The form of each question kind: the module here that bears its key, as `rules.kinds.catalogue` lists it."""

from importlib import import_module

from assessments.rules.kinds.catalogue import kind_called

from .shape import KindForm


def form_of(key: str) -> type[KindForm]:
    """The form of a kind. KeyError for a kind that is not listed."""
    module = import_module(f".{kind_called(key).key}", __package__)
    form: type[KindForm] = module.FORM
    return form
