"""The fields of a form that choose, by name; what they choose from is set where the form is made."""

from django import forms


def choices_of(form: forms.BaseForm, name: str) -> forms.ModelChoiceField:
    """The field of this name, which chooses among rows: set its `queryset`."""
    field = form.fields[name]
    assert isinstance(field, forms.ModelChoiceField)
    return field


def options_of(form: forms.BaseForm, name: str) -> forms.ChoiceField:
    """The field of this name, which chooses among words: set its `choices`."""
    field = form.fields[name]
    assert isinstance(field, forms.ChoiceField)
    return field
