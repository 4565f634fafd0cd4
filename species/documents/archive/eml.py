"""The file eml.xml: whose archive it is, what is in it, of which day, and how it may be used (EML 2.2)."""

from dataclasses import dataclass
from datetime import date
from xml.sax.saxutils import escape, quoteattr

_NAMESPACE = "https://eml.ecoinformatics.org/eml-2.2.0"


@dataclass(frozen=True)
class About:
    """What is said of an archive as a whole, in finished sentences. `language`: two letters."""

    identifier: str
    title: str
    publisher: str
    day: date
    abstract: str
    rights: str
    language: str = "en"


def eml_xml(about: About) -> str:
    """The smallest complete record: who, what, when, under which terms, and whom to ask."""
    who = f"<organizationName>{escape(about.publisher)}</organizationName>"
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<eml:eml xmlns:eml="{_NAMESPACE}" packageId={quoteattr(about.identifier)}
    system="kenspeckle" xml:lang={quoteattr(about.language)}>
  <dataset>
    <title>{escape(about.title)}</title>
    <creator>{who}</creator>
    <pubDate>{about.day.isoformat()}</pubDate>
    <language>{escape(about.language)}</language>
    <abstract><para>{escape(about.abstract)}</para></abstract>
    <intellectualRights><para>{escape(about.rights)}</para></intellectualRights>
    <contact>{who}</contact>
  </dataset>
</eml:eml>
"""
