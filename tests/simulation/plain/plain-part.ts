import type { Finding } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import type { Outcome, Part, Purchase, Route } from "../../../src/domain/part.ts";
import { defaultWorksFor } from "../../../src/domain/vocabulary.ts";
import { stepOf, stepsOf } from "./plain-departures.ts";
import type { VisitCounts, Yard } from "./plain-departures.ts";
import { doJob } from "./plain-job.ts";
import type { Till } from "./plain-till.ts";
import { judgedIndex } from "./plain-to-go.ts";
import type { ToGo } from "./plain-to-go.ts";
import type { Job, Step } from "./plain-types.ts";

/** Weeks in a month. */
const monthWeeks = 52 / 12;

/** What a part's walk needs of the draw. */
export interface Bench {
  yard: Yard;
  till: Till;
  toGo: ToGo;
}

/** A part's routes as they were walked in this draw. */
export interface PartWalk {
  part: Part;
  /** The route that ended up on the machine. */
  route: Route | undefined;
  jobs: Job[];
  /** Money that came back, with its tax. */
  recovered: number;
  findings: { finding: Finding; job: Job }[];
  steps: Step[];
  counts: VisitCounts;
  isFirstTried: boolean;
}

/** Walks the routes of one part until one works. */
export function walkPart(bench: Bench, part: Part, present: Finding[]): PartWalk {
  const walk: PartWalk = {
    part,
    route: part.routes.find((route) => route.state === "fitted"),
    jobs: [],
    recovered: 0,
    findings: [],
    steps: [],
    counts: new Map(),
    isFirstTried: true,
  };
  if (walk.route) return walk;
  const band = bench.yard.chance.band(part);
  for (const route of part.routes) {
    const isRuledOut = present.some((finding) => finding.rulesOut?.includes(route.id));
    const works = (route.worksFor ?? defaultWorksFor(route.method)).includes(band);
    if (route.state === "failed" || !works || isRuledOut) continue;
    payFindings(bench, walk, route, present);
    const isDone = route.purchase ? hunt(bench, walk, route, route.purchase) : tryOnce(bench, walk, route);
    walk.isFirstTried = false;
    if (isDone) return { ...walk, route };
  }
  return walk;
}

function payFindings(bench: Bench, walk: PartWalk, route: Route, present: Finding[]): void {
  for (const finding of present) {
    const isPaid = walk.findings.some((paid) => paid.finding === finding);
    if (isPaid || (finding.onRoutes && !finding.onRoutes.includes(route.id))) continue;
    const job = doFinding(bench, finding);
    walk.findings.push({ finding, job });
    walk.steps.push(stepOf(job));
  }
}

/** Deals with a present finding. */
export function doFinding({ yard, toGo }: Bench, finding: Finding): Job {
  const path = `findings/${finding.id}`;
  const { document } = yard;
  const place = 1 + document.parts.length + document.findings.indexOf(finding);
  const turn = { toGoWeeks: toGo.finding(finding), place };
  return doJob(document, yard.chance, { path, work: finding, quantity: 1, listPath: path, turn });
}

/** Does the operations `from` up to and including `to` of one of a route's lists, skipping what is done already. */
function doRange(bench: Bench, list: RouteList, from: number, to: number): Job[] {
  const { yard, toGo } = bench;
  const { part, operations, listPath, tried, then } = list;
  const jobs: Job[] = [];
  for (let index = from; index <= to; index += 1) {
    const work = operations[index]!;
    if (work.state === "done" && (tried ?? 1) === 1) continue;
    const quantity = part.quantity ?? 1;
    const toGoWeeks = toGo.list([...operations.slice(index), ...then], quantity);
    const turn = { toGoWeeks, place: 1 + yard.document.parts.indexOf(part) };
    const path = `${listPath}/${work.id}`;
    jobs.push(doJob(yard.document, yard.chance, { path, work, quantity, tried, listPath, turn }));
  }
  return jobs;
}

interface RouteList {
  part: Part;
  operations: Operation[];
  listPath: string;
  tried?: number;
  /** What follows the list's end on the route. */
  then: Operation[];
}

