"""Kept standings: one answer computes only what it touches, and nothing stale is ever answered."""

import json
from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import CommandError, call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from assessments.actions import standings as keeping
from assessments.actions.handing_in import annul, hand_in, settle_overdue, show_result
from assessments.actions.sittings import Given, open_sitting, save_answer, show_question
from assessments.actions.spot_tests import add_station, name_station, record_answers, set_up_spot_test
from assessments.actions.standings import rebuild_standings, refresh_after_change_of, refresh_standings
from assessments.actions.windows import open_window
from assessments.models import KeptLedger, KeptStanding, Period, Voiding
from assessments.queries import kept_standings, standing_stamps
from assessments.queries.kept_standings import figures_of, summaries_of
from assessments.queries.standings import standings_of
from assessments.rules.figures import ledger_figures, pair_figures
from assessments.rules.standard import Side
from species.models import CommonName, Individual
from species.models import Pair as SpeciesPair
from tests.factories.assessments import make_live_evidence, make_standard
from tests.factories.certificates import trust_founder
from tests.factories.people import make_person
from tests.factories.species import LocalityFactory, PairFactory, SpecimenFactory, determine


@pytest.fixture
def other_pair(school) -> SpeciesPair:
    return PairFactory()


@pytest.fixture
def both(standard, pair, other_pair):
    """Two standards in use: one of a pair, a stricter one of the same pair and another."""
    return standard, make_standard(pair, other_pair, key="stricter", miss_limit="0.10")


ALL = 2 + 4
"""Ledgers of one person under both standards."""


@pytest.fixture
def wood(both, pair, tutor, assessor):
    """A spot test with one dangerous station that two people named."""
    test = set_up_spot_test("Wood", LocalityFactory(), timezone.now() - timedelta(hours=2), tutor.user)
    station = add_station(test, pair.mistaken, "", "rosette", tutor.user, timezone.now())
    name_station(station, pair.mistaken, "badleaf", assessor.user, timezone.now())
    test.refresh_from_db()
    return test


def a_recorder():
    """Somebody who may confirm answers about any plant."""
    person = make_person("Rhea Recorder", "assessor")
    trust_founder(person)
    return person.user


def touched(monkeypatch, act) -> set[tuple[int, str]]:
    """The ledgers (version, species) that are opened while `act` runs."""
    seen: set[tuple[int, str]] = set()

    def counted(standard, ledger):
        seen.add((standard.key, ledger.species))
        return ledger_figures(standard, ledger)

    with monkeypatch.context() as patch:
        patch.setattr(kept_standings, "ledger_figures", counted)
        act()
    return seen


def rows() -> list[tuple]:
    """Everything that is kept, letter by letter, save the numbers of the rows."""
    columns = KeptLedger.objects.values_list("person_id", "standard_id", "side", "species_id", "stamp", "figures")
    ledgers = [(*rest, json.dumps(figures)) for *rest, figures in columns]
    short = KeptStanding.objects.values_list(
        "person_id", "standard_id", "passed", "pairs", "pairs_passed", "gaps", "stamp"
    )
    return [*ledgers, *short]


def is_what_a_fresh_look_says(people, standard, now) -> bool:
    fresh = standings_of(people, standard, now)
    for person, figures in figures_of(people, standard, now).items():
        standing = fresh[person]
        assert figures.pairs == tuple(pair_figures(verdict) for verdict in standing.pairs)
        assert (figures.passed, figures.gaps) == (standing.passed, len(standing.gaps))
        assert figures.ledgers == tuple(
            ledger_figures(standing.standard, ledger) for ledger in (*standing.dangerous, *standing.edible)
        )
    for person, short in summaries_of(people, standard, now).items():
        passed = sum(pair.passed for pair in fresh[person].pairs)
        assert (short.passed, short.pairs_passed, short.gaps) == (
            fresh[person].passed, passed, len(fresh[person].gaps)
        )  # fmt: skip
    return True


REFUSED = Given("refuse", "sure", "badleaf")


