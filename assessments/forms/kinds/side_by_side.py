"""Two plants: which would you gather, and how sure are you."""

from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from assessments.models import Answer
from assessments.queries.flora import Flora
from assessments.rules.kinds.side_by_side import BOTH, FIRST, LEAVE, NEITHER, SECOND

from .confidence import SURE_WORDS
from .shape import KindForm

CHOICES = [
    (FIRST, gettext_lazy("Only picture 1")),
    (SECOND, gettext_lazy("Only picture 2")),
    (BOTH, gettext_lazy("Both of them")),
    (NEITHER, gettext_lazy("Neither")),
    (LEAVE, gettext_lazy("Leave them: I cannot tell")),
]


class SideBySide(KindForm):
    """Which plants would be gathered; how sure, unless they are left alone."""

    blank_unless: ClassVar[tuple[str, ...]] = ("chosen", "confidence")

    chosen = forms.ChoiceField(
        label=gettext_lazy("Which would you gather?"),
        choices=CHOICES,
        widget=forms.RadioSelect,
        error_messages={"required": gettext_lazy("Choose one of the five.")},
    )
    confidence = forms.ChoiceField(
        label=gettext_lazy("How sure are you?"),
        choices=SURE_WORDS,
        required=False,
        widget=forms.RadioSelect,
        help_text=gettext_lazy("Out of so many answers given like this, how many would be right?"),
    )

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if values.get("chosen") not in (None, LEAVE) and not values.get("confidence"):
            self.add_error("confidence", _("Say how sure you are."))
        return values

    @property
    def given(self) -> dict[str, Any]:
        return {"chosen": self.cleaned_data["chosen"], "confidence": self.cleaned_data["confidence"]}

    @classmethod
    def initial_from(cls, answer: Answer | None, flora: Flora) -> dict[str, str]:
        return {} if answer is None else {"chosen": answer.chosen, "confidence": answer.confidence}


FORM = SideBySide
