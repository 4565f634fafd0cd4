import django.db.models.deletion
from django.db import migrations, models


def write_pairs(apps, schema_editor):
    """The pairs of certificates issued before there were rows for them, with the narrowing that took each away."""
    Certificate, CertifiedPair = apps.get_model("courses", "Certificate"), apps.get_model("courses", "CertifiedPair")
    for certificate in Certificate.objects.prefetch_related("events").iterator(500):
        dropped_by = {pair["key"]: None for pair in certificate.facts["pairs"]}
        for event in sorted(certificate.events.all(), key=lambda each: (each.happened_at, each.pk)):
            if event.kind == "narrowed":
                kept = event.facts.get("pairs", dropped_by)
                dropped_by = {key: by or (None if key in kept else event) for key, by in dropped_by.items()}
        CertifiedPair.objects.bulk_create(
            CertifiedPair(certificate=certificate, key=key, dropped_by=by) for key, by in dropped_by.items()
        )


class Migration(migrations.Migration):
    dependencies = [
        ("courses", "0003_permissions_as_rows"),
    ]

    operations = [
        migrations.CreateModel(
            name="CertifiedPair",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("key", models.SlugField(db_index=False, max_length=120, verbose_name="pair")),
                (
                    "certificate",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="certified_pairs",
                        to="courses.certificate",
                        verbose_name="certificate",
                    ),
                ),
                (
                    "dropped_by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="+",
                        to="courses.certificateevent",
                        verbose_name="taken away by",
                    ),
                ),
            ],
            options={
                "verbose_name": "pair of a certificate",
                "verbose_name_plural": "pairs of certificates",
                "ordering": ["certificate", "key"],
                "constraints": [
                    models.UniqueConstraint(fields=("certificate", "key"), name="a_certificate_names_a_pair_once")
                ],
            },
        ),
        migrations.RunPython(write_pairs, migrations.RunPython.noop),
    ]
