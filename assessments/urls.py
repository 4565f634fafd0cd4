"""Addresses of this room."""

from django.urls import path

from assessments.views import (
    adjustments,
    appeals,
    deciding_appeals,
    ledgers,
    live,
    packages,
    paper_changes,
    papers,
    photo_uses,
    planning,
    practice,
    questions,
    report,
    retakes,
    sittings,
    standards,
    standing,
    tables,
    wanted,
    windows,
)

app_name = "assessments"
urlpatterns = [
    path("photos/<str:key>/uses/", photo_uses.photo_uses, name="photo_uses"),
    path("tests/", papers.papers, name="papers"),
    path("tests/set/", papers.set_paper, name="set_paper"),
    path("tests/<str:key>/set/", papers.paper, name="paper"),
    path("tests/<str:key>/set/change/", paper_changes.paper_change, name="paper_change"),
    path("tests/<str:key>/set/withdraw/", paper_changes.paper_withdraw, name="paper_withdraw"),
    path("tests/<str:key>/set/add/", paper_changes.paper_add_sitters, name="paper_add_sitters"),
    path("tests/<str:key>/seats/<int:pk>/annul/", papers.annul_sitting, name="annul"),
    path("tests/<str:key>/seats/<int:pk>/adjust/", adjustments.adjust, name="adjust"),
    # tables to take away, and questions for another program
    path("tests.csv", tables.papers_table, name="papers_table"),
    path("tests/mine.csv", tables.my_papers_table, name="my_papers_table"),
    path("tests/<str:key>/sitters.csv", tables.seats_table, name="seats_table"),
    path("results/mine.csv", tables.my_results, name="my_results"),
    path("results/mine.json", tables.my_record, name="my_record"),
    path("questions/", packages.packages, name="packages"),
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
    path("sit/<str:key>/<int:position>/appeal/", appeals.appeal, name="appeal"),
    # appeals
    path("appeals/", appeals.appeals, name="appeals"),
    path("appeals/to-decide/", deciding_appeals.to_decide, name="appeals_to_decide"),
    path("appeals/<str:key>/", appeals.one_appeal, name="one_appeal"),
    path("appeals/<str:key>/withdraw/", appeals.appeal_withdraw, name="appeal_withdraw"),
    path("appeals/<str:key>/take-up/", deciding_appeals.take_up, name="appeal_take_up"),
    path("appeals/<str:key>/ask-for-names/", deciding_appeals.ask_for_names, name="appeal_ask_for_names"),
    path("appeals/<str:key>/name/", deciding_appeals.name_anew, name="appeal_name"),
    path("appeals/<str:key>/decide/", deciding_appeals.decide, name="appeal_decide"),
    # where somebody stands
    path("practice/", practice.practice, name="practice"),
    path("practice/begin/", practice.practice_begin, name="practice_begin"),
    path("practice/forget/", practice.practice_forget, name="practice_forget"),
    path("practice/<str:key>/<int:position>/", practice.practice_look, name="practice_look"),
    path("practice/<str:key>/end/", practice.practice_end, name="practice_end"),
    path("standing/", standing.my_standing, name="my_standing"),
    path("standing/<slug:standard_key>/", standing.my_standing, name="standing"),
    path("standing/<slug:standard_key>/table.csv", tables.my_standing_table, name="standing_table"),
    path(
        "standing/of/<int:person_pk>/<slug:standard_key>/table.csv", tables.standing_table_of, name="standing_table_of"
    ),
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
    path("standards/<slug:key>/<int:version>/report/", report.report, name="report"),
    path("standards/<slug:key>/<int:version>/report.pdf", report.report_paper, name="report_paper"),
    path("standards/<slug:key>/<int:version>/in-short/", report.report_in_short, name="report_in_short"),
    path("standards/<slug:key>/<int:version>/in-short.pdf", report.report_in_short_paper, name="report_in_short_paper"),
    # what the bank lacks
    path("wanted/", wanted.wanted, name="wanted"),
    path("wanted.pdf", wanted.wanted_sheet, name="wanted_sheet"),
    path("wanted.csv", wanted.wanted_table, name="wanted_table"),
    # live plants
    path("spot-tests/", live.spot_tests, name="spot_tests"),
    path("spot-tests.csv", tables.spot_tests_table, name="spot_tests_table"),
    path("spot-tests/<str:key>/stations.csv", tables.stations_table, name="stations_table"),
    path("spot-tests/new/", live.spot_test_new, name="spot_test_new"),
    path("spot-tests/<str:key>/", live.spot_test, name="spot_test"),
    path("spot-tests/<str:key>/stations/", live.station_add, name="station_add"),
    path("spot-tests/<str:key>/stations/<int:number>/name/", live.station_name, name="station_name"),
    path("spot-tests/<str:key>/record/", live.spot_test_record, name="spot_test_record"),
]
