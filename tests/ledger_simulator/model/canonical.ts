/** Canonical JSON (RFC 8785) and its hash, as the server works them out. */
import canonicalize from 'canonicalize';
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

export function canonical(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new TypeError('no JSON');
  return text;
}

const hashes = new WeakMap<object, string>();

/** SHA-256 of the canonical text; remembered, since lines never change. */
export function body_hash(written: object): string {
  const known = hashes.get(written);
  if (known !== undefined) return known;
  const hash = bytesToHex(sha256(utf8ToBytes(canonical(written))));
  hashes.set(written, hash);
  return hash;
}

export const same_json = (a: unknown, b: unknown): boolean =>
  a === b || (typeof a === 'object' && typeof b === 'object' && canonical(a) === canonical(b));
