"""Reading a page as a browser would, to say what is wrong with it without opening one."""

from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = {
    "area",
    "base",
    "br",
    "col",
    "hr",
    "img",
    "input",
    "link",
    "meta",
    "source",
    "wbr",
    "path",
    "circle",
    "rect",
}
POINTING = ("for", "aria-describedby", "aria-labelledby", "form")


@dataclass
class Element:
    """One element: its name, its attributes, and the words directly or indirectly inside it."""

    tag: str
    attributes: dict[str, str | None]
    words: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())

    @property
    def classes(self) -> set[str]:
        return set((self.attributes.get("class") or "").split())


class Reader(HTMLParser):
    """Collects elements, and faults of nesting on the way."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[Element] = []
        self.elements: list[Element] = []
        self.faults: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, dict(attrs))
        if len(element.attributes) < len(attrs):
            self.faults.append(f"<{tag}> has an attribute twice")
        self.elements.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append(Element(tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if tag in VOID:
            return
        if not self.open or self.open[-1].tag != tag:
            self.faults.append(f"</{tag}> closes {self.open[-1].tag if self.open else 'nothing'}")
            return
        self.open.pop()

    def handle_data(self, data: str) -> None:
        for element in self.open:
            element.words.append(data)


def read(html: str) -> Reader:
    reader = Reader()
    reader.feed(html)
    reader.close()
    reader.faults += [f"<{element.tag}> is never closed" for element in reader.open]
    return reader


def found(html: str, tag: str = "", css_class: str = "") -> list[Element]:
    """The elements of that name (any when empty) that have that class (any when empty)."""
    return [
        each
        for each in read(html).elements
        if (not tag or each.tag == tag) and (not css_class or css_class in each.classes)
    ]


def faults(html: str) -> list[str]:
    """Everything that a strict content policy, a screen reader or a browser would stumble over."""
    reader = read(html)
    ids = [each.attributes["id"] or "" for each in reader.elements if "id" in each.attributes]
    told = list(reader.faults)
    told += [f"the id {each!r} stands twice" for each in sorted({one for one in ids if ids.count(one) > 1})]
    if "" in ids:
        told.append("an id is empty")
    for each in reader.elements:
        told += [*refused_by_the_policy(each), *pointing_nowhere(each, ids)]
        if each.tag == "img" and "alt" not in each.attributes:
            told.append("an <img> has no alt")
    return told


def refused_by_the_policy(element: Element) -> list[str]:
    """What the content policy refuses: style and script that stand in the page itself."""
    told = [f"<{element.tag}> has {name}" for name in element.attributes if name == "style" or name.startswith("on")]
    holds_code = "src" not in element.attributes and element.attributes.get("type") != "application/json"
    if element.tag == "style" or (element.tag == "script" and holds_code):
        told.append(f"a <{element.tag}> stands in the page")
    return told


def pointing_nowhere(element: Element, ids: list[str]) -> list[str]:
    """References to ids that are not on the page."""
    return [
        f"{name} of <{element.tag}> points at {one}, which is not there"
        for name in POINTING
        for one in (element.attributes.get(name) or "").split()
        if one not in ids
    ]
