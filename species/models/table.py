"""Who changed the state table, when and why, and what stood there before."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from .flora import Species
from .pairs import Character


class TableEdit(models.Model):
    """One change of one species at one character. Never changed: taking it back is another edit.

    Lines are lists [state, how often, [stages]]; no stages means all at which the character can be seen.
    """

    species = models.ForeignKey(Species, models.PROTECT, related_name="table_edits", verbose_name=_("species"))
    character = models.ForeignKey(Character, models.PROTECT, related_name="table_edits", verbose_name=_("character"))
    number = models.PositiveIntegerField(_("number"))
    before = models.JSONField(_("lines before"), default=list, blank=True)
    after = models.JSONField(_("lines after"), default=list, blank=True)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="table_edits",
        verbose_name=_("by"),
    )
    at = models.DateTimeField(_("at"))
    why = models.CharField(_("why"), max_length=300)
    from_tables = models.BooleanField(
        _("the tables that come with the program replaced the school's edit"), default=False
    )

    class Meta:
        verbose_name = _("change of the state table")
        verbose_name_plural = _("changes of the state table")
        ordering = ["species", "character", "number"]
        constraints = [
            models.UniqueConstraint(fields=["species", "character", "number"], name="one_table_edit_per_number")
        ]

    def __str__(self) -> str:
        return f"{self.species}, {self.character}: {self.number}"
