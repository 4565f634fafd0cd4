"""Where on the picture is it: a point that was tapped, or one of the lettered fields."""

import re
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy as _

from assessments.models import Answer
from assessments.queries.flora import Flora
from assessments.rules.kinds.point_at_it import ACROSS, CANNOT_TELL, LETTERS, field_at, point_of

from .shape import KindForm

POINT = re.compile(r"at [01]\.\d{4} [01]\.\d{4}")


class PointAtIt(KindForm):
    """One field, and the point in it where it was tapped. A point in another field than the one chosen is dropped."""

    blank_unless: ClassVar[tuple[str, ...]] = ("field",)

    field = forms.ChoiceField(
        label=_("In which field is it?"),
        choices=[*((letter, letter) for letter in LETTERS), (CANNOT_TELL, _("I cannot tell"))],
        widget=forms.RadioSelect,
        error_messages={"required": _("Tap the picture, or choose a field.")},
    )
    point = forms.CharField(required=False, max_length=60, widget=forms.HiddenInput(attrs={"data-point": ""}))

    @property
    def letters(self) -> str:
        """The letters of the fields, row by row."""
        return LETTERS

    @property
    def across(self) -> int:
        """How many fields stand side by side."""
        return ACROSS

    @property
    def given(self) -> dict[str, Any]:
        field, point = self.cleaned_data["field"], self.cleaned_data["point"]
        if field == CANNOT_TELL:
            return {"chosen": CANNOT_TELL}
        return {"chosen": point if _lies_in(point, field) else f"field {field}"}

    @classmethod
    def initial_from(cls, answer: Answer | None, flora: Flora) -> dict[str, str]:
        if answer is None:
            return {}
        point = point_of(answer.chosen)
        if point is None:
            return {"field": answer.chosen.removeprefix("field ")}
        return {"field": field_at(*point), "point": answer.chosen}


def _lies_in(point: str, field: str) -> bool:
    place = point_of(point) if POINT.fullmatch(point) else None
    return place is not None and max(place) <= 1 and field_at(*place) == field


FORM = PointAtIt
