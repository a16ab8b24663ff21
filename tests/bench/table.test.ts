import { describe, expect, test } from "vitest";
import { verdict } from "./table.ts";

describe("verdict()", () => {
  test.each([
    [35, { atMost: 35 }, "met"],
    [42, { atMost: 35 }, "missed by 1.20 x"],
    [5, { atLeast: 5 }, "met"],
    [4, { atLeast: 5 }, "missed by 1.25 x"],
    [0.9, { about: 1, within: 0.125 }, "met"],
    [1.25, { about: 1, within: 0.125 }, "missed by 0.13"],
  ])("of %f against %o is %s", (figure, target, answer) => {
    expect(verdict(figure, target)).toBe(answer);
  });
});
