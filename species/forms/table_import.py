"""A character table that comes in as a file, into clean values."""

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

LARGEST = 4_000_000
"""Bytes; the table of the whole flora has about a tenth of that."""


class TableImportForm(forms.Form):
    """The file, the reason, and whether it is only tried."""

    table = forms.FileField(
        label=gettext_lazy("CSV file"),
        help_text=gettext_lazy("As it was taken out here: plants by characters. What it does not name stays."),
        widget=forms.FileInput(attrs={"accept": ".csv,text/csv"}),
    )
    why = forms.CharField(
        label=gettext_lazy("Why?"), help_text=gettext_lazy("It stays beside every change."), max_length=300
    )
    only_try = forms.BooleanField(
        label=gettext_lazy("Only try: say what would change, and change nothing"), required=False, initial=True
    )

    def clean_table(self) -> UploadedFile:
        file: UploadedFile = self.cleaned_data["table"]
        if (file.size or 0) > LARGEST:
            raise forms.ValidationError(_("This file is too large for a character table (more than 4 MB)."))
        return file
