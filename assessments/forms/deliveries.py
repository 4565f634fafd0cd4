"""The number of a delivery into clean values."""

from django import forms


class DeliveryForm(forms.Form):
    """Sent by the script beside an answer: a name that the device made up, and how many answers it has given."""

    device = forms.RegexField(r"^[0-9a-f]{32}$")
    number = forms.IntegerField(min_value=1, max_value=2**31 - 1)
