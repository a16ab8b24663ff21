import type { Fault } from "../../domain/fault.ts";
import { problemTypes } from "./problem-types.ts";
import type { ProblemName } from "./problem-types.ts";

/** An error that says which problem to answer with. */
export class ProblemError extends Error {
  readonly problem: ProblemName;
  readonly faults: readonly Fault[] | undefined;
  readonly headers: Readonly<Record<string, string>>;

  /**
   * @param detail what is wrong with this request; the kind's meaning when absent
   * @param more.faults the rules it breaks
   * @param more.headers headers of the answer
   */
  constructor(
    problem: ProblemName,
    detail: string = problemTypes[problem].meaning,
    more: { faults?: readonly Fault[]; headers?: Record<string, string>; cause?: unknown } = {},
  ) {
    super(detail, { cause: more.cause });
    this.name = "ProblemError";
    this.problem = problem;
    this.faults = more.faults;
    this.headers = more.headers ?? {};
  }
}
