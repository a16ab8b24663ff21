import { expect, test } from "vitest";
import { makeBell } from "../../src/jobs/bell.ts";

const never = 2_147_483_647;

test("wait() ends at the next ring", async () => {
  const bell = makeBell();
  const woken = bell.wait(never);
  bell.ring();
  await woken;
});

test("wait() ends at once when it rang before, and only once for any number of rings", async () => {
  const bell = makeBell();
  bell.ring();
  bell.ring();
  await bell.wait(never);
  const again = bell.wait(never).then(() => "rang");
  expect(await Promise.race([again, Promise.resolve("silent")])).toBe("silent");
  bell.ring();
  expect(await again).toBe("rang");
});

test("wait() ends after its time", () => makeBell().wait(1));
