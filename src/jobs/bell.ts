/** Wakes one who waits. */
export interface Bell {
  ring(): void;
  /** Resolves at the next ring, at once if it rang since the last wait, or after the time. */
  wait(mostMs: number): Promise<void>;
}

export function makeBell(): Bell {
  let hasRung = false;
  let wake: () => void = () => undefined;
  return {
    ring: () => {
      hasRung = true;
      wake();
    },
    wait: async (mostMs) => {
      if (!hasRung) {
        await new Promise<void>((resolve) => {
          const timer = setTimeout(resolve, mostMs);
          wake = () => {
            clearTimeout(timer);
            resolve();
          };
        });
      }
      hasRung = false;
    },
  };
}
