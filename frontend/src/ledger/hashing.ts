/** Names of photos: SHA-256 (FIPS 180-4) of the bytes, 64 hex digits. Works without a secure context too. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { Hash } from './shapes.ts';

export const hash_of = (bytes: ArrayBuffer): Hash => bytesToHex(sha256(new Uint8Array(bytes)));
