"""Text of the page that adjusts one person's test into clean values."""

from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from .plan_fields import moment_input

TIMES = [
    (Decimal("1"), _("As long as everybody")),
    (Decimal("1.25"), _("A quarter longer")),
    (Decimal("1.5"), _("Half as long again")),
    (Decimal("2"), _("Twice as long")),
    (Decimal("3"), _("Three times as long")),
]


class AdjustmentForm(forms.Form):
    """What was agreed with one person, and why."""

    time_factor = forms.TypedChoiceField(label=_("Time"), choices=TIMES, coerce=Decimal)
    closes_at = forms.DateTimeField(
        label=_("Closes for this person (empty: as for everybody)"), widget=moment_input(), required=False
    )
    what = forms.CharField(
        label=_("What was agreed"),
        max_length=200,
        help_text=_("For instance: half as long again, and somebody to read the questions out. The person sees this."),
    )
    why = forms.CharField(
        label=_("Why"), max_length=200, help_text=_("Who asked for it and who agreed. No diagnoses, please.")
    )

    @property
    def agreed(self) -> dict[str, Any]:
        """The clean values, by the names of `Agreed`."""
        return {name: self.cleaned_data[name] for name in ("time_factor", "closes_at", "what", "why")}
