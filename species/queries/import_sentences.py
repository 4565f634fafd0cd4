"""What became of files that were brought in, in sentences: what is wrong, and what would help."""

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.documents.pictures import BadPicture, Refusal
from species.queries.specimen_sentences import sentence_on_step
from species.queries.table_sentences import sentence_about
from species.rules.bank import Why
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


def sentence_on_refusal(reason: Mismatch | BadPicture | tuple[Problem, ...] | Why | OSError | None) -> str:
    """Why a file was not taken, and what to do."""
    if isinstance(reason, Mismatch):
        return str(UNFIT[reason.why]).format(word=reason.word, suffixes=", ".join(sorted(SUFFIXES)))
    if isinstance(reason, BadPicture):
        return str(REFUSALS[reason.reason]).format(figure=reason.figure)
    if isinstance(reason, Why):
        return sentence_on_step(reason)
    if isinstance(reason, tuple):
        return " ".join(sentence_about(problem) for problem in reason)
    return _("it cannot be read; look at who may open it.")
