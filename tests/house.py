"""A pretend house for manage.py: its real environment code, a short lock file, stand-ins for uv and Django.

Nothing in it needs the network.
"""

import os
import signal
import subprocess
import sys
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[1]
PYTHON = getattr(sys, "_base_executable", None) or sys.executable

STUB = {
    "django/__init__.py": "",
    "django/core/__init__.py": "",
    "django/core/exceptions.py": "class ImproperlyConfigured(Exception): pass\n",
    "django/core/management.py": "import os, sys\n"
    "from django.core.exceptions import ImproperlyConfigured\n"
    "def execute_from_command_line(arguments):\n"
    "    if 'refuse' in arguments: raise ImproperlyConfigured('PORT is a word; write a number.')\n"
    "    if 'stop' in arguments: raise KeyboardInterrupt\n"
    "    if 'write' in arguments: raise OSError(30, 'Read-only file system', '.var/keys')\n"
    "    if 'much' in arguments: print('a line of a long list\\n' * 20_000)\n"
    "    if 'exit' in arguments: print('not to be relied on'); sys.exit(3)\n"
    "    print('ran', *arguments[1:], 'in', sys.prefix, 'with', os.environ['DJANGO_SETTINGS_MODULE'],\n"
    "          'demo' if 'KENSPECKLE_DEMO' in os.environ else 'school')\n",
}
# Stands in for uv: writes down that it was called, does what the test asks for, installs the stub of Django.
FAKE_UV = f"""#!{PYTHON}
import os, pathlib, sys, time
house = pathlib.Path.cwd()
with (house.parent / "calls").open("a") as calls:
    print(*sys.argv[1:], file=calls)
until = time.monotonic() + (60 if os.environ.get("FAKE_WAITS") else 0)
while time.monotonic() < until and not (house.parent / "go").exists():
    time.sleep(0.02)
if os.environ.get("FAKE_FAILURE"):
    sys.exit(os.environ["FAKE_FAILURE"])
site = next(house.glob(".venv/lib/python*/site-packages"))
for name, text in {STUB!r}.items():
    (site / name).parent.mkdir(parents=True, exist_ok=True)
    (site / name).write_text(text)
"""


def _hears_interrupts() -> None:
    """A suite that was started in the background ignores interrupts, and so would everything that it starts."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


class House:
    """A pretend copy of the project in a folder of its own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "house"
        self.tools = folder / "tools"
        self.calls = folder / "calls"
        self.site = folder / "site"
        for name in ("manage.py", "courses/config/environment.py", "courses/config/remedies.py"):
            self.write(name, (PROJECT / name).read_text())
        self.write("courses/__init__.py", "")
        self.write("courses/config/__init__.py", "")
        self.write("courses/requirements.lock", "django==0\n")
        self.tools.mkdir()
        (self.tools / "uv").write_text(FAKE_UV)
        (self.tools / "uv").chmod(0o755)
        self.site.mkdir()

    def write(self, name: str, text: str) -> None:
        (self.folder / name).parent.mkdir(parents=True, exist_ok=True)
        (self.folder / name).write_text(text)

    @property
    def venv(self) -> Path:
        return self.folder / ".venv"

    @property
    def installations(self) -> int:
        return len(self.calls.read_text().splitlines()) if self.calls.exists() else 0

    def go_on(self) -> None:
        """Let an installation that waits (FAKE_WAITS) go on."""
        (self.folder.parent / "go").touch()

    def open(
        self, *arguments: str, stdout: int = subprocess.PIPE, stderr: int = subprocess.STDOUT, **environ: str
    ) -> "subprocess.Popen[str]":
        """Start manage.py in a process group of its own, with these variables and nearly no others."""
        return subprocess.Popen(
            [PYTHON, "manage.py", *(arguments or ("version",))],
            cwd=self.folder, stdout=stdout, stderr=stderr, text=True, start_new_session=True,
            preexec_fn=_hears_interrupts,
            env={"PATH": str(self.tools), "HOME": str(self.folder), "PYTHONPATH": str(self.site), **environ},
        )  # fmt: skip

    def start(self, *arguments: str, **environ: str) -> str:
        """What manage.py prints when it succeeds."""
        process = self.open(*arguments, **environ)
        told = process.communicate(timeout=60)[0]
        assert process.returncode == 0, told
        return told

    def unread(self, *arguments: str) -> tuple[int, str]:
        """How manage.py ends, and what it complains of, where nobody reads what it prints."""
        reader, writer = os.pipe()
        os.close(reader)
        process = self.open(*arguments, stdout=writer, stderr=subprocess.PIPE)
        os.close(writer)
        told = process.communicate(timeout=60)[1]
        return process.returncode, told

    def refusal(self, *arguments: str, **environ: str) -> str:
        """What manage.py prints last when it refuses: a sentence, never a traceback."""
        process = self.open(*arguments, **environ)
        told = process.communicate(timeout=60)[0]
        assert process.returncode == 1
        assert "Traceback" not in told
        sentence = told.strip().splitlines()[-1]
        assert sentence.endswith(".")
        return sentence
