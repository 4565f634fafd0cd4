"""Text into clean values: a message to everybody in a course or at a meeting."""

from django import forms
from django.utils.translation import gettext_lazy as _


class MessageForm(forms.Form):
    """What is written, before it is looked at once more and sent."""

    subject = forms.CharField(label=_("In one line"), max_length=120)
    words = forms.CharField(
        label=_("What they should know"),
        max_length=4000,
        widget=forms.Textarea(attrs={"rows": 8}),
        help_text=_("Everybody gets a letter of their own, and reads no address but theirs. Nothing about health."),
    )
