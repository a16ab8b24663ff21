"""Walks the routes of every part for all draws at once (section 3, points 1 to 4 and 6, of the design).

A set of draws that do the same thing is a `where`; wherever draws part ways (condition, failure, a hunt given up, what a
purchase turns out to be, the departure a visit joins) each way is walked with the positions of its draws alone.
"""
import numpy as np

from chance import ALL, narrowed, union


class Departure:
    """What one lot that leaves for a supplier holds, by draw."""

    def __init__(self, count):
        self.sum = np.zeros(count)
        self.holds = np.zeros(count, dtype=bool)


class Walk:
    """The money and hours of every draw; with a diary, also what each chain does one step after the other."""

    def __init__(self, plan, world, diary=None):
        self.plan, self.world, self.diary = plan, world, diary
        zeros = world.zeros
        self.part_cash = [zeros() for _ in plan.parts]
        self.supplier_cash = [zeros() for _ in plan.suppliers]
        self.finding_cash = [zeros() for _ in plan.findings]
        self.whole_cash = [zeros() for _ in plan.before + plan.after]
        self.own_hours, self.shop_hours, self.effects = zeros(), zeros(), zeros()
        self.departures = {}  # by (supplier, lot, series, n)
        self.routes_taken = [np.full(world.count, -1, dtype=np.int8) for _ in plan.parts]
        self.walk()

    def walk(self):
        lines = iter(self.whole_cash)
        for name, operations in (("before", self.plan.before), ("after", self.plan.after)):
            chain, place = Chain(self, name, None, whole=True), None
            for operation, line in zip(operations, lines):
                place = chain.do(to_do([operation]), ALL, place, line=line)
        for n in range(len(self.plan.parts)):
            PartWalk(self, n).follow()
        for n, finding in enumerate(self.plan.findings):
            if "part" not in self.plan.document["findings"][n]:
                where = np.flatnonzero(self.world.present[n])
                Chain(self, f"finding-{n}", self.finding_cash[n]).do([finding.work], where)
        self.charge_departures()

    def departure(self, key):
        if key not in self.departures:
            self.departures[key] = Departure(self.world.count)
        return self.departures[key]

    def charge_departures(self):
        for (supplier, *_), departure in self.departures.items():
            it = self.plan.suppliers[supplier]
            where = narrowed(ALL, departure.holds)
            charged = np.maximum(it.minimum - departure.sum[where], 0)
            charged += self.world.amount(it.batch, where)
            charged += self.world.amount(it.freight, where)
            self.supplier_cash[supplier][where] += charged * (1 + it.tax)


class Chain:
    """Operations done one after the other."""

    def __init__(self, walk, name, line, whole=False):
        self.walk, self.world, self.name, self.line, self.whole = walk, walk.world, name, line, whole
        self.visits = {}  # by (supplier, lot, series): how many each draw has begun
        self.paid_for_parts = None  # in the present try, tax included; kept where some of it may come back

    def do(self, operations, where, place=None, planned=True, line=None):
        """Does operations for some draws, the money on `line`, which is the chain's own if none is named.

        @param place the (supplier, lot) where the operation before was done
        @param planned whether visits are in the planned series: True, False, or an array by draw
        @returns the (supplier, lot) of the last of them
        """
        line = self.line if line is None else line
        for operation in operations if self.world.size(where) else []:
            hours = self.world.amount(operation.hours, where) * operation.times
            paid = self.world.amount(operation.cost, where) * operation.times
            bench = 0.0
            if operation.hours is not None and operation.by == "owner":
                self.walk.own_hours[where] += hours
                bench = hours * at(self.world.bench_rate, where)
            elif operation.hours is not None:
                self.walk.shop_hours[where] += hours
                paid = paid + hours * self.world.rate(operation.trade)[where]
            taxed = paid * (1 + operation.tax)
            line[where] += taxed + bench
            if self.paid_for_parts is not None and operation.of_parts:
                self.paid_for_parts[where] += taxed
            next_place = None if operation.supplier is None else (operation.supplier, operation.lot)
            goes_on = next_place is not None and next_place == place
            joined = self.join(next_place, where, planned, paid, goes_on) if next_place else []
            if self.walk.diary:
                self.walk.diary.did(self, operation, where, hours, joined, goes_on)
            place = next_place
        return place

    def join(self, place, where, planned, paid, goes_on):
        """Adds to the departure that each draw's visit joins.

        @returns (key of a departure, the draws that join it), for each
        """
        joined = []
        for series, these, amount in self.by_series(where, planned, paid):
            begun = self.visits.setdefault((*place, series), np.zeros(self.world.count, dtype=np.int16))
            if not goes_on:
                begun[these] += 1
            numbers = begun[these]
            for n in np.unique(numbers):
                departure = self.walk.departure((*place, series, int(n)))
                is_nth = numbers == n
                nth = narrowed(these, is_nth)
                departure.sum[nth] += amount[is_nth] if np.ndim(amount) else amount
                departure.holds[nth] = True
                joined.append(((*place, series, int(n)), nth))
        return joined

    def by_series(self, where, planned, paid):
        """Parts draws by the series of their visits, which sort in the order in which they would leave."""
        if self.whole:
            return [(f"3 {self.name}", where, paid)]
        if np.ndim(planned) == 0:
            return [("1 planned" if planned else "2 late", where, paid)]
        ways = []
        for series, mask in (("1 planned", planned[where]), ("2 late", ~planned[where])):
            these = narrowed(where, mask)
            if self.world.size(these):
                ways.append((series, these, paid[mask] if np.ndim(paid) else paid))
        return ways


