"""What the technical report says under each of its headings, ST-1 to ST-14."""

from django.utils import timezone

from assessments.documents.report_words import Chapter, FigureTable
from assessments.models import Adjustment, Seat, Standard
from assessments.queries.planning_tables import chance_words
from assessments.queries.standards import facts_of, standards_with_parts
from assessments.rules.outlook import outlook
from courses.models import FoundingAssessor
from tests.factories.assessments import make_standard
from tests.factories.people import make_person

from .evidence import PaperTrail, open_windows
from .reports import the_report, walked


def chapter(standard: Standard, code: str) -> Chapter:
    return next(each for each in the_report(standard).chapters if each.code == code)


def table(found: Chapter, caption: str) -> FigureTable:
    return next(each for each in found.tables if each.caption.startswith(caption))


def value(found: Chapter, label: str) -> str:
    return next(each.value for each in found.figures if each.label.startswith(label))


def said(found: Chapter) -> str:
    return " ".join(found.paragraphs)


def test_st_1_what_a_pass_means_for_whom_and_what_it_does_not_mean(pair):
    found = chapter(make_standard(pair, purpose="May gather these alone."), "ST-1")
    assert [each.text for each in found.quotes] == ["May gather these alone."]
    assert "It is for the person who sat them" in said(found)
    assert "no licence" in said(found)


def test_st_2_pairs_with_danger_stages_and_sources_and_who_chose_them(pair, organiser):
    made = make_standard(pair, reasons="Both grow by the gate.", made_by=organiser.user)
    found = chapter(made, "ST-2")
    assert [each.text for each in found.quotes] == ["Both grow by the gate.", "Olga Organiser"]
    assert table(found, "The pairs").columns == ("Pair", "Danger", "Stages required", "Sources")
    assert table(found, "The pairs").rows[0][0] == "goodleaf told from badleaf"


def test_st_3_specimens_by_plant_stage_and_how_well_their_name_is_known(standard, bank):
    found = chapter(standard, "ST-3")
    rows = {row[0]: (row[2], count) for row, count in zip(*_bank(found), strict=True)}
    assert rows == {"goodleaf": ("6", 6), "badleaf": ("6", 6)}
    assert "no trial of questions on people" in said(found)


def _bank(found: Chapter) -> tuple[tuple[tuple[str, ...], ...], tuple[int, ...]]:
    cells = table(found, "The bank")
    return cells.rows, cells.counts


def test_st_4_the_cut_with_the_chance_to_pass_by_true_share_of_misses(standard):
    found = chapter(standard, "ST-4")
    lines = outlook(facts_of(standards_with_parts())[standard.pk]).dangerous.rates
    assert [row[1] for row in table(found, "Chance to pass one").rows] == [
        chance_words(line.within[0]) for line in lines
    ]
    assert "not from how many pass" in said(found)


def test_st_5_near_the_cut_wrong_decisions_and_consistency_and_too_few_to_say(standard, record):
    found = chapter(standard, "ST-5")
    columns = table(found, "The decision after").columns
    assert columns[2:] == ("wrong would be", "chance of that", "decided alike")
    assert value(found, "People who pass every pair") == "0 of 1; too few to say more"


def test_st_6_agreement_is_counted_and_founding_assessors_are_printed_with_their_reason(
    standard, record, tutor, organiser
):
    FoundingAssessor.objects.create(
        person=tutor, reason="Ten seasons here.", recorded_by=organiser, recorded_on=timezone.localdate()
    )
    found = chapter(standard, "ST-6")
    assert value(found, "Trusted to assess") == "1"
    printed = table(found, "Founding assessors")
    assert printed.rows[0][:3] == (tutor.name, "Ten seasons here.", organiser.name)
    assert printed.counts == (1,)
    assert "ST-6" not in [each.code for each in the_report(standard).in_short.chapters]


def test_st_7_papers_are_comparable_and_photographs_stand_beside_living_plants(standard, record):
    found = chapter(standard, "ST-7")
    assert [row[1] for row in table(found, "Dangerous plants that would").rows] == ["alive", "as photographs"]
    assert value(found, "Questions that showed somebody") == "1 of 15"


def test_st_8_sitting_again_does_not_raise_the_chance_of_a_false_pass(standard):
    found = chapter(standard, "ST-8")
    made = next(each for each in found.figures if each.label.startswith("Made-up people"))
    passed = int(made.value.split(" of ")[0])
    assert made.count == 4000
    assert passed / made.count < float(standard.miss_alpha)
    assert "All evidence counts" in said(found)


def test_st_9_adjustments_offered_noted_and_used(standard, record, organiser):
    seat = Seat.objects.first()
    seat.time_factor = 2
    seat.save()
    Adjustment.objects.create(
        seat=seat, what="twice the time", why="asked", time_factor=2, made_at=timezone.now(), made_by=organiser.user
    )
    found = chapter(standard, "ST-9")
    assert [value(found, label) for label in ("Adjustments noted", "Seats with", "Of these")] == [
        "1",
        "1 of 3",
        "1 of 1",
    ]


def test_st_10_instructions_practice_identity_lost_signal_and_what_went_wrong(standard, record):
    found = chapter(standard, "ST-10")
    for matter in ("its page says how it goes", "practise before", "signed in by", "signal is lost", "annulled by"):
        assert matter in said(found)
    assert value(found, "Annulled") == "0 of 3"


def test_st_11_results_are_explained_and_corrections_reach_everybody(standard, record):
    found = chapter(standard, "ST-11")
    assert "There is no mark" in said(found)
    assert "everybody's standing is computed again" in said(found)
    assert value(found, "Results looked at") == "3 of 3"


def test_st_12_appeals_have_a_last_day_and_a_day_to_be_decided_by(pair):
    found = chapter(make_standard(pair, appeal_days=20, appeal_decided_days=10), "ST-12")
    assert (value(found, "Days in which an answer"), value(found, "Days in which an appeal")) == ("20", "10")
    assert "no other purpose" in said(found)


def test_st_13_it_is_dated_versioned_and_names_its_queries(standard, record):
    report = the_report(standard)
    walked(report)
    assert report.standard == "Participant, version 1"
    assert report.dated.startswith("As of ")
    named = {row[0] for row in table(chapter(standard, "ST-13"), "Where the figures").rows}
    used = {each.query for one in report.chapters if one.code != "ST-13" for each in (*one.figures, *one.tables)}
    assert named == used


def test_st_14_a_new_version_is_held_against_the_old_one_before_it_takes_effect(pair, standard, tutor):
    for place in range(8):
        person = make_person(f"Learner {place}", "participant").user
        open_windows(person)
        PaperTrail(person, standard, tutor.user, 2 + place).answer(pair.mistaken, "refuse")
    draft = make_standard(pair, version=2, follows=standard, miss_limit="0.10", in_use=False)
    found = chapter(draft, "ST-14")
    assert value(found, "pass under neither").startswith("8 of 8")
    assert [row[0] for row in table(found, "Versions").rows] == ["1", "2"]
