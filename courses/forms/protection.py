"""Text into clean values: asking to be erased, answering that, and legal grounds."""

from datetime import date
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from courses.rules.inventory.shape import Activity

from .widgets import DayInput


class ConfirmForm(forms.Form):
    """Whoever asks types their own address, so that nobody asks by a slip of the thumb."""

    address = forms.CharField(
        label=gettext_lazy("Your e-mail address, to confirm"),
        max_length=254,
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "none", "spellcheck": "false"}),
        help_text=gettext_lazy("The address that you sign in with."),
    )

    def __init__(self, *args: Any, address: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.own = address

    def clean_address(self) -> str:
        """The address, if it is the person's own."""
        said: str = self.cleaned_data["address"]
        if said.strip().casefold() != self.own.casefold():
            raise forms.ValidationError(_("This is not the address that you sign in with: nothing was asked for."))
        return said


class RecordForm(forms.Form):
    """A request that came by letter, by telephone or in person."""

    came_on = forms.DateField(
        label=gettext_lazy("When did it come?"),
        widget=DayInput,
        help_text=gettext_lazy(
            "The month for the answer begins on this day. Make sure that it is the person who asks."
        ),
    )

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def clean_came_on(self) -> date:
        """A day that has been."""
        came: date = self.cleaned_data["came_on"]
        if came > self.today:
            raise forms.ValidationError(_("This day is still to come: give the day on which the request came."))
        return came


class DeclineForm(forms.Form):
    """Why a request is declined."""

    reason = forms.CharField(
        label=gettext_lazy("Why not?"),
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 4}),
        help_text=gettext_lazy("The person reads it, with the sentence that they may complain to the authority."),
    )


class GroundsForm(forms.Form):
    """The legal ground of each purpose, in the school's own words; what is empty is not filled in yet."""

    def __init__(self, *args: Any, labels: dict[Activity, str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for activity, label in labels.items():
            self.fields[activity.value] = forms.CharField(
                label=label, required=False, max_length=500, widget=forms.Textarea(attrs={"rows": 2})
            )

    @property
    def grounds(self) -> dict[str, str]:
        """What was written, by purpose."""
        return {name: words.strip() for name, words in self.cleaned_data.items()}
