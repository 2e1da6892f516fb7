/**
 * A model of the server as pure code: requests in, replies out, one household. It is no authority: the requests of
 * recorded runs are played to the real one, which must answer alike.
 */
import type { Reply, Request } from "../../../frontend/src/ledger/ports.ts";
import {
  is_list,
  is_object,
  is_text,
  is_text_list,
  is_whole,
  parse_json,
} from "../../../frontend/src/wire/json.ts";
import type { Json, JsonObject } from "../../../frontend/src/wire/json.ts";
import { read_cursor } from "../../../frontend/src/wire/pull.ts";
import type { Id, Written } from "../../../frontend/src/wire/written.ts";
import { hash_of } from "../../../frontend/src/ledger/hashing.ts";
import { Posting } from "./posting.ts";
import { State, type Device } from "./state.ts";

const CODE_BLOCK = 40;
const TOP_UP_UNDER = 20;
/** Numbers a phone has ahead, by its own word: `NUMBERS_AHEAD` of the server. */
const NUMBERS_AHEAD = 60;
const MOST_LINES = 200;

/** A request with the token of the phone it comes from: the cookie the browser keeps. */
export interface Arrived {
  readonly request: Request;
  readonly token: Id;
}

/** `token`: the reply sets a new cookie. */
export interface Answered {
  readonly reply: Reply;
  readonly token?: Id;
}

export class ModelServer {
  state = new State();
  /** At most so many lines in one push, as a proxy on the way may have it. */
  most_lines = MOST_LINES;

  answer(arrived: Arrived, now: number): Answered {
    const { request, token } = arrived;
    const device = this.state.devices.get(token);
    if (device === undefined || !device.signed_in)
      return { reply: problem(401, "not_signed_in") };
    if (device.revoked) return { reply: problem(403, "revoked") };
    this.#seen(token, device);
    if (request.path === "/api/v1/sync/push")
      return this.#push(request, token, now);
    if (request.path === "/api/v1/sync/missing")
      return { reply: this.#missing(request) };
    if (request.path.startsWith("/api/v1/sync/pull?"))
      return { reply: this.#pull(request, now) };
    if (request.path.startsWith("/api/v1/photos/"))
      return { reply: this.#photo(request) };
    return { reply: problem(404, "not_found") };
  }

  /** Lines the server itself brings, such as a new household's people. */
  write_down(lines: readonly Written[], now: number): void {
    const posting = this.posting([], now, 0);
    posting.server_writes = true;
    posting.post(lines.map((written) => ({ written })));
  }

  let_in(
    device: Id,
    people: readonly Id[],
  ): { readonly from: number; readonly to: number } {
    const codes = this.#block();
    this.state.devices.set(device, {
      people,
      codes,
      highest_code: codes.from - 1,
      signed_in: true,
      revoked: false,
      seen: true,
    });
    return codes;
  }

  /** How lines are judged and numbered. Broken servers of the tests put another one here. */
  posting(people: readonly Id[], now: number, skew: number): Posting {
    return new Posting(this.state, people, now, skew);
  }

  rows_after(seq: number, limit: number): readonly JsonObject[] {
    const rows: JsonObject[] = [];
    for (
      let at = seq + 1;
      at <= this.state.head && rows.length < limit;
      at += 1
    ) {
      const row = this.state.feed.get(at);
      if (row !== undefined) rows.push(row);
    }
    return rows;
  }

  /** A job worked something out: the older row of the key leaves the feed. */
  write_sheet(key: string, content: Json, now: number): void {
    const { state } = this;
    const older = state.sheets.get(key);
    if (older !== undefined) {
      state.feed.delete(older);
      state.replaced.add(older);
    }
    const seq = state.next_seq;
    state.next_seq += 1;
    state.sheets.set(key, seq);
    const sheet = {
      key,
      kind: "roster",
      as_of: seq - 1,
      made_at: new Date(now).toISOString(),
      inputs: {},
      content,
    };
    state.feed.set(seq, { seq, type: "sheet", sheet });
  }

  /** Put back to an earlier state. What it knew of phones since then is kept: pairing them anew is another story. */
  restore(backup: State): void {
    const { devices, epoch, next_code, erased } = this.state;
    this.state = backup.copy();
    Object.assign(this.state, { devices, next_code, epoch: epoch + 1, erased });
    for (const id of erased) this.#take_out(id);
    this.#drop_sheets();
  }

  /** The household erased a line: nobody may bring it back. */
  erase(id: Id): void {
    this.state.erased.add(id);
    this.#take_out(id);
    this.state.epoch += 1;
    this.#drop_sheets();
  }

  #take_out(id: Id): void {
    const { state } = this;
    const line = state.lines.get(id);
    if (line === undefined) return;
    state.lines.delete(id);
    state.feed.delete(line.seq);
    state.replaced.add(line.seq);
  }

  #drop_sheets(): void {
    for (const seq of this.state.sheets.values()) {
      this.state.feed.delete(seq);
      this.state.replaced.add(seq);
    }
    this.state.sheets = new Map();
  }

  #push(request: Request, token: Id, now: number): Answered {
    const body =
      typeof request.body === "string" ? parse_json(request.body) : undefined;
    if (
      !is_object(body) ||
      !is_list(body["lines"]) ||
      !is_text(body["sent_at"])
    )
      return { reply: problem(400, "shape") };
    if (body["lines"].length > this.most_lines)
      return { reply: problem(413, "too_many_lines") };
    const device = this.state.devices.get(token);
    const skew = now - Date.parse(body["sent_at"]);
    const posting = this.posting(device?.people ?? [], now, skew);
    const receipts = posting.post(body["lines"].map(as_pushed));
    this.#note_codes(token, posting, body["codes"]);
    const renewed =
      body["device"] !== token
        ? token
        : posting.copied_store(token)
          ? this.#renew(token)
          : undefined;
    const codes = this.state.devices.get(token)?.codes;
    const reply = json({
      receipts,
      ...(codes && { codes }),
      clock_skew_ms: skew,
      ...(renewed && { renew: { device: renewed } }),
      now: new Date(now).toISOString(),
    });
    return renewed === undefined ? { reply } : { reply, token: renewed };
  }

