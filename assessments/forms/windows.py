"""Text of the page that opens a window into clean values."""

from django import forms
from django.utils.translation import gettext_lazy as _


class WindowForm(forms.Form):
    """What was taught again."""

    retraining = forms.CharField(
        label=_("What was taught again, by whom and when"),
        widget=forms.Textarea(attrs={"rows": 4}),
        error_messages={"required": _("Say what was taught again: without that no further window is opened.")},
    )
