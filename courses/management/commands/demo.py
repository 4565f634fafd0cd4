"""`manage.py demo`: the invented school, made on the first call and served."""

import os
import shutil
import socket
import subprocess
import sys
import time
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import BaseCommand, CommandError, call_command
from django.db import connection
from django.utils import timezone

from courses.actions.demo.school import invent_school, is_whole
from courses.models import School

HOST = "localhost"
STALE_AFTER_DAYS = 14


class Command(BaseCommand):
    """Migrate, invent the school if it is not there, and serve it."""

    help = "Make the invented school (once) and serve it at a printed address."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--no-serve", action="store_true", help="make the school and stop")
        parser.add_argument("--port", type=int, default=8000, help="port to serve at (default 8000)")
        parser.add_argument("--reset", action="store_true", help="throw the invented school away and make it anew")

    def handle(self, *args: Any, **options: Any) -> None:
        if not settings.DEMO:
            raise CommandError("The invented school starts only through `python3 manage.py demo`.")
        if not options["no_serve"]:
            refuse_taken_port(options["port"])
        # what is written from here on, also in the past that is invented, names the address that is or will be served
        settings.PUBLIC_ADDRESS = os.environ["KENSPECKLE_ADDRESS"] = f"http://{HOST}:{options['port']}"
        started = time.monotonic()
        self._refuse_a_real_school()
        if options["reset"]:
            self._throw_away()
        mark_as_demo(settings.VAR_DIR)
        self._say("Preparing the database …")
        call_command("migrate", verbosity=0)
        if not is_whole():
            if School.objects.exists():
                self._say("The last start was broken off; beginning again.")
                self._throw_away()
                call_command("migrate", verbosity=0)
            self._say("Inventing the school …")
            call_command("load_flora", verbosity=0)
            invent_school(timezone.now(), say=self._say, progress=self._progress)
        else:
            self._say_if_stale()
        if not options["no_serve"]:
            School.objects.update(address=settings.PUBLIC_ADDRESS)
            self._say("Collecting the style sheets …")
            call_command("collectstatic", interactive=False, verbosity=0)
        self._say(f"The school is ready after {time.monotonic() - started:.0f} seconds.")
        if not options["no_serve"]:
            self._serve(options["port"])

    def _say(self, sentence: str) -> None:
        self.stdout.write(sentence)
        self.stdout.flush()

    def _progress(self, done: int, total: int) -> None:
        if sys.stdout.isatty():
            self.stdout.write(f"\r  {done} of {total} drawings", ending="\n" if done == total else "")
            self.stdout.flush()
        elif done == total or done % 100 == 0:
            self._say(f"  {done} of {total} drawings")

    def _refuse_a_real_school(self) -> None:
        if "courses_school" not in connection.introspection.table_names():
            return
        if School.objects.filter(is_demo=False).exists():
            raise CommandError(
                "This database holds a real school; the invented one needs a place of its own. "
                "Set KENSPECKLE_VAR to another folder."
            )

    def _say_if_stale(self) -> None:
        seeded = School.objects.values_list("seeded_on", flat=True).first()
        age = (timezone.localdate() - seeded).days if seeded else 0
        if age > STALE_AFTER_DAYS:
            self._say(f"The school was invented {age} days ago, so its weeks no longer fit; --reset makes it anew.")

    def _throw_away(self) -> None:
        self._refuse_a_real_school()
        connection.close()
        name = settings.DATABASES["default"]["NAME"]
        if settings.DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
            for suffix in ("", "-wal", "-shm"):
                Path(f"{name}{suffix}").unlink(missing_ok=True)
        else:
            call_command("flush", interactive=False, verbosity=0)
        shutil.rmtree(settings.VAR_DIR / "photos", ignore_errors=True)

    def _serve(self, port: int) -> None:
        self._say(f"\n  http://{HOST}:{port}/\n\nStop with Ctrl-C; what happened is kept for the next start.")
        connection.close()
        command = [
            sys.executable,
            "-m",
            "gunicorn",
            "courses.config.wsgi:application",
            "--bind",
            f"{HOST}:{port}",
            "--workers",
            "2",
            "--threads",
            "4",
            "--worker-class",
            "gthread",
            "--log-level",
            "warning",
        ]
        os.environ.setdefault("DJANGO_SETTINGS_MODULE", "courses.config.settings")
        os.chdir(settings.BASE_DIR)
        # beside the server, and gone with it: what the worker of a real school does
        subprocess.Popen([sys.executable, "manage.py", "work", "--with-parent"], stdout=subprocess.DEVNULL)
        os.execv(sys.executable, command)


def mark_as_demo(folder: Path) -> None:
    """Let every later command on this folder know that its school is the invented one."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "settings.env").write_text("KENSPECKLE_DEMO=yes\n", encoding="utf-8")


def refuse_taken_port(port: int) -> None:
    """Say in words that a port cannot be had, before anything is made."""
    if not 1 <= port <= 65535:
        raise CommandError(f"{port} is no port; choose one from 1024 to 65535 with --port.")
    for family, address in ((socket.AF_INET, "127.0.0.1"), (socket.AF_INET6, "::1")):
        try:
            with socket.socket(family, socket.SOCK_STREAM) as probe:
                probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
                probe.bind((address, port))
        except PermissionError as error:
            raise CommandError(f"Port {port} needs more rights than you have; try --port 8000.") from error
        except OSError as error:
            if family == socket.AF_INET6:
                continue  # a machine without IPv6 says so in the same way
            raise CommandError(f"Port {port} is taken; try --port {port + 1}.") from error
