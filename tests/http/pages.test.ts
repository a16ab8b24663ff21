import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { buildAnswer } from "../../src/documents/answer.ts";
import { soundDocument } from "./bad-documents.ts";
import { readExample } from "./read-example.ts";
import { newProject, send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

const demo = readExample("demo/barn-stored-single");

let service: TestApp;
beforeAll(async () => (service = await startApp()));
afterAll(() => service.stop());

/** What a reader sees: markup gone, entities as characters, white space single. */
function readable(markup: string): string {
  const entities: Record<string, string> = { amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'" };
  return markup
    .replace(/<[^>]*>/g, " ")
    .replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => entities[name] ?? "")
    .replace(/\s+/g, " ");
}

describe("GET /", () => {
  test("says what to do before there is a project", async () => {
    const response = await service.app.inject("/");
    expect(response.statusCode).toBe(200);
    expect(readable(response.body)).toContain("No project yet");
  });

  test("shows every word and figure of the newest project's answer, as the engine computes it", async () => {
    await newProject(service.app, soundDocument);
    await newProject(service.app, demo);
    const response = await service.app.inject("/");
    expect(response.headers["content-type"]).toBe("text/html; charset=utf-8");
    const text = readable(response.body);
    // In a thread: on the event loop it would make the service refuse what it is asked next.
    const answer = buildAnswer(demo, await service.pool.run(demo, {}));
    const { sentence, verdict, ranges, facts, heaviest, basis, cautions, provenance, curve } = answer;
    expect(sentence).toMatch(
      /^Expect it to cost you about [\d,]+ net of what it sells for; 1 time in 10 more than [\d,]+\.$/,
    );
    const shown = [
      [answer.title, answer.vehicle, answer.money, sentence, ...verdict, basis, provenance, ...cautions],
      ranges.map(({ name, p10, p50, p90 }) => `${name} ${p10} ${p50} ${p90}`),
      facts.map(({ name, figure }) => `${name} ${figure}`),
      heaviest.flatMap(({ name, note, share, p10, p50, p90 }) => [
        `${name} ${note}`.trim(),
        `${share} ${p10} ${p50} ${p90}`,
      ]),
      curve.map(({ restoration, value }) => `${restoration.written} ${value?.written}`),
    ].flat();
    for (const words of shown) expect(text).toContain(words);
    expect(text).toContain("at no price on these terms");
    expect(text).toContain("starter figure, common practice");
    expect(text).not.toMatch(/\bmean\b|average|undefined|NaN/);
  });

  test("follows the document as it changes", async () => {
    const address = await newProject(service.app, soundDocument);
    expect(readable((await service.app.inject("/")).body)).toContain("Restoration cost 200 200 200");
    const dearer = { ...soundDocument, overheads: [{ id: "freight", name: "Freight", cost: 50.5 }] };
    await send(service.app, "PUT", `${address}/document`, dearer, { "if-match": "*" });
    expect(readable((await service.app.inject("/")).body)).toContain("Restoration cost 250.50 250.50 250.50");
  });

  test("shows markup in a title as the text it is", async () => {
    const title = `<script>alert("1")</script> & 'more' <img src=x onerror=alert(1)>`;
    await newProject(service.app, { ...soundDocument, title });
    const { body } = await service.app.inject("/");
    expect(body).not.toMatch(/<script|<img/);
    expect(readable(body)).toContain(title);
  });

  test("needs no script, nothing inline and nothing from elsewhere", async () => {
    await newProject(service.app, demo);
    for (const url of ["/", "/problems"]) {
      const { body, headers } = await service.app.inject(url);
      expect(body).not.toMatch(/<script|<style|\sstyle=|\son\w+=|javascript:|https?:\/\//i);
      expect(headers["content-security-policy"]).toMatch(/default-src 'self'/);
      expect(headers["content-security-policy"]).not.toMatch(/unsafe|upgrade-insecure-requests|https?:/);
      expect(headers).not.toHaveProperty("strict-transport-security");
    }
  });

  test("tells assistive technology what is what", async () => {
    const { body } = await service.app.inject("/");
    expect(body).toMatch(/<html lang="en">/);
    expect(body.match(/<h1>/g)).toHaveLength(1);
    expect(body).toMatch(/<svg[^>]* role="img" aria-labelledby="curve-name"/);
    const ids = [...body.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, named] of body.matchAll(/aria-labelledby="([^"]+)"/g)) expect(ids).toContain(named);
    for (const table of body.match(/<table>[\s\S]*?<\/table>/g) ?? []) {
      expect(table.match(/<th scope="col">/g)?.length).toBeGreaterThan(1);
      expect(table).toContain('<th scope="row">');
    }
  });

  test("draws the cumulative curve of the result", async () => {
    await newProject(service.app, demo);
    const { body } = await service.app.inject("/");
    const [restoration, value] = ["restoration", "value"].map((name) =>
      (new RegExp(`<polyline class="${name}" points="([^"]+)"`).exec(body)?.[1] ?? "")
        .split(" ")
        .map((point) => point.split(",").map(Number) as [number, number]),
    );
    for (const points of [restoration!, value!]) {
      expect(points).toHaveLength(99);
      for (let place = 1; place < points.length; place += 1) {
        expect(points[place]![0]).toBeGreaterThanOrEqual(points[place - 1]![0]);
        expect(points[place]![1]).toBeLessThan(points[place - 1]![1]);
      }
    }
    // At each chance the demo costs more than it is worth: its curve lies to the right.
    for (const [place, [x]] of restoration!.entries()) expect(x).toBeGreaterThan(value![place]![0]);
  });
});

describe("the stylesheet", () => {
  test("is a file of its own that asks for no other", async () => {
    const { body } = await service.app.inject("/");
    const [, path] = /<link rel="stylesheet" href="([^"]+)"/.exec(body) ?? [];
    const response = await service.app.inject(String(path));
    expect(response.statusCode).toBe(200);
    expect(response.headers["content-type"]).toBe("text/css; charset=utf-8");
    expect(response.body).not.toMatch(/@import|url\(/);
    expect(response.body).toContain("prefers-color-scheme: dark");
  });

  // Source of the formula and of 4.5: WCAG 2.2, relative luminance and success criterion 1.4.3.
  test.each(["light", "dark"])("keeps text apart from its ground, %s", async (scheme) => {
    const css = (await service.app.inject("/assets/page.css")).body;
    const [light = "", dark = ""] = [...css.matchAll(/:root \{([^}]*)\}/g)].map(([, rules]) => rules);
    const colour = (name: string) => {
      const [, hex = ""] =
        new RegExp(`--${name}: #([0-9a-f]{6})`).exec(scheme === "light" ? light : dark) ?? [];
      return luminance(hex);
    };
    const ground = colour("ground");
    for (const name of ["ink", "quiet", "second", "mark"]) {
      const [low, high] = [ground, colour(name)].sort((a, b) => a - b) as [number, number];
      expect((high + 0.05) / (low + 0.05), name).toBeGreaterThan(4.5);
    }
  });
});

function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = (hex.match(/../g) ?? []).map((pair) => {
    const share = Number.parseInt(pair, 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
