import type { Finding } from "../../../src/domain/estimate-document.ts";
import type { Loadings } from "../../../src/domain/loadings.ts";
import type { Draw } from "./draw.ts";
import type { Terms } from "./terms.ts";
import { Work } from "./work.ts";

/** Something that may come to light. */
export class PossibleFinding {
  readonly id: string;
  readonly part: string | undefined;
  private readonly finding: Finding;
  private readonly line: number;
  private readonly work: Work;
  private readonly loadings: Loadings;

  constructor(terms: Terms, finding: Finding, line: number) {
    this.id = finding.id;
    this.part = finding.part;
    this.finding = finding;
    this.line = line;
    this.work = new Work(terms, finding, 1);
    this.loadings = terms.loadings(finding.drivers, "storage", 0.6);
  }

  isPresent(draw: Draw): boolean {
    const { state = "open", probability } = this.finding;
    return state === "open" ? draw.happens(probability, this.loadings) : state === "present";
  }

  isPaidOn(route: string): boolean {
    return this.finding.onRoutes?.includes(route) ?? true;
  }

  rulesOut(route: string): boolean {
    return this.finding.rulesOut?.includes(route) ?? false;
  }

  /** Is paid for once. */
  pay(draw: Draw): void {
    if (draw.paidFindings.has(this.id)) return;
    draw.paidFindings.add(this.id);
    this.work.perform(draw, this.line);
  }
}
