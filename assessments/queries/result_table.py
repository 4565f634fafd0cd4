"""Results as tables to take away: a row an answer, the cells safe in a spreadsheet, moments in the school's zone."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime

from django.utils import timezone
from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from assessments.models import Standard
from assessments.models.evidence import MEDIUM_WORDS
from assessments.models.papers import CONFIDENCE_WORDS

from .flora import Flora
from .results import ResultLine
from .sentences.kinds import kind_word
from .sentences.words import stage_word
from .standing_page import decision_word, said_word

MEDIA, CONFIDENCES = dict(MEDIUM_WORDS), dict(CONFIDENCE_WORDS)


def results_table(
    lines: Iterable[ResultLine], standards: Sequence[Standard], flora: Flora, names: Mapping[int, str] | None = None
) -> bytes:
    """The table; with `names` of people it begins with whose answer it was."""
    columns = [
        _("test"),
        _("opened"),
        _("number"),
        _("shown"),
        _("how"),
        _("kind of question"),
        _("stage"),
        _("plant"),
        _("scientific name"),
        _("decision"),
        _("said"),
        _("chosen"),
        _("how sure"),
    ]
    for standard in standards:
        columns += [
            _("%(standard)s: counts as") % {"standard": standard},
            _("%(standard)s: why") % {"standard": standard},
        ]
    if names is not None:
        columns.insert(0, _("name"))
    return written_table(columns, (_row(line, standards, flora, names) for line in lines))


def _row(
    line: ResultLine, standards: Sequence[Standard], flora: Flora, names: Mapping[int, str] | None
) -> list[object]:
    answer = line.answer
    row: list[object] = [] if names is None else [names[line.person]]
    row += [
        line.origin.title,
        local_moment(answer.opened_at),
        line.origin.station if line.origin.station is not None else answer.position,
        local_moment(answer.shown_at),
        str(MEDIA[answer.medium.value]),
        kind_word(answer.kind),
        stage_word(answer.specimen.stage),
        line.plant.common_name if line.plant else "",
        line.plant.name if line.plant else "",
        decision_word(answer.decision.value if answer.decision else ""),
        said_words(line, flora),
        line.chosen,
        str(CONFIDENCES[answer.confidence.value]) if answer.confidence else "",
    ]
    for standard in standards:
        counted = line.counted.get(standard.pk)
        row += [counted.effect, counted.reason] if counted else ["", ""]
    return row


def said_words(line: ResultLine, flora: Flora) -> str:
    """What a plant was called; empty where no name was asked for, or the question stayed open."""
    answer = line.answer
    if line.chosen or (answer.decision is None and not answer.said):
        return ""
    return said_word(answer.said, answer.named_species, flora)


def local_moment(moment: datetime) -> str:
    """A moment in the zone of the school, as spreadsheets read it."""
    return timezone.localtime(moment).strftime("%Y-%m-%d %H:%M")
