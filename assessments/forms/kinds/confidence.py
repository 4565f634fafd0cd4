"""How sure somebody is, in words that say what they promise; for every kind that asks."""

from django.utils.translation import gettext_lazy as _

from assessments.rules.evidence import Confidence

SURE_WORDS = [
    (Confidence.UNSURE.value, _("Unsure: 1 in 2")),
    (Confidence.FAIRLY.value, _("Fairly sure: 3 in 4")),
    (Confidence.SURE.value, _("Sure: 19 in 20")),
]
