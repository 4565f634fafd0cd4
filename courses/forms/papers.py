"""Text into clean values: a paper for a course."""

from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from species.models import Pair

from .choices import choices_of
from .widgets import MomentInput


class PairChoices(forms.ModelMultipleChoiceField):
    """Pairs by the common names of their two plants."""

    widget = forms.CheckboxSelectMultiple

    def label_from_instance(self, pair: Any) -> str:
        return f"{pair.gathered.common_name} – {pair.mistaken.common_name}"


class CoursePaperForm(forms.Form):
    """Which pairs, how many questions, from when until when, how long."""

    title = forms.CharField(label=_("Title"), max_length=120)
    pairs = PairChoices(
        label=_("Pairs"), queryset=Pair.objects.none(),
        help_text=_("Ticked already: what the meetings have taught so far."),
    )  # fmt: skip
    questions = forms.IntegerField(
        label=_("Number of questions"), min_value=1, max_value=60,
        widget=forms.NumberInput(attrs={"inputmode": "numeric", "min": 1, "max": 60}),
    )  # fmt: skip
    opens_at = forms.DateTimeField(label=_("Opens"), widget=MomentInput())
    closes_at = forms.DateTimeField(
        label=_("Closes"), widget=MomentInput(), required=False,
        help_text=_("Left empty, it stays open."),
    )  # fmt: skip
    minutes = forms.IntegerField(
        label=_("Time limit, minutes"), min_value=5, max_value=600, required=False,
        widget=forms.NumberInput(attrs={"inputmode": "numeric", "min": 5, "max": 600}),
        help_text=_("Left empty, there is none. Anybody who needs longer can be given more time."),
    )  # fmt: skip

    def __init__(self, *args: Any, pairs: QuerySet[Pair], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choices_of(self, "pairs").queryset = pairs

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        opens, closes = values.get("opens_at"), values.get("closes_at")
        if opens and closes and closes <= opens:
            self.add_error("closes_at", _("The paper would close before it opens: change one of the two."))
        return values
