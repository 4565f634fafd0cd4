"""What is wrong with an archive, and what is worth saying of it, in sentences: where, what, and what would help."""

from collections.abc import Iterator

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from species.documents.pictures import BadPicture, Refusal
from species.queries.import_sentences import sentence_on_refusal
from species.rules.darwin.rows import Written
from species.rules.darwin.slips import Note, Remark, Wrong

SENTENCES = {
    Wrong.NO_META: gettext_lazy(
        "it is missing on the top level of the archive; without it nobody can tell the tables."
    ),
    Wrong.BAD_XML: gettext_lazy("it cannot be read as plain XML ({reason})."),
    Wrong.BAD_META: gettext_lazy("{reason}."),
    Wrong.OTHER_CORE: gettext_lazy("the core is {value}; taken are archives of Taxon or of Occurrence."),
    Wrong.FILE_MISSING: gettext_lazy("meta.xml names this file, but it is not in the archive."),
    Wrong.TABLE_TOO_LARGE: gettext_lazy("the file is larger than {most} bytes; make several archives of it."),
    Wrong.BROKEN: gettext_lazy("the file is broken or cut short; make the archive anew."),
    Wrong.NOT_TEXT: gettext_lazy("this is no text in {encoding}, which meta.xml names."),
    Wrong.NOT_A_TABLE: gettext_lazy("the file cannot be read as a table ({reason}); look for a missing quote."),
    Wrong.CELLS: gettext_lazy("the row has {cells} cells, and meta.xml names {columns} columns."),
    Wrong.TWICE: gettext_lazy("'{value}' stands here a second time (first: {first}); keep one of the two."),
    Wrong.NO_CORE_ROW: gettext_lazy("no row of the core has the id '{value}'."),
    Wrong.NULL_TEXT: gettext_lazy("'{value}' stands for nothing; leave the cell empty."),
    Wrong.EMPTY: gettext_lazy("this must not be empty."),
    Wrong.TOO_LONG: gettext_lazy("the text has {length} letters; at most {longest} fit."),
    Wrong.NOT_A_CHOICE: gettext_lazy("'{value}' is not one of: {choices}."),
    Wrong.NOT_A_NUMBER: gettext_lazy("'{value}' is no number from {lowest} to {highest}."),
    Wrong.NOT_A_DATE: gettext_lazy("'{value}' is no date; write year-month-day, for instance 2026-04-12."),
    Wrong.DAY_AHEAD: gettext_lazy("{value} lies ahead."),
    Wrong.UNKNOWN_NAME: gettext_lazy(
        "no plant of the school is called '{value}'{nearest_in_words}; bring the archive of the species in first."
    ),
    Wrong.NAME_OF_TWO: gettext_lazy(
        "'{value}' already names {other}; a name must mean one species, or answers cannot be marked."
    ),
    Wrong.STORED_OTHERWISE: gettext_lazy(
        "{value} is stored under the key '{stored}'; a key never changes, so write that one."
    ),
    Wrong.NO_PICTURE: gettext_lazy("'{value}' is not in the archive."),
    Wrong.BAD_PICTURE: gettext_lazy("'{value}': {why}"),
    Wrong.HASH_DIFFERS: gettext_lazy("'{value}' is another file than the row says (its SHA-256 differs)."),
    Wrong.DRAWING: gettext_lazy("this is a drawing; what counts is a photograph of a plant."),
    Wrong.UNKNOWN_CHARACTER: gettext_lazy("the character table has no '{value}'; bring that table in first."),
    Wrong.BAD_REGION: gettext_lazy("this is no region on a picture: {reason}."),
    Wrong.NO_SUCH_PICTURE: gettext_lazy("no picture of this specimen has the identifier '{value}'."),
    Remark.KEPT_ASIDE: gettext_lazy("{count} values have no place here and were kept aside."),
    Remark.TABLE_ASIDE: gettext_lazy("rows of {row_type} have no place here; all of them were kept aside."),
    Remark.FILE_ASIDE: gettext_lazy("no table names this file, so it was not opened."),
    Remark.OWN_KEY: gettext_lazy("'{value}' goes under {key} here."),
    Remark.DIFFERS: gettext_lazy(
        "{value} is stored already and stays as it is; the archive says otherwise in {files}."
    ),
    Remark.NO_FILE: gettext_lazy("the archive holds no file of the picture {value}, so its row was kept aside."),
    Remark.NO_CHARACTER: gettext_lazy("the region shows no character of the school's, so it was kept aside."),
    Remark.IN_TRAY: gettext_lazy("specimen {value} waits in the tray until all that is needed is said of it."),
    Remark.OTHER_STANDING: gettext_lazy("the archive calls its name {said}; by the determinations it is {stands}."),
    Remark.OTHER_PLACE: gettext_lazy("another place is called {value}; this one goes under {other}."),
}


def sentence_on(note: Note) -> str:
    """One problem or remark in a sentence that names file, row and column."""
    values = dict(note.values)
    near = values.get("nearest", "")
    values["nearest_in_words"] = _("; nearest: {names}").format(names=near) if near else ""
    if "refusal" in values:
        reason = BadPicture(Refusal[values["refusal"]], values.get("figure", ""))
        values["why"] = sentence_on_refusal(reason)
    place = _("{file}, row {row}").format(file=note.file, row=note.row) if note.row else note.file
    if note.column:
        place = f"{place}, {note.column}"
    return f"{place}: {str(SENTENCES[note.what]).format(**values)}"


def sentences_on_written(written: Written) -> Iterator[str]:
    """What went into an archive, and what stayed out and why."""
    rows = ", ".join(f"{file} {count}" for file, count in written.rows.items())
    yield _("Rows: {rows}.").format(rows=rows)
    if written.pictures:
        count = written.pictures
        yield ngettext("{count} picture is in it.", "{count} pictures are in it.", count).format(count=count)
    if written.for_assessment:
        yield _("{count} specimens in it serve for tests: show this archive to nobody.").format(
            count=written.for_assessment
        )
    if written.drawn:
        yield _("{count} drawn specimens were left out: a drawing is no observation.").format(count=written.drawn)
    if written.without_licence:
        yield _("{count} pictures were left out: nobody says whose they are, or their licence keeps them here.").format(
            count=written.without_licence
        )
    if written.files_missing:
        yield _("{count} pictures went without their file, which is lost from the store.").format(
            count=written.files_missing
        )