def test_a_station_computes_the_ledger_of_its_species_alone_in_every_standard(
    monkeypatch, participant, tutor, assessor, pair, wood
):
    now, by = timezone.now(), a_recorder()
    record_answers(wood, participant.user, {1: REFUSED}, by, now, recognised="sight")
    second = add_station(wood, pair.mistaken, "", "rosette", tutor.user, now)
    name_station(second, pair.mistaken, "badleaf", assessor.user, now)
    seen = touched(
        monkeypatch, lambda: record_answers(wood, participant.user, {2: REFUSED}, by, now, recognised="sight")
    )
    assert seen == {("participant", pair.mistaken.key), ("stricter", pair.mistaken.key)}


def test_a_second_name_after_the_answers_refreshes_those_who_gave_them(
    monkeypatch, participant, tutor, assessor, pair, wood
):
    now, by = timezone.now(), a_recorder()
    second = add_station(wood, pair.mistaken, "", "rosette", tutor.user, now)
    record_answers(wood, participant.user, {2: REFUSED}, by, now, recognised="sight")
    seen = touched(monkeypatch, lambda: name_station(second, pair.mistaken, "badleaf", assessor.user, now))
    assert seen == {("participant", pair.mistaken.key), ("stricter", pair.mistaken.key)}
    assert not refresh_standings([participant.user_id], now).computed


def test_handing_in_computes_only_the_species_that_were_shown(monkeypatch, participant, both, paper, sitting):
    now = timezone.now()
    shown = sitting.questions.select_related("specimen__species").get(position=1)
    save_answer(shown, REFUSED, now)
    assert not touched(monkeypatch, lambda: hand_in(sitting, now))
    seen = touched(monkeypatch, lambda: show_result(sitting, now))
    assert {species for _, species in seen} == {shown.specimen.species.key}
    assert {standard for standard, _ in seen} == {"participant", "stricter"}


def test_opening_the_first_sitting_touches_every_ledger_since_a_window_opens(monkeypatch, both, paper):
    seen = touched(monkeypatch, lambda: open_sitting(paper.seats.get(), timezone.now()))
    assert len(seen) == ALL


@pytest.fixture
def answered(participant, tutor, both, pair):
    """A participant with an open window and one live miss, everything kept."""
    begun = timezone.now() - timedelta(days=30)
    period = Period.objects.create(
        person=participant.user, number=1, started_at=begun, ends_at=begun + timedelta(days=700)
    )
    period.windows.create(number=1, opened_at=begun, opened_by=tutor.user)
    specimen = SpecimenFactory(species=pair.mistaken)
    make_live_evidence(participant.user, specimen, "gather", by=tutor.user, at=timezone.now() - timedelta(days=3))
    refresh_standings([participant.user_id], timezone.now())
    return specimen


def misses(person, standard, now=None) -> int:
    return figures_of([person.user_id], standard, now or timezone.now())[person.user_id].pairs[0].misses


def test_a_second_refresh_computes_nothing(participant, both, answered):
    again = refresh_standings([participant.user_id], timezone.now())
    assert (again.computed, again.current) == (frozenset(), ALL)


def void(specimen, by) -> Voiding:
    return Voiding.objects.create(specimen=specimen, voided_at=timezone.now(), voided_by=by, reason="out of focus")


def test_a_voided_specimen_counts_for_nobody_at_once_and_again_when_it_is_lifted(participant, tutor, both, answered):
    assert misses(participant, both[0]) == 1
    voiding = void(answered, tutor.user)
    assert misses(participant, both[0]) == 0
    voiding.lifted_at = timezone.now()
    voiding.save()
    assert misses(participant, both[0]) == 1


def test_voiding_refreshes_those_who_answered_it_and_only_its_ledgers(
    monkeypatch, participant, tutor, pair, both, answered
):
    void(answered, tutor.user)
    seen = touched(monkeypatch, lambda: refresh_after_change_of([answered.pk], timezone.now()))
    assert {species for _, species in seen} == {pair.mistaken.key}


def test_a_disputed_specimen_and_one_named_anew_are_noticed_without_being_told(participant, other_pair, both, answered):
    answered.settlement = "disputed"
    answered.save()
    assert misses(participant, both[0]) == 0
    answered.settlement, answered.species = "confirmed", other_pair.mistaken
    answered.save()
    found = figures_of([participant.user_id], both[1], timezone.now())[participant.user_id]
    assert [pair.misses for pair in found.pairs] == [0, 1]