class PartWalk(Chain):
    """A part's routes in order, each for the draws that come to it."""

    def __init__(self, walk, n):
        super().__init__(walk, f"part-{n}", walk.part_cash[n])
        self.part, self.band, self.taken = walk.plan.parts[n], walk.world.bands[n], walk.routes_taken[n]
        self.untried = np.ones(self.world.count, dtype=bool)
        self.due = {n: self.world.present[n].copy() for n in self.part.findings}

    def follow(self):
        for n, route in enumerate(self.part.routes):
            if route.state == "fitted":
                return self.end_up_with(n, ALL)
        for n, route in enumerate(self.part.routes):
            where = self.able(route)
            if self.world.size(where) == 0:
                continue
            self.pay_findings(route, where)
            self.end_up_with(n, self.attempt(route, where))
            self.untried[where] = False
        unresolved = narrowed(ALL, self.taken < 0)
        self.walk.effects[unresolved] += self.world.amount(self.part.if_unresolved, unresolved)

    def end_up_with(self, n, where):
        self.taken[where] = n
        self.walk.effects[where] += self.world.amount(self.part.routes[n].value_effect, where)

    def able(self, route):
        """The draws that have no route yet and can try this one."""
        if route.state == "failed":
            return np.array([], dtype=np.intp)
        mask = (self.taken < 0) & route.works_for[self.band]
        for n in self.part.findings:
            if route.id in self.walk.plan.findings[n].rules_out:
                mask &= ~self.world.present[n]
        return narrowed(ALL, mask)

    def pay_findings(self, route, where):
        for n, due in self.due.items():
            finding = self.walk.plan.findings[n]
            if finding.on_routes is None or route.id in finding.on_routes:
                these = narrowed(where, due[where])
                self.do([finding.work], these, line=self.walk.finding_cash[n])
                due[these] = False

    def attempt(self, route, where):
        """@returns the draws in which the route ends up on the machine"""
        first = self.untried[where]
        planned = self.untried if first.any() and not first.all() else bool(first.all())
        if route.is_purchase:
            return self.buy(route, where, planned)
        if route.fails_after is None:
            self.do(to_do(route.judged), where, planned=planned)
            return where
        place = self.do(to_do(route.judged[: route.fails_after]), where, planned=planned)
        works = narrowed(where, ~self.world.happens(route.failure, route.fails_above, where))
        self.do(to_do(route.judged[route.fails_after :]), works, place, planned)
        return works

    def buy(self, route, where, planned):
        """@returns the draws in which a try succeeds"""
        waited = self.world.zeros()
        succeeded = []
        for n in range(route.tries):
            if route.finds_per_week is not None and not (n == 0 and route.is_bought):
                where = self.hunt(route, where, waited, from_start=n == 0)
                planned = False
            if self.world.size(where) == 0:
                break
            self.paid_for_parts = self.world.zeros() if any(it.recovers for it in route.outcomes) else None
            ends, where = self.judge(route, where, planned, to_do if n == 0 else list)
            succeeded.append(ends)
        self.paid_for_parts = None
        return union(succeeded)

    def hunt(self, route, where, waited, from_start):
        """@returns the draws that find something before their patience is at an end"""
        summed = waited[where] + self.world.wait(route.finds_per_week, where)
        if self.walk.diary:
            weeks = np.minimum(summed, route.patience_weeks) - waited[where]
            self.walk.diary.hunted(self, where, weeks, self.untried[where] & from_start)
        waited[where] = summed
        return narrowed(where, summed <= route.patience_weeks)

    def judge(self, route, where, planned, left):
        """One try of a purchase.

        @param left which operations of a list are still to be done in this try
        @returns the draws in which the part is right in the end, and those in which it is useless
        """
        place = self.do(left(route.judged), where, planned=planned)
        drawn = self.world.outcome(route.outcomes, where)
        good, useless = [], []
        for n, outcome in enumerate(route.outcomes):
            these = narrowed(where, drawn == n)
            if self.world.size(these) == 0:
                continue
            if outcome.result == "useless":
                if outcome.recovers:
                    self.line[these] -= outcome.recovers * self.paid_for_parts[these]
                useless.append(these)
                continue
            reworked = self.do(left(outcome.operations), these, place, planned)
            self.do(left(route.rest), these, reworked, planned)
            good.append(these)
        return union(good), union(useless)


def to_do(operations):
    return [operation for operation in operations if not operation.done]


def at(column, where):
    return column[where] if np.ndim(column) else column
