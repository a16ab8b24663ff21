import { problemTypes } from "../problems/problem-types.ts";
import { html } from "./html.ts";
import { pageFrame } from "./page-frame.ts";

/** Explains the kinds of problem, one or all. */
export function problemsPage(names: readonly (keyof typeof problemTypes)[]): string {
  return pageFrame(
    "Kinds of problem · Restoration Reckoner",
    html`<h1>Kinds of problem</h1>
      ${names.map((name) => {
        const { status, title, meaning } = problemTypes[name];
        return html`<section aria-labelledby="${name}">
          <h2 id="${name}">${title}</h2>
          <p><code>/problems/${name}</code>, status ${status}</p>
          <p>${meaning}</p>
        </section>`;
      })}`,
  );
}
