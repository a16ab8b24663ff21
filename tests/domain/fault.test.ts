import { expect, test } from "vitest";
import { faultAt, firstFaults } from "../../src/domain/fault.ts";

const faults = (count: number) =>
  Array.from({ length: count }, (_, index) => faultAt(`/${index}`, index, "a rule"));

test("faultAt() shows the value", () => {
  expect(faultAt("/a", { b: 1 }, "a rule")).toEqual({ pointer: "/a", value: '{"b":1}', rule: "a rule" });
});

test("firstFaults() lists the first 100 and counts the rest", () => {
  expect(firstFaults(faults(100))).toEqual(faults(100));
  expect(firstFaults(faults(312))).toEqual([
    ...faults(100),
    { pointer: "", value: "212 more", rule: "only the first 100 faults are listed" },
  ]);
});
