/** Ends the process in order at the first signal; a terminal's Ctrl-C may reach it twice. */
export function onStop(stop: () => Promise<void>): void {
  let stopping = false;
  const handle = () => {
    if (stopping) return;
    stopping = true;
    stop().then(
      () => process.exit(0),
      (error: unknown) => {
        process.stderr.write(`Did not stop in order: ${String(error)}\n`);
        process.exit(1);
      },
    );
  };
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, handle);
}
