"""What sitting costs, against bare views behind the same middleware. Ratios in one run; nothing is asserted.

    .venv/bin/python -m tests.bench.sitting

The question page is set against a view that does the same reads and renders base.html, saving an answer against
a bare insert.
"""

import os
import platform
import time
from collections.abc import Callable
from datetime import timedelta
from statistics import median

os.environ["DJANGO_SETTINGS_MODULE"] = "tests.settings"
import django

django.setup()

from django.core.management import call_command
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.test import Client, override_settings
from django.test.utils import get_runner
from django.urls import path
from django.utils import timezone

from assessments.actions.papers import set_paper
from assessments.actions.sittings import open_sitting
from assessments.models import Notice
from assessments.queries.flora import the_flora
from assessments.queries.paper_plan import PaperPlan
from assessments.queries.sittings import pictures_of, progress_of, question_at
from courses.config.urls import urlpatterns as site
from species.models import Pair
from tests.factories.assessments import make_standard
from tests.factories.people import make_person, make_school
from tests.factories.species import SpecimenFactory, give_picture

ROUNDS, CALLS, QUESTIONS = 7, 20, 12


def bare_page(request: HttpRequest, key: str) -> HttpResponse:
    """The reads of the question page, and base.html around nothing."""
    question = question_at(request.user.pk, key, 1)
    if question is not None:
        progress_of(question.sitting_id)
        pictures_of(question)
    the_flora()
    return render(request, "base.html")


def bare_insert(request: HttpRequest) -> HttpResponse:
    """One row, and nothing else."""
    Notice.objects.create(person_id=request.user.pk, kind="bench", happened_at=timezone.now())
    return HttpResponse(status=204)


urlpatterns = [*site, path("bench/page/<str:key>/", bare_page), path("bench/insert/", bare_insert)]


def cpu_of(call: Callable[[], object]) -> float:
    """Median CPU milliseconds of one call."""
    call()
    rounds = []
    for _round in range(ROUNDS):
        started = time.process_time()
        for _call in range(CALLS):
            call()
        rounds.append((time.process_time() - started) / CALLS * 1000)
    return median(rounds)


def measure() -> None:
    call_command("load_flora", verbosity=0)
    make_school()
    person, tutor = make_person("Bench Sitter"), make_person("Bench Tutor", "tutor")
    pairs = list(Pair.objects.filter(key__in=["sorrel-arum", "ramsons-arum"]).with_both_species())
    standard = make_standard(*pairs)
    for species in {s for pair in pairs for s in (pair.gathered, pair.mistaken)}:
        for _each in range(12):
            give_picture(SpecimenFactory(species=species))
    now = timezone.now() - timedelta(minutes=1)
    plan = PaperPlan("Bench", standard, pairs, QUESTIONS, now, each_stage=False)
    paper = set_paper(plan, [person.user], tutor.user, 1, now)
    open_sitting(paper.seats.get(), timezone.now())
    client = Client()
    client.force_login(person.user)
    answers = [
        {"said": name, "name_is": "listed", "decision": "gather", "confidence": "sure", "go": "next"}
        for name in ("ramsons", "common sorrel")
    ]
    turn = iter(range(10**9))
    address = f"/sit/{paper.key}/1/"
    page = cpu_of(lambda: client.get(address))
    floor = cpu_of(lambda: client.get(f"/bench/page/{paper.key}/"))
    save = cpu_of(lambda: client.post(address, answers[next(turn) % 2]))
    insert = cpu_of(lambda: client.post("/bench/insert/"))
    print(f"{platform.processor() or platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    print(f"question page {page:.2f} ms CPU, bare page {floor:.2f}: {page / floor:.2f} times")
    print(f"saving an answer {save:.2f} ms CPU, bare insert {insert:.2f}: {save / insert:.2f} times")


if __name__ == "__main__":
    runner = get_runner(django.conf.settings, "django.test.runner.DiscoverRunner")(verbosity=0)
    databases = runner.setup_databases()
    with override_settings(ROOT_URLCONF="tests.bench.sitting"):
        measure()
    runner.teardown_databases(databases)
