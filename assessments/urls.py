"""Addresses of this room."""

from django.urls import path

from assessments.views import (
    ledgers,
    live,
    papers,
    photo_uses,
    planning,
    questions,
    retakes,
    sittings,
    standards,
    standing,
    wanted,
    windows,
)

app_name = "assessments"
urlpatterns = [
    path("photos/<str:key>/uses/", photo_uses.photo_uses, name="photo_uses"),
    path("tests/", papers.papers, name="papers"),
    path("tests/set/", papers.set_paper, name="set_paper"),
    path("tests/<str:key>/set/", papers.paper, name="paper"),
    path("tests/<str:key>/seats/<int:pk>/annul/", papers.annul_sitting, name="annul"),
    # sitting one
    path("sit/<str:key>/", sittings.sit, name="sit"),
    path("sit/<str:key>/open/", sittings.sit_open, name="sit_open"),
    path("sit/<str:key>/review/", sittings.review, name="review"),
    path("sit/<str:key>/hand-in/", sittings.hand_in, name="hand_in"),
    path("sit/<str:key>/undo/", sittings.undo, name="undo"),
    path("sit/<str:key>/show-now/", sittings.show_now, name="show_now"),
    path("sit/<str:key>/feedback/", sittings.feedback, name="feedback"),
    path("sit/<str:key>/<int:position>/", questions.question, name="question"),
    path("sit/<str:key>/<int:position>/<int:number>/<int:width>", questions.question_photo, name="question_photo"),
    # where somebody stands
    path("standing/", standing.my_standing, name="my_standing"),
    path("standing/<slug:standard_key>/", standing.my_standing, name="standing"),
    path("standing/of/<int:person_pk>/<slug:standard_key>/", standing.standing_of_person, name="standing_of"),
    path("standing/of/<int:person_pk>/windows/open/", windows.window_new, name="window_new"),
    path("standing/<slug:standard_key>/set-aside/", ledgers.my_set_aside, name="set_aside"),
    path("standing/<slug:standard_key>/species/<slug:species_key>/<slug:side>/", ledgers.my_ledger, name="ledger"),
    path(
        "standing/of/<int:person_pk>/<slug:standard_key>/set-aside/", ledgers.set_aside_of_person, name="set_aside_of"
    ),
    path(
        "standing/of/<int:person_pk>/<slug:standard_key>/species/<slug:species_key>/<slug:side>/",
        ledgers.ledger_of_person,
        name="ledger_of",
    ),
    # standards
    path("standards/", standards.standards, name="standards"),
    path("standards/planning/", planning.planning, name="planning"),
    path("standards/sitting-again/", retakes.retakes, name="retakes"),
    path("standards/<slug:key>/<int:version>/", standards.standard, name="standard"),
    # what the bank lacks
    path("wanted/", wanted.wanted, name="wanted"),
    path("wanted.pdf", wanted.wanted_sheet, name="wanted_sheet"),
    path("wanted.csv", wanted.wanted_table, name="wanted_table"),
    # live plants
    path("spot-tests/", live.spot_tests, name="spot_tests"),
    path("spot-tests/new/", live.spot_test_new, name="spot_test_new"),
    path("spot-tests/<str:key>/", live.spot_test, name="spot_test"),
    path("spot-tests/<str:key>/stations/", live.station_add, name="station_add"),
    path("spot-tests/<str:key>/stations/<int:number>/name/", live.station_name, name="station_name"),
    path("spot-tests/<str:key>/record/", live.spot_test_record, name="spot_test_record"),
]
