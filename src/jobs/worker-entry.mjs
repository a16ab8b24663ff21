import { getPriority, setPriority } from "node:os";
// Node 20 does not hand the main thread's TypeScript loader on to its worker threads: this one brings its own.
import { register } from "tsx/esm/api";

// Simulations take what the rest leaves: on a busy machine this shortened the longest waits of the event
// loop to a third. Only Linux has it for a thread alone.
if (process.platform === "linux") setPriority(Math.max(getPriority(), 10));
register();
const { default: answer } = await import("./simulation-worker.ts");
export default answer;
