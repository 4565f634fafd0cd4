"""Practice: what somebody has looked at for themselves. Never evidence, and nobody else reads it."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from assessments.querysets import PracticeTurnQuerySet
from species.models import Pair, Photo
from species.rules.keys import new_key


class PracticeState(models.Model):
    """How long somebody keeps a pair in mind, as `rules.practice` reckons it, and when they last met it."""

    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.CASCADE, related_name="practised", verbose_name=_("person")
    )
    pair = models.ForeignKey(Pair, models.CASCADE, related_name="+", verbose_name=_("pair"))
    half_life = models.FloatField(_("half-life, days"))
    last_at = models.DateTimeField(_("last met at"))

    class Meta:
        verbose_name = _("pair practised")
        verbose_name_plural = _("pairs practised")
        ordering = ["person", "pair"]
        constraints = [models.UniqueConstraint(fields=["person", "pair"], name="one_state_per_pair_practised")]

    def __str__(self) -> str:
        return f"{self.person}: {self.pair}"


class PracticeRound(models.Model):
    """About five minutes of practice, planned when it begins."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="+", verbose_name=_("person"))
    began_at = models.DateTimeField(_("began at"))

    class Meta:
        verbose_name = _("round of practice")
        verbose_name_plural = _("rounds of practice")
        ordering = ["-began_at", "-id"]

    def __str__(self) -> str:
        return self.key


class PracticeTurn(models.Model):
    """One picture of a round: of which pair, and how it went once it is answered."""

    round = models.ForeignKey(PracticeRound, models.CASCADE, related_name="turns", verbose_name=_("round"))
    position = models.PositiveSmallIntegerField(_("position"))
    pair = models.ForeignKey(Pair, models.CASCADE, related_name="+", verbose_name=_("pair"))
    photo = models.ForeignKey(Photo, models.CASCADE, related_name="+", verbose_name=_("picture"))
    said = models.CharField(_("said"), max_length=10, blank=True)
    outcome = models.CharField(_("how it went"), max_length=8, blank=True)
    answered_at = models.DateTimeField(_("answered at"), null=True, blank=True)

    objects = PracticeTurnQuerySet.as_manager()

    class Meta:
        verbose_name = _("turn of practice")
        verbose_name_plural = _("turns of practice")
        ordering = ["round", "position"]
        constraints = [models.UniqueConstraint(fields=["round", "position"], name="one_turn_per_position")]

    def __str__(self) -> str:
        return f"{self.round} {self.position}"
