from django.apps import AppConfig


class ByproductsConfig(AppConfig):
    name = "homestead.byproducts"
    label = "byproducts"

    def ready(self) -> None:
        from homestead.byproducts import models
        from homestead.byproducts.kinds import KINDS
        from homestead.byproducts.records import RECORDS
        from homestead.ledger.derived import register_tables
        from homestead.ledger.kinds import register
        from homestead.ledger.records import register_record

        for kind in KINDS:
            register(kind)
        for record_type in RECORDS:
            register_record(record_type)
        register_tables(models.AnimalGroup, models.Scrap, models.Lay)
