"""Text of the pages of appeals against decisions into clean values."""

from django import forms
from django.utils.translation import gettext_lazy as _

from courses.rules.decision_appeals import Outcome


class DecisionAppealForm(forms.Form):
    """What is held to be wrong with a decision."""

    words = forms.CharField(
        label=_("What is wrong with this decision?"),
        help_text=_("Whoever decides reads exactly this, and what the figures say."),
        max_length=4000,
        widget=forms.Textarea(attrs={"rows": 6}),
        error_messages={"required": _("Say in your own words what is wrong: whoever decides has only that.")},
    )


class VerdictForm(forms.Form):
    """The decision on an appeal, with its reasons."""

    outcome = forms.ChoiceField(
        label=_("Your decision"),
        choices=[
            (Outcome.UPHELD.value, _("Upheld: the decision was wrong")),
            (Outcome.DISMISSED.value, _("Dismissed: the decision stands")),
        ],
        widget=forms.RadioSelect,
        error_messages={"required": _("Choose one of the two.")},
    )
    reasons = forms.CharField(
        label=_("Your reasons"),
        help_text=_("The person reads them, whichever way you decide."),
        max_length=4000,
        widget=forms.Textarea(attrs={"rows": 5}),
        error_messages={"required": _("Write down your reasons: the person reads them.")},
    )
