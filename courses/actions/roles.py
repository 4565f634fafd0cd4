"""Granting and ending roles; the groups that open pages of the lower rooms follow from them."""

from datetime import date

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
        "assessments.view_evidence",
    ),
    Role.ORGANISER: (
        "species.add_specimen",
        "species.view_specimen",
        "species.add_determination",
        "species.change_species",
        "species.add_determinerlink",
        "assessments.add_paper",
        "assessments.add_spottest",
        "assessments.add_standard",
        "assessments.add_window",
        "assessments.view_evidence",
    ),
}


def grant_role(
    person: Person, role: str, *, today: date, by: Person | None = None, until: date | None = None, reason: str = ""
) -> RoleGrant:
    """Give a person a role from today on; giving it twice changes nothing."""
    with transaction.atomic():
        held = person.roles.held_on(today).filter(role=role).first()
        grant = held or RoleGrant.objects.create(
            person=person, role=role, since=today, until=until, granted_by=by, reason=reason
        )
        follow_roles(person, today=today)
    return grant


def follow_roles(person: Person, *, today: date) -> None:
    """Put the user into exactly the groups of the roles held today."""
    held = set(person.roles.held_on(today).values_list("role", flat=True))
    person.user.groups.set([_group_of(role) for role in sorted(held)])


def _group_of(role: str) -> Group:
    group, _made = Group.objects.get_or_create(name=f"school {role}")
    wanted = [name.split(".") for name in PERMISSIONS_BY_ROLE[role]]
    permissions = [
        Permission.objects.get(content_type__app_label=room, codename=codename) for room, codename in wanted
    ]
    group.permissions.set(permissions)
    return group
