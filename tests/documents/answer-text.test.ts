import { describe, expect, test } from "vitest";
import { buildAnswer } from "../../src/documents/answer.ts";
import { renderAnswerText } from "../../src/documents/answer-text.ts";
import { wrap } from "../../src/documents/wrap.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { readExample } from "../http/read-example.ts";
import { documentWith } from "../simulation/small-document.ts";

const examples = [
  "demo/barn-stored-single",
  "examples/smallest",
  "examples/moped-mid-way",
  "examples/shop-quote",
];

describe("renderAnswerText()", () => {
  test.each(examples)("of %s fits 80 columns and says all that the answer holds", (path) => {
    const document = readExample(path);
    const result = simulate(document, { draws: 640 });
    const text = renderAnswerText(document, result);
    for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(80);
    const running = text.replace(/\s+/g, " ");
    const answer = buildAnswer(document, result);
    const { title, sentence, verdict, basis, provenance, cautions } = answer;
    const words = [title, sentence, ...verdict, basis, provenance, ...cautions];
    const figures = [
      ...answer.ranges.map(({ name, p10, p50, p90 }) => `${name} ${p10} ${p50} ${p90}`),
      ...answer.facts.map(({ name, figure }) => `${name}: ${figure}`),
      ...answer.heaviest.map(({ p10, p50, p90 }) => `${p10} ${p50} ${p90}`),
    ];
    for (const wanted of [...words, ...figures]) expect(running).toContain(wanted);
    expect(running).not.toMatch(/undefined|NaN|Infinity/);
  });

  test("draws a curve that goes right as it goes up", () => {
    const document = readExample("examples/smallest");
    const text = renderAnswerText(document, simulate(document, { draws: 640 }));
    const places = [...text.matchAll(/^ +\d+ % +[\d,]+ \|( *)\*$/gm)].map(([, space]) => space?.length ?? 0);
    expect(places).toHaveLength(7);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBe(0);
    expect(places.at(-1)).toBe(49);
  });

  test("draws a certain cost as an upright line", () => {
    const document = documentWith({ overheads: [{ id: "freight", name: "Freight", cost: 80 }] });
    expect(renderAnswerText(document, simulate(document, { draws: 64 })).match(/ 80 \|\*$/gm)).toHaveLength(
      7,
    );
  });

  test("keeps to 80 columns whatever the title", () => {
    const document = documentWith({ title: "x".repeat(200) });
    const lines = renderAnswerText(document, simulate(document, { draws: 64 })).split("\n");
    expect(Math.max(...lines.map((line) => line.length))).toBe(80);
  });
});

describe("wrap()", () => {
  test("breaks at spaces and indents what follows", () => {
    const lines = wrap(`${"word ".repeat(30)}end`, "  ");
    expect(lines.map((line) => line.trim()).join(" ")).toBe(`${"word ".repeat(30)}end`);
    expect(lines[0]).toMatch(/^word/);
    for (const line of lines.slice(1)) expect(line).toMatch(/^ {2}word|^ {2}end/);
  });

  test("cuts a word that is longer than a line", () => {
    expect(wrap("x".repeat(170), "  ").map((line) => line.length)).toEqual([80, 80, 16]);
  });
});
