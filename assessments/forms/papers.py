"""Text of the pages that set, change and withdraw papers into clean values."""

from collections.abc import Iterable, Mapping
from random import SystemRandom
from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from assessments.models import Standard
from assessments.queries.drawing import NAME_AND_DECIDE
from assessments.queries.paper_outlook import MOST_QUESTIONS
from assessments.queries.paper_plan import PaperPlan
from assessments.queries.sentences.kinds import kind_word
from assessments.queries.setting import Setting
from assessments.rules.kinds.catalogue import KINDS
from species.models import Pair

from .plan_fields import LoweredField, PairsField, count_field, moment_input, people_field, written

EXACTLY = ("dangerous_each", "edible_each", "each_stage")
KIND_PREFIX = "kind_"
LARGEST_SEED = 2**31 - 1
LOOK = "look"
"""What the button that shows a plan before it is kept sends as `step`."""


def new_example() -> dict[str, int]:
    """The first value of the field that says which example is drawn; nobody's paper follows from it."""
    return {"example": SystemRandom().randint(0, LARGEST_SEED)}


class PlanForm(forms.Form):
    """A paper as it is meant. `pairs_help`: a line below the pairs."""

    title = forms.CharField(label=gettext_lazy("Title"), max_length=120)
    standard = forms.ModelChoiceField(Standard.objects.none(), label=gettext_lazy("Standard"), empty_label=None)
    pairs = PairsField(
        Pair.objects.none(),
        label=gettext_lazy("Pairs"),
        error_messages={"required": gettext_lazy("Tick at least one pair.")},
    )
    questions = forms.IntegerField(
        label=gettext_lazy("Number of questions"),
        min_value=1,
        max_value=MOST_QUESTIONS,
        initial=20,
        widget=forms.NumberInput(attrs={"inputmode": "numeric", "min": 1, "max": MOST_QUESTIONS}),
    )
    opens_at = forms.DateTimeField(label=gettext_lazy("Opens"), widget=moment_input())
    closes_at = forms.DateTimeField(
        label=gettext_lazy("Closes"),
        widget=moment_input(),
        required=False,
        help_text=gettext_lazy("Left empty, it stays open."),
    )
    minutes = forms.IntegerField(
        label=gettext_lazy("Time limit, minutes"),
        min_value=5,
        max_value=600,
        required=False,
        widget=forms.NumberInput(attrs={"inputmode": "numeric", "min": 5, "max": 600}),
        help_text=gettext_lazy("Left empty, there is none. Anybody who needs longer can be given more time."),
    )
    dangerous_each = count_field(
        gettext_lazy("At least so many of each dangerous plant"),
        help_text=gettext_lazy("Left empty, two fifths of the paper are spread evenly over them."),
    )
    edible_each = count_field(
        gettext_lazy("At least so many of each edible plant"),
        help_text=gettext_lazy("Left empty, two fifths of the paper are spread evenly over them."),
    )
    each_stage = forms.BooleanField(
        label=gettext_lazy("Of each dangerous plant every stage that the standard requires, as far as it fits in"),
        required=False,
        initial=True,
    )
    in_full = forms.BooleanField(label=gettext_lazy("Ask for all of it again"), required=False)
    per_species = count_field("")
    lowered = LoweredField(required=False)
    example = count_field("", LARGEST_SEED)

    def __init__(
        self, *args: Any, standards: QuerySet[Standard], pairs: QuerySet[Pair], pairs_help: str = "", **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        fields: Mapping[str, Any] = self.fields
        fields["standard"].queryset = standards
        fields["pairs"].queryset = pairs
        fields["pairs"].help_text = pairs_help
        for name in ("per_species", "example"):
            fields[name].widget = forms.HiddenInput()
        for kind in KINDS:
            if kind.key != NAME_AND_DECIDE:
                label = _("Of them “%(kind)s”, for learning") % {"kind": kind_word(kind.key)}
                self.fields[KIND_PREFIX + kind.key] = count_field(label)

    @property
    def first(self) -> list[forms.BoundField]:
        """What is asked, and how much of it."""
        return [self[name] for name in ("title", "standard", "pairs", "questions")]

    @property
    def when(self) -> list[forms.BoundField]:
        """From when until when, and for how long."""
        return [self[name] for name in ("opens_at", "closes_at", "minutes")]

    @property
    def exactly(self) -> list[forms.BoundField]:
        """What need not be looked at: the quotas."""
        return [self[name] for name in EXACTLY]

    @property
    def kinds(self) -> list[forms.BoundField]:
        """How many of each other kind of question."""
        return [self[name] for name in self.fields if name.startswith(KIND_PREFIX)]

    @property
    def has_exactly(self) -> bool:
        """Whether anything among the quotas and kinds was filled in, or is wrong."""
        said = [*self.kinds, self["dangerous_each"], self["edible_each"]]
        return any(field.value() for field in said) or any(field.errors for field in [*said, self["each_stage"]])

    @property
    def plan(self) -> PaperPlan:
        """The plan of a valid form."""
        values = dict(self.cleaned_data)
        kinds = {kind.name.removeprefix(KIND_PREFIX): values.pop(kind.name) or 0 for kind in self.kinds}
        if values.pop("in_full"):
            values |= {"lowered": {}, "per_species": None}
        for name in ("example", "people"):
            values.pop(name, None)
        return PaperPlan(**{**values, "pairs": list(values["pairs"]), "kinds": kinds})

    @property
    def seed(self) -> int:
        """What the example of a preview is drawn with."""
        return self.cleaned_data.get("example") or 0

    def offers_in(self, setting: Setting | None) -> list[tuple[str, list[tuple[str, str]]]]:
        """What could be set instead of what was typed: a sentence, and the fields of a form that sends it."""
        if setting is None:
            return []
        typed: Any = self.data  # as it was sent: several values of one name
        return [(sentence, fields_for(offer.plan, typed.lists())) for sentence, offer in setting.outlook.offers]

    def refuse(self, sentences: Iterable[str]) -> None:
        """Say above the form why it was not kept."""
        for sentence in sentences:
            self.add_error(None, sentence)


def initial_of(plan: PaperPlan) -> dict[str, Any]:
    """What the form shows of a plan."""
    names = ("title", "standard", "questions", "opens_at", "closes_at", "minutes", *EXACTLY, "per_species", "lowered")
    kinds = {f"{KIND_PREFIX}{key}": count for key, count in plan.kinds.items()}
    return {name: getattr(plan, name) for name in names} | kinds | {"pairs": [pair.pk for pair in plan.pairs]}


def fields_for(plan: PaperPlan, typed: Iterable[tuple[str, Iterable[object]]]) -> list[tuple[str, str]]:
    """What was typed, as the hidden fields of a form that asks for this plan instead: one press sends it."""
    kinds = {f"{KIND_PREFIX}{key}": str(count) for key, count in plan.kinds.items()}
    numbers = {name: getattr(plan, name) for name in ("questions", "dangerous_each", "edible_each", "per_species")}
    changed = {**{name: str(number) for name, number in numbers.items()}, **kinds, "lowered": written(plan.lowered)}
    kept = {*changed, "in_full", "step", "csrfmiddlewaretoken"}
    rest = ((name, str(value)) for name, values in typed if name not in kept for value in values)
    return [*rest, *changed.items()]


class PaperForm(PlanForm):
    """A paper for single people, named one to a line."""

    people = people_field()


class SittersForm(forms.Form):
    """Who comes to a paper that is set."""

    people = people_field()


class WithdrawalForm(forms.Form):
    """Why a paper is not held."""

    why = forms.CharField(label=gettext_lazy("Why"), max_length=200)
