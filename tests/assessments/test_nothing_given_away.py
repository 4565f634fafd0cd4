"""Nothing that reaches a browser tells a dangerous plant from an edible one, whatever the kind of question (CP-8).

Either plant is put at the same place of the same test, with the same picture. Whatever differs then, gives it away.
"""

import re
from random import Random

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from assessments.models import Answer, Question
from assessments.rules.kinds.catalogue import KINDS
from assessments.rules.kinds.shape import Clue, Mark, PictureFacts, PlantShown, Subject
from assessments.rules.standard import PairFacts, Side
from species.models import PhotoRendition, Specimen
from species.rules.regions import Frame

SEEDS = 6
CLUES = (Clue("leaf", "Leaf", "blunt", "pointed", decides=True), Clue("stem", "Stem", "round", "ridged", decides=False))
MARKS = (Mark("leaf", Frame(0.1, 0.1, 0.2, 0.2)),)
BLIND = re.compile(r"\b[A-Za-z0-9]{32,64}\b")
"""Tokens against forged requests, which are made anew for each page."""


@pytest.fixture
def plants(pair, bank) -> dict[Side, list[Specimen]]:
    """Two specimens of either side, all with one and the same picture."""
    sides = {Side.EDIBLE: pair.gathered, Side.DANGEROUS: pair.mistaken}
    found = {side: list(species.specimens.order_by("pk")[:2]) for side, species in sides.items()}
    file = PhotoRendition.objects.earliest("pk").file.name
    PhotoRendition.objects.update(file=file)
    return found


class Look:
    """One person's first question, at which any plant can be put."""

    def __init__(self, client, paper, sitting, pair, plants) -> None:
        self.client, self.paper, self.plants = client, paper, plants
        self.pair = PairFacts(pair.key, pair.gathered.key, pair.mistaken.key)
        self.question = sitting.questions.get(position=1)
        self.address = reverse("assessments:question", args=[paper.key, 1])
        Question.objects.filter(sitting=sitting).exclude(pk=self.question.pk).delete()  # no plant twice in a sitting

    def put(self, kind, side: Side, seed: int, beside: Side | None = None) -> None:
        """Ask about a plant of this side as its kind does, with the same luck for both sides."""
        plant = self.plants[side][0]
        partners = [(each, other) for other, mine in self.plants.items() for each in mine if each != plant]
        subject = Subject(
            plant=PlantShown(str(plant.pk), side),
            pair=self.pair,
            clues=CLUES,
            pictures=(PictureFacts(plant.photos.get().pk, 400 / 560, MARKS),),
            partners=tuple(PlantShown(str(each.pk), other) for each, other in partners if beside in (None, other)),
        )
        put = kind.ask(subject, Random(seed))
        assert put is not None
        asks, second = dict(put.asks), put.beside
        Question.objects.filter(pk=self.question.pk).update(
            kind=kind.key, specimen=plant, beside=int(second.key) if second else None, asks=asks
        )

    def seen(self) -> dict[str, object]:
        """Everything that reaches the browser: page, headers, pictures with theirs, and how much was asked for it."""
        with CaptureQueriesContext(
            connection,
        ) as asked:
            page = self.client.get(self.address)
        text = BLIND.sub("token", page.content.decode())
        pictures = {}
        for url in sorted(set(re.findall(rf"{self.address}\d+/\d+", text))):
            with CaptureQueriesContext(connection) as for_picture:
                answer = self.client.get(url)
            pictures[url] = (answer.status_code, dict(answer.headers), answer.content, len(for_picture))
        assert pictures
        return {
            "page": text,
            "size": len(text),
            "headers": {name: BLIND.sub("token", value) for name, value in page.headers.items()},
            "cookies": sorted(page.cookies),
            "queries": [re.sub(r"\d+", "#", each["sql"].split("WHERE")[0]) for each in asked],
            "pictures": pictures,
        }


@pytest.fixture
def look(signed_in, participant, paper, sitting, pair, plants) -> Look:
    return Look(signed_in(participant), paper, sitting, pair, plants)


@pytest.mark.parametrize("kind", KINDS, ids=[kind.key for kind in KINDS])
def test_page_headers_sizes_pictures_and_work_are_the_same_for_either_plant(look, kind):
    look.put(kind, Side.EDIBLE, 0)
    look.seen()  # shown once, so that being shown first is not what differs
    for seed in range(SEEDS):
        seen = []
        for side in Side:
            look.put(kind, side, seed)
            seen.append(look.seen())
        assert seen[0] == seen[1]


@pytest.mark.parametrize("kind", KINDS, ids=[kind.key for kind in KINDS])
def test_being_shown_for_the_first_time_costs_the_same_for_either_plant(look, kind):
    seen = []
    for side in Side:
        look.put(kind, side, 0, beside=Side.EDIBLE)
        Question.objects.update(first_shown_at=None)
        seen.append(look.seen()["queries"])
    assert seen[0] == seen[1]


def test_of_two_plants_side_by_side_the_page_is_the_same_whichever_stands_first(look):
    kind = next(kind for kind in KINDS if kind.key == "side_by_side")
    look.put(kind, Side.EDIBLE, 0, beside=Side.DANGEROUS)
    look.seen()
    seen = []
    for first in Side:
        for second in Side:
            look.put(kind, first, 1, beside=second)
            seen.append(look.seen())
    assert all(each == seen[0] for each in seen)


def test_what_is_said_to_an_answer_is_the_same_whether_it_is_right_or_deadly(look, pair):
    told: list[tuple[bool, int, bytes, str]] = []
    for side in Side:
        look.put(KINDS[0], side, 0)
        for name in ("goodleaf", "badleaf"):
            for numbered in ({}, {"device": "a" * 32, "number": len(told) + 1}):
                given = {"said": name, "name_is": "listed", "decision": "gather", "confidence": "sure", **numbered}
                answer = look.client.post(look.address, given)
                review = look.client.get(reverse("assessments:review", args=[look.paper.key]))
                told.append(
                    (bool(numbered), answer.status_code, answer.content, BLIND.sub("", review.content.decode()))
                )
                Answer.objects.all().delete()
    assert len(set(told)) == 2


def test_no_key_name_or_word_of_the_plant_stands_in_the_page(look, pair):
    for side in Side:
        look.put(KINDS[0], side, 0)
        seen = look.seen()
        page = re.sub(r"<datalist.*?</datalist>", "", str(seen["page"]), flags=re.S)
        specimen = look.plants[side][0]
        telling = [specimen.key, specimen.species.key, specimen.species.name, specimen.photos.get().key, "leaf"]
        assert not [word for word in telling if word in page + str(seen["headers"])]
