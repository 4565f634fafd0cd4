"""The localities and sites of the invented school. No such place exists."""

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from courses.models import Site, SitePermission
from species.models import Locality


@dataclass(frozen=True)
class Place:
    """A place of the story."""

    name: str
    habitat: str
    days_late: int
    access: str
    meeting_point: str
    permission: str
    hazards: str
    ambulance: str
    signal: str


PLACES = (
    Place(
        "Ottersden Wood",
        "moist oak and ash wood with a stream",
        0,
        "Twelve minutes on foot from the halt along the mill lane; parking for six cars at the lower gate.",
        "Lower gate, by the stone trough",
        "Ottersden estate: walking and picking of leaves for teaching; no digging; dogs on leads.",
        "Slippery stream bank; low branches; ticks from March to October.",
        "Lower gate of Ottersden Wood, mill lane, bars wide enough for an ambulance.",
        "None below the footbridge; two bars at the trough.",
    ),
    Place(
        "Quernbeck Meadows",
        "wet meadow with ditches",
        3,
        "Lay-by on the beck road, then the stile; boots needed after rain.",
        "Stile on the beck road",
        "Quernbeck commoners: walking and picking; keep gates shut; no digging near the ditches.",
        "Deep ditches, cattle from May, hemlock water-dropwort along every ditch.",
        "Stile on the beck road, lay-by opposite.",
        "Good everywhere.",
    ),
    Place(
        "Saltmarsh Lane",
        "hedge banks and ditches near the sea",
        -7,
        "Bus to the harbour, ten minutes along the lane; no parking in the lane.",
        "Bench at the harbour end",
        "Parish: walking; picking only on the inland bank.",
        "Farm traffic in a narrow lane; spring tides cross the lower end.",
        "Harbour end of Saltmarsh Lane.",
        "Weak; best at the bench.",
    ),
    Place(
        "Harl Moor Edge",
        "heath with open birch wood",
        10,
        "Car park at the moor gate; rough path, not for wheelchairs.",
        "Moor gate car park",
        "Harl Moor grazing trustees: walking and berry picking by hand, no combs.",
        "Sudden mist, adders in warm weather, no shelter.",
        "Moor gate car park, height barrier open in daylight.",
        "None beyond the second cairn.",
    ),
    Place(
        "Winnow Mill",
        "river bank and old mill yard",
        0,
        "Behind the village hall; level path; toilets in the hall.",
        "Village hall steps",
        "Mill owner: walking, picking, digging of marked plants in the yard with the owner there.",
        "Fast water, nettles, broken glass in the yard.",
        "Village hall car park.",
        "Good.",
    ),
    Place(
        "Thornlea Verges",
        "lime-rich verges and an old quarry",
        -3,
        "Lay-by at the quarry; high-visibility vests from the school's box.",
        "Quarry gate",
        "Highways office: teaching on the wide verge; no picking within two metres of the road.",
        "Traffic; wild parsnip sap in sun; loose stone in the quarry.",
        "Quarry gate, Thornlea road.",
        "Good.",
    ),
)


def settle_places(today: date) -> list[Site]:
    """Make the localities and their sites, in the order of `PLACES`."""
    sites = []
    for number, place in enumerate(PLACES):
        locality = Locality.objects.create(
            name=place.name,
            habitat=place.habitat,
            days_late=place.days_late,
            latitude=Decimal("0.50000") + Decimal(number) / 100,  # in open sea: nobody is sent anywhere
            longitude=Decimal("-19.50000") - Decimal(number) / 100,
        )
        site = Site.objects.create(
            locality=locality,
            access=place.access,
            meeting_point=place.meeting_point,
            hazards=place.hazards,
            emergency_place=place.ambulance,
            phone_signal=place.signal,
            who_calls="The leader; the assistant goes to the gate",
            group_size=12,
        )
        _record_permission(site, place.permission, today, today + timedelta(days=40 + 60 * number))
        sites.append(site)
    return sites


def _record_permission(site: Site, words: str, today: date, until: date) -> None:
    """What the story says of the permission: who gave it stands before the colon."""
    given_by, _colon, conditions = words.partition(": ")
    SitePermission.objects.create(
        site=site,
        given_by=given_by,
        picking="picking" in conditions,
        valid_from=today - timedelta(days=400),
        valid_until=until,
        conditions=conditions,
        recorded_on=today - timedelta(days=400),
    )
