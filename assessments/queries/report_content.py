"""Chapters of a report: what a pass means, how the content was chosen, where the questions come from."""

from django.utils.translation import gettext as _

from assessments.documents.report_words import Chapter, Figure, FigureTable, Quote
from species.models.pairs import DANGER_WORDS

from .planning_bank import holdings_for
from .report_bank import bank_cells, bank_origins
from .report_figures import number, part, source
from .report_material import Material
from .report_sittings import question_counts
from .sentences.words import stage_word
from .standards import facts_of

DANGERS = dict(DANGER_WORDS)


def purpose(found: Material) -> Chapter:
    """ST-1."""
    pairs = len(found.facts.dangerous_pairs)
    return Chapter(
        "ST-1",
        _("Purpose, and how to read a pass"),
        (
            _(
                "A pass is a record of tests at a time and place. It is for the person who sat them, and for those who "
                "have to decide whether that person may gather, or lead others, at this school."
            ),
            _(
                "It does not say that somebody knows wild plants. It says nothing about plants that are not listed, "
                "about stages that were not shown, about amounts, health or the law, and it is no licence."
            ),
            _(
                "It speaks of specimens that were shown between two dates to somebody who answered alone. Photographs "
                "leave out smell, touch, size and place."
            ),
        ),
        (Quote(_("What a pass means, as the school put it"), found.standard.purpose, True),),
        (
            number(
                _("Dangerous pairs that have to be passed, all of them"), pairs, _("pairs"), facts_of, is_public=True
            ),
            number(_("Dangerous plants in them"), len(found.dangerous), _("plants"), facts_of, is_public=True),
        ),
        is_public=True,
    )


def content(found: Material) -> Chapter:
    """ST-2."""
    by = (Quote(_("Made by"), found.set_by),) if found.set_by else ()
    return Chapter(
        "ST-2",
        _("Content, and how it was chosen"),
        (
            _(
                "The task is to decide, of a plant in front of one, whether one would gather it. The question that "
                "counts puts exactly this task: a plant, a name, a decision, and how sure one is. Leaving it is "
                "always offered."
            ),
            _(
                "Papers are drawn to a blueprint: every pair, both of its sides, and the stages of the dangerous plant "
                "that the version requires. How easy a specimen proved never enters the draw."
            ),
        ),
        (Quote(_("Why these pairs and numbers, as the school put it"), found.standard.reasons, True), *by),
        (number(_("Questions put under this version"), found.questions.shown, _("questions"), question_counts),),
        (_pairs_table(found), _kinds_table(found)),
        is_public=True,
    )


def _pairs_table(found: Material) -> FigureTable:
    rows, counts = [], []
    for row in found.standard.pairs.all():
        pair, names = row.pair, found.flora
        told = _("%(gathered)s told from %(mistaken)s") % {
            "gathered": names.common(pair.gathered.key),
            "mistaken": names.common(pair.mistaken.key),
        }
        stages = ", ".join(map(stage_word, row.required_stages)) or _("none in particular")
        sources = "; ".join(map(str, pair.sources)) or _("none noted")
        rows.append((told, str(DANGERS.get(pair.danger, pair.danger)), stages, sources))
        asked = found.questions.species
        counts.append(asked.get(pair.gathered.key, 0) + asked.get(pair.mistaken.key, 0))
    return FigureTable(
        _("The pairs of this version"),
        (_("Pair"), _("Danger"), _("Stages required"), _("Sources")),
        tuple(rows),
        tuple(counts),
        _("questions put"),
        source(question_counts),
        True,
    )


def _kinds_table(found: Material) -> FigureTable:
    words = {
        "name_and_decide": (_("Name it and decide"), _("enters the ledgers")),
        "which_character": (_("Which character tells"), _("teaches, does not count")),
        "point_at_it": (_("Point at it"), _("teaches, does not count")),
        "side_by_side": (_("Side by side"), _("only a dangerous plant gathered counts")),
    }
    kinds = sorted(found.questions.kinds.items())
    return FigureTable(
        _("Questions by kind"),
        (_("Kind"), _("What it is for")),
        tuple(words.get(kind, (kind, _("not listed here"))) for kind, _count in kinds),
        tuple(count for _kind, count in kinds),
        _("questions put"),
        source(question_counts),
    )


def questions(found: Material) -> Chapter:
    """ST-3."""
    origins = found.origins
    of = _("specimens")
    figures: tuple[Figure, ...] = (
        number(_("Specimens for assessment"), origins.specimens, of, bank_origins, is_public=True),
        part(
            _("Drawings among them, never evidence outside an invented school"),
            origins.drawn,
            origins.specimens,
            of,
            bank_origins,
        ),
        part(_("Taken out of the bank"), origins.retired, origins.specimens, of, bank_origins),
        part(_("Void now"), origins.void, origins.specimens, of, bank_origins),
        part(_("Asked at least once"), origins.asked, origins.specimens, of, bank_origins),
        Figure(
            _("The specimen asked most often: how often"),
            str(origins.most_asked),
            origins.questions,
            _("questions put"),
            source(bank_origins),
        ),
    )
    return Chapter(
        "ST-3",
        _("Questions: where they come from, and what becomes of them"),
        (
            _(
                "Questions are photographs of specimens. Two people name a specimen independently of each other; "
                "only one on which they agree is confirmed, and only confirmed ones are ever set."
            ),
            _(
                "There is no trial of questions on people before they count, and no question is dropped because it is "
                "hard. A question that seems wrong is looked at by a second determiner; a whole specimen is voided for "
                "everybody, in both directions, or named anew, and everything is computed again."
            ),
        ),
        (),
        figures,
        (_cells_table(found), _holdings_table(found)),
        is_public=True,
    )


def _cells_table(found: Material) -> FigureTable:
    rows = [
        (
            found.flora.common(cell.species),
            stage_word(cell.stage) if cell.stage else _("no stage noted"),
            str(cell.confirmed),
            str(cell.single),
            str(cell.disputed),
        )
        for cell in found.cells
    ]
    return FigureTable(
        _("The bank by plant and stage"),
        (_("Plant"), _("Stage"), _("confirmed"), _("named once"), _("disputed")),
        tuple(rows),
        tuple(cell.total for cell in found.cells),
        _("specimens"),
        source(bank_cells),
    )


def _holdings_table(found: Material) -> FigureTable:
    rows, counts = [], []
    for species, held in found.holdings.items():
        rows.append((found.flora.common(species), str(held.countable)))
        counts.append(held.specimens)
    return FigureTable(
        _("What could count for one person"),
        (_("Plant"), _("could count")),
        tuple(rows),
        tuple(counts),
        _("specimens that may be set"),
        source(holdings_for),
    )
