"""Text into clean values: one look of practice."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from assessments.queries.flora import PlantName
from assessments.rules.practice import Said


class LookForm(forms.Form):
    """Which of the two it is, or neither said. The plants come in the order of the pair, whichever is shown."""

    said = forms.ChoiceField(label=_("Which of the two is it?"), widget=forms.RadioSelect)

    def __init__(self, *args: Any, gathered: PlantName, mistaken: PlantName, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["said"]
        if isinstance(field, forms.ChoiceField):
            field.choices = [
                (Said.GATHERED.value, gathered.common_name),
                (Said.MISTAKEN.value, mistaken.common_name),
                (Said.LEAVE.value, _("Leave it: I cannot tell")),
            ]
        field.error_messages["required"] = _("Choose one of the three first. Leaving it is always an answer.")
