"""One question as a QTI 3.0 item: one response, a choice or a place on a picture, right or not.

What the format cannot say (who is harmed by a wrong answer, how sure somebody is) is not squeezed into it.
"""

from xml.etree.ElementTree import Element, SubElement, indent, tostring

from .shape import Item, Picture

NAMESPACE = "http://www.imsglobal.org/xsd/imsqtiasi_v3p0"
MATCH_CORRECT = "https://purl.imsglobal.org/spec/qti/v3p0/rptemplates/match_correct.xml"
"""The processing that every reader knows: the score is 1 for the right answer and 0 for every other."""
RESPONSE, SCORE = "RESPONSE", "SCORE"


def item_xml(item: Item) -> bytes:
    """The file of one question."""
    root = Element(
        "qti-assessment-item",
        {
            "xmlns": NAMESPACE,
            "identifier": item.identifier,
            "title": item.title,
            "time-dependent": "false",
            "xml:lang": item.language,
        },
    )
    _declare(root, item)
    body = SubElement(root, "qti-item-body")
    if item.places:
        _ask_for_place(body, item)
    else:
        _ask_for_choice(body, item)
    SubElement(root, "qti-response-processing", {"template": MATCH_CORRECT})
    return xml_file(root)


def xml_file(root: Element) -> bytes:
    """An element as a file, indented, the same bytes for the same element."""
    indent(root)
    written: bytes = tostring(root, encoding="UTF-8", xml_declaration=True)
    return written + b"\n"


def _declare(root: Element, item: Item) -> None:
    response = {"identifier": RESPONSE, "cardinality": "single", "base-type": "identifier"}
    declared = SubElement(root, "qti-response-declaration", response)
    SubElement(SubElement(declared, "qti-correct-response"), "qti-value").text = item.right
    SubElement(root, "qti-outcome-declaration", {"identifier": SCORE, "cardinality": "single", "base-type": "float"})


def _ask_for_choice(body: Element, item: Item) -> None:
    for picture in item.pictures:
        _picture(SubElement(body, "p"), picture)
    asked = SubElement(
        body, "qti-choice-interaction", {"response-identifier": RESPONSE, "shuffle": "false", "max-choices": "1"}
    )
    SubElement(asked, "qti-prompt").text = item.prompt
    for choice in item.choices:
        SubElement(asked, "qti-simple-choice", {"identifier": choice.identifier}).text = choice.text


def _ask_for_place(body: Element, item: Item) -> None:
    asked = SubElement(body, "qti-hotspot-interaction", {"response-identifier": RESPONSE, "max-choices": "1"})
    SubElement(asked, "qti-prompt").text = item.prompt
    _picture(asked, item.pictures[0])
    for place in item.places:
        SubElement(
            asked,
            "qti-hotspot-choice",
            {"identifier": place.identifier, "shape": "rect", "coords": place.coords},
        )


def _picture(parent: Element, picture: Picture) -> None:
    size = {"width": str(picture.width), "height": str(picture.height)}
    SubElement(parent, "img", {"src": picture.path, "alt": picture.alt, **size})
