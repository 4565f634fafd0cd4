"""Papers as set, the seats of those who may sit them, and one person's sitting with its questions."""

from datetime import datetime

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from assessments.querysets import (
    MINUTE_FOR_UNDOING,
    PaperQuerySet,
    QuestionQuerySet,
    SeatQuerySet,
    SittingQuerySet,
)
from assessments.rules.evidence import Confidence, Decision
from species.models import Pair, Species, Specimen
from species.rules.keys import new_key

from .standards import Standard

DECISION_WORDS = [
    (Decision.GATHER.value, _("Gather it")),
    (Decision.REFUSE.value, _("No, I would not")),
    (Decision.LEAVE.value, _("Leave it: I cannot tell")),
]
CONFIDENCE_WORDS = [
    (Confidence.SURE.value, _("sure")),
    (Confidence.FAIRLY.value, _("fairly sure")),
    (Confidence.UNSURE.value, _("unsure")),
]


class Paper(models.Model):
    """An identification test as set. Each sitter gets questions of their own, drawn to the same blueprint."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    title = models.CharField(_("title"), max_length=120)
    standard = models.ForeignKey(Standard, models.PROTECT, related_name="papers", verbose_name=_("standard"))
    pairs = models.ManyToManyField(Pair, related_name="papers", verbose_name=_("pairs"))
    questions = models.PositiveSmallIntegerField(_("number of questions"))
    kinds = models.JSONField(_("how many of each kind that is for learning"), default=dict, blank=True)
    minutes = models.PositiveSmallIntegerField(_("time limit, minutes"), null=True, blank=True)
    opens_at = models.DateTimeField(_("opens"))
    closes_at = models.DateTimeField(_("closes"), null=True, blank=True)
    blueprint = models.JSONField(_("quotas"), default=dict, blank=True)
    seed = models.PositiveBigIntegerField(_("seed"))
    set_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="papers_set", verbose_name=_("set by")
    )
    set_at = models.DateTimeField(_("set at"))
    withdrawn_at = models.DateTimeField(_("withdrawn at"), null=True, blank=True)
    withdrawn_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("withdrawn by"),
    )
    withdrawn_why = models.CharField(_("why withdrawn"), max_length=200, blank=True)

    objects = PaperQuerySet.as_manager()

    class Meta:
        verbose_name = _("paper")
        verbose_name_plural = _("papers")
        ordering = ["-opens_at", "-id"]

    def __str__(self) -> str:
        return self.title

    @property
    def counting_questions(self) -> int:
        """How many questions are assembled to the blueprint: all but those of the other kinds."""
        return self.questions - sum(self.kinds.values())


class Seat(models.Model):
    """One person who may sit one paper, from when until when, with how much more time."""

    paper = models.ForeignKey(Paper, models.CASCADE, related_name="seats", verbose_name=_("paper"))
    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="seats", verbose_name=_("person"))
    opens_at = models.DateTimeField(_("opens"))
    closes_at = models.DateTimeField(_("closes"), null=True, blank=True)
    time_factor = models.DecimalField(_("times the time allowed"), max_digits=4, decimal_places=2, default=1)
    adjustment = models.CharField(_("adjustment made"), max_length=200, blank=True)

    objects = SeatQuerySet.as_manager()

    class Meta:
        verbose_name = _("seat")
        verbose_name_plural = _("seats")
        ordering = ["opens_at", "id"]
        constraints = [
            models.UniqueConstraint(fields=["paper", "person"], name="one_seat_per_person_and_paper"),
            models.CheckConstraint(condition=models.Q(time_factor__gte=1), name="time_is_never_shortened"),
        ]

    def __str__(self) -> str:
        return f"{self.paper}: {self.person}"


class Sitting(models.Model):
    """One person's go at a paper: opened, handed in, settled (the evidence is written), its result seen."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    seat = models.OneToOneField(Seat, models.PROTECT, related_name="sitting", verbose_name=_("seat"))
    opened_at = models.DateTimeField(_("opened at"))
    closes_at = models.DateTimeField(_("closes by itself at"), null=True, blank=True)
    handed_in_at = models.DateTimeField(_("handed in at"), null=True, blank=True)
    closed_itself = models.BooleanField(_("closed by itself at its limit"), default=False)
    settled_at = models.DateTimeField(_("evidence written at"), null=True, blank=True)
    result_shown_at = models.DateTimeField(_("result first seen at"), null=True, blank=True)
    annulled_at = models.DateTimeField(_("annulled at"), null=True, blank=True)
    annulled_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("annulled by"),
    )
    annulled_why = models.CharField(_("why annulled"), max_length=200, blank=True)

    objects = SittingQuerySet.as_manager()

    class Meta:
        verbose_name = _("sitting")
        verbose_name_plural = _("sittings")
        ordering = ["-opened_at"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(settled_at__isnull=True) | models.Q(handed_in_at__isnull=False),
                name="evidence_only_after_handing_in",
            ),
            models.CheckConstraint(
                condition=models.Q(result_shown_at__isnull=True) | models.Q(settled_at__isnull=False),
                name="a_result_only_with_its_evidence",
            ),
        ]

    def __str__(self) -> str:
        return self.key

    def is_over(self, now: datetime) -> bool:
        """Whether it takes no more answers: handed in, past its limit, or annulled."""
        if self.handed_in_at is not None or self.annulled_at is not None:
            return True
        return self.closes_at is not None and now >= self.closes_at

    def is_due(self, now: datetime) -> bool:
        """Whether it has to be closed or settled by now; the same question as the queryset's `due`."""
        if self.settled_at is not None or self.annulled_at is not None:
            return False
        if self.closes_at is not None and now >= self.closes_at:
            return True
        return self.handed_in_at is not None and now >= self.handed_in_at + MINUTE_FOR_UNDOING


