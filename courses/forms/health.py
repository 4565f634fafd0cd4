"""Text into clean values: the joining form. Each question says why it is asked, who reads it and until when."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from courses.models import Consent
from courses.rules.notes import Notes

LONG = 600


def _short(label: Any, why: Any, rows: int = 2) -> forms.CharField:
    return forms.CharField(
        label=label, help_text=why, required=False, max_length=LONG, widget=forms.Textarea(attrs={"rows": rows})
    )


class JoiningFormForm(forms.Form):
    """What a leader needs to know, and no more. All but the emergency contact may stay empty.

    `words`: of each consent, as they are kept with it.
    """

    emergency_contact = forms.CharField(
        label=_("Whom do we call in an emergency?"),
        help_text=_("A name and a number. Read by the tutors of this course, and given to rescuers."),
        max_length=200,
    )
    allergies = _short(
        _("Allergies"),
        _("So that nothing is put into your hand or mouth that harms you: plants, food, insects, latex."),
    )
    medicines = _short(
        _("Medicines that matter"),
        _(
            "Only those for the heart, thinner blood or the immune system, and what you carry for an emergency. We "
            "give no advice on medicines: ask a pharmacist or a doctor."
        ),
    )
    pregnancy = _short(_("Pregnancy"), _("Some plants are left out then. Write only what you want us to know."))
    mobility = _short(
        _("Walking and standing"), _("So that the way is right for you: distance, slopes, hearing, sight.")
    )

    def __init__(self, *args: Any, words: dict[str, Any], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.words = words
        for kind in Consent.Kind.values:
            self.fields[f"agrees_{kind}"] = forms.BooleanField(label=words[kind], required=False)

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        told = any(values.get(name) for name in ("allergies", "medicines", "pregnancy", "mobility"))
        if told and not values.get(f"agrees_{Consent.Kind.HEALTH}"):
            self.add_error(
                f"agrees_{Consent.Kind.HEALTH}",
                _("We may keep what you wrote about your health only if you agree here. Or leave those lines empty."),
            )
        return values

    @property
    def notes(self) -> Notes:
        """What was told."""
        told = self.cleaned_data
        return Notes(
            told["emergency_contact"], told["allergies"], told["medicines"], told["pregnancy"], told["mobility"]
        )

    @property
    def agreed(self) -> dict[str, str]:
        """The words of everything that was agreed to, by its kind."""
        return {kind: str(self.words[kind]) for kind in Consent.Kind.values if self.cleaned_data[f"agrees_{kind}"]}
