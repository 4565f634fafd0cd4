import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("assessments", "0008_package_runs"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="IdentityCheck",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "how",
                    models.CharField(
                        choices=[
                            ("sight", "Known by sight"),
                            ("document", "A document with a photograph was shown"),
                        ],
                        max_length=10,
                        verbose_name="how the person was recognised",
                    ),
                ),
                ("checked_at", models.DateTimeField(verbose_name="recorded at")),
                (
                    "checked_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                        verbose_name="checked by",
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="identity_checks",
                        to=settings.AUTH_USER_MODEL,
                        verbose_name="person",
                    ),
                ),
                (
                    "spot_test",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="identity_checks",
                        to="assessments.spottest",
                        verbose_name="spot test",
                    ),
                ),
            ],
            options={
                "verbose_name": "check of identity",
                "verbose_name_plural": "checks of identity",
                "ordering": ["spot_test", "person"],
                "constraints": [
                    models.UniqueConstraint(fields=("spot_test", "person"), name="recognised_once_per_spot_test")
                ],
            },
        ),
    ]