@pytest.mark.parametrize("column", ["stage", "seen_on", "individual", "locality", "drawing_seed"])
def test_every_column_of_a_specimen_that_may_change_is_in_the_stamp(participant, both, answered, column):
    before = {"stage": "flower", "seen_on": answered.seen_on - timedelta(days=9), "drawing_seed": 7}
    neighbour = Individual.objects.create(locality=answered.individual.locality)
    other = SpecimenFactory(species=answered.species, individual=neighbour, **before)
    if column == "locality":
        answered.individual.locality = LocalityFactory()
        answered.individual.save()
    else:
        setattr(answered, column, getattr(other, column))
        answered.save()
    computed = refresh_standings([participant.user_id], timezone.now()).computed
    assert {key.species for key in computed} == {answered.species.key}


def test_when_the_period_is_over_nothing_kept_is_current(participant, both, answered):
    later = timezone.now() + timedelta(days=800)
    assert misses(participant, both[0], later) == 0
    assert is_what_a_fresh_look_says([participant.user_id], both[0], later)


def test_another_name_of_a_plant_makes_everything_stale(participant, pair, both, answered):
    CommonName.objects.create(species=pair.gathered, name="deceiver")
    assert len(refresh_standings([participant.user_id], timezone.now()).computed) == ALL


def test_a_change_in_what_the_standards_ask_makes_everything_stale(settings, participant, both, answered):
    settings.DRAWINGS_COUNT = not settings.DRAWINGS_COUNT
    assert len(refresh_standings([participant.user_id], timezone.now()).computed) == ALL


def test_another_version_of_the_program_makes_everything_stale(monkeypatch, participant, both, answered):
    monkeypatch.setattr(standing_stamps, "_program_stamp", lambda: "another")
    assert len(refresh_standings([participant.user_id], timezone.now()).computed) == ALL


def test_a_pair_that_is_no_longer_dangerous_leaves_the_kept_rows(participant, other_pair, both, answered):
    other_pair.danger = "unpleasant"
    other_pair.save()
    assert is_what_a_fresh_look_says([participant.user_id], both[1], timezone.now())
    refresh_standings([participant.user_id], timezone.now())
    assert KeptLedger.objects.count() == 2 + 2
    assert not KeptLedger.objects.filter(species=other_pair.mistaken).exists()


def test_a_version_that_was_followed_by_another_is_kept_no_longer(participant, pair, both, answered):
    newer = make_standard(pair, version=2, follows=both[0])
    assert is_what_a_fresh_look_says([participant.user_id], newer, timezone.now())
    refresh_standings([participant.user_id], timezone.now())
    assert {row.standard_id for row in KeptStanding.objects.all()} == {newer.pk, both[1].pk}
    assert is_what_a_fresh_look_says([participant.user_id], both[0], timezone.now())


def test_a_new_window_is_refreshed_in_its_own_step(participant, tutor, both, answered):
    open_window(participant.user, "We went through the umbellifers again.", tutor.user, timezone.now())
    numbers = [each["number"] for each in KeptLedger.objects.first().figures["windows"]]
    assert numbers == [1, 2]
    assert not refresh_standings([participant.user_id], timezone.now()).computed


def test_an_annulled_sitting_is_taken_out_in_its_own_step(participant, assessor, both, paper, sitting):
    now = timezone.now()
    show_question(sitting.questions.get(position=1), now)
    hand_in(sitting, now)
    settle = now + timedelta(minutes=5)
    settle_overdue(settle)
    annul(sitting, assessor.user, "The room was on fire.", settle)
    assert not refresh_standings([participant.user_id], settle).computed
    assert is_what_a_fresh_look_says([participant.user_id], both[0], settle)


def test_what_changes_while_it_is_computed_is_not_kept(monkeypatch, participant, both, answered):
    KeptLedger.objects.all().delete()
    KeptStanding.objects.all().delete()
    real, looks = keeping.ledger_stamps, []

    def changing(*args):
        looks.append(1)
        return {key: f"{len(looks)}{stamp[1:]}" for key, stamp in real(*args).items()}

    monkeypatch.setattr(keeping, "ledger_stamps", changing)
    refresh_standings([participant.user_id], timezone.now())
    assert len(looks) == 2
    assert rows() == []


