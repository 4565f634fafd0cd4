"""Choosing among rows."""

from django import forms


def choices_of(form: forms.BaseForm, name: str) -> forms.ModelChoiceField:
    """The field of this name, which chooses among rows; its queryset is set where the form is made."""
    field = form.fields[name]
    assert isinstance(field, forms.ModelChoiceField)
    return field
