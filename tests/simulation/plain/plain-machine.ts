import type { EstimateDocument, Finding } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import { loadingOn } from "./plain-chance.ts";
import { inForcingOrder, stepOf, stepsOf } from "./plain-departures.ts";
import type { VisitCounts, Yard } from "./plain-departures.ts";
import { doJob } from "./plain-job.ts";
import { doFinding, walkPart } from "./plain-part.ts";
import type { Bench, PartWalk } from "./plain-part.ts";
import { openTill } from "./plain-till.ts";
import type { Till } from "./plain-till.ts";
import { medianToGo } from "./plain-to-go.ts";
import type { Chain, Chance, Departure, Job, PlainLine, Source } from "./plain-types.ts";

/** The whole machine as it was walked in one draw. */
export interface MachineWalk {
  till: Till;
  parts: PartWalk[];
  findings: { finding: Finding; job: Job }[];
  whole: { operation: Operation; job: Job }[];
  departures: Departure[];
  phases: Chain[][];
}

/** Walks the parts, the findings and the whole-machine work, without times. */
export function walkMachine(
  document: EstimateDocument,
  chance: Chance,
  quantile: Source["quantile"],
): MachineWalk {
  const yard: Yard = { document, chance, departures: [] };
  const till = openTill(document, chance);
  const bench: Bench = { yard, till, toGo: medianToGo(document, quantile) };

  const present = document.findings.filter((finding) => isPresent(document, chance, finding));
  const ofPart = (id: string) => present.filter((finding) => finding.part === id);
  const parts = document.parts.map((part) => walkPart(bench, part, ofPart(part.id)));
  const loose = present
    .filter((finding) => finding.part === undefined)
    .map((finding) => ({ finding, job: doFinding(bench, finding) }));

  const counts: VisitCounts = new Map();
  const before = doWhole(bench, document.wholeMachine?.before ?? [], counts);
  const after = doWhole(bench, document.wholeMachine?.after ?? [], counts);
  return {
    till,
    parts,
    findings: [...parts.flatMap((walk) => walk.findings), ...loose],
    whole: [...before.done, ...after.done],
    departures: inForcingOrder(yard),
    phases: [
      [before.chain],
      [...parts.map((walk) => walk.steps), ...loose.map(({ job }) => [stepOf(job)])],
      [after.chain],
    ],
  };
}

function isPresent(document: EstimateDocument, chance: Chance, finding: Finding): boolean {
  if (finding.state === "present" || finding.state === "absent") return finding.state === "present";
  const loadings = finding.drivers ?? loadingOn(document, "storage", 0.6);
  return chance.happens(`findings/${finding.id}|event`, finding.probability, loadings);
}

interface WholeWalk {
  done: { operation: Operation; job: Job }[];
  chain: Chain;
}

function doWhole({ yard, toGo }: Bench, operations: Operation[], counts: VisitCounts): WholeWalk {
  const done = operations.flatMap((operation, index) => {
    if (operation.state === "done") return [];
    const turn = { toGoWeeks: toGo.list(operations.slice(index), 1), place: 0 };
    const order = { path: `whole/${operation.id}`, work: operation, quantity: 1, listPath: "whole", turn };
    return [{ operation, job: doJob(yard.document, yard.chance, order) }];
  });
  const jobs = done.map(({ job }) => job);
  return { done, chain: stepsOf(yard, jobs, counts, "whole") };
}

/** Every line of restoration cash less what is spent; they add up to it. */
export function linesOf(document: EstimateDocument, walk: MachineWalk): PlainLine[] {
  const { till } = walk;
  const cashOf = (jobs: Job[]) => jobs.reduce((sum, job) => sum + till.cash(job), 0);
  const listed: PlainLine[] = [
    ...walk.parts.map(({ part, jobs, recovered }): PlainLine => {
      return { id: part.id, kind: "part", cash: cashOf(jobs) - recovered };
    }),
    ...document.suppliers.map(({ id }): PlainLine => {
      const own = walk.departures.filter((departure) => departure.supplier.id === id);
      return { id, kind: "supplier", cash: own.reduce((sum, each) => sum + till.departureCash(each), 0) };
    }),
    ...document.findings.map(({ id }): PlainLine => {
      const paid = walk.findings.filter(({ finding }) => finding.id === id);
      return { id, kind: "finding", cash: cashOf(paid.map(({ job }) => job)) };
    }),
    ...wholeOperations(document).map(({ id }): PlainLine => {
      const paid = walk.whole.filter(({ operation }) => operation.id === id);
      return { id, kind: "whole", cash: cashOf(paid.map(({ job }) => job)) };
    }),
  ];
  const listedCash = sumOf(listed);
  const overheads = document.overheads.map((overhead): PlainLine => {
    return { id: overhead.id, kind: "overhead", cash: till.overhead("overheads", overhead, listedCash) };
  });
  return [...listed, ...overheads];
}

function wholeOperations({ wholeMachine }: EstimateDocument): Operation[] {
  return [...(wholeMachine?.before ?? []), ...(wholeMachine?.after ?? [])];
}

/** The cash of some lines together. */
export function sumOf(lines: PlainLine[]): number {
  return lines.reduce((sum, line) => sum + line.cash, 0);
}
