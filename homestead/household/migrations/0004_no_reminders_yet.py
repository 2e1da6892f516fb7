from django.db import migrations


class Migration(migrations.Migration):
    dependencies = [
        ("household", "0003_people_give_what_they_can"),
    ]

    operations = [
        migrations.DeleteModel(
            name="Reminding",
        ),
        migrations.DeleteModel(
            name="PushPhone",
        ),
    ]
