"""Chapters of a report: administration, scores, the rights of the tested, and the report itself."""

from collections import Counter
from collections.abc import Sequence

from django.utils.translation import gettext as _

from assessments.documents.report_words import Chapter, Figure, FigureTable

from .report_corrections import appeal_counts, corrections
from .report_figures import number, part, source
from .report_material import Material, material_for
from .report_sittings import question_counts, sitting_counts, spot_test_counts


def administration(found: Material) -> Chapter:
    """ST-10."""
    counted, asked = found.sittings, found.questions
    of = _("sittings")
    return Chapter(
        "ST-10",
        _("Administration, and what went wrong"),
        (
            _(
                "People sit on their own device, signed in by a code sent to them or by a passkey. Nobody watches a "
                "sitting at home: it speaks of somebody who answered alone, and living plants are asked face to face."
            ),
            _(
                "Before a test begins its page says how it goes, what counts and how long it may take. Anybody can "
                "practise before the first one, on pictures that no test uses; what was practised is nobody else's "
                "affair, so it is counted nowhere."
            ),
            _(
                "Where the signal is lost, what was tapped waits on the device, which says so, and is delivered later "
                "in the order of tapping. What comes after the sitting has closed is not taken, and the person "
                "reads so; what stood by then, stands."
            ),
            _(
                "An answer is kept when it is given, and may be changed until handing in. Handing in can be taken "
                "back for a minute. A sitting closes by itself at its limit: what was answered is handed in, what "
                "was shown and not answered counts as left, what was never shown stays unseen."
            ),
            _(
                "A whole sitting can be annulled by a second person, with a reason, only before anybody has seen its "
                "result."
            ),
        ),
        (),
        (
            number(_("Sittings opened"), counted.sittings, of, sitting_counts),
            part(_("Closed by themselves at their limit"), counted.closed_itself, counted.sittings, of, sitting_counts),
            part(_("Annulled"), counted.annulled, counted.sittings, of, sitting_counts),
            part(_("Shown and not answered"), asked.unanswered, asked.shown, _("questions put"), question_counts),
            number(
                _("Spot tests held with plants of this version"),
                found.spot_tests.tests,
                _("spot tests"),
                spot_test_counts,
            ),
        ),
    )


def scores(found: Material) -> Chapter:
    """ST-11."""
    counted, mended = found.sittings, found.corrections
    hours = counted.hours_to_result
    return Chapter(
        "ST-11",
        _("What people are told, when, and how it is corrected"),
        (
            _(
                "There is no mark. Somebody is told, question by question, what the plant was and what tells it, and "
                "then pair by pair where they stand, what is missing, and why, in plain words; every figure opens "
                "the answers behind it. This is open as soon as the minute for taking back is over."
            ),
            _(
                "Where a specimen is voided or named anew, everybody's standing is computed again from the same "
                "evidence, in both directions. A certificate whose own evidence no longer carries it is under review "
                "from that day."
            ),
        ),
        (),
        (
            part(
                _("Results looked at"),
                counted.results_seen,
                counted.settled,
                _("sittings with a result"),
                sitting_counts,
            ),
            Figure(
                _("Hours from handing in to the first look, median"),
                _("nothing to count yet") if hours is None else f"{hours:.1f}",
                counted.results_seen,
                _("results looked at"),
                source(sitting_counts),
            ),
            number(_("Voidings of specimens that somebody had answered"), mended.standing, _("voidings"), corrections),
            number(_("Voidings lifted again"), mended.lifted, _("voidings"), corrections),
            number(_("People whose answers they concerned"), mended.people, _("people"), corrections),
        ),
    )


def rights(found: Material) -> Chapter:
    """ST-12."""
    appeals = found.appeals
    return Chapter(
        "ST-12",
        _("Rights of the tested"),
        (
            _(
                "Before they sit, people can read what is asked, of which plants, by which rule, and why sitting again "
                "does not help. Afterwards they see every answer of theirs with what it counted as, and the reason."
            ),
            _(
                "Whoever thinks that a question was wrong may say so; somebody decides who neither set the paper nor "
                "confirmed the specimen. Answers are seen by the person, by those who work for the school and need "
                "them, and by nobody else, and serve no other purpose than this one."
            ),
            _(
                "Practice, and questions that only teach, never count. Leaving a plant alone because one cannot tell "
                "is never held against anybody on a dangerous plant."
            ),
        ),
        (),
        (
            number(_("People who sat a paper of this version"), found.sittings.people, _("people"), sitting_counts),
            _days(_("Days in which an answer can be appealed"), found.standard.appeal_days),
            _days(_("Days in which an appeal is decided"), found.standard.appeal_decided_days),
            number(_("Appeals against questions on its plants"), appeals.received, _("appeals"), appeal_counts),
            part(_("Upheld"), appeals.upheld, appeals.decided, _("appeals decided"), appeal_counts),
            part(
                _("Decided by somebody involved, with the reason on record"),
                appeals.by_somebody_involved,
                appeals.decided,
                _("appeals decided"),
                appeal_counts,
            ),
            number(_("Withdrawn"), appeals.withdrawn, _("appeals"), appeal_counts),
            Figure(
                _("Days from an appeal to its decision, median"),
                _("nothing to count yet") if appeals.days is None else f"{appeals.days:.1f}",
                appeals.decided,
                _("appeals decided"),
                source(appeal_counts),
            ),
        ),
        is_public=True,
    )


def _days(label: str, days: int) -> Figure:
    return Figure(label, str(days), 1, _("version of the standard"), source(material_for), True)


def about_itself(chapters: Sequence[Chapter]) -> Chapter:
    """ST-13: the queries of the other chapters, each with the number of figures that it gave."""
    used: Counter[str] = Counter()
    for chapter in chapters:
        used.update(figure.query for figure in chapter.figures)
        used.update(table.query for table in chapter.tables)
    rows = tuple((query,) for query in sorted(used))
    table = FigureTable(
        _("Where the figures come from"),
        (_("Query or computation"),),
        rows,
        tuple(used[row[0]] for row in rows),
        _("figures and tables"),
        source(about_itself),
        True,
    )
    return Chapter(
        "ST-13",
        _("This report"),
        (
            _(
                "It is written by the program from the school's own records on the day that it is asked for, for one "
                "version of a standard. Beside every figure stands from how many it was counted, and the name of the "
                "query. Shares carry an exact interval; from few people none is printed."
            ),
            _(
                "A short form without figures that could tell of single people, or of the inside of the bank, is "
                "open to everybody."
            ),
        ),
        (),
        (),
        (table,),
        is_public=True,
    )
