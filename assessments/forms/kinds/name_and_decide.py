"""What is it, would you gather it, how sure are you: text into a clean answer."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from assessments.models import Answer
from assessments.models.papers import DECISION_WORDS
from assessments.queries.flora import Flora
from assessments.rules.evidence import Decision
from species.rules.names import nearest_names

from .confidence import SURE_WORDS
from .shape import KindForm

LISTED, ANOTHER, UNKNOWN = "listed", "another", "unknown"
NAME_WORDS = [
    (LISTED, gettext_lazy("The plant I named")),
    (ANOTHER, gettext_lazy("Another plant, as I wrote it")),
    (UNKNOWN, gettext_lazy("I don't know what it is")),
]


class NameAndDecide(KindForm):
    """One answer: a name, a decision, and how sure."""

    said = forms.CharField(
        label=gettext_lazy("Its name, common or scientific"),
        max_length=160,
        required=False,
        widget=forms.TextInput(
            attrs={
                "list": "plant-names",
                "autocomplete": "off",
                "autocapitalize": "none",
                "spellcheck": "false",
                "data-name-choice": "",
            }
        ),
    )
    name_is = forms.ChoiceField(
        label=gettext_lazy("What is it?"),
        choices=NAME_WORDS,
        initial=LISTED,
        required=False,
        widget=forms.RadioSelect,
    )
    decision = forms.ChoiceField(
        label=gettext_lazy("Would you gather it?"),
        choices=DECISION_WORDS,
        widget=forms.RadioSelect,
        error_messages={"required": gettext_lazy("Choose one of the three.")},
    )
    confidence = forms.ChoiceField(
        label=gettext_lazy("How sure are you?"),
        choices=SURE_WORDS,
        required=False,
        widget=forms.RadioSelect,
        help_text=gettext_lazy("Out of so many answers given like this, how many would be right?"),
    )

    @property
    def is_blank(self) -> bool:
        """Whether nothing at all was filled in."""
        names = (self.add_prefix(name) for name in ("said", "decision", "confidence"))
        return not any(self.data.get(name) for name in names) and self._name_is() != UNKNOWN

    def _name_is(self) -> str:
        return str(self.data.get(self.add_prefix("name_is")) or LISTED)

    def clean(self) -> dict[str, Any]:
        values = super().clean() or {}
        said = " ".join(values.get("said", "").split())
        name_is = values.get("name_is") or LISTED
        named = ("", None) if name_is == UNKNOWN else self._named(said, name_is)
        values["said"], values["species_id"] = named
        leaves = values.get("decision") == Decision.LEAVE
        if values.get("decision") and not leaves and not values.get("confidence"):
            self.add_error("confidence", _("Say how sure you are."))
        return values

    def _named(self, said: str, name_is: str) -> tuple[str, int | None]:
        if not said:
            self.add_error("said", _("Write what it is, or choose that you don't know."))
            return "", None
        meaning = self.flora.meaning(said)
        if not meaning.known and name_is == LISTED:
            self.add_error("said", self._unknown_name(said))
        return said, meaning.species.id if meaning.species else None

    def _unknown_name(self, said: str) -> str:
        near = nearest_names(said, self.flora.texts)
        if near:
            return _(
                "No plant in the list is called “%(said)s”. Did you mean %(near)s? If not, choose “another plant”."
            ) % {"said": said, "near": ", ".join(near)}
        return _("No plant in the list is called “%(said)s”. Choose “another plant” to keep the name.") % {"said": said}

    @property
    def given(self) -> dict[str, Any]:
        """The clean answer: decision, confidence, said, species_id."""
        names = ("decision", "confidence", "said", "species_id")
        return {name: self.cleaned_data[name] for name in names}

    @classmethod
    def initial_from(cls, answer: Answer | None, flora: Flora) -> dict[str, str]:
        """What the form shows of an answer that stands already."""
        if answer is None:
            return {}
        known = bool(answer.named_id) or flora.meaning(answer.said).known
        return {
            "said": answer.said,
            "name_is": UNKNOWN if not answer.said else LISTED if known else ANOTHER,
            "decision": answer.decision,
            "confidence": answer.confidence,
        }


FORM = NameAndDecide
