import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { Loadings } from "../domain/loadings.ts";

/** How a score is mixed: sum of loading x driver + residual x own. Arrays run in the order of the drivers' declaration. */
export interface Mixture {
  readonly drivers: Int32Array;
  readonly loadings: Float64Array;
  readonly residual: number;
  /** The driver of the largest loading, the first of several; -1 when there is none. */
  readonly main: number;
}

/** Loading of a cost, a lead or a supplier's charge on the driver of its trade, when the document does not say. */
const tradeLoading = 0.55;
/** Loading of hours on `pace`, when the document does not say. */
const paceLoading = 0.55;
/** Loading of a band or a finding's event on `storage`, how the machine was kept, when the document does not say. */
const storageLoading = 0.6;

/** Gives the mixture of each quantity of a document: as written, or the default of its purpose. */
export interface Mixer {
  cost(trade: string, written: Loadings | undefined): Mixture;
  hours(written: Loadings | undefined): Mixture;
  condition(written: Loadings | undefined): Mixture;
  written(loadings: Loadings | undefined): Mixture;
}

/**
 * Prepares the mixtures of a document.
 *
 * @param document its `drivers` give the order; a default applies only to a driver it declares
 */
export function mixerOf(document: EstimateDocument): Mixer {
  const order = new Map(document.drivers.map((driver, position) => [driver.id, position]));
  const byDefault = (id: string, loading: number): Loadings => (order.has(id) ? { [id]: loading } : {});
  const mix = (loadings: Loadings) => mixtureOf(loadings, order);
  return {
    cost: (trade, written) => mix(written ?? byDefault(trade, tradeLoading)),
    hours: (written) => mix(written ?? byDefault("pace", paceLoading)),
    condition: (written) => mix(written ?? byDefault("storage", storageLoading)),
    written: (written) => mix(written ?? {}),
  };
}

function mixtureOf(loadings: Loadings, order: ReadonlyMap<string, number>): Mixture {
  const entries = Object.entries(loadings)
    .filter(([, loading]) => loading !== 0)
    .map(([id, loading]) => ({ position: order.get(id)!, loading }))
    .sort((a, b) => a.position - b.position);
  const explained = entries.reduce((sum, { loading }) => sum + loading * loading, 0);
  const largest = Math.max(0, ...entries.map(({ loading }) => Math.abs(loading)));
  return {
    main: entries.find(({ loading }) => Math.abs(loading) === largest)?.position ?? -1,
    drivers: Int32Array.from(entries, (entry) => entry.position),
    loadings: Float64Array.from(entries, (entry) => entry.loading),
    residual: Math.sqrt(Math.max(0, 1 - explained)),
  };
}
