"""The ways into the invented school, and the mails kept there instead of sent."""

from datetime import date

from courses.models import Person, Role, SentMail

from .people import the_school

# In the order of the page.
ROLES = (Role.PARTICIPANT, Role.TUTOR, Role.ASSESSOR, Role.ORGANISER)


def school_is_invented() -> bool:
    school = the_school()
    return school is not None and school.is_demo


def entries(today: date) -> dict[Role, Person]:
    """For each role the person that one tap enters as, where there is one."""
    found = {role: entry_as(role, today) for role in ROLES}
    return {role: person for role, person in found.items() if person is not None}


def entry_as(role: str, today: date) -> Person | None:
    """The person called after the role (`tutor@demo.invalid`), otherwise the first who holds it."""
    holders = Person.objects.here().with_role(role, today).select_related("user").order_by("pk")
    return holders.filter(user__email=f"{role}@demo.invalid").first() or holders.first()


def kept_mails(limit: int = 50) -> list[SentMail]:
    """The latest mails, newest first."""
    return list(SentMail.objects.all()[:limit])
