import { buildAnswer } from "../../documents/answer.ts";
import type { Answer } from "../../documents/answer.ts";
import type { EstimateDocument } from "../../domain/estimate-document.ts";
import type { EstimateResult } from "../../domain/estimate-result.ts";
import { curveFigure } from "./curve-figure.ts";
import { html } from "./html.ts";
import type { Html } from "./html.ts";
import { pageFrame } from "./page-frame.ts";

/** A project's answer as a page. */
export function answerPage(document: EstimateDocument, result: EstimateResult): string {
  const answer = buildAnswer(document, result);
  return pageFrame(
    `${answer.title} · Restoration Reckoner`,
    html`<h1>${answer.title}</h1>
      <p>${answer.vehicle}. ${answer.money}</p>
      <p class="sentence">${answer.sentence}</p>
      ${answer.verdict.map((sentence) => html`<p>${sentence}</p>`)} ${figures(answer)}
      <section aria-labelledby="curve">
        <h2 id="curve">How sure that is</h2>
        ${curveFigure(result, answer)}
      </section>
      ${heaviest(answer)} ${groundwork(answer)}`,
  );
}

/** The page of a service that holds no project yet. */
export function emptyPage(): string {
  return pageFrame(
    "Restoration Reckoner",
    html`<h1>No project yet</h1>
      <p>Start one by posting a document to /v1/projects: the documentation of the API has an example.</p>`,
  );
}

function figures({ ranges, facts }: Answer): Html {
  return html`<section aria-labelledby="figures">
    <h2 id="figures">In figures</h2>
    <div class="scroll" role="region" aria-labelledby="figures" tabindex="0">
      <table>
        ${rangeHead("")}
        <tbody>
          ${ranges.map(({ name, p10, p50, p90 }) => rangeRow(html`${name}`, [p10, p50, p90]))}
        </tbody>
      </table>
    </div>
    <dl>
      ${facts.map(
        ({ name, figure }) =>
          html`<div>
            <dt>${name}</dt>
            <dd>${figure}</dd>
          </div>`,
      )}
    </dl>
  </section>`;
}

function heaviest({ heaviest: lines }: Answer): Html | undefined {
  if (lines.length === 0) return undefined;
  return html`<section aria-labelledby="heaviest">
    <h2 id="heaviest">What moves the restoration cost most</h2>
    <p>The share is of the cost's variance.</p>
    <div class="scroll" role="region" aria-labelledby="heaviest" tabindex="0">
      <table>
        ${rangeHead("Share")}
        <tbody>
          ${lines.map(({ name, note, share, p10, p50, p90 }) =>
            rangeRow(html`${name} ${note === "" ? undefined : html`<small>${note}</small>`}`, [
              share,
              p10,
              p50,
              p90,
            ]),
          )}
        </tbody>
      </table>
    </div>
  </section>`;
}

function rangeHead(share: string): Html {
  return html`<thead>
    <tr>
      <td></td>
      ${share === "" ? undefined : html`<th scope="col">${share}</th>`}
      <th scope="col">1 in 10 below</th>
      <th scope="col">half below</th>
      <th scope="col">1 in 10 above</th>
    </tr>
  </thead>`;
}

function rangeRow(name: Html, cells: readonly string[]): Html {
  return html`<tr>
    <th scope="row">${name}</th>
    ${cells.map((cell) => html`<td>${cell}</td>`)}
  </tr>`;
}

function groundwork({ basis, cautions, provenance }: Answer): Html {
  return html`<section aria-labelledby="groundwork">
      <h2 id="groundwork">What it rests on</h2>
      <p>${basis} ${provenance}</p>
    </section>
    <section aria-labelledby="cautions">
      <h2 id="cautions">Cautions</h2>
      <ul>
        ${cautions.map((caution) => html`<li>${caution}</li>`)}
      </ul>
    </section>`;
}
