import { expect, test } from "vitest";
import { z } from "zod";
import { methodSchema } from "../../src/domain/vocabulary.ts";
import { readSeed } from "./read-seed.ts";

const kebab = z.string().regex(/^[a-z0-9-]{1,64}$/);
const fileSchema = z.strictObject({
  about: z.string().min(1),
  asOf: z.string().regex(/^\d{4}-\d{2}$/),
  basis: z.string().min(1),
  classes: z.array(
    z.strictObject({
      id: kebab,
      name: z.string().min(1),
      group: kebab,
      vehicleKinds: z.array(z.enum(["motorcycle", "scooter", "car", "van", "other"])).min(1),
      material: z.string().min(1),
      finish: z.string().min(1),
      methods: z.array(methodSchema).min(1),
      weightInValue: z.enum(["high", "middle", "low"]),
      safetyCritical: z.boolean(),
      safetyNote: z.string().min(1).optional(),
    }),
  ),
});
const { classes } = fileSchema.parse(readSeed("part-classes.json"));

test("part classes have unique ids", () => {
  expect(new Set(classes.map((partClass) => partClass.id)).size).toBe(classes.length);
});

// Published: the trade's part classes, common practice, from memory.
test("part classes cover everything the trade calls a part", () => {
  const named = [
    "frame, subframe-or-stand, swing-arm, bracket, fuel-tank, oil-tank, fender, side-cover, chain-guard",
    "lamp-shell, body-panel, bumper, exhaust-pipe, muffler, exhaust-guard, wheel-rim, hub, spokes",
    "tyre-and-tube, wheel-bearings, pressed-or-cast-wheel, fork-tubes, fork-seals-and-bushes, yokes",
    "rear-shocks-or-springs, steering-bearings, brake-shoes-or-pads, hydraulics, brake-linkage, handlebar",
    "levers-and-controls, grips, cables, engine-top-end, cylinder-head, bottom-end, cases-and-covers, gearbox",
    "clutch, gasket-set, starter, air-filter, carburettor, fuel-tap, wiring-harness, switches, ignition",
    "generator, battery, lamps, horn, instrument, seat-or-trim, badge, rubber-kit, fasteners, final-drive",
    "glass, seals",
  ].flatMap((line) => line.split(", "));
  expect(classes.map((partClass) => partClass.id).sort()).toEqual(named.sort());
});

test("safety-critical classes say what decides", () => {
  const critical = classes.filter((partClass) => partClass.safetyCritical);
  for (const partClass of critical) expect(partClass.safetyNote, partClass.id).toBeDefined();
  expect(critical.map((partClass) => partClass.id)).toEqual(
    expect.arrayContaining([
      "frame",
      "swing-arm",
      "yokes",
      "fork-tubes",
      "spokes",
      "tyre-and-tube",
      "handlebar",
    ]),
  );
});

test("parts the trade always replaces offer neither reuse nor plating", () => {
  const replaced = ["spokes", "tyre-and-tube", "wheel-bearings", "steering-bearings", "brake-shoes-or-pads"];
  for (const partClass of classes.filter(({ id }) => replaced.includes(id))) {
    expect(partClass.methods, partClass.id).not.toContain("reuse");
    expect(partClass.methods, partClass.id).not.toContain("replate");
    expect(partClass.methods, partClass.id).not.toContain("zinc-plate");
  }
});
