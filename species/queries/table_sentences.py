"""What is wrong with the tables of the flora, in sentences: where, what, and what would be right."""

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.rules.tables.problems import Fault, Problem

SENTENCES = {
    Fault.FILE_MISSING: gettext_lazy("the file is missing; every table has to be there, if only with its header."),
    Fault.NOT_TEXT: gettext_lazy("this is not UTF-8 text; save the file as CSV with the character set UTF-8."),
    Fault.NOT_A_TABLE: gettext_lazy("the file cannot be read as a table ({reason}); look for a missing quote."),
    Fault.COLUMN_MISSING: gettext_lazy("this column is missing; the columns are {columns}."),
    Fault.COLUMN_UNKNOWN: gettext_lazy("no such column belongs here{nearest_in_words}."),
    Fault.TOO_MANY_CELLS: gettext_lazy(
        "the row has {cells} cells for {columns} columns; a text with the separator in it needs quotes."
    ),
    Fault.EMPTY: gettext_lazy("this must not be empty."),
    Fault.TOO_LONG: gettext_lazy("the text has {length} letters; at most {longest} fit."),
    Fault.NOT_A_KEY: gettext_lazy(
        "'{value}' cannot be a key; use small letters, digits and hyphens, for instance rumex-acetosa."
    ),
    Fault.NOT_A_CHOICE: gettext_lazy("'{value}' is not one of: {choices}."),
    Fault.NOT_YES_OR_NO: gettext_lazy("'{value}' is neither yes nor no."),
    Fault.NOT_A_NUMBER: gettext_lazy("'{value}' is not a whole number from {lowest} to {highest}."),
    Fault.NOT_MONTHS: gettext_lazy(
        "'{value}' names no months; write 4, or 10 to 4 over the new year, several apart by |, or all year."
    ),
    Fault.UNKNOWN_KEY: gettext_lazy("no {what} has the key '{value}'{nearest_in_words}."),
    Fault.TWICE: gettext_lazy("'{value}' stands here a second time (first in {first}); keep one of the two."),
    Fault.NAME_OF_TWO: gettext_lazy(
        "'{value}' already names {other} (in {first}); a name must mean one species, or answers cannot be marked."
    ),
    Fault.SAME_SPECIES: gettext_lazy("'{value}' stands on both sides; a pair has two species."),
    Fault.UPSIDE_DOWN: gettext_lazy("the height runs from {low} to {high}; the larger number comes second."),
    Fault.NEVER_SHOWS: gettext_lazy("the stage {value} of {species} has no months in showing.csv."),
    Fault.NEVER_TOGETHER: gettext_lazy(
        "these two stages share no month in showing.csv, so they are never confused; take out the row or "
        "mend the months."
    ),
    Fault.NOT_GATHERED_THEN: gettext_lazy("the stage {value} shows in none of the months in which it is gathered."),
    Fault.POISON_GATHERED: gettext_lazy("{species} is {value}; no part of it can be gathered."),
    Fault.NO_HAZARD: gettext_lazy("{species} is {value}, but hazards.csv says nothing of it."),
    Fault.TOO_MILD: gettext_lazy("{species} is deadly, so the pair is dangerous, not {value}."),
    Fault.CORE_IS_SAFE: gettext_lazy("the pair is {value}; only dangerous pairs can be core."),
    Fault.NOTHING_SHOWS: gettext_lazy("'{value}' has no line in showing.csv, so it would never be in season."),
    Fault.OUTSIDE_CHARACTER: gettext_lazy("{character} cannot be seen at the stage {value} by characters.csv."),
    Fault.ALWAYS_AND_MORE: gettext_lazy(
        "another state stands beside one that is always there (see {first}); make it usually, or give stages."
    ),
    Fault.LABEL_OR_CHARACTER: gettext_lazy("fill either character or label, one of the two."),
    Fault.SIDE_MISSING: gettext_lazy("say what the character shows on both sides."),
    Fault.TOO_SURE: gettext_lazy(
        "decisive, but by the state table {character} says '{value}' for {gathered} against {mistaken}; "
        "make it supporting, or mend the state table."
    ),
    Fault.STAGE_NOT_CONFUSED: gettext_lazy("the stage {value} is in no row of pair_stages.csv for {pair}."),
    Fault.NO_COMBINATION: gettext_lazy("'{value}' has no row in pair_stages.csv."),
    Fault.STORED_OTHERWISE: gettext_lazy(
        "{value} is stored under the key '{stored}'; a key never changes, so write that one."
    ),
    Fault.SIDE_NOT_TAUGHT: gettext_lazy(
        "{pair} is taught in {module} without {species}; add it to module_species.csv."
    ),
    Fault.NOT_A_DATE: gettext_lazy("'{value}' is no date; write year-month-day, for instance 2026-04-12."),
    Fault.UNKNOWN_NAME: gettext_lazy("no plant of the school is called '{value}'{nearest_in_words}."),
    Fault.FILE_NOT_THERE: gettext_lazy("'{value}' is not in the folder{nearest_in_words}."),
    Fault.STATE_NOT_CODED: gettext_lazy(
        "{value}: in none of the columns present, variable, absent and not_known; what is missing is not absent, so "
        "write every state into one of them."
    ),
    Fault.HALF_KNOWN: gettext_lazy(
        "{value}: not known, while other states of the row are; in one row either all states are not known or none "
        "is. Call them absent if they were looked for, or give the stages rows of their own."
    ),
    Fault.NOTHING_SHOWN: gettext_lazy(
        "every state of {character} is absent; a plant shows one of them, or it is not known."
    ),
    Fault.ALWAYS_AND_OTHERS: gettext_lazy(
        "{value}: one is present, that is always shown, so no other can be shown; make it variable (usually)."
    ),
    Fault.NOT_A_FREQUENCY: gettext_lazy("'{value}' lacks how often; write {value} (usually) or {value} (sometimes)."),
    Fault.CHANGED_SINCE: gettext_lazy(
        "{species}, {character} was changed in the school since this file was written; take the table out again, or "
        "empty the cell version of these rows to replace what stands there."
    ),
    Fault.SPECIMEN_DIFFERS: gettext_lazy(
        "specimen {specimen} has '{value}' here and '{other}' in row {first}; one specimen is one plant at one "
        "time, so make the two rows agree or give them different specimens."
    ),
}


def sentence_about(problem: Problem) -> str:
    """One problem in a sentence that names file, row and field."""
    values = dict(problem.values)
    nearest = values.get("nearest", "")
    values["nearest_in_words"] = _("; nearest: {names}").format(names=nearest) if nearest else ""
    return f"{_place_of(problem)}: {str(SENTENCES[problem.fault]).format(**values)}"


def _place_of(problem: Problem) -> str:
    place = problem.file
    if problem.row:
        place = _("{file}, row {row}").format(file=place, row=problem.row)
    return f"{place}, {problem.field}" if problem.field else place
