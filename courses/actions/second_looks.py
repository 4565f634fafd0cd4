"""Asking for a second look at a plant that the answers of a course make doubtful."""

from datetime import datetime

from courses.models import Person
from courses.queries.course_items import CourseItem
from species.actions.second_looks import ask_second_look
from species.models import Specimen


def ask_again(item: CourseItem, *, by: Person, now: datetime) -> bool:
    """Put the specimen into the queue of those to be named, with its reasons; whether it was not there already.

    No answer and no mark changes. Raises NotInTheBank where it was taken out meanwhile, and
    NothingToLookAt where it has no picture.
    """
    specimen = Specimen.objects.get(key=item.line.specimen)
    _look, made = ask_second_look(specimen, by=by.user, why=" ".join(item.why), now=now)
    return made
