"""The last lines of a test run: how the other checks went, and loudly, that no browser was found.

A pytest plugin which `manage.py test` loads. It speaks at the end, where a line is not scrolled away.
"""

import os
from typing import Any

from tests.browsers import NO_BROWSER


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Write the lines just above pytest's own summary."""
    skipped = terminalreporter.stats.get("skipped", [])
    without = [report for report in skipped if NO_BROWSER in str(report.longrepr)]
    checks = os.environ.get("KENSPECKLE_CHECKS")
    if without or checks:
        terminalreporter.section("checks")
    if without:
        line = f"{len(without)} BROWSER TESTS WERE SKIPPED. {NO_BROWSER}"
        terminalreporter.write_line(line, red=True, bold=True)
    if checks:
        terminalreporter.write_line(checks, red="FAILED" in checks, green="FAILED" not in checks)
