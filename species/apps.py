"""The room of what is taught."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _


class SpeciesConfig(AppConfig):
    name = "species"
    verbose_name = _("Plants")
    default_auto_field = "django.db.models.BigAutoField"
