"""Setting a paper: looking at it first, what is refused and why, and what can be set instead."""

from datetime import timedelta

import pytest
from django.db import transaction
from django.utils import timezone

from assessments.actions.papers import BankTooSmall, PaperRefused, set_paper
from assessments.actions.sittings import open_sitting
from assessments.models import Paper, Question, Seat, Seen
from assessments.queries import paper_outlook
from assessments.queries.bank import blueprint_of, pairs_of_paper
from assessments.queries.drawing import draw_paper
from assessments.queries.standards import standard_facts
from species.models import Showing, Specimen
from species.rules.vocabulary import Settlement
from tests.factories.assessments import make_standard

from .evidence import PaperTrail, open_windows
from .setting import SET, add, moment, plan, pressed, sides_of, typed

SOON_OVER = moment(timezone.now() + timedelta(days=1, hours=1))


def look(client, *args, **changed):
    return client.post(SET, typed(*args, step="look", **changed))


def test_looking_first_shows_an_example_and_sets_nothing(signed_in, tutor, participant, standard, bank, pair):
    page = look(signed_in(tutor), standard, pair, participant)
    text = page.content.decode()
    assert page.status_code == 200
    assert "It can be set" in text
    assert "Drawn to the plan" in text
    assert "2 of these are dangerous plants" in text
    assert 'value="A test"' in text
    assert not Paper.objects.exists()


def test_whoever_looks_has_seen_the_plants_and_is_never_set_them(signed_in, tutor, participant, standard, bank, pair):
    page = look(signed_in(tutor), standard, pair, participant)
    shown = {each.specimen for line in page.context["setting"].example for each in line.plants}
    seen = Seen.objects.filter(person=tutor.user, why=Seen.PREVIEW)
    assert len(shown) == 4
    assert set(seen.values_list("specimen__key", flat=True)) == shown
    assert not Seen.objects.exclude(person=tutor.user).exists()
    paper = set_paper(plan(standard, pair), [tutor.user], participant.user, 3, timezone.now())
    asked = open_sitting(paper.seats.get(), paper.opens_at).questions.values_list("specimen__key", flat=True)
    assert shown.isdisjoint(asked)


def test_the_same_example_comes_of_the_same_number(signed_in, tutor, participant, standard, bank, pair):
    client = signed_in(tutor)
    first, again, other = (
        [each.specimen for line in look(client, standard, pair, participant, example=n).context["setting"].example
         for each in line.plants] for n in ("5", "5", "6")
    )  # fmt: skip
    assert first == again != other


def test_a_bank_that_shrank_since_somebody_looked_is_said_and_nothing_typed_is_lost(
    signed_in, tutor, participant, standard, bank, pair
):
    client = signed_in(tutor)
    assert "It can be set" in look(client, standard, pair, participant, title="My own title").content.decode()
    keep = Specimen.objects.filter(species=pair.mistaken).first()
    Specimen.objects.filter(species=pair.mistaken).exclude(pk=keep.pk).update(settlement=Settlement.DISPUTED.value)
    page = client.post(SET, typed(standard, pair, participant, title="My own title"))
    assert page.status_code == 422
    assert 'value="My own title"' in page.content.decode()
    assert not Paper.objects.exists()
    assert "Set this one instead" in page.content.decode()


def test_the_nearest_paper_is_set_with_one_press(signed_in, tutor, participant, standard, bank, pair):
    client = signed_in(tutor)
    page = client.post(SET, typed(standard, pair, participant, questions="16", edible_each="2", dangerous_each="6"))
    sentence = page.context["offers"][0][0]
    assert sentence.startswith("12 questions instead of 16")
    assert client.post(SET, pressed(page)).status_code == 302
    paper = Paper.objects.get()
    assert (paper.title, paper.questions, paper.seats.get().person) == ("A test", 12, participant.user)
    assert open_sitting(paper.seats.get(), paper.opens_at).questions.count() == 12


def test_a_quota_that_gives_way_is_named_and_stays_written_down(signed_in, tutor, participant, standard, bank, pair):
    client = signed_in(tutor)
    Specimen.objects.filter(species=pair.mistaken).update(stage="rosette")
    standard.pairs.update(required_stages=["rosette", "flower"])
    page = client.post(SET, typed(standard, pair, participant, questions="10", each_stage="on"))
    assert "Badleaf, flower: 2 asked for, 0 left in the bank." in page.content.decode()
    assert "Badleaf, flower: at least 0 instead of 2" in page.context["offers"][0][0]
    client.post(SET, pressed(page))
    paper = Paper.objects.get()
    asked = {quota.name for quota in blueprint_of(paper, pairs_of_paper(paper, standard_facts(standard))).quotas}
    assert paper.questions == 10
    assert f"{pair.mistaken.key}, flower" not in asked
    assert f"{pair.mistaken.key}, rosette" in asked


