"""Notices: something happened that a person must hear of. Written with the change that causes it."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _


class Notice(models.Model):
    """To whom, what kind, and the facts as they stood. The room above words and sends it."""

    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.CASCADE, related_name="notices", verbose_name=_("person")
    )
    kind = models.CharField(_("kind"), max_length=40)
    facts = models.JSONField(_("facts"), default=dict)
    happened_at = models.DateTimeField(_("happened at"))
    sent_at = models.DateTimeField(_("sent at"), null=True, blank=True)

    class Meta:
        verbose_name = _("notice")
        verbose_name_plural = _("notices")
        ordering = ["happened_at", "id"]

    def __str__(self) -> str:
        return f"{self.person}: {self.kind}"
