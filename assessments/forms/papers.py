"""Text of the page that sets a paper into clean values."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from assessments.models import Standard
from assessments.queries.people import people_called
from species.models import Pair

MOMENT = forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M")


class PairsField(forms.ModelMultipleChoiceField):
    """Pairs by the scientific names of both sides."""

    def label_from_instance(self, obj: Any) -> str:
        return f"{obj.gathered.name} – {obj.mistaken.name}"


class PaperForm(forms.Form):
    """A paper for single people, named one to a line."""

    title = forms.CharField(label=gettext_lazy("Title"), max_length=120)
    standard = forms.ModelChoiceField(Standard.objects.none(), label=gettext_lazy("Standard"))
    pairs = PairsField(Pair.objects.none(), label=gettext_lazy("Pairs"), widget=forms.CheckboxSelectMultiple)
    questions = forms.IntegerField(label=gettext_lazy("Questions"), min_value=1, max_value=60, initial=20)
    opens_at = forms.DateTimeField(label=gettext_lazy("Opens"), widget=MOMENT)
    closes_at = forms.DateTimeField(label=gettext_lazy("Closes (may stay empty)"), widget=MOMENT, required=False)
    minutes = forms.IntegerField(
        label=gettext_lazy("Time limit in minutes (may stay empty)"), min_value=1, max_value=600, required=False
    )
    people = forms.CharField(
        label=gettext_lazy("Who sits it"),
        help_text=gettext_lazy("One name or e-mail address to a line."),
        widget=forms.Textarea(attrs={"rows": 5}),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        in_use = Standard.objects.in_use()
        self.fields["standard"].queryset = in_use  # type: ignore[attr-defined]
        pairs = Pair.objects.filter(in_standards__standard__in=in_use).dangerous().distinct()
        self.fields["pairs"].queryset = pairs.with_both_species()  # type: ignore[attr-defined]

    def clean_people(self) -> Any:
        found = people_called(self.cleaned_data["people"].splitlines())
        if found.unknown:
            raise forms.ValidationError(
                _("Nobody here is called %(who)s: write the e-mail address.") % {"who": ", ".join(found.unknown)}
            )
        if found.unclear:
            raise forms.ValidationError(
                _("More than one person is called %(who)s: write the e-mail address.")
                % {"who": ", ".join(found.unclear)}
            )
        return found.people
