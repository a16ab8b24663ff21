"""All that is told of one set of draws, kept lean: what `--time` measures after the drawing itself."""
import numpy as np

from figures import LEVELS

TOTAL_LEVELS = np.array(list(LEVELS.values()))
LINE_LEVELS = np.array([0.1, 0.5, 0.8, 0.9])
CURVE_LEVELS = np.arange(1, 100) / 100


def percentiles(ascending, levels):
    """Hyndman & Fan's type 7 of sorted values, which np.quantile would sort once more."""
    place = levels * (len(ascending) - 1)
    below = place.astype(np.intp)
    above = np.minimum(below + 1, len(ascending) - 1)
    low = ascending[below]
    return low + (place - below) * (ascending[above] - low)


def centred_ranks(order, ascending):
    """Ranks less their mean, ties sharing theirs."""
    count = len(order)
    ranks = np.empty(count)
    begins = np.flatnonzero(np.concatenate(([True], ascending[1:] != ascending[:-1])))
    if len(begins) == count:
        ranks[order] = np.arange(count)
    else:
        sizes = np.diff(np.append(begins, count))
        ranks[order] = np.repeat(begins + (sizes - 1) / 2, sizes)
    ranks -= (count - 1) / 2
    return ranks


def centred_ranks_of_steps(column):
    """The same of a column of small whole numbers, by counting."""
    counts = np.bincount(column)
    ends = np.cumsum(counts)
    return (ends - counts + (counts - 1) / 2 - (len(column) - 1) / 2)[column]


def correlation(ranks, others):
    norm = ((ranks @ ranks) * (others @ others)) ** 0.5
    return float(ranks @ others / norm) if norm > 0 else 0.0


class Answer:
    def __init__(self, totals):
        world, plan = totals.world, totals.plan
        columns = totals.columns()
        order = np.argsort(totals.cash)
        sorts = {name: np.sort(column) for name, column in columns.items() if name != "restoration.cash"}
        sorts["restoration.cash"] = totals.cash[order]
        self.summaries = {
            name: (float(column.mean()), float(column.std(ddof=1)), percentiles(sorts[name], TOTAL_LEVELS))
            for name, column in columns.items()
        }
        curves = ("restoration.cash", "value.proceeds", "value.gap")
        self.curve = {name: percentiles(sorts[name], CURVE_LEVELS) for name in curves if name in sorts}
        self.chances = {name: float(np.count_nonzero(event) / world.count) for name, event in totals.events().items()}
        self.departures = {supplier: float(count.mean()) for supplier, count in totals.departures().items()}
        self.cash_ranks = centred_ranks(order, sorts["restoration.cash"])
        self.from_mean = totals.cash - totals.cash.mean()
        self.variance = float(self.from_mean @ self.from_mean)
        self.lines = {name: self.line(column) for name, column in totals.lines.items()}
        ranks = {("driver", n): self.ranks(column) for n, column in enumerate(world.drivers)}
        ranks |= {("band", part.id): centred_ranks_of_steps(band) for part, band in zip(plan.parts, world.bands)}
        present = zip(plan.findings, world.present)
        ranks |= {("finding", it.id): centred_ranks_of_steps(event.astype(np.int8)) for it, event in present}
        self.correlations = {name: correlation(column, self.cash_ranks) for name, column in ranks.items()}

    def ranks(self, column):
        order = np.argsort(column)
        return centred_ranks(order, column[order])

    def line(self, column):
        """Mean, percentiles, share of the variance of cash, rank correlation with it."""
        order = np.argsort(column)
        ascending = column[order]
        share = float(column @ self.from_mean) / self.variance if self.variance > 0 else 0.0
        mean, ranges = float(column.mean()), percentiles(ascending, LINE_LEVELS)
        return mean, ranges, share, correlation(centred_ranks(order, ascending), self.cash_ranks)
