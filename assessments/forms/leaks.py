"""Words on pictures of tests that got out."""

from django import forms
from django.utils.translation import gettext_lazy as _

LONGEST_REASON = 160  # with the word before it that it leaked, it fits the column of the specimen


class LeakForm(forms.Form):
    """How pictures got out."""

    reason = forms.CharField(
        label=_("How did it get out, and since when?"),
        max_length=LONGEST_REASON,
        help_text=_("It stays with the plant, for those who keep the bank."),
    )


class VoidForm(forms.Form):
    """Why no answer to a plant counts."""

    why = forms.CharField(
        label=_("Why do the answers not count?"), max_length=1000, widget=forms.Textarea(attrs={"rows": 3})
    )
