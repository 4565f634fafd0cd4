"""Text into clean values: a question from outside, and its answer."""

from django import forms
from django.utils.translation import gettext_lazy as _


class EnquiryForm(forms.Form):
    """What somebody without an account wants to know."""

    name = forms.CharField(label=_("Your name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"}))
    email = forms.EmailField(label=_("Your e-mail"), widget=forms.EmailInput(attrs={"autocomplete": "email"}))
    text = forms.CharField(
        label=_("What would you like to know?"),
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 5}),
        help_text=_("Please write nothing about your health here; it is asked in confidence once you have a place."),
    )


class AnswerForm(forms.Form):
    """The answer, sent as a letter."""

    text = forms.CharField(label=_("Your answer"), max_length=4000, widget=forms.Textarea(attrs={"rows": 8}))
