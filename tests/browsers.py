"""Where the browser for the journeys is found."""

import os
import shutil
from collections.abc import Mapping

PROGRAMS = ("chromium", "chromium-browser", "google-chrome")
NO_BROWSER = (
    "No Chromium was found: install it (Debian, Ubuntu: sudo apt install chromium) or name it with CHROMIUM=/path."
)


def find_chromium(environ: Mapping[str, str] = os.environ) -> str | None:
    """The path of a Chromium: the one that CHROMIUM names, else the first on the PATH; None without one."""
    search = environ.get("PATH")
    named = environ.get("CHROMIUM")
    if named:
        return shutil.which(named, path=search)
    return next((found for name in PROGRAMS if (found := shutil.which(name, path=search))), None)


def browser_is_required(environ: Mapping[str, str] = os.environ) -> bool:
    """True where a missing browser is an error, so that a green run cannot hide that no page was opened."""
    return environ.get("REQUIRE_BROWSER", "") not in ("", "0")
