import { DomainError } from "../numeric/domain-error.ts";
import { type DrawingThread, startDrawingThread } from "./drawing-thread.ts";

/** Something for a thread to do. */
export type Work<T> = (thread: DrawingThread) => Promise<T>;

/** Warm threads, each in a place; one that dies is replaced. */
export interface DrawingCrew {
  readonly places: readonly number[];
  /**
   * Has the thread at a place do something. Should it die over it, a new one in its place does it all again.
   *
   * @param onLost is told of every thread that died; what it throws ends the trying
   * @throws {DomainError} `pool-closed` after the end; else what the work threw
   */
  at<T>(
    place: number,
    work: Work<T>,
    onLost: (thread: DrawingThread, error: DomainError) => void,
  ): Promise<T>;
  end(): Promise<void>;
}

/**
 * Starts the threads of a crew.
 *
 * @param size at least 1
 * @param file entry of a thread
 */
export function makeDrawingCrew(size: number, file: URL): DrawingCrew {
  const threads = Array.from({ length: size }, () => startDrawingThread(file));
  let ended = false;
  const crew: DrawingCrew = {
    places: [...threads.keys()],
    at: async (place, work, onLost) => {
      const thread = threads[place]!;
      try {
        return await work(thread);
      } catch (error) {
        if (ended) throw new DomainError("pool-closed", "no simulation runs any more");
        if (!(error instanceof DomainError) || error.code !== "worker-lost") throw error;
        threads[place] = startDrawingThread(file);
        onLost(thread, error);
        return crew.at(place, work, onLost);
      }
    },
    end: async () => {
      ended = true;
      await Promise.all(threads.map((thread) => thread.end()));
    },
  };
  return crew;
}
