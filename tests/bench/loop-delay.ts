import { monitorEventLoopDelay } from "node:perf_hooks";

/**
 * Loaded into a server before its own code: measures how late its event loop is. Each message asks for the
 * delays since the last one, in milliseconds.
 */
const delays = monitorEventLoopDelay({ resolution: 1 });
delays.enable();

process.on("message", () => {
  const inMs = (nanoseconds: number) => nanoseconds / 1e6;
  process.send?.({
    p50: inMs(delays.percentile(50)),
    p99: inMs(delays.percentile(99)),
    max: inMs(delays.max),
  });
  delays.reset();
});