def test_a_longer_paper_is_offered_where_only_the_length_is_short(signed_in, tutor, participant, standard, bank, pair):
    client = signed_in(tutor)
    page = client.post(SET, typed(standard, pair, participant, questions="6", dangerous_each="4", edible_each="4"))
    assert "What is asked for takes 8 questions, and the paper has 6." in page.content.decode()
    assert page.context["offers"][0][0] == "8 questions instead of 6."
    client.post(SET, pressed(page))
    assert Paper.objects.get().questions == 8


def test_what_to_name_and_what_to_photograph_is_said_with_its_months(
    signed_in, tutor, participant, standard, bank, pair
):
    Showing.objects.create(species=pair.mistaken, stage="rosette", months=[3, 4])
    confirmed = list(Specimen.objects.filter(species=pair.mistaken).values_list("pk", flat=True))
    Specimen.objects.filter(pk__in=confirmed[2:]).update(retired_on=timezone.localdate())
    add(pair.mistaken, settlement=Settlement.SINGLE.value)
    page = look(signed_in(tutor), standard, pair, participant, questions="10", dangerous_each="4")
    text = page.content.decode()
    assert "Badleaf: 2 more wanted." in text
    assert "1 lies in the bank with one name: a second person" in text
    assert "Photograph 1. It shows in: March to April." in text
    assert "Name specimens" in text


def test_what_is_short_for_one_person_alone_names_them(standard, bank, pair, tutor, participant, stranger):
    for specimen in Specimen.objects.filter(species=pair.mistaken)[:5]:
        Seen.objects.create(person=stranger.user, specimen=specimen, seen_at=timezone.now(), why=Seen.FEEDBACK)
    asked = plan(standard, pair, dangerous_each=2)
    with pytest.raises(BankTooSmall) as refusal:
        set_paper(asked, [participant.user, stranger.user], tutor.user, 1, timezone.now())
    assert refusal.value.sentences == (
        f"Badleaf: 2 asked for, 1 left in the bank. ({stranger.user.get_full_name() or stranger.user.email})",
    )


def test_where_somebody_met_every_plant_there_is_nothing_to_offer(signed_in, tutor, participant, standard, pair):
    page = look(signed_in(tutor), standard, pair, participant)
    assert page.context["offers"] == []
    assert "Not even a shorter paper" in page.content.decode()


def test_other_kinds_are_part_of_the_number_of_questions(signed_in, tutor, participant, standard, bank, pair):
    answer = signed_in(tutor).post(SET, typed(standard, pair, participant, questions="6", kind_side_by_side="2"))
    assert answer.status_code == 302
    paper = Paper.objects.get()
    assert (paper.questions, paper.kinds, paper.counting_questions) == (6, {"side_by_side": 2}, 4)


def test_unless_something_is_said_every_question_is_to_be_named(signed_in, tutor, participant, standard, bank, pair):
    signed_in(tutor).post(SET, typed(standard, pair, participant))
    assert Paper.objects.get().kinds == {}
    sitting = open_sitting(Seat.objects.get(), Paper.objects.get().opens_at)
    assert set(sitting.questions.values_list("kind", flat=True)) == {"name_and_decide"}


