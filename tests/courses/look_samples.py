"""Every piece of the look with sample inputs: for the tests, and for a gallery to look at."""

from datetime import UTC, datetime
from types import SimpleNamespace as Thing

from django.core.paginator import Paginator

from tests.courses.drawing import Sample

COW_PARSLEY = Thing(common_name="cow parsley", name="Anthriscus sylvestris", edibility="edible with precautions")
HEMLOCK = Thing(common_name="hemlock", name="Conium maculatum", edibility="deadly")
RAMSONS = Thing(common_name="ramsons", name="Allium ursinum", edibility="edible")
LILY = Thing(common_name="lily of the valley", name="Convallaria majalis", edibility="poisonous")
COMFREY = Thing(common_name="comfrey", name="Symphytum officinale", edibility="not eaten")
SCHOOL = Thing(name="Alder Holt School", emergency_number="112", poisons_number="0555 010 010", is_demo=True)
PICTURE = "/static/kenspeckle/icons/hedgerow.svg"


def stage(key: str, state: str, word: str) -> Thing:
    return Thing(key=key, name=key, state=state, word=word)


STAGES = [
    stage("seedling", "absent", ""),
    stage("rosette", "clear", "4 of 4"),
    stage("leafy", "part", "2 of 4"),
    stage("flower", "wanting", "none of 4"),
    stage("fruit", "absent", ""),
    stage("dormant", "absent", ""),
]
GAPS = [
    Thing(
        sentence="Hemlock: 11 more without a miss.",
        remedy="One paper of twelve photographs, and the walk on 14 June.",
        figures=[("clean", "13"), ("misses", "1"), ("needed", "24"), ("evidence against", "e = 4.9 of 12.5")],
    ),
    Thing(
        sentence="First aid ran out on 3 March.",
        remedy="Show a new certificate to the organiser.",
        url="/",
        link_text="Record it",
    ),
    Thing(sentence="No live specimen of foxglove yet.", remedy=""),
]
EVENTS = [
    Thing(at=datetime(2026, 3, 2, 18, tzinfo=UTC), what="Issued, first season", who="Orla Finn", url="/"),
    Thing(at=datetime(2026, 4, 19, 9, tzinfo=UTC), what="Suspended: a miss on monkshood in a later test"),
    Thing(at=datetime(2026, 5, 30, 9, tzinfo=UTC), what="Restored after a new window"),
]
FIGURES = [("clean in a row", "21"), ("misses", "0"), ("days left", "143")]
MEETING = datetime(2026, 6, 14, 9, 30, tzinfo=UTC)


class Message:
    """Stands for one of Django's messages."""

    def __init__(self, level_tag: str, words: str) -> None:
        self.level_tag, self.words = level_tag, words

    def __str__(self) -> str:
        return self.words


