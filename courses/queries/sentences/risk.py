"""The headings of a risk assessment in words, and what to think of under each."""

from django.utils.translation import gettext_lazy as _

HEADING_WORDS = {
    "site_and_access": _("Site and access"),
    "ground": _("Ground, slope, water, tide, livestock, roads"),
    "weather": _("Weather and daylight"),
    "plants": _("Dangerous plants, and what irritates skin"),
    "ticks_and_stings": _("Ticks and stings"),
    "contamination": _("Contamination: dogs, roads, sprays, water below grazing, old industry"),
    "people": _("People: age, mobility, health as declared"),
    "tasting": _("Tasting and cooking"),
    "tools": _("Tools"),
    "lone_working": _("Lone working"),
    "signal": _("Communication and signal"),
    "emergency": _("Emergency: place, access, who does what"),
}
HEADING_HELP = {
    "plants": _("Every dangerous species that can be met, with its stage in that month; and sap, thorns, nettles."),
    "tasting": _("Allergens, hygiene, one plant at a time, and a sample of everything eaten kept for a day."),
    "emergency": _("The exact place as it is read out on the telephone, the gate, who calls and who stays."),
}
