"""The room of finding out what somebody can tell apart."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _


class AssessmentsConfig(AppConfig):
    name = "assessments"
    verbose_name = _("Assessment")
    default_auto_field = "django.db.models.BigAutoField"
