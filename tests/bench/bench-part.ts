import type { Part } from "../../src/domain/part.ts";
import { fettled, hunted, renewed, salvaged } from "./bench-bought-parts.ts";
import {
  cleaned,
  coated,
  machined,
  painted,
  plated,
  rewired,
  trimmed,
  zincPlated,
} from "./bench-kept-parts.ts";

/** Twelve kinds of part with 29 operations between them. */
const kinds = [
  coated,
  plated,
  painted,
  zincPlated,
  hunted,
  machined,
  cleaned,
  rewired,
  fettled,
  trimmed,
  salvaged,
  renewed,
];

/**
 * The part at a place of the benchmark's document.
 *
 * @param place from 0; every twelfth is of the same kind, with money of its own
 */
export function benchPart(place: number): Part {
  const frame = place - (place % kinds.length);
  return kinds[place % kinds.length]!({
    id: `part-${place + 1}`,
    dearness: 0.6 + ((place * 7) % 19) / 16,
    frame: place === frame ? undefined : `part-${frame + 1}/coat/coat`,
  });
}
