from django.apps import AppConfig


class ByproductsConfig(AppConfig):
    name = "homestead.byproducts"
    label = "byproducts"

    def ready(self) -> None:
        from homestead.byproducts import models
        from homestead.byproducts.actions import keep_scrap_days
        from homestead.byproducts.kinds import KINDS
        from homestead.byproducts.records import RECORDS
        from homestead.ledger.derived import register_tables
        from homestead.ledger.followers import follow
        from homestead.ledger.kinds import register
        from homestead.ledger.records import register_record
        from homestead.store.days import keep_days

        for kind in KINDS:
            register(kind)
        for record_type in RECORDS:
            register_record(record_type)
        register_tables(
            *(models.AnimalGroup, models.Heap, models.Scrap, models.Lay, models.PailLook, models.HeapWork)
        )
        for dated in (models.Scrap, models.PailLook, models.HeapWork):
            follow(keep_days(dated))
        follow(keep_scrap_days)
