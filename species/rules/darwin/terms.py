"""The terms of Darwin Core and Audiovisual Core that archives are written in, by their addresses.

Both vocabularies are by Biodiversity Information Standards (TDWG), CC BY 4.0; the row types of common names and
of descriptions are those of GBIF's extensions. What neither vocabulary knows has a term of our own, below an
address that can belong to nobody.
"""

DWC = "http://rs.tdwg.org/dwc/terms/"
AC = "http://rs.tdwg.org/ac/terms/"
DC = "http://purl.org/dc/elements/1.1/"
DCTERMS = "http://purl.org/dc/terms/"
GBIF = "http://rs.gbif.org/terms/1.0/"
XMP = "http://ns.adobe.com/xap/1.0/"
XMP_RIGHTS = "http://ns.adobe.com/xap/1.0/rights/"
PHOTOSHOP = "http://ns.adobe.com/photoshop/1.0/"
OURS = "https://kenspeckle.invalid/terms/"

TAXON = DWC + "Taxon"
OCCURRENCE = DWC + "Occurrence"
IDENTIFICATION = DWC + "Identification"
MULTIMEDIA = AC + "Multimedia"
REGION = AC + "RegionOfInterest"
VERNACULAR_NAME = GBIF + "VernacularName"
DESCRIPTION = GBIF + "Description"
