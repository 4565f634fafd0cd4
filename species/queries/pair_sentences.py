"""What is said of a pair in whole sentences, on the page and on paper alike."""

from typing import Protocol

from django.utils.translation import gettext as _

from species.rules.vocabulary import Danger


class MonthSaid(Protocol):
    """A month with its name, and whether the two can be told apart in it."""

    @property
    def name(self) -> str: ...

    @property
    def telling(self) -> str: ...


def telling_sentence(month: MonthSaid) -> str:
    """Whether the two can be told apart in the month."""
    sentence = {
        "in_all": _("In %(name)s something above ground tells them apart in every stage that shows."),
        "in_some": _(
            "In %(name)s they can be told apart in some stages and not in others: look first at what is showing."
        ),
        "in_none": _("In %(name)s nothing above ground tells them apart: leave both."),
        "not_together": _("In %(name)s the two do not show in stages that are confused."),
    }[month.telling]
    return sentence % {"name": month.name}


def danger_sentence(danger: str) -> str:
    """What a mistake with this pair does."""
    return {
        Danger.DANGEROUS.value: _("Dangerous: this mistake may kill, or put somebody in hospital."),
        Danger.UNPLEASANT.value: _("Unpleasant: this mistake makes ill for hours."),
        Danger.HARMLESS.value: _("Harmless: no harm is known from this mistake."),
    }[danger]
