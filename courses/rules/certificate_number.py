"""The number of a certificate, however somebody types it who reads it off a paper. Pure."""

import re

DIGITS_OF_A_YEAR, DIGITS_AT_LEAST = 4, 4


def as_printed(typed: str) -> str:
    """The number as the paper has it, 2026-0007, from `No. 2026-0007`, `2026 7`, or one with another kind of dash.

    What holds no year and number is given back as it came, without the spaces around it.
    """
    groups = re.findall(r"[0-9]+", typed)
    if len(groups) == 1 and len(groups[0]) >= DIGITS_OF_A_YEAR + DIGITS_AT_LEAST:
        groups = [groups[0][:DIGITS_OF_A_YEAR], groups[0][DIGITS_OF_A_YEAR:]]
    if len(groups) != 2 or len(groups[0]) != DIGITS_OF_A_YEAR:
        return typed.strip()
    return f"{groups[0]}-{groups[1].lstrip('0').zfill(DIGITS_AT_LEAST)}"
