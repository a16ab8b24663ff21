import { expect, test } from "vitest";
import { requireAscending } from "../../src/numeric/require-ascending.ts";

test("requireAscending() lets equal and rising values pass", () => {
  expect(() => requireAscending("a <= b <= c", -1, 2, 2)).not.toThrow();
});

test.each([[[2, 1]], [[NaN, 1]], [[0, Infinity]], [[0, 1, 0.5]]])(
  "requireAscending() names the rule and the values of %j",
  (values) => {
    expect(() => requireAscending("in order", ...values)).toThrow(
      expect.objectContaining({
        code: "values-not-ascending",
        message: `in order: not so for ${values.join(", ")}`,
      }),
    );
  },
);
