"""Walking a report: every figure has its count and a query that exists."""

import re
from importlib import import_module

from django.utils import timezone

from assessments.documents.report_words import Figure, Report
from assessments.models import Standard
from assessments.queries.report import report_of


def the_report(standard: Standard) -> Report:
    return report_of(standard, timezone.now(), "Test School")


def figure(report: Report, label: str) -> Figure:
    return next(each for chapter in report.chapters for each in chapter.figures if each.label.startswith(label))


def walked(report: Report) -> None:
    """Every figure has its count and a query that exists; no paragraph holds a number."""
    for each in report.counted():
        if isinstance(each, Figure):
            assert each.count >= 0
            assert each.value
        else:
            assert len(each.counts) == len(each.rows)
            assert all(len(row) == len(each.headings) for row in each.with_counts)
        assert each.counted
        assert query_exists(each.query)
    assert [text for chapter in report.chapters for text in chapter.paragraphs if re.search(r"\d", text)] == []


def query_exists(name: str) -> bool:
    module, _dot, function = name.partition(".")
    for room in ("assessments.queries", "assessments.rules"):
        try:
            return callable(getattr(import_module(f"{room}.{module}"), function))
        except ModuleNotFoundError:
            continue
    return False


def squeezed(text: str) -> str:
    return "".join(text.split())
