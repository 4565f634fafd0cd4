"""Text into clean values: the school."""

from django import forms
from django.utils.translation import gettext_lazy as _

from courses.models import School


class SchoolForm(forms.ModelForm):
    """What the school says of itself, and whom to call."""

    class Meta:
        model = School
        fields = ["name", "region", "postal_address", "email", "emergency_number", "poisons_number"]
        widgets = {
            "postal_address": forms.Textarea(attrs={"rows": 3}),
            "emergency_number": forms.TextInput(attrs={"inputmode": "tel"}),
            "poisons_number": forms.TextInput(attrs={"inputmode": "tel"}),
        }
        help_texts = {
            "emergency_number": _("Printed at the foot of every page and on every emergency card: try it out."),
            "region": _("Printed on certificates: where the plants grow that people were tested on."),
        }
