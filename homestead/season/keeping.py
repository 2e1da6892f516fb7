"""How one lot is keeping against what was expected of it, and when it should be looked over again."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np

from homestead.science.chance import chances
from homestead.science.guesses import SPREAD, Floats, traits
from homestead.science.keeping import expected_shares, kept_by_looks, share_kept
from homestead.science.looking import kept_in_table, look_in_days
from homestead.science.outlook import Band, band, even_index
from homestead.season.foresee import SEED, Foreseen

#: minutes a piece is worth: what one rotten neighbour more a day costs is a share of it. Ours, no source.
MINUTES_A_PIECE = 3.0
LOOK_AHEAD_WEEKS = 10
EXPECTED_WEEKS, EXPECTED_STEP = 40, 4


def look_days(one: Foreseen, today: dt.date) -> int:
    """Days from the last look to the next that the forecast asks for, 4 to what the table allows.

    A look is due when what rotted since the last has cost as much as the look. Since then it rotted as fast
    as it does now.
    """
    cloud, last = one.fitted.cloud, one.kept.last_look or one.kept.facts.put_away
    ahead = np.repeat(one.waiting.rotted[:LOOK_AHEAD_WEEKS].mean(axis=1) / 7.0, 7)
    rotted = np.concatenate([np.full(max((today - last).days, 0), ahead[0]), ahead])
    cost = MINUTES_A_PIECE * float(np.exp(cloud.mean()[SPREAD]))
    found = look_in_days(rotted, one.kept.look.minutes, cost)
    days = found if found is not None else len(rotted)
    return round(kept_in_table(days, one.kept.look.every_days, all_well=False))


def keeping(one: Foreseen, today: dt.date) -> dict[str, Any]:
    """Shares of 100 put away and not eaten: sound now, expected by now, expected every four weeks from
    put-away, and what each look said."""
    expected = _expected(one, today)
    weeks = max((today - one.kept.facts.put_away).days, 0) / 7
    now = min(weeks, len(expected) - 1)
    low, part = int(now), now - int(now)
    by_now = expected[low] * (1 - part) + expected[min(low + 1, len(expected) - 1)] * part
    sound = band(_share_now(one))
    facts = one.kept.facts
    looks = kept_by_looks([look for look in facts.looks if look.day < today], facts.pieces)
    return {
        "from": one.kept.facts.put_away.isoformat(),
        "sound": _of_100(sound),
        "expected": _of_100(band(by_now)),
        "curve": _bands_of_100(expected[: EXPECTED_WEEKS + 1 : EXPECTED_STEP]),
        "looks": [[look.day.isoformat(), round(100 * look.sound), round(100 * look.left)] for look in looks],
        "word": _word(sound, band(by_now)),
    }


def _expected(one: Foreseen, today: dt.date) -> Floats:
    belief = one.belief
    guesses = belief.mean + np.sqrt(belief.variance) * chances(SEED).normals[0]
    lived = one.lived_c[: max((today - one.kept.facts.put_away).days, 0)]
    days = 7 * max(EXPECTED_WEEKS, len(lived) // 7 + 1)
    temps = np.concatenate([lived, one.temps_c])[:days]
    return expected_shares(traits(guesses), one.kept.facts.handbook, temps)


def _share_now(one: Foreseen) -> Floats:
    cloud, facts = one.fitted.cloud, one.fitted.lot
    pieces = cloud.found.pieces.chosen(even_index(cloud.weights, len(cloud.weights)))
    gone = sum(look.culled for look in facts.looks) + sum(take.tossed for take in facts.takes)
    return share_kept(pieces.sound, pieces.rotten, gone)


def _word(sound: Band, expected: Band) -> str:
    """Behind or ahead when the likeliest lies outside what was expected eight times in ten."""
    if sound.p50 < expected.p10:
        return "behind"
    return "ahead" if sound.p50 > expected.p90 else "as_expected"


def _of_100(of: Band) -> list[int]:
    return [round(100 * x) for x in (of.p10, of.p50, of.p90)]


def _bands_of_100(weeks: Floats) -> list[list[int]]:
    """All weeks at once, (weeks, guesses)."""
    found = 100 * np.quantile(weeks, (0.1, 0.5, 0.9), axis=1)
    return [[round(float(one)) for one in week] for week in found.T]
