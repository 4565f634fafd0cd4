"""What the wanted list of a course asks for: plants that nobody in it has met."""

from courses.models import Course, Person


def users_with_a_place(course: Course) -> tuple[int, ...]:
    """The users who have a place in a course; one query."""
    people = Person.objects.filter(pk__in=course.enrolments.with_a_place().values("person"))
    return tuple(people.order_by("user_id").values_list("user_id", flat=True))
