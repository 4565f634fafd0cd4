"""Chapters of a report that look along time: sitting again, and a change of the rule."""

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from assessments.documents.report_words import Chapter, Figure, FigureTable
from assessments.rules.consistency import simulated_passes

from .kept_standings import figures_of
from .report_figures import part, share, source
from .report_material import Material, versions_of
from .report_sittings import sitting_counts, windows_opened
from .retakes_page import ROWS, compared, percent

SIMULATED_PEOPLE, SIMULATED_SPECIMENS, SEED = 4000, 400, 20260501


def retesting(found: Material) -> Chapter:
    """ST-8."""
    opened = found.windows
    return Chapter(
        "ST-8",
        _("Sitting again"),
        (
            _(
                "Anybody may sit as often as papers are set. All evidence counts, from every sitting; there is no best "
                "attempt and no fresh start without a price. A plant that somebody has seen is never set to them again."
            ),
            _(
                "A further window of evidence opens only after retraining on record, sees nothing of what came "
                "before, and has its own, smaller part of the chance of a false pass. Therefore sitting again cannot "
                "raise that chance above what the version allows."
            ),
        ),
        (),
        (
            Figure(
                _("Most sittings of one person"),
                str(found.sittings.most_per_person),
                found.sittings.people,
                _("people who sat"),
                source(sitting_counts),
            ),
            part(
                _("Periods with a second or third window"),
                sum(count for windows, count in opened.items() if windows > 1),
                sum(opened.values()),
                _("periods"),
                windows_opened,
            ),
            *_simulation(found),
        ),
        _retaking_tables(found),
        is_public=True,
    )


def _simulation(found: Material) -> tuple[Figure, ...]:
    if found.ahead is None:
        return ()
    made = simulated_passes(
        found.facts.dangerous,
        found.facts.window_weights,
        people=SIMULATED_PEOPLE,
        specimens=SIMULATED_SPECIMENS,
        seed=SEED,
    )
    label = _("Made-up people exactly at the tolerated share who passed, looked at after every one of %(n)s specimens")
    return (
        share(
            label % {"n": made.specimens},
            made.passed,
            made.people,
            _("made-up people"),
            simulated_passes,
            is_public=True,
        ),
    )


def _retaking_tables(found: Material) -> tuple[FigureTable, ...]:
    if found.ahead is None:
        return ()
    comparison = compared(found.facts.dangerous, found.facts.window_weights, ROWS[-1])
    tries = [each for each in comparison.tries if each.attempts in ROWS]
    rows = tuple((str(each.attempts), percent(each.best), percent(each.run), percent(each.here)) for each in tries)
    columns = (_("Tries"), _("best try counts"), _("any clean run counts"), _("here"))
    counts = tuple(each.specimens for each in tries)
    caption = _("Chance of a false pass at the tolerated share, under rules that forget and under this one")
    return (FigureTable(caption, columns, rows, counts, _("specimens"), "retakes.compare_rules", True),)


def change_of_rule(found: Material) -> Chapter:
    """ST-14."""
    before, after = found.standings_before, found.standings
    crossed = (
        (_("pass under both"), True, True),
        (_("pass under the older one alone"), True, False),
        (_("pass under this one alone"), False, True),
        (_("pass under neither"), False, False),
    )
    figures = tuple(
        share(
            label,
            sum(1 for person, old in before.items() if (old.passed, after[person].passed) == (was, is_now)),
            len(before),
            _("people with evidence"),
            figures_of,
        )
        for label, was, is_now in crossed
        if found.standard.follows_id is not None
    )
    rows = tuple(
        (str(each.version), date_format(each.in_use_since, "DATE_FORMAT") if each.in_use_since else _("not in use"))
        for each, _pairs in found.versions
    )
    table = FigureTable(
        _("Versions of this standard"),
        (_("Version"), _("In use since")),
        rows,
        tuple(pairs for _each, pairs in found.versions),
        _("pairs"),
        source(versions_of),
        True,
    )
    return Chapter(
        "ST-14",
        _("Change of the rule"),
        (
            _(
                "A version in use is never edited; a new one follows it. A certificate keeps the version under which "
                "it was issued, with the words and figures of that day."
            ),
            _(
                "Before a new version takes effect, what it would change for people with evidence is computed from "
                "that same evidence: below for this version against the one that it follows, where it follows any."
            ),
        ),
        (),
        figures,
        (table,),
        is_public=True,
    )