def test_too_many_of_another_kind_are_offered_as_few_as_can_be_put(signed_in, tutor, participant, standard, bank, pair):
    client = signed_in(tutor)
    page = client.post(SET, typed(standard, pair, participant, questions="14", kind_side_by_side="10"))
    assert "“Side by side”: 10 asked for, 4 can be put" in page.content.decode()
    assert "“Side by side”: 4 instead of 10" in page.context["offers"][0][0]
    client.post(SET, pressed(page))
    assert (Paper.objects.get().questions, Paper.objects.get().kinds) == (8, {"side_by_side": 4})


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"closes_at": "2020-01-01T10:00"}, "would close before it opens"),
        ({"opens_at": "2020-01-01T10:00", "closes_at": "2020-01-02T10:00"}, "would be closed already"),
        ({"minutes": "600", "closes_at": SOON_OVER}, "the paper is open for less"),
        ({"kind_side_by_side": "4"}, "At least one question has to be"),
        ({"kind_side_by_side": "-1"}, "greater than or equal to 0"),
        ({"dangerous_each": "-3"}, "greater than or equal to 0"),
        ({"questions": "61"}, "less than or equal to 60"),
        ({"questions": "many"}, "Enter a whole number"),
        ({"pairs": []}, "Tick at least one pair"),
        ({"people": "Nobody At All"}, "Nobody here is called Nobody At All"),
        ({"dangerous_each": "30"}, "30 asked for"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_nonsense_is_refused_with_a_sentence_and_stays_typed(
    signed_in, tutor, participant, standard, bank, pair, changed, said
):
    for step in ("look", "keep"):
        page = signed_in(tutor).post(SET, {**typed(standard, pair, participant), **changed, "step": step})
        assert said in page.content.decode()
        assert 'value="A test"' in page.content.decode()
    assert not Paper.objects.exists()


def test_the_wrong_year_is_refused(standard, bank, pair, tutor, participant):
    opens = timezone.now() + timedelta(days=400)
    with pytest.raises(PaperRefused, match="look at the year"):
        set_paper(
            plan(standard, pair, opens_at=opens, closes_at=None), [participant.user], tutor.user, 1, timezone.now()
        )


def test_a_pair_that_the_chosen_standard_does_not_ask_for_is_named(signed_in, tutor, participant, standard, bank, pair):
    other = make_standard(key="walk-leader", name="Walk leader")
    page = signed_in(tutor).post(SET, typed(other, pair, participant))
    assert f"does not ask for these pairs: {pair.gathered.name} – {pair.mistaken.name}" in page.content.decode()


def test_everybody_gets_other_plants_to_the_same_plan(standard, bank, pair, tutor, participant, stranger):
    for species in sides_of(pair):
        add(species, 8)
    people = [participant.user, stranger.user]
    paper = set_paper(plan(standard, pair, 10), people, tutor.user, 9, timezone.now())
    asked = blueprint_of(paper, pairs_of_paper(paper, standard_facts(standard)))
    least, most = asked.dangerous_bounds
    drawn = [set(open_sitting(seat, paper.opens_at).questions.values_list("specimen", flat=True))
             for seat in paper.seats.all()]  # fmt: skip
    assert drawn[0] != drawn[1]
    for each in drawn:
        dangerous = Specimen.objects.filter(pk__in=each, species=pair.mistaken).count()
        assert len(each) == 10
        assert max(least, 4) <= dangerous <= most


def test_how_easy_a_plant_proved_changes_no_paper(standard, bank, pair, tutor, participant, stranger):
    """The same papers were set to somebody else before; only how they answered differs."""

    def asked_after(decision):
        trail = PaperTrail(stranger.user, standard, tutor.user)
        for specimen in Specimen.objects.order_by("pk")[:8]:
            trail.answer(specimen.species, decision, specimen=specimen)
        paper = set_paper(plan(standard, pair), [participant.user], tutor.user, 5, timezone.now())
        return list(open_sitting(paper.seats.get(), paper.opens_at).questions.values_list("specimen", flat=True))

    open_windows(stranger.user)
    drawn = []
    for decision in ("gather", "refuse"):
        drawn.append(rolled_back(lambda decision=decision: asked_after(decision)))
    assert drawn[0] == drawn[1]


def test_a_fixed_seed_gives_the_same_paper(standard, bank, pair, tutor, participant):
    paper = set_paper(plan(standard, pair), [participant.user], tutor.user, 5, timezone.now())

    def asked():
        sitting = open_sitting(paper.seats.get(), paper.opens_at)
        return list(sitting.questions.order_by("position").values_list("specimen", flat=True))

    first = rolled_back(asked)
    assert not Question.objects.exists()
    assert rolled_back(asked) == first
    Paper.objects.update(seed=6)
    others = {tuple(rolled_back(asked))}
    for seed in range(7, 12):
        Paper.objects.update(seed=seed)
        others.add(tuple(rolled_back(asked)))
    assert others != {tuple(first)}


def rolled_back(call):
    """What a call gives, with all that it wrote taken back."""
    with transaction.atomic():
        found = call()
        transaction.set_rollback(True)
    return found


def test_people_who_have_met_the_same_plants_are_tried_once(standard, bank, pair, participant, stranger, monkeypatch):
    tried = []
    monkeypatch.setattr(paper_outlook, "draw_paper", lambda *args: tried.append(args) or draw_paper(*args))
    people = [participant.user, stranger.user]
    assert paper_outlook.outlook_of(plan(standard, pair), people, 1).is_possible
    assert len(tried) == 1
    met = Specimen.objects.filter(species=pair.gathered)[0]
    Seen.objects.create(person=stranger.user, specimen=met, seen_at=timezone.now(), why=Seen.FEEDBACK)
    assert paper_outlook.outlook_of(plan(standard, pair), people, 1).is_possible
    assert len(tried) == 3
