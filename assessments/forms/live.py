"""Text of the spot test pages into clean values."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from assessments.models.live import RECOGNISED_WORDS
from assessments.queries.flora import Flora
from species.models import Locality
from species.models.flora import STAGE_WORDS
from species.rules.names import nearest_names


class PlantField(forms.CharField):
    """A name, common or scientific, that must mean one plant of the school; cleans to (text, species id)."""

    def __init__(self, *, flora: Flora, **kwargs: Any) -> None:
        self.flora = flora
        attrs = {"list": "plant-names", "autocomplete": "off", "autocapitalize": "none", "spellcheck": "false"}
        super().__init__(max_length=160, widget=forms.TextInput(attrs=attrs), **kwargs)

    def clean(self, value: Any) -> Any:
        said = super().clean(value)
        if not said:
            return said, None
        meaning = self.flora.meaning(said)
        if meaning.species is None:
            near = ", ".join(nearest_names(said, self.flora.texts))
            sentence = _("No single plant of the school is called “%(said)s”.") % {"said": said}
            raise forms.ValidationError(f"{sentence} {_('Nearest: %(near)s.') % {'near': near} if near else ''}")
        return said, meaning.species.id


class SpotTestForm(forms.Form):
    """A spot test to be."""

    title = forms.CharField(label=gettext_lazy("Title"), max_length=120)
    locality = forms.ModelChoiceField(Locality.objects.all(), label=gettext_lazy("Where"))
    held_at = forms.DateTimeField(
        label=gettext_lazy("When"),
        widget=forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"),
    )


class StationForm(forms.Form):
    """One more station: the plant and the stage that shows."""

    def __init__(self, *args: Any, flora: Flora, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["plant"] = PlantField(label=gettext_lazy("What it is"), flora=flora)
        self.fields["stage"] = forms.ChoiceField(label=gettext_lazy("Stage"), choices=STAGE_WORDS)


class SecondNameForm(forms.Form):
    """The name that a second person gives to a station."""

    def __init__(self, *args: Any, flora: Flora, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["plant"] = PlantField(label=gettext_lazy("What do you call it?"), flora=flora)


class RecognisedForm(forms.Form):
    """How the person whose answers are recorded was recognised."""

    recognised = forms.ChoiceField(
        label=gettext_lazy("How did you make sure that it was this person?"),
        choices=RECOGNISED_WORDS,
        widget=forms.RadioSelect,
        help_text=gettext_lazy("What the document says is not kept: only that it was shown, to whom and when."),
        error_messages={"required": gettext_lazy("Choose one of the two: without that, answers are nobody's.")},
    )
