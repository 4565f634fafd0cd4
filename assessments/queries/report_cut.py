"""Chapters of a report: the cut and its consequences, precision near it, sitting again, a change of the rule."""

from django.utils.translation import gettext as _

from assessments.documents.report_words import Chapter, Figure, FigureTable
from assessments.rules.consistency import cut_lines
from assessments.rules.evalue import clean_needed
from assessments.rules.figures import LedgerFigures
from assessments.rules.outlook import Outlook, outlook
from assessments.rules.standard import Side, StandardFacts

from .kept_standings import figures_of
from .planning import Plan
from .planning_tables import asked_table, chance_table, chance_words, together_table
from .report_figures import number, share, source
from .report_material import Material
from .retakes_page import percent
from .standards import facts_of


def cut(found: Material) -> Chapter:
    """ST-4."""
    ahead = found.ahead
    return Chapter(
        "ST-4",
        _("The cut: the rule, its numbers and its consequences"),
        (
            _(
                "Every answer to a dangerous plant that a person decides on enters one running figure. A clean one "
                "raises it a little, a miss lowers it much. The plant is passed when the figure says that a person "
                "who would gather the tolerated share or more is improbable enough. It holds however often somebody "
                "sits or looks."
            ),
            _(
                "The cut follows from what safe gathering needs, not from how many pass. Nobody is failed by it: one "
                "is passed, or not passed yet."
            ),
        ),
        (),
        (
            Figure(
                _("Weights of the windows of evidence"),
                ", ".join(percent(float(weight)) for weight in found.facts.window_weights),
                len(found.facts.window_weights),
                _("windows in a period"),
                source(facts_of),
                True,
            ),
            Figure(
                _("Living plants in a row without a miss"),
                str(found.facts.live_run),
                found.facts.live_occasions,
                _("occasions at least"),
                source(facts_of),
                True,
            ),
        ),
        _cut_tables(found, ahead) if ahead else (),
        is_public=True,
    )


def _cut_tables(found: Material, ahead: Outlook) -> tuple[FigureTable, ...]:
    plan = Plan(found.standard.name, ahead, found.holdings)
    species, of = len(ahead.dangerous.species), _("dangerous plants")
    chance = chance_table(ahead.dangerous, _("Chance to pass one dangerous plant"), _("True share of misses"))
    tables = (asked_table(plan), chance, together_table(plan))
    return tuple(
        FigureTable(t.caption, t.columns, t.rows, (species,) * len(t.rows), of, source(outlook), place < 2)
        for place, t in enumerate(tables)
    )


def precision(found: Material) -> Chapter:
    """ST-5."""
    ledgers = [each for mine in found.standings.values() for each in mine.ledgers if _has_decided(each)]
    of = _("ledgers with a decision")
    passed = [each for each in ledgers if each.passed]
    figures = (
        number(_("People with evidence"), len(found.standings), _("people"), figures_of),
        share(_("Ledgers of dangerous plants passed"), len(passed), len(ledgers), of, figures_of),
        share(
            _("Passed, but one more miss would undo it"),
            sum(1 for each in passed if _has_no_reserve(each, found.facts)),
            len(passed),
            _("ledgers passed"),
            figures_of,
        ),
        share(
            _("One or two clean plants short"),
            sum(1 for each in ledgers if 0 < each.nearest.still_needed <= 2),
            len(ledgers),
            of,
            figures_of,
        ),
        share(
            _("People who pass every pair"),
            sum(each.passed for each in found.standings.values()),
            len(found.standings),
            _("people"),
            figures_of,
        ),
    )
    return Chapter(
        "ST-5",
        _("Precision near the cut, and consistency of the decision"),
        (
            _(
                "A single figure of reliability says nothing about decisions. What counts is the error at the "
                "boundary: the chance that somebody at the tolerated share passes, and that somebody well below it "
                "does not yet."
            ),
            _(
                "Consistency is the chance that two independent runs of the same length decide alike, from the "
                "rule's own operating characteristic. It is lowest where a pass is as likely as not."
            ),
        ),
        (),
        figures,
        _precision_tables(found.ahead) if found.ahead else (),
        is_public=True,
    )


def _has_decided(ledger: LedgerFigures) -> bool:
    return ledger.side is Side.DANGEROUS and any(window.clean + window.misses for window in ledger.windows)


def _has_no_reserve(ledger: LedgerFigures, facts: StandardFacts) -> bool:
    """Whether one more miss would undo the pass of a dangerous plant."""
    return all(
        clean_needed(window.misses + 1, facts.dangerous, facts.window_weights[window.number - 1]) > window.clean
        for window in ledger.windows
        if window.passed
    )


def _precision_tables(ahead: Outlook) -> tuple[FigureTable, ...]:
    side = ahead.dangerous
    tables = []
    for mark in side.marks[:2]:
        lines = cut_lines(side.bar, side.weight, specimens=mark)
        rows = tuple(
            (
                percent(line.rate),
                chance_words(line.passes),
                _("passes") if line.is_over else _("not yet passed"),
                chance_words(line.wrong),
                percent(line.consistency),
            )
            for line in lines
        )
        columns = (_("True share"), _("passes"), _("wrong would be"), _("chance of that"), _("decided alike"))
        caption = _("The decision after %(n)s specimens of one dangerous plant") % {"n": mark}
        tables.append(FigureTable(caption, columns, rows, (mark,) * len(rows), _("specimens"), source(cut_lines), True))
    return tuple(tables)
