"""Text of the planning page into clean values: one standard, a second or other numbers, and weeks."""

from fractions import Fraction
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from assessments.models import Standard
from assessments.queries.planning import facts_by_version, version_name
from assessments.queries.planning_numbers import RATIOS, SHARES, draft_problem, number_problems, weeks_problem
from assessments.rules.outlook import OtherNumbers
from assessments.rules.standard import exact
from species.forms.choices import choices_of


class VersionField(forms.ModelChoiceField):
    """A version of a standard, by name and version."""

    def label_from_instance(self, obj: Any) -> str:
        return version_name(obj)


def _number(label: Any) -> forms.DecimalField:
    field = forms.DecimalField(label=label, required=False, max_digits=9, decimal_places=4)
    field.widget.attrs["step"] = "any"
    return field


class PlanForm(forms.Form):
    """Shares in per cent. A number that stays empty is the standard's own."""

    standard = VersionField(Standard.objects.none(), label=gettext_lazy("Standard"))
    against = VersionField(
        Standard.objects.none(),
        label=gettext_lazy("Beside it"),
        required=False,
        empty_label=gettext_lazy("nothing, or the same with other numbers"),
    )
    weeks = forms.IntegerField(label=gettext_lazy("Weeks of the course"), initial=8)
    miss_limit = _number(gettext_lazy("Dangerous: tolerated share of misses, %"))
    miss_alpha = _number(gettext_lazy("Dangerous: chance of a false pass, %"))
    miss_ratio = _number(gettext_lazy("Dangerous: ratio"))
    refusal_limit = _number(gettext_lazy("Edible: tolerated share not recognised, %"))
    refusal_alpha = _number(gettext_lazy("Edible: chance of a false pass, %"))
    refusal_ratio = _number(gettext_lazy("Edible: ratio"))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        versions = Standard.objects.filter(pairs__pair__danger="dangerous").distinct().order_by("name", "-version")
        for name in ("standard", "against"):
            choices_of(self, name).queryset = versions

    @property
    def has_choices(self) -> bool:
        """Whether there is any standard to plan for."""
        versions = choices_of(self, "standard").queryset
        return versions is not None and versions.exists()

    def clean_weeks(self) -> int:
        weeks = self.cleaned_data["weeks"]
        problem = weeks_problem(weeks)
        if problem:
            raise forms.ValidationError(problem)
        return int(weeks)

    def clean(self) -> dict[str, Any]:
        values = super().clean() or self.cleaned_data
        numbers = {name: self._as_fraction(name) for name in (*SHARES, *RATIOS)}
        told = number_problems(numbers)
        for name, sentence in told.items():
            self.add_error(name, sentence)
        values["numbers"] = OtherNumbers(**numbers) if any(n is not None for n in numbers.values()) else None
        chosen = values.get("against") or values.get("standard")
        if chosen and not self.errors:
            facts = facts_by_version([chosen])[0]
            problem = draft_problem(facts, values["numbers"] or OtherNumbers())
            if problem:
                self.add_error(None, problem)
        return values

    def _as_fraction(self, name: str) -> Fraction | None:
        value = self.cleaned_data.get(name)
        if value is None:
            return None
        return exact(value) / 100 if name in SHARES else exact(value)
