import fixture from "./fixtures/quantiles.json" with { type: "json" };

/** SciPy's PERT quantiles (fixtures/quantiles.py): low, mode, high, weight, score, value. */
export const pertCases = fixture.pert as [number, number, number, number, number, number][];
