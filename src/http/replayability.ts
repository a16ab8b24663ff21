import { engineChanges } from "../simulation/engine-changes.ts";
import type { EngineChange } from "../simulation/engine-changes.ts";
import { engineVersion } from "../simulation/engine-version.ts";

/** Whether an estimate can be computed again to the last digit, and if not, why. */
export interface Replayability {
  readonly replayable: boolean;
  readonly notReplayable?: {
    readonly explanation: string;
    readonly engineChanges: readonly EngineChange[];
  };
}

/**
 * Says whether this engine can replay what another version of it computed.
 *
 * @param stored version of the engine that computed the estimate
 */
export function replayabilityOf(stored: string): Replayability {
  if (stored === engineVersion) return { replayable: true };
  const explanation = `Engine ${stored} computed this estimate, and this is engine ${engineVersion}: it cannot be replayed to the last digit.`;
  return { replayable: false, notReplayable: { explanation, engineChanges: changesSince(stored) } };
}

/** What came after a version, newest first. */
function changesSince(stored: string): EngineChange[] {
  return engineChanges.filter(({ version }) => isNewer(version, stored) && !isNewer(version, engineVersion));
}

function isNewer(version: string, than: string): boolean {
  return version.localeCompare(than, "en", { numeric: true }) > 0;
}
