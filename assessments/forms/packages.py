"""Which questions leave the school, as asked for on a page."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from assessments.models import Standard
from assessments.queries.packages.bank import Scope


class PackageForm(forms.Form):
    """Over which pairs, and whether what serves for tests is among them; `asks_again` shows the second confirmation."""

    standard = forms.ModelChoiceField(
        label=_("The pairs of which standard?"),
        queryset=Standard.objects.none(),
        to_field_name="key",
        required=False,
        empty_label=_("all dangerous pairs"),
        error_messages={"invalid_choice": _("No such standard is in use: choose one of the list.")},
    )
    assessment = forms.BooleanField(
        label=_("Also questions about what serves for tests"),
        help_text=_("Only where another school has to test with them. You are asked once more before anything leaves."),
        required=False,
    )
    sure = forms.BooleanField(
        label=_("Yes: pictures of tests leave in this file, and I answer for where they go"), required=False
    )

    def __init__(self, *args: Any, asks_again: bool = False, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field: Any = self.fields["standard"]
        field.queryset = Standard.objects.in_use().order_by("leads_walks", "name")
        if not asks_again:
            del self.fields["sure"]

    @property
    def scope(self) -> Scope:
        """What leaves, by a form that was found sound."""
        return Scope(self.cleaned_data["standard"], self.cleaned_data["assessment"])
