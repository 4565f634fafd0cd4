"""The site's own settings with a handful of lines changed for tests."""

import os
import tempfile
from pathlib import Path

os.environ["KENSPECKLE_DEMO"] = "yes"
# a folder of its own, gone with the process
_folder = None if os.environ.get("KENSPECKLE_TEST_VAR") else tempfile.TemporaryDirectory(prefix="kenspeckle-")
# Workers side by side have a folder each: what one stores is no business of another's tests.
_var = Path(_folder.name if _folder else os.environ["KENSPECKLE_TEST_VAR"], os.environ.get("PYTEST_XDIST_WORKER", ""))
_var.mkdir(exist_ok=True)
os.environ["KENSPECKLE_VAR"] = str(_var)
os.environ.setdefault("KENSPECKLE_SECRET_KEY", "tests only " * 6)
os.environ.pop("KENSPECKLE_ADDRESS", None)

from courses.config.settings import *  # noqa: F403
from courses.config.settings import DATABASES, STORAGES, VAR_DIR

ALLOWED_HOSTS = ["*"]
EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"
PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
STORAGES = {**STORAGES, "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}}
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    # In a file: a database in memory cannot be shared with the thread of the live server.
    DATABASES["default"]["TEST"] = {"NAME": str(Path(VAR_DIR) / "test.sqlite3")}
