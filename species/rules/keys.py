"""Keys: the names that pages, pictures and files go by in addresses. They say nothing about what they name."""

import secrets

BYTES = 16  # 128 random bits: nobody finds an address by trying


def new_key() -> str:
    """22 letters for an address, a cell of a table or a command line, the first of them never a minus.

    A minus in front would stand behind an apostrophe in every table, and a command would take the key for an option.
    """
    return next(key for key in iter(lambda: secrets.token_urlsafe(BYTES), "") if not key.startswith("-"))
