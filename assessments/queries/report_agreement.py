"""Chapters of a report: agreement between determiners and assessors, papers that differ, fairness."""

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from assessments.documents.report_words import Chapter, Figure, FigureTable

from .report_bank import agreement_of_determiners, bank_origins
from .report_figures import number, part, share, share_words, source
from .report_founders import assessed_by, founding_assessors
from .report_material import Material
from .report_sittings import (
    Answers,
    answers_by_medium,
    question_counts,
    sitting_counts,
    spot_test_counts,
    sure_and_wrong,
)
from .retakes_page import percent


def agreement(found: Material) -> Chapter:
    """ST-6."""
    named, tests = found.agreement, found.spot_tests
    of = _("specimens with two determiners")
    return Chapter(
        "ST-6",
        _("Agreement between determiners, and between assessors at stations"),
        (
            _(
                "Counted are the first opinions of the first two determiners of a specimen, before anybody talked "
                "about it. Agreement is a count, not proof: two people may share an error."
            ),
            _(
                "At a spot test the key is set by one person and should be checked by another before anybody answers. "
                "Answers are decisions of the person tested; assessors note them, and judge nothing."
            ),
        ),
        (),
        (
            number(
                _("People who determined, outsiders included"),
                named.determiners,
                _("determiners"),
                agreement_of_determiners,
            ),
            share(_("Two determiners agreed at once"), named.agreed, named.specimens, of, agreement_of_determiners),
            share(
                _("One named an edible, the other a dangerous plant"),
                named.edible_against_dangerous,
                named.specimens,
                of,
                agreement_of_determiners,
            ),
            number(
                _("Opinions of outsiders asked by link"), named.by_outsiders, _("opinions"), agreement_of_determiners
            ),
            part(_("Keys checked by a second person"), tests.checked, tests.tests, _("spot tests"), spot_test_counts),
            part(_("Stations struck out"), tests.struck_out, tests.stations, _("stations"), spot_test_counts),
            number(
                _("Trusted to assess before the school had any holder"),
                len(found.founders),
                _("founding assessors"),
                founding_assessors,
            ),
        ),
        (_founders_table(found),) if found.founders else (),
    )


def _founders_table(found: Material) -> FigureTable:
    rows = tuple(
        (each.name, each.reason, each.recorded_by, date_format(each.recorded_on, "DATE_FORMAT"))
        for each in found.founders
    )
    return FigureTable(
        _("Founding assessors, and why they were trusted"),
        (_("Who"), _("Reason"), _("Put on record by"), _("on")),
        rows,
        tuple(found.founders.values()),
        _("people tested by them"),
        source(assessed_by),
    )


def comparability(found: Material) -> Chapter:
    """ST-7."""
    asked = found.questions
    shares = asked.dangerous_shares
    spread = (
        _("%(low)s to %(high)s") % {"low": percent(min(shares)), "high": percent(max(shares))}
        if shares
        else _("nothing to count yet")
    )
    return Chapter(
        "ST-7",
        _("Different papers are comparable"),
        (
            _(
                "Every sitting has questions of its own, drawn to the blueprint of its paper: the same quotas by "
                "pair, side and stage, from plants that this person has not seen. The share of dangerous plants is "
                "drawn anew for each, so that it gives nothing away."
            ),
            _(
                "Papers are comparable by what they ask, not by how hard they proved: nothing is adjusted afterwards. "
                "Photographs and living plants are counted apart below, since they leave out different things."
            ),
        ),
        (),
        (
            number(_("Papers set under this version"), found.sittings.papers, _("papers"), sitting_counts),
            Figure(
                _("Share of dangerous plants in a sitting"), spread, len(shares), _("sittings"), source(question_counts)
            ),
            part(
                _("Questions that showed somebody a plant for the second time"),
                asked.repeated,
                asked.shown,
                _("questions put"),
                question_counts,
            ),
            number(
                _("Dangerous plants that somebody was sure to gather"),
                found.sure_and_wrong,
                _("answers"),
                sure_and_wrong,
            ),
        ),
        (_media_table(found),),
    )


def _media_table(found: Material) -> FigureTable:
    rows = tuple(
        (found.flora.common(each.species), _medium_word(each), share_words(each.gathered, each.decided))
        for each in found.answers
    )
    return FigureTable(
        _("Dangerous plants that would have been gathered, by photograph and alive, answers of everybody"),
        (_("Plant"), _("Shown"), _("gathered of those decided on")),
        rows,
        tuple(each.shown for each in found.answers),
        _("answers"),
        source(answers_by_medium),
    )


def _medium_word(each: Answers) -> str:
    return _("alive") if each.medium == "live" else _("as photographs")


def fairness(found: Material) -> Chapter:
    """ST-9."""
    counted = found.sittings
    return Chapter(
        "ST-9",
        _("Fairness"),
        (
            _(
                "More time is given to whoever needs it, with the reason noted and without a limit on its worth: a "
                "longer time changes nothing in what is asked. Tests can be sat by touch, by keys, and with large "
                "letters."
            ),
            _(
                "Device, language and colour vision of the people tested are not recorded, so no results by such "
                "groups can be printed. Groups as small as those of one course would not allow it either."
            ),
        ),
        (),
        (
            number(
                _("Adjustments noted, each with who agreed to it and why"),
                counted.adjustments,
                _("adjustments"),
                sitting_counts,
            ),
            part(_("Seats with an adjustment"), counted.adjusted, counted.seats, _("seats"), sitting_counts),
            part(
                _("Of these, sat"),
                counted.adjusted_sat,
                counted.adjusted,
                _("seats with an adjustment"),
                sitting_counts,
            ),
            part(
                _("Specimens found wanting and void now"),
                found.origins.void,
                found.origins.specimens,
                _("specimens"),
                bank_origins,
            ),
        ),
        (),
    )
