from django.apps import AppConfig


class SeasonConfig(AppConfig):
    name = "homestead.season"
    label = "season"

    def ready(self) -> None:
        from homestead.rounds.asked import add_source
        from homestead.rounds.demands import Demands, demand
        from homestead.season.heaps import LIFTING, heaps_to_turn
        from homestead.season.stash import stash_to_empty
        from homestead.season.tonight import rooms_tonight

        for source in (heaps_to_turn, stash_to_empty, rooms_tonight):
            add_source(source)
        for what in ("empty_stash", "air", "vent"):
            demand(what, Demands())
        for what in ("turn_heap", "frost"):
            demand(what, Demands(needs=LIFTING))
