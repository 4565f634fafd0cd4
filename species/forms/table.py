"""One species at one character: a grid of choices into a clean grid."""

from collections.abc import Iterable, Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.models import CharacterState
from species.models.flora import STAGE_WORDS
from species.models.pairs import FREQUENCY_WORDS
from species.queries.table_cells import Cell
from species.rules.grid import Grid, overfull
from species.rules.vocabulary import Frequency, Stage

NEVER = ""
CHOICES = [(NEVER, gettext_lazy("never")), *FREQUENCY_WORDS]
STAGES = dict(STAGE_WORDS)


class CellForm(forms.Form):
    """How often each state is shown at each stage, which stages are not known, and why it is changed."""

    version = forms.CharField(widget=forms.HiddenInput, max_length=60)
    seen = forms.CharField(widget=forms.HiddenInput, max_length=60, required=False)
    """What the preview showed; saving something else shows the preview again."""
    why = forms.CharField(
        label=gettext_lazy("Why?"),
        help_text=gettext_lazy("What was seen where, or the book and page. It stays beside the change."),
        max_length=300,
    )

    def __init__(self, *args: Any, cell: Cell, states: Sequence[CharacterState], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.stages, self.states = cell.stages, states
        self.grid: dict[Stage, dict[str, Frequency]] = {}
        for stage in self.stages:
            for state in states:
                label = f"{state.text}, {STAGES[stage.value]}"
                self.fields[f"{stage}.{state.key}"] = forms.ChoiceField(label=label, choices=CHOICES, required=False)
            label = _("not known at the stage %(stage)s") % {"stage": STAGES[stage.value]}
            self.fields[f"unknown.{stage}"] = forms.BooleanField(label=label, required=False)

    @property
    def rows(self) -> list[tuple[CharacterState, list[tuple[str, forms.BoundField]]]]:
        """Each state with its choice for each stage."""
        return [
            (state, [(str(STAGES[stage.value]), self[f"{stage}.{state.key}"]) for stage in self.stages])
            for state in self.states
        ]

    @property
    def unknown(self) -> list[tuple[str, forms.BoundField]]:
        return [(str(STAGES[stage.value]), self[f"unknown.{stage}"]) for stage in self.stages]

    @property
    def stage_names(self) -> list[str]:
        return [str(STAGES[stage.value]) for stage in self.stages]

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        for stage in self.stages:
            shown = {
                state.key: Frequency(often)
                for state in self.states
                if (often := values.get(f"{stage}.{state.key}", NEVER))
            }
            self._check_known(stage, bool(shown), bool(values.get(f"unknown.{stage}")))
            if shown:
                self.grid[stage] = shown
        for each in overfull(self.grid):
            always = [key for key in each.states if self.grid[each.stage][key] == Frequency.ALWAYS]
            sentence = _("At the stage %(stage)s “%(state)s” is always shown, so no other state can be shown there.")
            text = next(state.text for state in self.states if state.key == always[0])
            self.add_error(None, sentence % {"stage": STAGES[each.stage.value], "state": text})
        return values

    def _check_known(self, stage: Stage, shows: bool, is_unknown: bool) -> None:
        name = {"stage": STAGES[stage.value]}
        if shows and is_unknown:
            self.add_error(
                None, _("The stage %(stage)s is ticked as not known, but a state is shown there: choose one.") % name
            )
        elif not shows and not is_unknown:
            self.add_error(
                None,
                _("At the stage %(stage)s no state is ever shown: say which is, or tick that it is not known.") % name,
            )


def initial_of(grid: Grid, stages: Iterable[Stage]) -> dict[str, Any]:
    """What the form shows of a grid."""
    values: dict[str, Any] = {f"unknown.{stage}": not grid.get(stage) for stage in stages}
    for stage, states in grid.items():
        values.update({f"{stage}.{state}": often.value for state, often in states.items()})
    return values
