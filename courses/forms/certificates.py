"""Text of the certificate pages into clean values."""

from collections.abc import Collection, Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from courses.models import CertificateEvent, Person, RequirementRecord
from species.forms.choices import choices_of, options_of


class ApplyForm(forms.Form):
    """The statement that goes with an application."""

    statement = forms.BooleanField(
        label=_("The answers were my own, given alone, and what I say of myself is true."),
        error_messages={"required": _("Without this statement the school cannot decide: tick it if it is true.")},
    )
    agreement = forms.BooleanField(
        label=_(
            "I will claim only what the certificate names, stop as soon as it is suspended or withdrawn, mislead "
            "nobody with it, and give it back if asked: it stays the school's."
        ),
        error_messages={"required": _("Without this promise no certificate is issued: tick it if you agree.")},
    )


class DeclineForm(forms.Form):
    """Why an application is declined."""

    reason = forms.CharField(
        label=_("Reason, as the person will read it"),
        widget=forms.Textarea(attrs={"rows": 4}),
        error_messages={"required": _("Say why: the person has a right to the reason.")},
    )


class EventForm(forms.Form):
    """What happens to a certificate, and why.

    `pairs`: key and name of each pair that it stands for; `kinds`: what to offer, or else every step: what is not
    possible any more is refused with its reason by whoever takes it.
    """

    kind = forms.ChoiceField(label=_("What happens"), widget=forms.RadioSelect)
    losing = forms.MultipleChoiceField(
        label=_("The pairs for which it no longer stands"), required=False, widget=forms.CheckboxSelectMultiple
    )
    reason = forms.CharField(
        label=_("Reason, as the holder will read it"),
        widget=forms.Textarea(attrs={"rows": 4}),
        error_messages={"required": _("Say why: the holder has a right to the reason.")},
    )

    def __init__(
        self, *args: Any, pairs: Sequence[tuple[str, str]] = (), kinds: Collection[str] | None = None, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        renewed = CertificateEvent.Kind.RENEWED  # follows from deciding on a renewal, and from nothing else
        every = [choice for choice in CertificateEvent.Kind.choices if choice[0] != renewed]
        options_of(self, "kind").choices = [each for each in every if kinds is None or each[0] in kinds]
        options_of(self, "losing").choices = list(pairs)
        self.pairs = tuple(key for key, _name in pairs)

    def clean(self) -> dict[str, Any]:
        """What remains for a narrowing, which a step is told of; other steps have no use for the ticks."""
        cleaned = super().clean() or {}
        cleaned["keeping"] = [key for key in self.pairs if key not in cleaned.get("losing", ())]
        return cleaned


class ConflictForm(forms.Form):
    """Why somebody should not decide about a person."""

    reason = forms.CharField(label=_("What connects you with this person"), max_length=200)


class CheckForm(forms.Form):
    """What stands on a paper that somebody shows."""

    number = forms.CharField(
        label=_("Number of the certificate"),
        max_length=20,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
        error_messages={"required": _("Type the number: it stands below the title.")},
    )
    family_name = forms.CharField(
        label=_("Family name of the holder"),
        max_length=120,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
        error_messages={"required": _("Type the family name as it stands on the paper.")},
    )


class RequirementForm(forms.ModelForm):
    """A proof that somebody showed."""

    class Meta:
        model = RequirementRecord
        fields = ["person", "kind", "site", "valid_from", "valid_until", "note"]
        help_texts = {"site": _("For an induction alone: at which site.")}
        widgets = {
            "valid_from": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "valid_until": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choices_of(self, "person").queryset = Person.objects.here()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        first, last = cleaned.get("valid_from"), cleaned.get("valid_until")
        if first and last and last < first:
            self.add_error("valid_until", _("This day lies before the first one: look at both dates."))
        if cleaned.get("kind") != RequirementRecord.Kind.INDUCTION:
            cleaned["site"] = None
        elif not cleaned.get("site") and "site" not in self.errors:
            self.add_error("site", _("An induction is for one site: say at which."))
        return cleaned
