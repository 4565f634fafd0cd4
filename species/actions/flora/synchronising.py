"""Making stored rows equal to wanted rows, by key, with a count of what was done."""

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.db.models import Model, QuerySet

Fields = Mapping[str, Any]


@dataclass(frozen=True)
class Changes:
    """How many rows of one table were added, changed, left as they were, or removed."""

    added: int = 0
    changed: int = 0
    unchanged: int = 0
    removed: int = 0

    @property
    def anything(self) -> bool:
        return bool(self.added or self.changed or self.removed)


def synchronise(
    rows: QuerySet[Any], key: Sequence[str], wanted: Iterable[Fields], remove_others: bool = True
) -> Changes:
    """Add, change and remove rows until `rows` are the wanted ones; ids of rows that stay are kept.

    `key` names the fields that make a row itself. Other rows are removed only with `remove_others`.
    """
    model: type[Model] = rows.model
    stored: dict[Hashable, Any] = {}
    doubled: list[Any] = []
    for row in rows:
        if stored.setdefault(_key_of(vars(row), key), row) is not row:
            doubled.append(row)
    new, changed, unchanged = [], [], 0
    fields: set[str] = set()
    for values in wanted:
        row = stored.pop(_key_of(values, key), None)
        if row is None:
            new.append(model(**values))
            continue
        differing = [field for field, value in values.items() if getattr(row, field) != value]
        for field in differing:
            setattr(row, field, values[field])
        fields.update(differing)
        unchanged += not differing
        if differing:
            changed.append(row)
    gone = [row.pk for row in (*stored.values(), *doubled)] if remove_others else []
    rows.filter(pk__in=gone).delete()
    if changed:
        model._default_manager.bulk_update(changed, [_field_name(model, name) for name in sorted(fields)])
    model._default_manager.bulk_create(new)
    return Changes(len(new), len(changed), unchanged, len(gone))


def _key_of(values: Mapping[str, Any], key: Sequence[str]) -> Hashable:
    return tuple(tuple(values[name]) if isinstance(values[name], list) else values[name] for name in key)


def _field_name(model: type[Model], name: str) -> str:
    """The name of a field from the name of its attribute: `pair` for `pair_id`."""
    return next(field.name for field in model._meta.concrete_fields if name in (field.attname, field.name))
