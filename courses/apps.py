"""The room that runs the school."""

from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _


class CoursesConfig(AppConfig):
    name = "courses"
    verbose_name = _("School")
    default_auto_field = "django.db.models.BigAutoField"
