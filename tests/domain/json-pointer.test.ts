import { expect, test } from "vitest";
import { jsonPointer } from "../../src/domain/json-pointer.ts";

// Published: RFC 6901, section 5, the pointers to each member of its example document.
test.each([
  [[], ""],
  [["foo"], "/foo"],
  [["foo", 0], "/foo/0"],
  [[""], "/"],
  [["a/b"], "/a~1b"],
  [["c%d"], "/c%d"],
  [["e^f"], "/e^f"],
  [["g|h"], "/g|h"],
  [["i\\j"], "/i\\j"],
  [['k"l'], '/k"l'],
  [[" "], "/ "],
  [["m~n"], "/m~0n"],
])("jsonPointer() writes %j as RFC 6901 does", (path, pointer) => {
  expect(jsonPointer(path)).toBe(pointer);
});
