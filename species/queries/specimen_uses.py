"""What other parts of the program hold on to a specimen, asked without knowing them."""

from species.models import Specimen


def uses_of(specimen: Specimen) -> list[str]:
    """The rows outside this room that point to the specimen: the word of their model, and how many."""
    found = []
    for relation in specimen._meta.related_objects:
        model = relation.related_model
        if isinstance(model, str) or model._meta.app_label == Specimen._meta.app_label:
            continue
        if number := model._base_manager.filter(**{relation.field.name: specimen}).count():
            found.append(f"{model._meta.verbose_name_plural}: {number}")
    return sorted(found)
