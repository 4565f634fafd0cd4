"""Text of a complaint into clean values."""

from django import forms
from django.utils.translation import gettext_lazy as _


class ComplaintForm(forms.Form):
    """What somebody holds to be wrong about the school."""

    name = forms.CharField(label=_("Your name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"}))
    email = forms.EmailField(label=_("Your e-mail"), widget=forms.EmailInput(attrs={"autocomplete": "email"}))
    text = forms.CharField(
        label=_("What was wrong, and what should change?"), max_length=4000, widget=forms.Textarea(attrs={"rows": 6})
    )
