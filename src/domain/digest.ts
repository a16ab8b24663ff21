import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import canonicalize from "canonicalize";
import { DomainError } from "../numeric/domain-error.ts";

/**
 * Fingerprints a JSON value: the same for the same content, however it was laid out or its fields ordered.
 *
 * @param value JSON, its numbers finite
 * @returns 64 hexadecimal digits: SHA-256 of the canonical JSON in UTF-8
 * @throws {DomainError} `not-json` when the value has no JSON
 * @see RFC 8785; FIPS 180-4
 */
export function digestOf(value: unknown): string {
  const canonical = canonicalize(value);
  if (canonical === undefined)
    throw new DomainError("not-json", `no JSON for a value of type ${typeof value}`);
  return bytesToHex(sha256(utf8ToBytes(canonical)));
}
