// Node 20 does not hand the main thread's TypeScript loader on to its worker threads: this one brings its own.
import { register } from "tsx/esm/api";

register();
await import("./parallel-worker.ts");
