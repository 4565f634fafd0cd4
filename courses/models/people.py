"""The school, its people and their roles, and invitations. What signs in is Django's user."""

import uuid

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from courses.querysets import InvitationQuerySet, PersonQuerySet, RoleGrantQuerySet
from species.rules.keys import new_key


class School(models.Model):
    """The one school that this site belongs to."""

    name = models.CharField(_("name"), max_length=120)
    region = models.CharField(_("region"), max_length=120, blank=True)
    address = models.URLField(_("public address of this site"))
    postal_address = models.TextField(_("postal address"), blank=True)
    email = models.EmailField(_("e-mail"), blank=True)
    time_zone = models.CharField(_("time zone"), max_length=60, default="Europe/London")
    language = models.CharField(_("language"), max_length=10, default="en")
    emergency_number = models.CharField(_("emergency number"), max_length=40)
    poisons_number = models.CharField(_("poisons service"), max_length=80, blank=True)
    is_demo = models.BooleanField(_("invented school for trying out"), default=False, editable=False)
    seeded_on = models.DateField(_("invented on"), null=True, blank=True, editable=False)

    class Meta:
        verbose_name = _("school")
        verbose_name_plural = _("school")

    def __str__(self) -> str:
        return self.name


class Person(models.Model):
    """What the school knows of somebody who signs in."""

    user = models.OneToOneField(settings.AUTH_USER_MODEL, models.PROTECT, related_name="person", verbose_name=_("user"))
    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    name = models.CharField(_("name"), max_length=120)
    family_name = models.CharField(_("family name"), max_length=80, blank=True)
    phone = models.CharField(_("telephone"), max_length=40, blank=True)
    note = models.TextField(_("note of the organiser"), blank=True)
    joined_on = models.DateField(_("joined on"))
    left_on = models.DateField(_("left on"), null=True, blank=True)
    erased_on = models.DateField(_("erased on"), null=True, blank=True, editable=False)

    objects = PersonQuerySet.as_manager()

    class Meta:
        verbose_name = _("person")
        verbose_name_plural = _("people")
        ordering = ["name", "id"]

    def __str__(self) -> str:
        return self.name


class Role(models.TextChoices):
    """What somebody is in the school; one person may be several."""

    PARTICIPANT = "participant", _("participant")
    TUTOR = "tutor", _("tutor")
    ASSESSOR = "assessor", _("assessor")
    ORGANISER = "organiser", _("organiser")


class RoleGrant(models.Model):
    """A role held by a person, from a day until a day."""

    person = models.ForeignKey(Person, models.CASCADE, related_name="roles", verbose_name=_("person"))
    role = models.CharField(_("role"), max_length=12, choices=Role.choices)
    since = models.DateField(_("since"))
    until = models.DateField(_("until"), null=True, blank=True)
    granted_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("granted by")
    )
    reason = models.CharField(_("reason"), max_length=200, blank=True)

    objects = RoleGrantQuerySet.as_manager()

    class Meta:
        verbose_name = _("role")
        verbose_name_plural = _("roles")
        ordering = ["person", "role", "since"]

    def __str__(self) -> str:
        return f"{self.person}: {self.role}"


class Invitation(models.Model):
    """Somebody asked by e-mail to join, in a role, perhaps into a course."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    email = models.EmailField(_("e-mail"))
    name = models.CharField(_("name"), max_length=120)
    role = models.CharField(_("role"), max_length=12, choices=Role.choices, default=Role.PARTICIPANT)
    course = models.ForeignKey(
        "Course", models.CASCADE, null=True, blank=True, related_name="invitations", verbose_name=_("course")
    )
    invited_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("invited by"))
    invited_at = models.DateTimeField(_("invited at"))
    closes_at = models.DateTimeField(_("usable until"))
    accepted_at = models.DateTimeField(_("accepted at"), null=True, blank=True)
    withdrawn_at = models.DateTimeField(_("withdrawn at"), null=True, blank=True)

    objects = InvitationQuerySet.as_manager()

    class Meta:
        verbose_name = _("invitation")
        verbose_name_plural = _("invitations")
        ordering = ["-invited_at"]

    def __str__(self) -> str:
        return self.email


class SentMail(models.Model):
    """A mail kept instead of sent, in the invented school, so that its codes can be read."""

    to = models.CharField(_("to"), max_length=400)
    subject = models.CharField(_("subject"), max_length=300)
    body = models.TextField(_("text"))
    sent_at = models.DateTimeField(_("sent at"), auto_now_add=True)

    class Meta:
        verbose_name = _("mail")
        verbose_name_plural = _("mails")
        ordering = ["-sent_at", "-id"]

    def __str__(self) -> str:
        return self.subject
