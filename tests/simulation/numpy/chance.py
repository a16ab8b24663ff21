"""Plain random draws, a column at a time: what a World gives is an array with an entry for each draw asked for.

Draws are named by `where`: ALL of them, or an array of positions, ascending.
"""
import numpy as np

ALL = slice(None)


def narrowed(where, mask):
    """Those of `where` for which the mask, as long as `where`, holds."""
    if where is ALL:
        return ALL if mask.all() else np.flatnonzero(mask)
    return where if mask.all() else where[mask]


def union(sets):
    """The draws of several sets that share none."""
    if any(where is ALL for where in sets):
        return ALL
    return np.sort(np.concatenate(sets)) if sets else np.array([], dtype=np.intp)


class World:
    """Independent draws: nothing is stratified, nothing is shared but through the drivers."""

    def __init__(self, plan, count, rng):
        self.plan, self.count, self.rng = plan, count, rng
        self.drivers = [rng.standard_normal(count) for _ in plan.drivers]
        self.rate_columns = {}
        self.own_per_week = self.amount(plan.own_per_week)
        self.bench_rate = self.amount(plan.bench_rate)
        self.bands = [self.band(part) for part in plan.parts]
        self.present = [self.is_present(finding) for finding in plan.findings]

    def size(self, where):
        return self.count if where is ALL else len(where)

    def zeros(self):
        return np.zeros(self.count)

    def score(self, score, where=ALL):
        z = self.rng.standard_normal(self.size(where))
        if score.loadings:
            z *= score.own
            for driver, loading in score.loadings:
                z += loading * self.drivers[driver][where]
        return z

    def amount(self, quantity, where=ALL):
        """A column of new draws, or the constant; 0 for what the document does not have."""
        if quantity is None:
            return 0.0
        if quantity.function is None:
            return quantity.constant
        x = quantity.function(self.score(quantity.score, where))
        return np.maximum(x, 0, out=x) if quantity.dips else x

    def rate(self, trade):
        """What an hour of a trade costs: drawn once, for all of its hours."""
        if trade not in self.rate_columns:
            rate = self.amount(self.plan.rates[trade])
            self.rate_columns[trade] = rate if np.ndim(rate) else np.full(self.count, rate)
        return self.rate_columns[trade]

    def happens(self, score, above, where=ALL):
        return self.score(score, where) > above

    def band(self, part):
        if part.band is not None:
            return np.full(self.count, part.band, dtype=np.int8)
        return np.searchsorted(part.cuts, self.score(part.odds)).astype(np.int8)

    def is_present(self, finding):
        if finding.state == "open":
            return self.happens(finding.event, finding.present_above)
        return np.full(self.count, finding.state == "present")

    def wait(self, finds_per_week, where):
        return self.rng.exponential(1 / finds_per_week, self.size(where))

    def outcome(self, outcomes, where):
        """Which of the outcomes of a purchase, by position."""
        if len(outcomes) == 1:
            return np.zeros(self.size(where), dtype=np.intp)
        ends = np.cumsum([outcome.probability for outcome in outcomes])[:-1]
        return np.searchsorted(ends, self.rng.random(self.size(where)), side="right")


class TypicalWorld(World):
    """One draw without chance: medians, the likeliest band, nothing failing, a hunt found at once, what is bought right."""

    def __init__(self, plan):
        super().__init__(plan, 1, np.random.default_rng(0))

    def score(self, score, where=ALL):
        return np.zeros(self.size(where))

    def amount(self, quantity, where=ALL):
        return 0.0 if quantity is None else np.full(self.size(where), quantity.median)

    def happens(self, score, above, where=ALL):
        return np.zeros(self.size(where), dtype=bool)

    def band(self, part):
        return np.array([part.likeliest], dtype=np.int8)

    def wait(self, finds_per_week, where):
        return np.zeros(self.size(where))

    def outcome(self, outcomes, where):
        results = [outcome.result if outcome.probability > 0 else "never" for outcome in outcomes]
        best = next((result for result in ("right", "rework", "useless") if result in results), "useless")
        return np.full(self.size(where), results.index(best), dtype=np.intp)
