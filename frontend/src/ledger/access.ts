/** Getting in: which households this phone holds, pairing by a typed code, the people listed on the device. */
import type { Body, Id } from './shapes.ts';

export interface Home {
  readonly household: Id;
  readonly name: string;
  readonly device: Id;
  readonly people: readonly Id[];
  /** An invented household, marked so wherever it is shown. */
  readonly demo?: true;
  /** A minder's phone: it has one document of its days, and no feed. */
  readonly minder?: true;
  readonly opened_at: string;
}

export type Paired =
  | { readonly ok: true; readonly home: Home }
  | {
      readonly ok: false;
      /** `no_answer`: no network or no well-formed reply; `wrong_code`; `spent` (used, too old, too many tries). */
      readonly why: 'no_answer' | 'wrong_code' | 'spent' | 'refused';
      readonly detail?: string;
    };

export interface Founding {
  /** Fields of the record `household`. */
  readonly household: Body;
  /** Name of the person who will be its keeper. */
  readonly keeper: string;
  /** What the family calls this phone. */
  readonly phone: string;
  readonly key?: string;
}

export interface Access {
  /** Households on this phone, the last opened first. */
  homes(): Promise<readonly Home[]>;
  /** Pair this phone: 8 characters, one use. */
  pair(code: string, device_name: string): Promise<Paired>;
  /** Let in for a minder, by the token of a link. */
  mind(token: string): Promise<Paired>;
  /** On this computer's own address the invented household opens without a code. */
  open_demo(): Promise<Paired>;
  /** Make one's own: on the server's own computer, or with the key its first start printed. */
  found(asked: Founding): Promise<Paired>;
}
