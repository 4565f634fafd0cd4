"""Reading meta.xml as strangers write it: which tables there are, and how their files are to be read."""

import codecs
from dataclasses import dataclass
from xml.etree.ElementTree import Element, ParseError

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import fromstring

from species.documents.archive.meta import META, NAMESPACE
from species.rules.darwin.slips import Notes, Wrong

_ESCAPES = {"\\t": "\t", "\\n": "\n", "\\r": "\r", "\\r\\n": "\r\n"}
_MOST_COLUMNS = 500


@dataclass(frozen=True)
class ReadColumn:
    """A term, the place of its column (None: it has none), and what an empty cell stands for."""

    term: str
    place: int | None
    default: str = ""


@dataclass(frozen=True)
class Description:
    """One table: its files, how they are written, and its columns. `key` is the place of the (core) id."""

    is_core: bool
    row_type: str
    files: tuple[str, ...]
    key: int
    columns: tuple[ReadColumn, ...]
    encoding: str
    delimiter: str
    quote: str
    header_lines: int


def described_tables(content: bytes, notes: Notes) -> tuple[Description, ...]:
    """The tables of an archive, the core first; what is wrong is noted, and then none is given."""
    try:
        root = fromstring(content, forbid_dtd=True)
    except (ParseError, DefusedXmlException, ValueError, LookupError) as error:
        notes.add(Wrong.BAD_XML, META, reason=error or type(error).__name__)
        return ()
    found: list[Description] = []
    for element in root:
        kind = element.tag.removeprefix(f"{{{NAMESPACE}}}") if isinstance(element.tag, str) else ""
        if kind in ("core", "extension"):
            try:
                found.append(_description(element, kind == "core"))
            except ValueError as error:
                notes.add(Wrong.BAD_META, META, reason=error)
    cores = sum(each.is_core for each in found)
    if not notes.wrong and cores != 1:
        notes.add(Wrong.BAD_META, META, reason=f"{cores} core tables; there has to be one")
    return () if notes.wrong else tuple(sorted(found, key=lambda each: not each.is_core))


def _description(element: Element, is_core: bool) -> Description:
    row_type, key = element.get("rowType", ""), element.find(_tag("id" if is_core else "coreid"))
    files = tuple((each.text or "").strip() for each in element.findall(f"{_tag('files')}/{_tag('location')}"))
    if not row_type or not files or not all(files):
        raise ValueError("a table needs a rowType and a file")
    if key is None:
        raise ValueError(f"the table {files[0]} has no {'id' if is_core else 'coreid'}")
    columns = tuple(_column(each) for each in element.findall(_tag("field")))
    return Description(
        is_core,
        row_type,
        files,
        _whole(key.get("index", ""), "index"),
        columns,
        _encoding(element.get("encoding", "UTF-8")),
        _one_sign(element.get("fieldsTerminatedBy", ","), "fieldsTerminatedBy"),
        _quote(element.get("fieldsEnclosedBy", '"')),
        _whole(element.get("ignoreHeaderLines", "0"), "ignoreHeaderLines"),
    )


def _column(field: Element) -> ReadColumn:
    term, index, default = field.get("term", "").strip(), field.get("index"), field.get("default", "")
    if not term or (index is None and not default):
        raise ValueError("a field needs a term, and an index or a default")
    return ReadColumn(term, None if index is None else _whole(index, "index"), default)


def _tag(name: str) -> str:
    return f"{{{NAMESPACE}}}{name}"


def _whole(text: str, what: str) -> int:
    if text.isascii() and text.isdigit() and len(text) < 5 and int(text) < _MOST_COLUMNS:
        return int(text)
    raise ValueError(f"{what} is '{text}'")


def _one_sign(text: str, what: str) -> str:
    sign = _ESCAPES.get(text, text)
    if len(sign) != 1 or sign in "\r\n\0":
        raise ValueError(f"{what} is '{text}'; one sign is read")
    return sign


def _quote(text: str) -> str:
    return _one_sign(text, "fieldsEnclosedBy") if text else ""


def _encoding(name: str) -> str:
    try:
        return codecs.lookup(name).name
    except (LookupError, ValueError):
        raise ValueError(f"nobody knows the encoding '{name}'") from None
