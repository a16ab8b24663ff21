import { describe, expect, test } from "vitest";
import { longestWaitSeconds, parsePreferences } from "../../src/http/prefer.ts";

const nothing = { respondAsync: false, waitSeconds: undefined };
const asynchronous = { respondAsync: true, waitSeconds: undefined };

describe("parsePreferences()", () => {
  test.each([
    ["", nothing],
    ["respond-async, wait=10", { respondAsync: true, waitSeconds: 10 }],
    ["handling=lenient, wait=100, respond-async", { respondAsync: true, waitSeconds: longestWaitSeconds }],
    ['priority=5, return=minimal; foo="some parameter"', nothing],
    ["RESPOND-ASYNC", asynchronous],
    ['respond-async=""', asynchronous],
    ["respond-async; for=fun", asynchronous],
    [" ,, respond-async ,", asynchronous],
    ['note="a, wait=9, \\" b", respond-async', asynchronous],
    ["wait=5;q=1 , wait=9", { respondAsync: false, waitSeconds: 5 }],
    ["wait = 5", { respondAsync: false, waitSeconds: 5 }],
    ["wait=0", { respondAsync: false, waitSeconds: 0 }],
    ['wait="7"', { respondAsync: false, waitSeconds: 7 }],
  ])("reads %j (the grammar of RFC 7240, section 2)", (header, preferences) => {
    expect(parsePreferences(header)).toEqual(preferences);
  });

  test.each([
    ["respond-async=no", nothing],
    ["wait", nothing],
    ["wait=-1", nothing],
    ["wait=1.5", nothing],
    ["wait=soon", nothing],
    ["respond-asynchronously", nothing],
    ['respond-async, wait="9', asynchronous],
    ["respond-async\u00a0", nothing],
  ])("leaves out what it does not know or cannot read: %j", (header, preferences) => {
    expect(parsePreferences(header)).toEqual(preferences);
  });

  test("knows nothing where there is no header", () => {
    expect(parsePreferences(undefined)).toEqual(nothing);
  });
});
