"""What lies in the stores when a journey is over: lines on the server, rows in a phone's IndexedDB."""

from __future__ import annotations

import sqlite3
import uuid
from typing import Any, cast

from playwright.sync_api import Page

from tests.journeys.home import Home

READ_ALL = """
async () => {
  const found = {};
  for (const { name } of await indexedDB.databases()) {
    const db = await new Promise((done, failed) => {
      const asked = indexedDB.open(name);
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => failed(asked.error);
    });
    const stores = {};
    const names = [...db.objectStoreNames];
    const at_once = names.length && db.transaction(names);
    await Promise.all(names.map((store) => new Promise((done, failed) => {
      const asked = at_once.objectStore(store).getAll();
      asked.onsuccess = () => {
        stores[store] = asked.result.length > 5000 ? asked.result.length : asked.result;
        done();
      };
      asked.onerror = () => failed(asked.error);
    })));
    db.close();
    found[name] = stores;
  }
  return JSON.parse(JSON.stringify(found, (key, value) =>
    value instanceof ArrayBuffer ? { bytes: value.byteLength } : value));
}
"""


WAITING = """
async () => {
  let waiting = 0;
  for (const { name } of await indexedDB.databases()) {
    const db = await new Promise((done, failed) => {
      const asked = indexedDB.open(name);
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => failed(asked.error);
    });
    if (db.objectStoreNames.contains('outbox')) {
      waiting += await new Promise((done, failed) => {
        const asked = db.transaction('outbox').objectStore('outbox').count();
        asked.onsuccess = () => done(asked.result);
        asked.onerror = () => failed(asked.error);
      });
    }
    db.close();
  }
  return waiting;
}
"""


#: a program for the server: every lot as it folds, at a day
FOLD = """
import json
from homestead.household.models import Household
from homestead.ledger.reads import lines_to_fold
from homestead.store.models import Lot
from homestead.store.kin import fold_lots
from homestead.storekeeping.fold import lot_at, lot_ids
(household,) = Household.objects.all()
lots = list(Lot.rows.of(household.pk).values_list("uuid", flat=True))
folded = fold_lots(household.pk, lots)
print(json.dumps({lot: lot_at(folded, lot, "%s") for lot in lot_ids(folded)}))
"""


def server_lines(home: Home) -> list[tuple[int, str, str]]:
    """(seq, id, kind) of every line the server holds, in order."""
    with sqlite3.connect(f"file:{home.data / 'rounds.sqlite3'}?mode=ro", uri=True) as db:
        rows = db.execute("SELECT seq, uuid, kind FROM ledger_line ORDER BY seq").fetchall()
    return [(seq, str(uuid.UUID(str(key))), kind) for seq, key, kind in rows]


def phone_stores(page: Page) -> dict[str, Any]:
    """Every store of the one household on this phone, as plain values."""
    found = cast(dict[str, dict[str, Any]], page.evaluate(READ_ALL))
    (stores,) = [stores for stores in found.values() if "outbox" in stores]
    return stores


def waiting(page: Page) -> int:
    """How many lines wait in the outboxes of this phone."""
    return cast(int, page.evaluate(WAITING))


def kept_ids(page: Page) -> set[str]:
    """Ids of all lines on the phone."""
    return {row["id"] for row in phone_stores(page)["entries"]}
