/** Ids made on the phone: UUIDv7 (RFC 9562, section 5.7) with a monotonic counter (section 6.2, method 1). */
import { v7 } from 'uuid';
import type { Id } from './shapes.ts';
import type { Clock, Random } from './ports.ts';

/** A clock set back by more than this is believed: an id shows when it was made, and nothing orders by it. */
const BELIEVED_BACK_MS = 60_000;
const COUNTER_END = 0xffff_ffff;

export function id_mint(clock: Clock, random: Random): () => Id {
  let last = Number.NEGATIVE_INFINITY;
  let count = 0;
  return () => {
    const bytes = random.bytes(16);
    const now = clock.now();
    if (now > last || now < last - BELIEVED_BACK_MS) {
      last = now;
      count = first_count(bytes);
    } else if (count === COUNTER_END) {
      last += 1;
      count = first_count(bytes);
    } else {
      count += 1;
    }
    return v7({ msecs: last, seq: count, random: bytes });
  };
}

/** 31 random bits: the top one stays free, so that the counter has room to grow. */
const first_count = (bytes: Uint8Array): number =>
  new DataView(bytes.buffer, bytes.byteOffset).getUint32(6) & 0x7fff_ffff;
