"""Characters with their states, the state table, and the lookalike pairs that they tell apart."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from species.querysets import PairQuerySet
from species.rules.vocabulary import Danger, Frequency, Trust

from .flora import Species

DANGER_WORDS = [
    (Danger.DANGEROUS.value, _("dangerous")),
    (Danger.UNPLEASANT.value, _("unpleasant")),
    (Danger.HARMLESS.value, _("harmless")),
]
FREQUENCY_WORDS = [
    (Frequency.ALWAYS.value, _("always")),
    (Frequency.USUALLY.value, _("usually")),
    (Frequency.SOMETIMES.value, _("sometimes")),
]
TRUST_WORDS = [
    (Trust.DECISIVE.value, _("decisive")),
    (Trust.SUPPORTING.value, _("supporting")),
    (Trust.NOT_TO_BE_RELIED_ON.value, _("not to be relied on")),
]


class Character(models.Model):
    """Something to look at: leaf margin, stem surface, smell."""

    key = models.SlugField(_("key"), max_length=60, unique=True)
    name = models.CharField(_("name"), max_length=120)
    organ = models.CharField(_("organ"), max_length=60)
    sense = models.CharField(_("sense"), max_length=30)
    stages = models.JSONField(_("stages in which it can be seen"), default=list)
    reliability = models.CharField(_("reliability"), max_length=200, blank=True)
    why = models.TextField(_("why"), blank=True)
    needs_digging = models.BooleanField(_("needs digging"), default=False)
    order = models.PositiveSmallIntegerField(_("order"), default=0)

    class Meta:
        verbose_name = _("character")
        verbose_name_plural = _("characters")
        ordering = ["order", "name"]

    def __str__(self) -> str:
        return self.name


class CharacterState(models.Model):
    """One thing that a character can show."""

    character = models.ForeignKey(Character, models.CASCADE, related_name="states", verbose_name=_("character"))
    key = models.SlugField(_("key"), max_length=60)
    text = models.CharField(_("text"), max_length=200)
    order = models.PositiveSmallIntegerField(_("order"), default=0)

    class Meta:
        verbose_name = _("state")
        verbose_name_plural = _("states")
        ordering = ["character", "order"]
        constraints = [models.UniqueConstraint(fields=["character", "key"], name="one_state_per_key")]

    def __str__(self) -> str:
        return self.text


class StateRecord(models.Model):
    """One cell of the state table: this species shows this state, so often, at these stages."""

    species = models.ForeignKey(Species, models.CASCADE, related_name="state_records", verbose_name=_("species"))
    state = models.ForeignKey(CharacterState, models.CASCADE, related_name="records", verbose_name=_("state"))
    frequency = models.CharField(_("how often"), max_length=12, choices=FREQUENCY_WORDS)
    stages = models.JSONField(_("at these stages only; empty means at all"), default=list, blank=True)

    class Meta:
        verbose_name = _("state of a species")
        verbose_name_plural = _("state table")
        ordering = ["species", "state", "id"]

    def __str__(self) -> str:
        return f"{self.species}: {self.state} {self.frequency}"


class Pair(models.Model):
    """A lookalike pair: the gathered species is wanted, the mistaken one is taken for it."""

    key = models.SlugField(_("key"), max_length=80, unique=True)
    gathered = models.ForeignKey(
        Species, models.PROTECT, related_name="pairs_as_gathered", verbose_name=_("gathered species")
    )
    mistaken = models.ForeignKey(
        Species, models.PROTECT, related_name="pairs_as_mistaken", verbose_name=_("mistaken species")
    )
    danger = models.CharField(_("danger"), max_length=12, choices=DANGER_WORDS)
    core = models.BooleanField(_("proposed for the standards"), default=False)
    part = models.CharField(_("part gathered"), max_length=80, blank=True)
    what_goes_wrong = models.TextField(_("what goes wrong"), blank=True)
    where_together = models.TextField(_("where they grow together"), blank=True)
    third_species = models.TextField(_("other plants to know"), blank=True)
    rule = models.TextField(_("the rule in a sentence"), blank=True)
    stage_combinations = models.JSONField(_("stages in which they can be confused: [gathered, mistaken]"), default=list)
    sources = models.JSONField(_("sources"), default=list, blank=True)
    order = models.PositiveSmallIntegerField(_("order"), default=0)

    objects = PairQuerySet.as_manager()

    class Meta:
        verbose_name = _("lookalike pair")
        verbose_name_plural = _("lookalike pairs")
        ordering = ["order", "key"]
        constraints = [
            models.UniqueConstraint(fields=["gathered", "mistaken"], name="one_pair_per_direction"),
            models.CheckConstraint(condition=~models.Q(gathered=models.F("mistaken")), name="a_pair_has_two_species"),
        ]

    def __str__(self) -> str:
        return self.key

    @property
    def is_dangerous(self) -> bool:
        return self.danger == Danger.DANGEROUS


class PairCharacter(models.Model):
    """What a character shows on either side of a pair, and how far it may be trusted."""

    pair = models.ForeignKey(Pair, models.CASCADE, related_name="characters", verbose_name=_("pair"))
    character = models.ForeignKey(
        Character,
        models.PROTECT,
        related_name="in_pairs",
        null=True,
        blank=True,
        verbose_name=_("character"),
    )
    label = models.CharField(_("in words, where it is no character of the table"), max_length=80, blank=True)
    gathered_text = models.CharField(_("on the gathered species"), max_length=300, blank=True)
    mistaken_text = models.CharField(_("on the mistaken species"), max_length=300, blank=True)
    stages = models.JSONField(_("stages"), default=list)
    trust = models.CharField(_("trust"), max_length=20, choices=TRUST_WORDS)
    one_way = models.CharField(_("proves one thing only when seen"), max_length=200, blank=True)
    needs_digging = models.BooleanField(_("needs digging"), default=False)
    note = models.TextField(_("note, or why not to rely on it"), blank=True)
    order = models.PositiveSmallIntegerField(_("order"), default=0)

    class Meta:
        verbose_name = _("character of a pair")
        verbose_name_plural = _("characters of pairs")
        ordering = ["pair", "order"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(character__isnull=False) ^ ~models.Q(label=""),
                name="a_character_of_the_table_or_a_label",
            )
        ]

    def __str__(self) -> str:
        return f"{self.pair}: {self.name}"

    @property
    def name(self) -> str:
        """What to look at, in words."""
        return self.character.name if self.character else self.label
