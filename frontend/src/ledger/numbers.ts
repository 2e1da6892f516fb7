/** Numbers this phone gives, within one transaction: `device_no`, the order of the outbox, lot codes. */
import type { Id, Written } from './shapes.ts';
import { read_meta, type MetaRows, type OutboxRow, type Tx } from './store.ts';
import { LedgerTrouble } from './trouble.ts';

export class Numbers {
  readonly #tx: Tx;
  #self: MetaRows['self'];

  private constructor(tx: Tx, self: MetaRows['self']) {
    this.#tx = tx;
    this.#self = self;
  }

  static async of(tx: Tx): Promise<Numbers> {
    const self = await read_meta(tx, 'self');
    if (self === undefined) throw new LedgerTrouble('not_signed_in');
    return new Numbers(tx, self);
  }

  get device(): Id {
    return this.#self.device;
  }

  /** One more than the last, and never back. */
  next_device_no(): number {
    const no = this.#self.next_no;
    this.#self = { ...this.#self, next_no: no + 1 };
    return no;
  }

  /** Put a line at the end of the outbox. */
  async queue(written: Written, recorded_at: number, recovered?: OutboxRow['recovered']): Promise<void> {
    const no = this.#self.next_outbox;
    this.#self = { ...this.#self, next_outbox: no + 1 };
    await this.#tx.put('outbox', {
      no,
      id: written.id,
      written,
      recorded_at,
      ...(recovered && { recovered }),
    });
  }

  /** The same phone under another name; its numbers go on. */
  async become(device: Id): Promise<void> {
    this.#self = { ...this.#self, device };
    await this.keep();
  }

  /** Keep what was given. Without it the transaction would give the same numbers again. */
  async keep(): Promise<void> {
    await this.#tx.put('meta', { name: 'self', value: this.#self });
  }
}

/** The next lot number of this phone's blocks, used up by asking. undefined: none left. */
export async function take_code(tx: Tx): Promise<number | undefined> {
  const codes = await read_meta(tx, 'codes');
  const [block, ...later] = codes?.blocks ?? [];
  if (codes === undefined || block === undefined) return undefined;
  const left = block.next < block.to ? [{ next: block.next + 1, to: block.to }, ...later] : later;
  await tx.put('meta', { name: 'codes', value: { ...codes, blocks: left } });
  return block.next;
}

/** As many of the next numbers as there are, used up by asking. */
export async function take_codes(tx: Tx, count: number): Promise<readonly number[]> {
  const taken: number[] = [];
  while (taken.length < count) {
    const number = await take_code(tx);
    if (number === undefined) break;
    taken.push(number);
  }
  return taken;
}

/** One number is given by hand: the block goes on without it. */
export async function drop_code(tx: Tx, number: number): Promise<void> {
  const codes = await read_meta(tx, 'codes');
  if (codes === undefined) return;
  const blocks = codes.blocks.flatMap(({ next, to }) =>
    number < next || number > to
      ? [{ next, to }]
      : [
          { next, to: number - 1 },
          { next: number + 1, to },
        ].filter((block) => block.next <= block.to),
  );
  await tx.put('meta', { name: 'codes', value: { ...codes, blocks } });
}

/** Add a block the server gave; one that was had already (a reply heard twice) is left alone. */
export function with_block(
  codes: MetaRows['codes'] | undefined,
  given: { from: number; to: number },
): MetaRows['codes'] {
  const blocks = codes?.blocks ?? [];
  const given_to = codes?.given_to ?? 0;
  const from = Math.max(given.from, given_to + 1);
  if (from > given.to) return { blocks, given_to };
  return { blocks: [...blocks, { next: from, to: given.to }], given_to: given.to };
}

export const codes_left = (codes: MetaRows['codes'] | undefined): number =>
  (codes?.blocks ?? []).reduce((sum, block) => sum + block.to - block.next + 1, 0);
