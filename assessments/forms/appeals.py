"""Text of the pages of appeals into clean values."""

from collections.abc import Collection
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from assessments.models.appeals import GROUND_WORDS
from assessments.queries.sentences.appeals import OUTCOME_WORDS
from assessments.rules.appeals import Step


class AppealForm(forms.Form):
    """What is wrong with a question."""

    ground = forms.ChoiceField(
        label=_("What is wrong with this question?"),
        choices=GROUND_WORDS,
        widget=forms.RadioSelect,
        error_messages={"required": _("Choose what comes nearest; the last one is for everything else.")},
    )
    words = forms.CharField(
        label=_("In your own words"),
        help_text=_("What you see in the picture, and what it ought to show. Whoever decides reads exactly this."),
        max_length=4000,
        widget=forms.Textarea(attrs={"rows": 6}),
        error_messages={"required": _("Say in your own words what is wrong: whoever decides has only that.")},
    )


class NamesForm(forms.Form):
    """Asking two people to name the plant anew."""

    why = forms.CharField(
        label=_("Why it is to be named anew"),
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={"required": _("Write down why: it stands in the record of the appeal.")},
    )


class VerdictForm(forms.Form):
    """The decision. `exception` is asked only of somebody involved whom nobody can stand in for."""

    outcome = forms.ChoiceField(
        label=_("Your decision"),
        widget=forms.RadioSelect,
        error_messages={
            "required": _("Choose one."),
            "invalid_choice": _("This decision is not open now: choose one of those below."),
        },
    )
    reasons = forms.CharField(
        label=_("Your reasons"),
        help_text=_("The person reads them, whichever way you decide."),
        max_length=4000,
        widget=forms.Textarea(attrs={"rows": 5}),
        error_messages={"required": _("Write down your reasons: the person reads them.")},
    )
    exception = forms.CharField(
        label=_("Why nobody else can decide"),
        help_text=_("You had a part in this question. It is recorded, and the person reads it."),
        max_length=1000,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={"required": _("You had a part in this question: write down why nobody else can decide.")},
    )

    def __init__(self, *args: Any, outcomes: Collection[Step], asks_why: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        outcome = self.fields["outcome"]
        assert isinstance(outcome, forms.ChoiceField)
        outcome.choices = [(each.value, OUTCOME_WORDS[each]) for each in outcomes]
        if not asks_why:
            del self.fields["exception"]
