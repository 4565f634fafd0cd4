"""Reading a table of people against the school, and its problems in words."""

from allauth.account.models import EmailAddress
from django.utils.translation import gettext as _

from courses.documents.table_file import NOT_TEXT, TOO_LARGE, TOO_MANY_ROWS, BadTable, rows_of
from courses.models import Course
from courses.rules.people_table import PeopleRead, RowProblem, read_people


def people_of(content: bytes) -> PeopleRead:
    """A table read against who is there and which courses there are; two queries. Raises BadTable."""
    headings, rows = rows_of(content)
    known = {address.lower() for address in EmailAddress.objects.values_list("email", flat=True)}
    courses = set(Course.objects.values_list("key", flat=True))
    return read_people(headings, [(row.number, row.cells) for row in rows], known, courses)


def bad_table_sentence(error: BadTable) -> str:
    """Why a file cannot be read."""
    if error.why == TOO_LARGE:
        return _("The file is too large: at most 5 MB. Send it in parts.")
    if error.why == TOO_MANY_ROWS:
        return _("The file has more than 5,000 rows: send it in parts.")
    if error.why == NOT_TEXT:
        return _("The file is not written in UTF-8: save it as “CSV UTF-8”, or as XLSX.")
    return _("This is no table: send a CSV file or an XLSX workbook with headings in its first row.")


def problem_sentence(problem: RowProblem) -> str:
    """One problem: where, what, and what to do."""
    words = {"row": problem.row, "column": problem.column, "said": problem.said}
    sentences = {
        "column missing": _("The column “%(column)s” is missing: add it."),
        "column unknown": _("The column “%(column)s” is not known: rename it or take it out."),
        "empty": _("Row %(row)s: “%(column)s” is empty."),
        "no address": _("Row %(row)s: “%(said)s” is no e-mail address."),
        "too long": _("Row %(row)s: “%(column)s” is longer than %(said)s letters."),
        "no role": _("Row %(row)s: “%(said)s” is no role: participant, tutor, assessor or organiser."),
        "no course": _("Row %(row)s: there is no course with the key “%(said)s”."),
        "twice": _("Row %(row)s: this address stands in row %(said)s already."),
    }
    return sentences[problem.reason] % words
