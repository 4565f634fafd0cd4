"""Inputs that bring the telephone's own pickers for days and times."""

from django import forms


class DayInput(forms.DateInput):
    """A day; the browser shows it in its own way and sends it as 2026-05-12."""

    input_type = "date"

    def __init__(self, attrs: dict[str, object] | None = None) -> None:
        super().__init__(attrs=attrs, format="%Y-%m-%d")


class ClockInput(forms.TimeInput):
    """A time of day, to the minute."""

    input_type = "time"

    def __init__(self, attrs: dict[str, object] | None = None) -> None:
        super().__init__(attrs=attrs, format="%H:%M")


class MomentInput(forms.DateTimeInput):
    """A day and a time, in the school's zone."""

    input_type = "datetime-local"

    def __init__(self, attrs: dict[str, object] | None = None) -> None:
        super().__init__(attrs=attrs, format="%Y-%m-%dT%H:%M")
