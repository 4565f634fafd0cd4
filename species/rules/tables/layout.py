"""The tables of the flora: one CSV file each, with these columns."""

from collections.abc import Mapping

COLUMNS: Mapping[str, tuple[str, ...]] = {
    "sources.csv": ("key", "kind", "citation", "how_read"),
    "species.csv": (
        "key", "name", "author", "aggregate", "family", "edibility", "life", "height_from_cm", "height_to_cm",
        "habitat", "status", "moisture", "squares_britain", "squares_ireland", "leafless_stages",
        "blur_places", "legal", "note", "sources",
    ),
    "common_names.csv": ("species", "name", "language"),
    "synonyms.csv": ("species", "name", "kind"),
    "parts_used.csv": ("species", "part", "months", "stages", "note"),
    "showing.csv": ("species", "stage", "months"),
    "hazards.csv": ("species", "toxin", "parts", "signs", "onset", "severity", "uncertain", "sources"),
    "characters.csv": ("key", "name", "organ", "sense", "stages", "reliability", "why", "needs_digging"),
    "states.csv": ("character", "key", "text"),
    "state_table.csv": ("species", "character", "state", "frequency", "stages"),
    "pairs.csv": (
        "key", "gathered", "mistaken", "danger", "core", "part", "what_goes_wrong", "where_together", "rule",
        "third_species", "sources",
    ),
    "pair_stages.csv": ("pair", "gathered_stage", "mistaken_stage"),
    "pair_characters.csv": (
        "pair", "character", "label", "trust", "stages", "gathered", "mistaken", "one_way", "needs_digging",
        "note",
    ),
    "modules.csv": ("key", "title", "text"),
    "module_species.csv": ("module", "species"),
    "module_pairs.csv": ("module", "pair"),
}  # fmt: skip
"""Files in the order in which they are read and reported; the order of rows is the order on pages."""
