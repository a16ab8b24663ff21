import type { Answer, AnswerPoint } from "../../documents/answer.ts";
import { formatExact } from "../../documents/honest-figure.ts";
import type { EstimateResult } from "../../domain/estimate-result.ts";
import { html } from "./html.ts";
import type { Html } from "./html.ts";

const frame = { width: 360, height: 250, left: 44, right: 30, top: 26, bottom: 40 };

type Series = "restoration" | "value";

/** The cumulative curves, drawn and as a table. Without a value there is one curve. */
export function curveFigure({ curve }: EstimateResult, { curve: shown }: Answer): Html {
  const amounts = curve.flatMap(({ restoration, value }) =>
    value === undefined ? [restoration] : [restoration, value],
  );
  const ticks = ticksOver(Math.min(...amounts), Math.max(...amounts));
  const first = ticks[0] ?? 0;
  const last = ticks.at(-1) ?? 1;
  const x = (amount: number) =>
    frame.left + ((amount - first) / (last - first)) * (frame.width - frame.left - frame.right);
  const hasValue = curve.every(({ value }) => value !== undefined);
  return html`<figure>
    <figcaption>Chance that it is at most the amount shown. ${summary(shown)}</figcaption>
    <svg viewBox="0 0 ${frame.width} ${frame.height}" role="img" aria-labelledby="curve-name" class="curve">
      <title id="curve-name">${summary(shown)}</title>
      ${[0, 0.25, 0.5, 0.75, 1].map(chanceLine)}
      ${ticks.map((tick) => amountMark(tick, x(tick), isLabelled(tick, ticks)))}
      ${curveLine(curve, "restoration", x)} ${hasValue ? curveLine(curve, "value", x) : undefined}
      ${legend("restoration", "Restoration cost", frame.left)}
      ${hasValue ? legend("value", "Finished value", frame.left + 150) : undefined}
    </svg>
    <details>
      <summary>The same as a table</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">Chance</th>
            <th scope="col">Restoration cost at most</th>
            ${hasValue ? html`<th scope="col">Finished value at most</th>` : undefined}
          </tr>
        </thead>
        <tbody>
          ${shown.map(tableRow)}
        </tbody>
      </table>
    </details>
  </figure>`;
}

function summary(shown: readonly AnswerPoint[]): string {
  const middle = shown.find(({ probability }) => Math.abs(probability - 0.5) < 1e-9);
  const [low, high] = [shown[0], shown.at(-1)];
  if (middle === undefined || low === undefined || high === undefined) return "";
  const range = (of: Series, name: string) =>
    low[of]?.amount === high[of]?.amount
      ? `${name}: ${low[of]?.written} in at least 9 of 10 cases.`
      : `${name}: ${low[of]?.written} to ${high[of]?.written} in 9 of 10 cases, up to ${middle[of]?.written} in half of all.`;
  return `${range("restoration", "Restoration cost")}${middle.value ? ` ${range("value", "Finished value")}` : ""}`;
}

function tableRow({ probability, restoration, value }: AnswerPoint): Html {
  return html`<tr>
    <th scope="row">${Math.round(probability * 100)} %</th>
    <td>${restoration.written}</td>
    ${value && html`<td>${value.written}</td>`}
  </tr>`;
}

function y(probability: number): number {
  return frame.height - frame.bottom - probability * (frame.height - frame.top - frame.bottom);
}

function chanceLine(probability: number): Html {
  const at = y(probability);
  return html`<line class="grid" x1="${frame.left}" x2="${frame.width - frame.right}" y1="${at}" y2="${at}" />
    <text x="${frame.left - 6}" y="${at + 4}" text-anchor="end">${probability * 100} %</text>`;
}

function amountMark(amount: number, at: number, label: boolean): Html {
  const bottom = frame.height - frame.bottom;
  return html`<line class="axis" x1="${at}" x2="${at}" y1="${bottom}" y2="${bottom + 4}" />
    ${label ? html`<text x="${at}" y="${bottom + 18}" text-anchor="middle">${formatExact(amount, 2)}</text>` : undefined}`;
}

/** Long amounts would run into each other: then only the first and the last are written. */
function isLabelled(amount: number, ticks: readonly number[]): boolean {
  const characters = Math.max(...ticks.map((tick) => formatExact(tick, 2).length));
  const room = (frame.width - frame.left - frame.right) / (ticks.length - 1);
  return characters * 7 < room || amount === ticks[0] || amount === ticks.at(-1);
}

function curveLine(curve: EstimateResult["curve"], series: Series, x: (amount: number) => number): Html {
  const points = curve.map((point) => `${round(x(point[series] ?? 0))},${round(y(point.probability))}`);
  return html`<polyline class="${series}" points="${points.join(" ")}" />`;
}

function legend(series: Series, name: string, at: number): Html {
  return html`<line class="${series}" x1="${at}" x2="${at + 24}" y1="10" y2="10" /><text
      x="${at + 30}"
      y="14"
    >
      ${name}
    </text>`;
}

function round(place: number): number {
  return Math.round(place * 10) / 10;
}

/** Three to six round amounts that span the range; a range of one amount gets room on both sides. */
function ticksOver(low: number, high: number): number[] {
  const width = high > low ? high - low : Math.max(1, Math.abs(high) / 10);
  const power = 10 ** Math.floor(Math.log10(width / 3));
  const step = power * ([1, 2, 5, 10].find((multiple) => width / (multiple * power) <= 4) ?? 10);
  const first = Math.floor(low / step);
  const last = Math.max(Math.ceil(high / step), first + 1);
  return Array.from({ length: last - first + 1 }, (_, count) => (first + count) * step);
}
