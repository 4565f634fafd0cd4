"""The results of a course for those who teach it: answers to its papers and at its spot tests, row by row."""

from datetime import datetime

from assessments.queries.flora import the_flora
from assessments.queries.result_table import results_table
from assessments.queries.results import results_of
from assessments.queries.standards import standards_with_parts
from courses.models import Course


def course_results_table(course: Course, now: datetime) -> tuple[bytes, tuple[int, ...]]:
    """The table of everybody with a place, and the users whose results are in it; a constant number of queries.

    What somebody answered in another course is not this course's business.
    """
    enrolments = course.enrolments.with_a_place().select_related("person").order_by("person__name", "person_id")
    people = {each.person.user_id: each.person.name for each in enrolments}
    own = {*course.papers.values_list("key", flat=True)}
    own |= {*course.meetings.exclude(spot_test=None).values_list("spot_test__key", flat=True)}
    flora = the_flora()
    standards = list(standards_with_parts().filter(pk=course.standard_id))
    found = results_of(list(people), standards, flora, now)
    lines = [line for person in people for line in found[person] if line.origin.key in own]
    shown = tuple(dict.fromkeys(line.person for line in lines))
    return results_table(lines, standards, flora, people), shown