  /** The highest number seen of the phone's block, and a new block when few are left: by the phone's own word first. */
  #note_codes(token: Id, posting: Posting, told: Json | undefined): void {
    const device = this.state.devices.get(token);
    if (device === undefined) return;
    const seen = posting
      .codes_told_by(token)
      .filter((code) => code >= device.codes.from && code <= device.codes.to);
    const highest_code = Math.max(device.highest_code, ...seen);
    const few = is_object(told)
      ? Number(told["left"]) < NUMBERS_AHEAD &&
        Number(told["to"]) >= device.codes.to
      : device.codes.to - highest_code < TOP_UP_UNDER;
    const codes = few ? this.#block() : device.codes;
    this.state.devices.set(token, {
      ...device,
      codes,
      highest_code: few ? codes.from - 1 : highest_code,
    });
  }

  #block(): { readonly from: number; readonly to: number } {
    const from = this.state.next_code;
    this.state.next_code += CODE_BLOCK;
    return { from, to: from + CODE_BLOCK - 1 };
  }

  /** A device of its own for the copy of a phone's store; one made before and never used is told again. */
  #renew(token: Id): Id {
    for (const [id, device] of this.state.devices) {
      if (device.renewed_from === token && !device.seen) return id;
    }
    const count = String(this.state.devices.size + 1).padStart(12, "0");
    const id = `00000000-0000-4000-9000-${count}`;
    const people = this.state.devices.get(token)?.people ?? [];
    this.let_in(id, people);
    const made = this.state.devices.get(id);
    if (made)
      this.state.devices.set(id, { ...made, renewed_from: token, seen: false });
    return id;
  }

  #seen(token: Id, device: Device): void {
    if (!device.seen) this.state.devices.set(token, { ...device, seen: true });
  }

  #pull(request: Request, now: number): Reply {
    const asked = new URLSearchParams(request.path.split("?")[1]);
    const cursor = read_cursor(asked.get("after") ?? "") ?? {
      epoch: this.state.epoch,
      seq: 0,
    };
    const limit = Number(asked.get("limit") ?? 500);
    const { epoch, head } = this.state;
    if (cursor.epoch !== epoch || cursor.seq > head)
      return problem(409, "reset");
    const found = this.rows_after(cursor.seq, limit + 1);
    const rows = found.slice(0, limit);
    const last = rows.at(-1)?.["seq"] ?? cursor.seq;
    return json({
      rows,
      next: `${String(epoch)}.${String(last)}`,
      more: found.length > limit,
      head: `${String(epoch)}.${String(head)}`,
      now: new Date(now).toISOString(),
    });
  }

  #missing(request: Request): Reply {
    const body =
      typeof request.body === "string" ? parse_json(request.body) : undefined;
    const ids = is_object(body) ? body["ids"] : undefined;
    if (!is_text_list(ids)) return problem(400, "shape");
    const { lines, erased } = this.state;
    return json({
      missing: ids.filter((id) => !lines.has(id) && !erased.has(id)),
      erased: ids.filter((id) => erased.has(id)),
    });
  }

  #photo(request: Request): Reply {
    const hash = request.path.slice("/api/v1/photos/".length);
    const there = this.state.photos.has(hash);
    if (request.method === "HEAD")
      return there
        ? { status: 200, content_type: "image/jpeg", text: "" }
        : problem(404, "not_found");
    if (
      !(request.body instanceof ArrayBuffer) ||
      hash_of(request.body) !== hash
    )
      return problem(422, "photo_hash");
    this.state.photos.add(hash);
    return { ...json({ done: true }), status: there ? 200 : 201 };
  }
}

export interface PushedLine {
  readonly written: Written;
  readonly recovered?: { readonly clock_skew_ms: number };
}

/** The simulated phones send what they have; reading rubbish is the real server's test. */
function as_pushed(item: Json): PushedLine {
  if (!is_object(item) || !is_object(item["written"]))
    throw new TypeError("a pushed item without its line");
  const skew = is_object(item["recovered"])
    ? item["recovered"]["clock_skew_ms"]
    : undefined;
  return {
    written: item["written"] as JsonObject & Written,
    ...(is_whole(skew) && { recovered: { clock_skew_ms: skew } }),
  };
}

export const json = (
  value: JsonObject | { readonly receipts: readonly Json[] },
): Reply => ({
  status: 200,
  content_type: "application/json",
  text: JSON.stringify(value),
});

export const problem = (status: number, code: string): Reply => ({
  status,
  content_type: "application/problem+json",
  text: JSON.stringify({
    type: `about:blank#${code}`,
    title: code,
    status,
    detail: code,
    code,
    facts: {},
  }),
});
