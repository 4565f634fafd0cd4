"""Photographs from a browser, and what is said about them, into clean values."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.models.bank import USE_WORDS
from species.models.flora import STAGE_WORDS
from species.queries.names import known_names
from species.rules.bank import Lack, Said, lacks
from species.rules.keys import new_key

AT_ONCE = 12
"""In one request: more take longer than a browser waits. With the script each file is a request of its own."""
TRAY_WORDS = ("", gettext_lazy("sort it later: it waits in the tray, and nobody is shown it"))


_LACKING = {
    Lack.STAGE: ("stage", gettext_lazy("Say what is showing, or let it wait in the tray.")),
    Lack.PART: ("part", gettext_lazy("Say which part the pictures show, or let them wait in the tray.")),
    Lack.RIGHTS: ("rights", gettext_lazy("Say whose pictures they are, or let them wait in the tray.")),
    Lack.LICENCE: ("licence", gettext_lazy("Say under which licence they may be shown, or let them wait in the tray.")),
}


class DayInput(forms.DateInput):
    """A day; the browser shows it in its own way and sends it as 2026-05-12."""

    input_type = "date"

    def __init__(self) -> None:
        super().__init__(format="%Y-%m-%d")


class ManyFilesInput(forms.ClearableFileInput):
    """Choosing several files at once."""

    allow_multiple_selected = True


class ManyFilesField(forms.FileField):
    """Several files; the clean value is a list."""

    widget = ManyFilesInput

    def clean(self, value: Any, initial: Any = None) -> list[UploadedFile]:
        # An empty file is told from the others later, by its own name.
        files = [each for each in (value or []) if each] if isinstance(value, Sequence) else []
        if not files:
            raise forms.ValidationError(_("Choose at least one photograph."), code="required")
        if len(files) > AT_ONCE:
            sentence = _("These are %(count)s files; at most %(most)s at once. Put more of them into a ZIP archive.")
            raise forms.ValidationError(sentence, params={"count": len(files), "most": AT_ONCE}, code="too_many")
        return files


class UploadForm(forms.Form):
    """Photographs of plants, with what is known of all of them."""

    photos = ManyFilesField(
        label=gettext_lazy("Photographs"),
        help_text=gettext_lazy(
            "JPEG, PNG, WebP or HEIC, or a ZIP archive of them. Place and camera are taken out of what is shown."
        ),
        widget=ManyFilesInput(attrs={"accept": "image/jpeg,image/png,image/webp,image/heic,.heic,.heif,.zip"}),
    )
    is_one = forms.BooleanField(
        label=gettext_lazy("All of one plant on one day: they count as one specimen"), required=False
    )
    said = forms.CharField(
        label=gettext_lazy("What is it?"),
        help_text=gettext_lazy("Your name for it is the first of two. Leave it empty if you cannot tell."),
        max_length=160,
        required=False,
        widget=forms.TextInput(attrs={"list": "plant-names", "autocomplete": "off", "spellcheck": "false"}),
    )
    characters = forms.CharField(
        label=gettext_lazy("Which characters decided?"), required=False, widget=forms.Textarea(attrs={"rows": 2})
    )
    stage = forms.ChoiceField(
        label=gettext_lazy("What is showing?"),
        required=False,
        choices=[("", gettext_lazy("not said yet")), *STAGE_WORDS],
    )
    use = forms.ChoiceField(
        label=gettext_lazy("What for?"),
        help_text=gettext_lazy("Teaching pictures are public. What has served for teaching never serves for a test."),
        choices=[TRAY_WORDS, *USE_WORDS],
        required=False,
        initial="",
        widget=forms.RadioSelect,
    )
    locality = forms.CharField(
        label=gettext_lazy("Place"),
        max_length=120,
        required=False,
        widget=forms.TextInput(attrs={"list": "places", "autocomplete": "off"}),
    )
    day = forms.DateField(
        label=gettext_lazy("Day of the find"),
        help_text=gettext_lazy("Empty: the day by the camera's clock."),
        required=False,
        widget=DayInput(),
    )
    part = forms.CharField(label=gettext_lazy("Part shown"), max_length=60, required=False)
    photographer = forms.CharField(label=gettext_lazy("Photographer"), max_length=120, required=False)
    rights = forms.CharField(
        label=gettext_lazy("Whose pictures are they?"),
        help_text=gettext_lazy("Empty: the photographer's."),
        max_length=120,
        required=False,
    )
    licence = forms.CharField(
        label=gettext_lazy("Licence"),
        help_text=gettext_lazy("Under which they may be shown, for instance CC BY 4.0, or: for this school alone."),
        max_length=200,
        required=False,
    )
    dry_run = forms.BooleanField(label=gettext_lazy("Only try: look at everything and keep nothing"), required=False)
    batch = forms.CharField(max_length=32, required=False, widget=forms.HiddenInput())

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def clean_day(self) -> date | None:
        day: date | None = self.cleaned_data["day"]
        if day and day > self.today:
            raise forms.ValidationError(_("This day lies ahead; when was the plant found?"))
        return day

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        if values.get("use"):
            said = Said(
                values.get("part", ""), values.get("rights") or values.get("photographer", ""), values["licence"]
            )
            for lack in lacks(values.get("stage", ""), [said]):
                self.add_error(*_LACKING[lack])
        values["batch"] = values.get("batch") or new_key()  # what is sent together belongs together
        values["species"] = ""
        if said := values.get("said", "").strip():
            names = known_names()
            species = names.called(said)
            values["species"] = species.key if species else ""
            if species is None:
                near = ", ".join(names.nearest(said))
                sentence = _("No plant of the school is called “%(said)s”.") % {"said": said}
                nearest = _("Nearest: %(near)s.") % {"near": near} if near else ""
                self.add_error("said", f"{sentence} {nearest}".strip())
        return values
