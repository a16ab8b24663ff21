import type { Measured } from "../domain/estimate-result.ts";

/**
 * The finest step an uncertain figure may be shown in: the smallest of 1, 2 or 5 x 10^k that is not below
 * its standard error, that leaves it at most three figures, and that is at least `finest`.
 *
 * @param finest smallest step that means something to the reader, > 0
 * @returns undefined when the figure is certain and may be shown in full
 */
export function honestStep({ value, standardError }: Measured, finest: number): number | undefined {
  if (standardError === 0) return undefined;
  const threeFigures = value === 0 ? 0 : 10 ** (Math.floor(Math.log10(Math.abs(value))) - 2);
  return Math.max(stepAtLeast(standardError), threeFigures, finest);
}

function stepAtLeast(size: number): number {
  const power = 10 ** Math.floor(Math.log10(size));
  return power * (size <= power ? 1 : size <= 2 * power ? 2 : size <= 5 * power ? 5 : 10);
}

/**
 * Writes a figure with the digits its standard error supports.
 *
 * @param decimals places shown of a certain figure that is not whole
 */
export function formatFigure(figure: Measured, decimals: number): string {
  const step = honestStep(figure, 1);
  return step === undefined ? formatExact(figure.value, decimals) : formatRounded(figure.value, step);
}

/** Writes a figure rounded to a whole step. */
export function formatRounded(value: number, step: number): string {
  return grouped(Math.round(value / step) * step, 0);
}

/** Writes a figure rounded down: a limit must not be shown higher than it is. */
export function formatRoundedDown(figure: Measured, decimals: number): string {
  const step = honestStep(figure, 1);
  if (step === undefined) return formatExact(figure.value, decimals);
  return grouped(Math.floor(figure.value / step) * step, 0);
}

/** Writes a figure that carries no error: whole, or with all its decimals. */
export function formatExact(value: number, decimals: number): string {
  const isWhole = Math.abs(value - Math.round(value)) < 0.5 / 10 ** decimals;
  return grouped(value, isWhole ? 0 : decimals);
}

/** Places that amounts of a currency have. @param currency ISO 4217 */
export function decimalsOf(currency: string): number {
  return (
    new Intl.NumberFormat("en", { style: "currency", currency }).resolvedOptions().maximumFractionDigits ?? 2
  );
}

function grouped(value: number, decimals: number): string {
  const format = { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
  const written = new Intl.NumberFormat("en", format).format(value);
  return /[1-9]/.test(written) ? written : written.replace("-", "");
}
