"""Addresses of this room."""

from django.urls import path

from species.views import (
    archive,
    bank,
    flora,
    photo_page,
    photos,
    printing,
    season,
    specimens,
    table,
    table_exchange,
    tray,
    upload,
)

app_name = "species"
urlpatterns = [
    path("plants/", flora.index, name="index"),
    path("plants/<slug:key>/", flora.species, name="species"),
    path("plants/<slug:key>/card.pdf", printing.field_card, name="field_card"),
    path("pairs/", flora.pairs, name="pairs"),
    path("pairs/<slug:key>/", flora.pair, name="pair"),
    path("pairs/<slug:key>/sheet.pdf", printing.pair_sheet, name="pair_sheet"),
    path("pairs/<slug:key>/pocket.pdf", printing.pair_pocket, name="pair_pocket"),
    path("season/", season.season, name="season"),
    path("season/calendar.pdf", season.calendar, name="calendar"),
    path("season/places/<int:pk>/", season.place, name="place"),
    path("season/places/<int:pk>/calendar.pdf", season.place_calendar, name="place_calendar"),
    path("modules/", flora.modules, name="modules"),
    path("modules/<slug:key>/", flora.module, name="module"),
    path("photos/<str:key>/<int:width>", photos.photo, name="photo"),
    # the character table
    path("table/", table.tables, name="tables"),
    path("table/disagreements/", table.disagreements, name="disagreements"),
    path("table/characters.csv", table_exchange.table_csv, name="table_csv"),
    path("table/bring-in/", table_exchange.table_import, name="table_import"),
    path("table/<slug:key>/", table.table, name="table"),
    path("table/<slug:key>/<slug:character>/", table.table_cell, name="table_cell"),
    # the bank
    path("bank/", bank.bank, name="bank"),
    path("bank/to-name/", bank.to_name, name="to_name"),
    path("bank/ask-an-outsider/", bank.outsider_new, name="outsider_new"),
    path("bank/bring-in/", upload.upload, name="upload"),
    path("bank/bring-in/one/", upload.upload_one, name="upload_one"),
    path("bank/tray/", tray.tray, name="tray"),
    path("bank/tray/together/", tray.tray_together, name="tray_together"),
    path("bank/tray/<str:key>/", tray.tray_group, name="tray_group"),
    path("bank/tray/<str:key>/move/", tray.tray_move, name="tray_move"),
    path("bank/archives/", archive.archives, name="archives"),
    path("bank/photo/<str:key>/", photo_page.photo_page, name="photo_page"),
    path("bank/photo/<str:key>/delete/", photo_page.photo_delete, name="photo_delete"),
    path("bank/photo/<str:key>/regions/<int:pk>/remove/", photo_page.region_remove, name="region_remove"),
    path("bank/<str:key>/", specimens.specimen, name="specimen"),
    path("bank/<str:key>/mend/", specimens.specimen_mend, name="specimen_mend"),
    path("bank/<str:key>/use/", specimens.specimen_use, name="specimen_use"),
    path("bank/<str:key>/retire/", specimens.specimen_retire, name="specimen_retire"),
    path("name/<str:link_key>/", bank.name_by_link, name="name_by_link"),
    path("name/<str:link_key>/<str:key>/<int:width>", photos.photo_by_link, name="photo_by_link"),
]
