"""What a wanted list is asked for: how many papers, how long, under which standard."""

from collections.abc import Mapping
from typing import Any, Self

from django import forms
from django.utils.translation import gettext_lazy as _

from assessments.models import Standard
from assessments.queries.wanted import MOST_PAPERS, MOST_QUESTIONS, PAPERS, QUESTIONS
from species.forms.choices import choices_of


class NumbersForm(forms.Form):
    """So many different papers of so many questions."""

    papers = forms.IntegerField(label=_("Different papers"), min_value=1, max_value=MOST_PAPERS, initial=PAPERS)
    questions = forms.IntegerField(
        label=_("Questions in each"), min_value=1, max_value=MOST_QUESTIONS, initial=QUESTIONS
    )

    @classmethod
    def asked(cls, said: Mapping[str, Any], **otherwise: Any) -> Self:
        """The form filled in from an address; what the address leaves out stands as `otherwise`, or as usual."""
        usual = {name: field.initial for name, field in cls.base_fields.items()}
        return cls({**usual, **otherwise, **{name: said[name] for name in said if name in usual}})


class WantedForm(NumbersForm):
    """The same, under one of the standards in use."""

    standard = forms.ModelChoiceField(
        Standard.objects.none(), label=_("Standard"), to_field_name="key", empty_label=None
    )
    field_order = ["standard", "papers", "questions"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        in_use = Standard.objects.in_use().order_by("leads_walks", "name")
        choices_of(self, "standard").queryset = in_use
