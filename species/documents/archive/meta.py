"""The file meta.xml: which tables an archive holds, and what stands in their columns (Darwin Core text guide)."""

from collections.abc import Sequence
from xml.sax.saxutils import quoteattr

from species.rules.darwin.layouts import Layout
from species.rules.lists import SEPARATOR

META, EML = "meta.xml", "eml.xml"
NAMESPACE = "http://rs.tdwg.org/dwc/text/"
_FORM = (
    'encoding="UTF-8" fieldsTerminatedBy="," linesTerminatedBy="\\n" fieldsEnclosedBy="&quot;" ignoreHeaderLines="1"'
)


def meta_xml(layouts: Sequence[Layout]) -> str:
    """The description of an archive: the first table is its core, the others point to it by their first column."""
    lines = ['<?xml version="1.0" encoding="UTF-8"?>', f'<archive xmlns="{NAMESPACE}" metadata="{EML}">']
    for number, each in enumerate(layouts):
        lines += _table("extension" if number else "core", "coreid" if number else "id", each)
    return "\n".join([*lines, "</archive>", ""])


def _table(element: str, key: str, layout: Layout) -> list[str]:
    fields = []
    # The key of an extension is not said to be a term of its rows: it is the id of another row.
    for place, column in enumerate(layout.columns):
        if key == "coreid" and place == 0:
            continue
        several = f" delimitedBy={quoteattr(SEPARATOR)}" if column.holds_list else ""
        fields.append(f'    <field index="{place}" term={quoteattr(column.term)}{several}/>')
    return [
        f"  <{element} {_FORM} rowType={quoteattr(layout.row_type)}>",
        f"    <files><location>{layout.file}</location></files>",
        f'    <{key} index="0"/>',
        *fields,
        f"  </{element}>",
    ]
