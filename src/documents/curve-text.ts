import type { Answer } from "./answer.ts";

const plotWidth = 50;

/** The cumulative curve of the restoration cost in text: one row a probability, further right is dearer. */
export function curveText({ curve }: Answer): string[] {
  const amounts = curve.map(({ restoration }) => restoration.amount);
  const lowest = Math.min(...amounts);
  const width = Math.max(...amounts) - lowest;
  const rows = curve.map(({ probability, restoration: { amount, written } }) => {
    const place = width === 0 ? 0 : Math.round(((amount - lowest) / width) * (plotWidth - 1));
    const chance = `${Math.round(probability * 100)} %`;
    return `${chance.padStart(6)} ${written.padStart(14)} |${" ".repeat(place)}*`;
  });
  return ["Chance that the restoration costs at most", ...rows];
}
