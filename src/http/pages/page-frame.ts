import { html } from "./html.ts";
import type { Html } from "./html.ts";

/** Where the stylesheet of every page is. */
export const stylesheetPath = "/assets/page.css";
/** Where the icon of every page is. */
export const iconPath = "/assets/icon.svg";

/** What every page shares. */
export function pageFrame(title: string, main: Html): string {
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <title>${title}</title>
        <link rel="icon" type="image/svg+xml" href="${iconPath}" />
        <link rel="stylesheet" href="${stylesheetPath}" />
      </head>
      <body>
        <header><p>Restoration Reckoner</p></header>
        <main>${main}</main>
        <footer>
          <nav aria-label="For programs">
            <ul>
              <li><a href="/docs">Documentation of the API</a></li>
              <li><a href="/docs/json">OpenAPI description (JSON)</a></li>
              <li><a href="/v1/projects">Projects (JSON)</a></li>
              <li><a href="/problems">Kinds of problem the API answers with</a></li>
            </ul>
          </nav>
        </footer>
      </body>
    </html> `.markup;
}
