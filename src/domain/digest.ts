import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import canonicalize from "canonicalize";
export function digestOf(value: unknown): string {
  return bytesToHex(sha256(utf8ToBytes(canonicalize(value) ?? "")));
}
