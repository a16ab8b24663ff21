import type { Measured } from "../domain/estimate-result.ts";
import { honestStep } from "./honest-figure.ts";

/**
 * Writes a probability in whole per cent, or coarser when its standard error asks for it. One that came out
 * as 0 or 1 without being certain is shown by its bound.
 *
 * @param draws draws it was measured on
 * @see Hanley & Lippman-Hand 1983: no case in n draws bounds a probability by 3 / n, with 95 % confidence
 */
export function formatChance(chance: Measured, draws: number): string {
  const { value } = chance;
  const step = honestStep({ ...chance, value: 0 }, 0.01);
  if (step === undefined) return percent(value);
  const bound = roundDown(draws / 3);
  if (value === 0) return `less than 1 in ${count(bound)}`;
  if (value === 1) return `more than ${count(bound - 1)} in ${count(bound)}`;
  const rounded = Math.round(value / step) * step;
  if (rounded < step / 2) return `less than ${percent(step)}`;
  return rounded > 1 - step / 2 ? `more than ${percent(1 - step)}` : percent(rounded);
}

/** Writes a share or an exact probability in per cent. */
export function percent(share: number): string {
  const format = { maximumFractionDigits: 1 };
  return `${new Intl.NumberFormat("en", format).format(share * 100)} %`;
}

/** To one figure, so that the bound claims no more than it can. */
function roundDown(size: number): number {
  const power = 10 ** Math.floor(Math.log10(size));
  return Math.max(2, Math.floor(size / power) * power);
}

function count(size: number): string {
  return new Intl.NumberFormat("en").format(size);
}
