/** From the camera to a picture that may be kept: what screens import. */
import type { ReadyPhoto } from '../ledger/index.ts';

export type Captured =
  | { readonly ok: true; readonly photo: ReadyPhoto }
  /** `empty`: nothing was taken; `too_large`: over what may be sent; `spoiled`: came out black or cut off. */
  | { readonly ok: false; readonly why: 'empty' | 'too_large' | 'spoiled' };

/** Size to 1600 px, drop metadata, make a thumbnail of 320 px, name by hash. Nothing is written yet. */
export async function capture(file: File): Promise<Captured> {
  throw new Error(`not built yet: ${file.name}`);
}
