import django.db.models.deletion
import django.db.models.manager
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        ("household", "0001_people_and_phones"),
    ]

    operations = [
        migrations.CreateModel(
            name="Learnt",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("mark", models.CharField(max_length=16)),
                ("said", models.JSONField(default=list)),
                (
                    "household",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="+",
                        to="household.household",
                    ),
                ),
            ],
            options={
                "constraints": [models.UniqueConstraint(fields=("household",), name="season_learnt_once")],
            },
            managers=[
                ("everywhere", django.db.models.manager.Manager()),
            ],
        ),
    ]
