#!/usr/bin/env python3
"""The door to every command: `python3 manage.py demo`, `python3 manage.py test`, and Django's own.

This file must parse on Pythons far older than ours, so that they too are refused in words.
"""

import errno
import os
import sys


def refuse_unsuitable_python():
    """End with one sentence where this Python or this system cannot run the project."""
    if sys.version_info < (3, 11):
        sys.exit(
            "Kenspeckle needs Python 3.11 or newer, and this is Python {}.{}: "
            "install a newer one and start it by its name, for instance `python3.12 manage.py demo`.".format(
                sys.version_info[0], sys.version_info[1]
            )
        )
    if os.name != "posix":
        sys.exit("Kenspeckle runs on Linux and macOS: on Windows, use the Windows Subsystem for Linux.")


def enter_environment():
    """Go on inside .venv, which is made first where it is missing or out of date."""
    from courses.config.environment import NotReady, enter

    try:
        enter(os.path.dirname(os.path.abspath(__file__)))
    except NotReady as refusal:
        sys.exit(str(refusal))
    except KeyboardInterrupt:
        sys.exit("Stopped before .venv was ready: run the same command again and it starts afresh.")


def run_command(arguments):
    """Hand the command line to Django; refusals by the settings are shown as the sentence they are."""
    # The tests have settings of their own from the first moment, so they never see a school's rows or keys.
    if arguments[1:2] == ["test"]:
        os.environ["DJANGO_SETTINGS_MODULE"] = "tests.settings"
    # Settings are read before the command is, so the invented school is announced here.
    if arguments[1:2] == ["demo"]:
        os.environ["KENSPECKLE_DEMO"] = "yes"
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "courses.config.settings")
    try:
        from django.core.exceptions import ImproperlyConfigured
        from django.core.management import execute_from_command_line
    except ImportError as error:
        sys.exit(
            "Django cannot be imported ({}): delete the folder .venv and run the same command again, "
            "or, with KENSPECKLE_NO_VENV=1, install courses/requirements.lock first.".format(error)
        )
    try:
        try:
            execute_from_command_line(arguments)
        except SystemExit:
            sys.stdout.flush()
            raise
        # What waits in the buffer fails here, where it can be met, and not while Python is ending.
        sys.stdout.flush()
    except ImproperlyConfigured as refusal:
        sys.exit("The settings were refused: {}".format(refusal))
    except BrokenPipeError:
        # Whoever read the output has enough of it (`| head`): there is nobody to tell, and nothing to tell them.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
    except KeyboardInterrupt:
        sys.exit("Stopped.")
    except OSError as error:
        if error.errno not in (errno.EACCES, errno.EROFS, errno.ENOSPC):
            raise
        from courses.config.remedies import remedy_for

        sys.exit(remedy_for(error, os.path.dirname(os.path.abspath(__file__))))


if __name__ == "__main__":
    refuse_unsuitable_python()
    enter_environment()
    run_command(sys.argv)
