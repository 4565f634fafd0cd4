"""What other parts of the program hold on to a specimen, asked without knowing them."""

from species.models import Specimen


def uses_of(specimen: Specimen) -> list[str]:
    """The kinds of rows outside this room that point to the specimen, in the words of their models."""
    found = set()
    for relation in specimen._meta.related_objects:
        model = relation.related_model
        if isinstance(model, str) or model._meta.app_label == Specimen._meta.app_label:
            continue
        if model._base_manager.filter(**{relation.field.name: specimen}).exists():
            found.add(str(model._meta.verbose_name_plural))
    return sorted(found)
