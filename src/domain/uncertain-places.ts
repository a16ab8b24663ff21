import type { EstimateDocument } from "./estimate-document.ts";
import { operationPlaces } from "./operation-places.ts";
import { type Place, placesOf } from "./places.ts";
import { routePlaces } from "./route-places.ts";
import type { Uncertain } from "./uncertain.ts";

/** What a quantity is. */
export type Role =
  "cost" | "hours" | "hours a week" | "weeks" | "months" | "rate" | "share" | "value effect" | "value";

/** An uncertain quantity with the way to it and what it is. */
export interface UncertainPlace extends Place<Uncertain> {
  readonly role: Role;
}

/** The role of each field that holds an uncertain quantity, wherever it stands. */
const roles = {
  batchCharge: "cost",
  freightPerBatch: "cost",
  cost: "cost",
  fixed: "cost",
  perMonth: "cost",
  hours: "hours",
  ownHoursPerWeek: "hours a week",
  leadWeeks: "weeks",
  months: "months",
  costRate: "rate",
  shareOfPrice: "share",
  shareOfListed: "share",
  valueEffect: "value effect",
  finished: "value",
  asIs: "value",
  inPieces: "value",
  parted: "value",
  boughtFinished: "value",
} as const satisfies Record<string, Role>;

type Field = keyof typeof roles;
type Holder = { readonly [K in Field]?: Uncertain | undefined };

/**
 * Lists every uncertain quantity of a document.
 *
 * @param document of the right shape
 */
export function uncertainPlaces(document: EstimateDocument): UncertainPlace[] {
  const { labour, shop, acquisition, carrying, value } = document;
  const rates = Object.entries(labour.shopRates).flatMap(([trade, rate]) =>
    quantity(`/labour/shopRates/${trade}`, rate, "rate"),
  );
  const holders: Place<Holder | undefined>[] = [
    { pointer: "/labour", entry: labour },
    { pointer: "/shop", entry: shop },
    ...placesOf("/suppliers", document.suppliers),
    ...operationPlaces(document),
    ...routePlaces(document),
    ...placesOf("/parts", document.parts).map(({ pointer, entry }) => ({
      pointer: `${pointer}/ifUnresolved`,
      entry: entry.ifUnresolved,
    })),
    ...placesOf("/findings", document.findings),
    ...placesOf("/overheads", document.overheads),
    ...placesOf("/acquisition/extras", acquisition?.extras),
    { pointer: "/carrying", entry: carrying },
    { pointer: "/value", entry: value },
    { pointer: "/value/selling", entry: value?.selling },
    ...placesOf("/paths", document.paths),
  ];
  return [...rates, ...holders.flatMap(quantitiesOf)];
}

function quantitiesOf({ pointer, entry }: Place<Holder | undefined>): UncertainPlace[] {
  if (entry === undefined) return [];
  return (Object.keys(roles) as Field[]).flatMap((field) =>
    quantity(`${pointer}/${field}`, entry[field], roles[field]),
  );
}

function quantity(pointer: string, entry: Uncertain | undefined, role: Role): UncertainPlace[] {
  return entry === undefined ? [] : [{ pointer, entry, role }];
}