/** A route that is not bought: works unless it fails. */
function tryOnce(bench: Bench, walk: PartWalk, route: Route): boolean {
  const { part } = walk;
  const { operations, failure } = route;
  const listPath = `parts/${part.id}/${route.id}`;
  const failsAt = operations.findIndex((operation) => operation.id === failure?.after);
  const fails =
    failure !== undefined &&
    operations[failsAt]?.state !== "done" &&
    bench.yard.chance.happens(`${listPath}|failure`, failure.probability, failure.drivers ?? {});
  const list = { part, operations, listPath, then: [] };
  finishTry(bench, walk, doRange(bench, list, 0, fails ? failsAt : operations.length - 1), false);
  return !fails;
}

/** Books the jobs of a route or try and puts its steps on the part's chain. */
function finishTry(bench: Bench, walk: PartWalk, jobs: Job[], hasHunted: boolean): void {
  const series = walk.isFirstTried && !hasHunted ? "planned" : "late";
  walk.jobs.push(...jobs);
  walk.steps.push(...stepsOf(bench.yard, jobs, walk.counts, series));
}

/** A route that is bought: tries until one is right or rework makes it so. */
function hunt(bench: Bench, walk: PartWalk, route: Route, purchase: Purchase): boolean {
  const { chance } = bench.yard;
  const listPath = `parts/${walk.part.id}/${route.id}`;
  const hasBegun = route.operations.some((operation) => operation.state === "done");
  let waitedMonths = 0;
  let hasHunted = false;
  for (let tried = 1; tried <= (purchase.tries ?? 1); tried += 1) {
    if (purchase.findsPerMonth !== undefined && !(tried === 1 && hasBegun)) {
      const months = chance.waitMonths(`${listPath}|wait|${tried}`, purchase.findsPerMonth);
      const patienceMonths = purchase.patienceMonths ?? Infinity;
      const givesUp = waitedMonths + months > patienceMonths;
      const weeks = (givesUp ? patienceMonths - waitedMonths : months) * monthWeeks;
      const startsAtWeekZero = walk.isFirstTried && tried === 1;
      walk.steps.push({ kind: "wait", paths: [], after: [], weeks, startsAtWeekZero });
      if (givesUp) return false;
      waitedMonths += months;
      hasHunted = true;
    }
    if (buy(bench, walk, route, purchase, tried, hasHunted)) return true;
  }
  return false;
}

/** One try of a purchase, once something is found. */
function buy(
  bench: Bench,
  walk: PartWalk,
  route: Route,
  purchase: Purchase,
  tried: number,
  hasHunted: boolean,
): boolean {
  const { part } = walk;
  const listPath = `parts/${part.id}/${route.id}`;
  const judged = judgedIndex(route);
  const last = route.operations.length - 1;
  const list: RouteList = { part, operations: route.operations, listPath, tried, then: [] };
  const jobs = doRange(bench, list, 0, judged);

  const outcomes = purchase.outcomes ?? [];
  const outcome =
    outcomes.length > 0 ? bench.yard.chance.outcome(`${listPath}|outcome|${tried}`, outcomes) : undefined;
  if (outcome?.result === "useless") {
    const bought = jobs.filter((job) => job.work.trade === "parts");
    walk.recovered += (outcome.recovers ?? 0) * bought.reduce((sum, job) => sum + bench.till.withTax(job), 0);
    finishTry(bench, walk, jobs, hasHunted);
    return false;
  }
  if (outcome?.result === "rework") jobs.push(...rework(bench, list, outcome, outcomes, judged));
  jobs.push(...doRange(bench, list, judged + 1, last));
  finishTry(bench, walk, jobs, hasHunted);
  return true;
}

function rework(bench: Bench, list: RouteList, outcome: Outcome, outcomes: Outcome[], judged: number): Job[] {
  const operations = outcome.operations ?? [];
  const listPath = `${list.listPath}/outcome-${outcomes.indexOf(outcome) + 1}`;
  const then = list.operations.slice(judged + 1);
  return doRange(bench, { ...list, operations, listPath, then }, 0, operations.length - 1);
}
