from django.apps import AppConfig


class StoreConfig(AppConfig):
    name = "homestead.store"
    label = "store"

    def ready(self) -> None:
        from homestead.ledger.derived import register_tables
        from homestead.ledger.followers import follow
        from homestead.ledger.kinds import register
        from homestead.ledger.records import register_record
        from homestead.store import models
        from homestead.store.days import keep_days
        from homestead.store.dishes import RECORDS as DISHES
        from homestead.store.folding import refold
        from homestead.store.kinds import KINDS
        from homestead.store.records import RECORDS

        for kind in KINDS:
            register(kind)
        for record_type in (*RECORDS, *DISHES):
            register_record(record_type)
        register_tables(models.Space, models.Lot, models.Happening, models.Went, models.Reading)
        register_tables(models.OwnCrop, models.WeeklyUse, models.Guests, models.Vessel, models.OwnFigure)
        follow(keep_days(models.Happening, models.Reading))
        follow(refold)
