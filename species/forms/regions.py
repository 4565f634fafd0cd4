"""A region on a photograph, in percent of its size as people write it, into clean values."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.models import Character, CharacterState
from species.rules.regions import Frame, Shape, Slip, slip_of

SHAPE_WORDS = [
    (Shape.RECTANGLE.value, gettext_lazy("rectangle")),
    (Shape.CIRCLE.value, gettext_lazy("circle")),
]
SLIPS = {
    Slip.OFF_THE_PICTURE: gettext_lazy("This reaches over the edge of the picture; make it smaller, or move it."),
    Slip.TOO_SMALL: gettext_lazy("This is too small to be seen; it takes at least one hundredth of the picture."),
}


def _percent(label: Any, name: str) -> forms.DecimalField:
    widget = forms.NumberInput(attrs={"step": "0.1", "min": "0", "max": "100", "data-frame": name})
    return forms.DecimalField(
        label=label, min_value=0, max_value=100, max_digits=5, decimal_places=2, required=False, widget=widget
    )


class StateField(forms.ModelChoiceField):
    """A state, told with the character that it belongs to."""

    def label_from_instance(self, obj: Any) -> str:
        return f"{obj.character}: {obj.text}"


class RegionForm(forms.Form):
    """What can be seen, and where. All places and sizes are percent of the picture's width or height."""

    character = forms.ModelChoiceField(
        Character.objects.all(), label=gettext_lazy("Which character can be seen there?")
    )
    state = StateField(
        CharacterState.objects.select_related("character"),
        label=gettext_lazy("In which state? (may be left open)"),
        required=False,
    )
    shape = forms.ChoiceField(
        label=gettext_lazy("Shape"),
        choices=SHAPE_WORDS,
        initial=Shape.RECTANGLE.value,
        widget=forms.RadioSelect(attrs={"data-frame": "shape"}),
    )
    x = _percent(gettext_lazy("From the left, % (of a circle: its centre)"), "x")
    y = _percent(gettext_lazy("From the top, % (of a circle: its centre)"), "y")
    width = _percent(gettext_lazy("Width, % (rectangle)"), "width")
    height = _percent(gettext_lazy("Height, % (rectangle)"), "height")
    radius = _percent(gettext_lazy("Radius, % of the width (circle)"), "radius")

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        character, state = values.get("character"), values.get("state")
        if character and state and state.character_id != character.pk:
            sentence = _("That is a state of “%(character)s”; choose one of the character above, or none.")
            self.add_error("state", sentence % {"character": state.character})
        is_circle = values.get("shape") == Shape.CIRCLE
        needed = ("x", "y", "radius") if is_circle else ("x", "y", "width", "height")
        for name in needed:
            if values.get(name) is None and name not in self.errors:
                self.add_error(name, _("Say where it is: draw it on the picture, or write the number."))
        if not self.errors:
            values["frame"] = frame = Frame(**{name: float(values[name]) / 100 for name in needed})
            if slip := slip_of(frame):
                self.add_error("radius" if is_circle else "width", str(SLIPS[slip]))
        return values
