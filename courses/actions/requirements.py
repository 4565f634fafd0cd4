"""Recording that somebody showed a proof."""

from datetime import date

from courses.models import Person, RequirementRecord


def record_requirement(record: RequirementRecord, seen_by: Person, today: date) -> RequirementRecord:
    """Keep a proof with who saw it and when."""
    record.seen_by, record.seen_on = seen_by, today
    record.save()
    return record
