"""What became of files that were brought in, in sentences: what is wrong, and what would help."""

from collections.abc import Iterable

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.documents.archives import ArchiveRefusal, BadArchive, BrokenMember
from species.documents.pictures import BadPicture, Refusal
from species.queries.specimen_sentences import sentence_on_step
from species.queries.table_sentences import sentence_about
from species.rules.bank import Lack, Why
from species.rules.file_kinds import SUFFIXES, Mismatch, Unfit
from species.rules.tables.problems import Problem

UNFIT = {
    Unfit.EMPTY: gettext_lazy("the file is empty; copy it from the camera again."),
    Unfit.OTHER_NAME: gettext_lazy("not a picture by its name; taken are files that end in {suffixes}."),
    Unfit.OTHER_CONTENT: gettext_lazy("there is no picture in it of a kind that is taken (JPEG, PNG, WebP, HEIC)."),
    Unfit.NAME_LIES: gettext_lazy("it holds {word}, not what its name says; give it the ending of its kind."),
}
REFUSALS = {
    Refusal.TOO_LARGE: gettext_lazy("the file is too large ({figure}); save it smaller."),
    Refusal.NO_PICTURE: gettext_lazy("it cannot be opened as a picture; save it anew as JPEG."),
    Refusal.TOO_MANY_PIXELS: gettext_lazy("the picture has too many pixels ({figure}); save it smaller."),
    Refusal.TOO_SMALL: gettext_lazy("the picture is too small to show a character ({figure}); take a larger one."),
    Refusal.BROKEN: gettext_lazy("the file is broken or cut short; copy it from the camera again."),
}


ARCHIVES = {
    ArchiveRefusal.NO_ARCHIVE: gettext_lazy("it is no ZIP archive, or is cut short; make it anew."),
    ArchiveRefusal.TOO_LARGE: gettext_lazy("the archive is too large ({figure}); make two of it."),
    ArchiveRefusal.TOO_MANY: gettext_lazy("there are more than {figure} files in it; make several archives of it."),
    ArchiveRefusal.TOO_MUCH: gettext_lazy("it unpacks to too much ({figure}); make several archives of it."),
    ArchiveRefusal.TOO_DENSE: gettext_lazy("{figure} in it unpacks to many times its size, which no photograph does."),
    ArchiveRefusal.LEAVES_FOLDER: gettext_lazy("the path {figure} leads out of the archive; nothing of it was taken."),
    ArchiveRefusal.LINK: gettext_lazy("{figure} in it is a link, no file; make the archive of the files themselves."),
    ArchiveRefusal.LOCKED: gettext_lazy("{figure} in it is locked with a password; make it without one."),
    ArchiveRefusal.TWICE: gettext_lazy("two files in it are called {figure}; give one of them another name."),
}


def sentence_on_refusal(
    reason: Mismatch | BadPicture | BadArchive | tuple[Problem, ...] | Why | OSError | None,
    lacking: Iterable[Lack] = (),
) -> str:
    """Why a file was not taken, and what to do."""
    if isinstance(reason, Mismatch):
        return str(UNFIT[reason.why]).format(word=reason.word, suffixes=", ".join(sorted(SUFFIXES)))
    if isinstance(reason, BadPicture):
        return str(REFUSALS[reason.reason]).format(figure=reason.figure)
    if isinstance(reason, BadArchive):
        return str(ARCHIVES[reason.reason]).format(figure=reason.figure)
    if isinstance(reason, BrokenMember):
        return str(REFUSALS[Refusal.BROKEN])
    if isinstance(reason, Why):
        return sentence_on_step(reason, lacking=lacking)
    if isinstance(reason, tuple):
        return " ".join(sentence_about(problem) for problem in reason)
    return _("it cannot be read; look at who may open it.")