SAMPLES = [
    *[
        Sample("danger_mark", f'level="{level}"')
        for level in ("deadly", "poisonous", "dangerous", "unpleasant", "harmless")
    ],
    *[
        Sample("edibility_word", "edibility=plant.edibility", {"plant": each})
        for each in (RAMSONS, COW_PARSLEY, COMFREY, LILY)
    ],
    Sample(
        "scientific_name",
        "name=plant.name common=plant.common_name author=author",
        {"plant": HEMLOCK, "author": "L."},
    ),
    Sample(
        "species_line",
        "species=plant url=url note=note",
        {"plant": RAMSONS, "url": "/", "note": "Leaf from February to May"},
    ),
    Sample("species_line", "species=plant", {"plant": HEMLOCK}),
    Sample(
        "pair_line",
        'gathered=one mistaken=other danger="dangerous" url="/"',
        {"one": COW_PARSLEY, "other": HEMLOCK},
    ),
    Sample(
        "pair_line",
        'gathered=one mistaken=other danger="dangerous" heading=True',
        {"one": RAMSONS, "other": LILY},
    ),
    Sample("month_strip", 'months=months current=3 label="leaf"', {"months": [2, 3, 4, 5]}),
    Sample("month_strip", 'months=months current=3 label="flower"', {"months": [4, 5, 6]}),
    Sample("stage_strip", "stages=stages label=label", {"stages": STAGES, "label": "Shown so far"}),
    Sample(
        "photo",
        'src=src alt="Leaves of one plant" width=640 height=72 drawn=True name=plant.name '
        'common=plant.common_name caption="in leaf, April"',
        {"src": PICTURE, "plant": RAMSONS},
    ),
    Sample(
        "photo",
        'src=src alt="Photo 3" width=640 height=72 plain=True eager=True srcset=srcset',
        {"src": PICTURE, "srcset": PICTURE + " 640w"},
    ),
    Sample(
        "ladder",
        "clean=13 misses=1 needed=24 still=11 sentence=sentence",
        {"sentence": "Eleven more hemlocks without a miss."},
    ),
    Sample("ladder", "clean=34 misses=0 needed=34 still=0"),
    Sample("ladder", "clean=0 misses=0 needed=13 still=13"),
    Sample("ladder", "clean=3 misses=2 needed=10 still=7 edible=True"),
    Sample(
        "sentence_with_figures",
        "sentence=sentence figures=figures note=note",
        {
            "sentence": "Eleven more hemlocks without a miss.",
            "figures": FIGURES,
            "note": "From every paper since 2 March.",
        },
    ),
    Sample("key_figures", "figures=figures", {"figures": FIGURES}),
    Sample(
        "ladder",
        'clean=3 misses=1 needed=24 still=21 urls=urls of="hemlock"',
        {"urls": {"clean": "/clean", "misses": "/misses", "needed": "/needed", "still": "/needed"}},
    ),
    Sample(
        "open_figures",
        'figures=figures of="hemlock"',
        {"figures": [{"label": "Clean", "value": "9", "url": "/clean"}, {"label": "Window", "value": "1", "url": ""}]},
    ),
    Sample("gap_list", "gaps=gaps", {"gaps": GAPS}),
    Sample("gap_list", "gaps=gaps", {"gaps": []}),
    *[
        Sample("status_word", f'status="{word}"')
        for word in (
            "met",
            "unmet",
            "part",
            "current",
            "expired",
            "suspended",
            "withdrawn",
            "review",
            "waiting",
        )
    ],
    Sample(
        "empty_state",
        'title="No walks yet" why="A walk is a meeting outdoors. None is planned." url="/" link_text="Plan one"',
    ),
    Sample(
        "messages",
        "messages=messages",
        {
            "messages": [
                Message("success", "The register is saved."),
                Message("error", "The file is too large."),
                Message("info", "The walk was moved."),
            ]
        },
    ),
    Sample("trail", "steps=steps", {"steps": [("/", "Plants"), ("/", "Pairs")]}),
    Sample("pager", "page=page", {"page": Paginator(range(50), 10).page(2)}),
    Sample(
        "search_box",
        'label="Find a plant" value="cow" hint="Common or scientific name." kept=kept',
        {"kept": [("month", "3")]},
    ),
    Sample(
        "table",
        'caption="Who confuses what" columns=columns rows=rows numbers=True',
        {
            "columns": ["Shown", "Said hemlock", "Said cow parsley"],
            "rows": [["Hemlock", 11, 1], ["Cow parsley", 2, 9]],
        },
    ),
    Sample("action_bar", 'label="Keep this answer" back_url="/" back_label="Before" note="Saved"'),
    Sample("cautions", "school=school", {"school": SCHOOL}),
    Sample("cautions", "school=school long=True", {"school": SCHOOL}),
    Sample("whom_to_call", "school=school", {"school": SCHOOL}),
    Sample("demo_note", "days=15 stale=True"),
    Sample(
        "date_line",
        'starts=starts title="Hedge banks and verges" place="Alder Holt" note="Bring boots '
        'and a lens." soon=True url="/"',
        {"starts": MEETING},
    ),
    Sample("timeline", "events=events", {"events": EVENTS}),
    Sample(
        "line",
        'title="Ivo Brand" url="/" note="Took hemlock for cow parsley twice" '
        'danger="dangerous" danger_word="Two misses"',
    ),
    Sample("line", 'title="Mara Quill" note="First aid" status="expired"'),
    Sample("school_name", "school=school", {"school": SCHOOL}),
    Sample(
        "section_links",
        "sections=sections",
        {
            "sections": [
                Thing(url="/", label="Today", current=True),
                Thing(url="/plants/", label="Plants", current=False),
            ]
        },
    ),
    Sample("signed_in", 'name="Ada Thorn" csrf_token="token"'),
]