def test_kept_rows_hold_whole_numbers_and_words_only(answered):
    def leaves(value):
        if isinstance(value, dict | list):
            for each in value.values() if isinstance(value, dict) else value:
                yield from leaves(each)
        else:
            yield value

    kinds = {type(leaf) for row in KeptLedger.objects.all() for leaf in leaves(row.figures)}
    assert kinds <= {int, str, bool, type(None)}
    assert {row.side for row in KeptLedger.objects.all()} == {side.value for side in Side}


def test_rows_under_another_stamp_are_not_believed(participant, both, answered):
    KeptStanding.objects.update(passed=True, stamp="0" * 64)
    KeptLedger.objects.update(figures={"shape": "of another program"}, stamp="0" * 64)
    assert is_what_a_fresh_look_says([participant.user_id], both[0], timezone.now())


def many(pair, tutor, count: int) -> list[int]:
    found = []
    for number in range(count):
        person = make_person(f"Person {number} {count}", "participant").user
        begun = timezone.now() - timedelta(days=30)
        period = Period.objects.create(person=person, number=1, started_at=begun, ends_at=begun + timedelta(days=700))
        period.windows.create(number=1, opened_at=begun, opened_by=tutor.user)
        for species in (pair.mistaken, pair.gathered):
            make_live_evidence(person, SpecimenFactory(species=species), "refuse", by=tutor.user)
        found.append(person.pk)
    return found


@pytest.mark.parametrize("look", [figures_of, summaries_of])
@pytest.mark.parametrize("kept", [True, False])
def test_one_person_and_thirty_take_the_same_number_of_queries(both, pair, tutor, look, kept):
    one, thirty = many(pair, tutor, 1), many(pair, tutor, 30)
    if kept:
        refresh_standings([*one, *thirty], timezone.now())
    counts = []
    for people in (one, thirty):
        with CaptureQueriesContext(connection) as seen:
            look(people, both[0], timezone.now())
        counts.append(len(seen))
    assert counts[0] == counts[1]


def test_refreshing_reads_as_often_for_one_person_as_for_thirty(both, pair, tutor):
    counts = []
    for people in (many(pair, tutor, 1), many(pair, tutor, 30)):
        with CaptureQueriesContext(connection) as seen:
            refresh_standings(people, timezone.now())
        counts.append(sum(query["sql"].startswith("SELECT") for query in seen))
    assert counts[0] == counts[1]


def test_the_command_rebuilds_everybody_and_says_how_many(participant, both, answered):
    before = rows()
    out = StringIO()
    call_command("rebuild_standings", stdout=out)
    assert rows() == before
    assert "1 person" in out.getvalue()


def test_the_command_rebuilds_only_those_named(participant, stranger, both, answered):
    KeptStanding.objects.update(gaps=99)
    call_command("rebuild_standings", stranger.user.email, stdout=StringIO())
    assert KeptStanding.objects.filter(person=participant.user, gaps=99).exists()
    call_command("rebuild_standings", participant.user.email, stdout=StringIO())
    assert not KeptStanding.objects.filter(gaps=99).exists()


def test_the_command_refuses_a_person_it_does_not_know_and_changes_nothing(answered):
    before = rows()
    with pytest.raises(CommandError, match="Nobody here signs in with"):
        call_command("rebuild_standings", "nobody@example.org")
    assert rows() == before


def test_progress_is_told_while_many_are_rebuilt(monkeypatch, both, pair, tutor):
    people = many(pair, tutor, 5)
    monkeypatch.setattr(keeping, "AT_ONCE", 2)
    told = []
    assert rebuild_standings(timezone.now(), None, lambda done, of: told.append((done, of))) == 5
    assert told == [(2, 5), (4, 5), (5, 5)]
    assert KeptStanding.objects.filter(person__in=people).count() == 5 * 2


def test_what_two_people_disagree_on_counts_for_nobody_until_it_is_settled(participant, assessor, both, answered):
    determine(answered, answered.species, assessor.user)
    answered.settlement = "single"
    answered.save()
    assert misses(participant, both[0]) == 0
    assert is_what_a_fresh_look_says([participant.user_id], both[0], timezone.now())