class Question(models.Model):
    """One question of one sitting: a specimen at a position.

    `beside` is a second specimen shown with it, and `asks` what its kind asks beyond the pictures; both are fixed when
    the question is drawn.
    """

    sitting = models.ForeignKey(Sitting, models.CASCADE, related_name="questions", verbose_name=_("sitting"))
    position = models.PositiveSmallIntegerField(_("position"))
    kind = models.CharField(_("kind"), max_length=40, default="name_and_decide")
    specimen = models.ForeignKey(Specimen, models.PROTECT, related_name="questions", verbose_name=_("specimen"))
    beside = models.ForeignKey(
        Specimen,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="questions_beside",
        verbose_name=_("specimen beside it"),
    )
    asks = models.JSONField(_("what is asked"), default=dict, blank=True)
    first_shown_at = models.DateTimeField(_("first shown at"), null=True, blank=True)

    objects = QuestionQuerySet.as_manager()

    class Meta:
        verbose_name = _("question")
        verbose_name_plural = _("questions")
        ordering = ["sitting", "position"]
        constraints = [
            models.UniqueConstraint(fields=["sitting", "position"], name="one_question_per_position"),
            models.UniqueConstraint(fields=["sitting", "specimen"], name="a_specimen_once_in_a_sitting"),
        ]

    def __str__(self) -> str:
        return f"{self.sitting} {self.position}"

    @property
    def specimen_ids(self) -> tuple[int, ...]:
        """The specimens that it shows, in order."""
        return (self.specimen_id,) if self.beside_id is None else (self.specimen_id, self.beside_id)


class Answer(models.Model):
    """What stands as the answer to a question at this moment. Until hand-in it may be changed.

    `chosen` is what was chosen in a kind of question that asks for more than a name and a decision, as its kind
    writes it.
    """

    question = models.OneToOneField(Question, models.CASCADE, related_name="answer", verbose_name=_("question"))
    decision = models.CharField(_("decision"), max_length=8, choices=DECISION_WORDS, blank=True)
    chosen = models.CharField(_("what was chosen"), max_length=60, blank=True)
    said = models.CharField(_("name as typed"), max_length=160, blank=True)
    named = models.ForeignKey(
        Species, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("species named")
    )
    confidence = models.CharField(_("how sure"), max_length=8, choices=CONFIDENCE_WORDS, blank=True)
    saved_at = models.DateTimeField(_("saved at"))
    deliveries = models.JSONField(_("last number taken from each device"), default=dict, blank=True)

    class Meta:
        verbose_name = _("answer")
        verbose_name_plural = _("answers")
        ordering = ["question"]

    def __str__(self) -> str:
        return f"{self.question}: {self.decision or self.chosen}"
