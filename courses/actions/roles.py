"""Granting and ending roles; the groups that open pages of the lower rooms follow from them."""

from datetime import date, timedelta

from django.contrib.auth.models import Group, Permission
from django.db import transaction

from courses.models import Person, Role, RoleGrant

PERMISSIONS_BY_ROLE: dict[str, tuple[str, ...]] = {
    Role.PARTICIPANT: (),
    Role.TUTOR: (
        "species.add_specimen",
        "species.view_specimen",
        "species.add_determination",
        "species.change_species",
        "assessments.add_paper",
        "assessments.add_spottest",
        "assessments.view_evidence",
    ),
    Role.ASSESSOR: (
        "species.view_specimen",
        "species.add_determination",
        "assessments.add_spottest",
        "assessments.decide_appeal",
        "assessments.view_evidence",
    ),
    Role.ORGANISER: (
        "species.add_specimen",
        "species.view_specimen",
        "species.add_determination",
        "species.change_species",
        "species.add_determinerlink",
        "species.add_archiverun",
        "assessments.add_paper",
        "assessments.add_spottest",
        "assessments.add_standard",
        "assessments.add_packagerun",
        "assessments.add_window",
        "assessments.decide_appeal",
        "assessments.view_evidence",
    ),
}


class LastOrganiser(Exception):
    """Without this role the school would have no organiser, and nobody could give one the role again."""


def grant_role(
    person: Person,
    role: str,
    *,
    today: date,
    by: Person | None = None,
    until: date | None = None,
    reason: str = "",
) -> RoleGrant:
    """Give a person a role from today on; giving it twice changes nothing."""
    with transaction.atomic():
        held = person.roles.held_on(today).filter(role=role).first()
        grant = held or RoleGrant.objects.create(
            person=person, role=role, since=today, until=until, granted_by=by, reason=reason
        )
        follow_roles(person, today=today)
    return grant


def end_role(grant: RoleGrant, *, today: date) -> None:
    """Take a role away at once: yesterday was its last day. Raises LastOrganiser."""
    with transaction.atomic():
        if grant.role == Role.ORGANISER and not _another_organiser(grant.person, today):
            raise LastOrganiser
        grant.until = today - timedelta(days=1)
        grant.save(update_fields=["until"])
        follow_roles(grant.person, today=today)


def _another_organiser(person: Person, today: date) -> bool:
    # The rows are locked, so that two organisers cannot end each other's role at the same moment.
    held = RoleGrant.objects.select_for_update().held_on(today).filter(role=Role.ORGANISER)
    others = held.exclude(person=person).filter(person__left_on__isnull=True)
    return bool(list(others))


def follow_roles(person: Person, *, today: date) -> None:
    """Put the user into exactly the groups of the roles held today."""
    held = set(person.roles.held_on(today).values_list("role", flat=True))
    person.user.groups.set([_group_of(role) for role in sorted(held)])


def _group_of(role: str) -> Group:
    group, _made = Group.objects.get_or_create(name=f"school {role}")
    wanted = [name.split(".") for name in PERMISSIONS_BY_ROLE[role]]
    permissions = [Permission.objects.get(content_type__app_label=room, codename=codename) for room, codename in wanted]
    group.permissions.set(permissions)
    return group
