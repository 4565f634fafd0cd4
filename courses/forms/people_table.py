"""A table of people that is sent in."""

from django import forms
from django.utils.translation import gettext_lazy as _


class PeopleTableForm(forms.Form):
    """The file."""

    table = forms.FileField(label=_("CSV or XLSX file"), widget=forms.FileInput(attrs={"accept": ".csv,.xlsx"}))
