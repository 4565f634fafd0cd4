"""The list of contents of a package: every question with the pictures that it needs, every picture once."""

from collections.abc import Sequence
from xml.etree.ElementTree import Element, SubElement

from .item_xml import xml_file
from .shape import Item

NAMESPACE = "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1"
ITEM_TYPE, PICTURE_TYPE = "imsqti_item_xmlv3p0", "webcontent"


def manifest_xml(identifier: str, items: Sequence[Item]) -> bytes:
    """The file imsmanifest.xml; `identifier` names the package."""
    root = Element("manifest", {"xmlns": NAMESPACE, "identifier": identifier})
    said = SubElement(root, "metadata")
    SubElement(said, "schema").text = "QTI Package"
    SubElement(said, "schemaversion").text = "3.0.1"
    SubElement(root, "organizations")
    resources = SubElement(root, "resources")
    for item in items:
        resource = _resource(resources, f"r-{item.identifier}", ITEM_TYPE, item.file)
        for path in dict.fromkeys(picture.path for picture in item.pictures):
            SubElement(resource, "dependency", {"identifierref": _name_of(path)})
    for path in dict.fromkeys(picture.path for item in items for picture in item.pictures):
        _resource(resources, _name_of(path), PICTURE_TYPE, path)
    return xml_file(root)


def _resource(resources: Element, identifier: str, kind: str, href: str) -> Element:
    resource = SubElement(resources, "resource", {"identifier": identifier, "type": kind, "href": href})
    SubElement(resource, "file", {"href": href})
    return resource


def _name_of(path: str) -> str:
    """The identifier of a picture; paths are made of letters that an identifier may hold, but for the slash."""
    return f"r-{path.replace('/', '-')}"
