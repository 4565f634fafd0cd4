"""What every question kind's form has in common: made from what the question asks, read as one clean answer."""

from collections.abc import Mapping
from typing import Any, ClassVar

from django import forms

from assessments.models import Answer
from assessments.queries.flora import Flora, PlantName

NO_ASKS: Mapping[str, Any] = {}


class KindForm(forms.Form):
    """One answer. `flora` holds the names that are known, `asks` what the question asks beyond its pictures.

    `blank_unless` names the fields of which at least one is filled in where somebody answered at all.
    """

    blank_unless: ClassVar[tuple[str, ...]] = ("chosen",)

    def __init__(self, *args: Any, flora: Flora, asks: Mapping[str, Any] = NO_ASKS, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.flora, self.asks = flora, asks

    @property
    def is_blank(self) -> bool:
        """Whether nothing at all was filled in."""
        return not any(self.data.get(self.add_prefix(name)) for name in self.blank_unless)

    @property
    def both(self) -> list[PlantName]:
        """The two plants of the pair that is asked about, always in the same order."""
        return [self.flora.plant(key) for key in self.asks.get("both", ())]

    @property
    def words(self) -> list[str]:
        """What was filled in, field by field, as the page words it."""
        found = []
        for field in self.visible_fields():
            value, choices = field.value(), dict(getattr(field.field, "choices", ()))
            if value:
                found.append(str(choices.get(value, value)))
        return found

    @property
    def given(self) -> dict[str, Any]:
        """The clean answer, by the names of `actions.sittings.Given`."""
        return {"chosen": self.cleaned_data["chosen"]}

    @classmethod
    def initial_from(cls, answer: Answer | None, flora: Flora) -> dict[str, str]:
        """What the form shows of an answer that stands already."""
        return {} if answer is None else {"chosen": answer.chosen}
