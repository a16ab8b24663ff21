"""From what was walked to money, time and value, a column each (section 3, points 6 and 7, of the design)."""
import numpy as np

from plan import MONTH_WEEKS


class Totals:
    """@param weeks by draw, or 0 where the schedule is left out"""

    def __init__(self, plan, world, walk, weeks):
        self.plan, self.world, self.walk = plan, world, walk
        document = plan.document
        purchase, spent = document.get("acquisition", {}), document.get("spent", {})
        self.price = purchase.get("price", 0)
        gone = spent.get("cash", 0) + spent.get("firmOrders", 0)
        self.lines = {("part", part.id): cash for part, cash in zip(plan.parts, walk.part_cash)}
        self.lines.update({("supplier", it.id): cash for it, cash in zip(plan.suppliers, walk.supplier_cash)})
        self.lines.update({("finding", it.id): cash for it, cash in zip(plan.findings, walk.finding_cash)})
        self.lines.update({("whole", it.id): cash for it, cash in zip(plan.before + plan.after, walk.whole_cash)})
        listed = sum(self.lines.values(), world.zeros())
        self.price_shares = world.zeros()
        for overhead in plan.overheads:
            self.lines["overhead", overhead.id] = self.overhead(overhead, listed, plan.tax)
        extras = sum((self.overhead(extra, listed, 0) for extra in plan.extras), world.zeros())
        self.cash = gone + sum(self.lines.values(), world.zeros())
        self.own_hours = walk.own_hours + spent.get("ownHours", 0)
        self.with_own_hours = self.cash + self.own_hours * plan.hour_value
        self.to_go = self.cash - gone
        self.shop_hours = walk.shop_hours
        self.weeks = weeks + world.zeros()
        months = self.weeks / MONTH_WEEKS + world.amount(plan.selling_months)
        self.carrying = world.amount(plan.per_month) * months
        self.bought = self.price + extras
        self.all_in = self.bought + self.cash + self.carrying
        self.budgeted = None
        if "budget" in document:
            self.budgeted = self.all_in if document["budget"]["includesPurchase"] else self.cash
        self.net_cost = document.get("acceptableNetCost", 0)
        if plan.finished is not None:
            self.sell(document["value"]["selling"]["commission"])

    def overhead(self, overhead, listed, tax):
        amount = self.world.amount(overhead.quantity) + self.world.zeros()
        if overhead.kind == "cost":
            return amount * (1 + tax)
        if overhead.kind == "shareOfListed":
            return amount * listed
        self.price_shares += amount
        return amount * self.price

    def sell(self, commission):
        self.finished = self.world.amount(self.plan.finished) + self.walk.effects
        self.proceeds = self.finished * (1 - commission) - self.world.amount(self.plan.fixed)
        self.gap = self.proceeds - self.all_in
        self.gap_with_own_hours = self.gap - self.own_hours * self.plan.hour_value
        with np.errstate(divide="ignore", invalid="ignore"):
            self.recovery = (self.proceeds - self.bought) / self.cash

    def ceiling(self, gap):
        """The price that would have left nothing of the gap: its r-th percentile is the ceiling at risk r."""
        return (gap + self.price * (1 + self.price_shares)) / (1 + self.price_shares)

    def columns(self):
        """Every amount of the answer, by the name that the answer gives it."""
        columns = {
            "restoration.cash": self.cash,
            "restoration.withOwnHours": self.with_own_hours,
            "restoration.toGo": self.to_go,
            "carrying": self.carrying,
            "allIn": self.all_in,
            "weeks": self.weeks,
            "ownHours": self.own_hours,
            "shopHours": self.shop_hours,
        }
        if self.budgeted is not None:
            columns["budget.overrun"] = np.maximum(0, self.budgeted - self.plan.document["budget"]["amount"])
        if self.plan.finished is not None:
            columns |= {
                "value.finished": self.finished,
                "value.proceeds": self.proceeds,
                "value.gap": self.gap,
                "value.gapWithOwnHours": self.gap_with_own_hours,
                "value.recovery": self.recovery,
                "ceiling.resale": self.ceiling(self.gap),
                "ceiling.mine": self.ceiling(self.gap + self.net_cost),
            }
        return columns

    def events(self):
        """What happens or does not, by the name that the answer gives its probability."""
        document = self.plan.document
        taken = self.walk.routes_taken
        complete = np.ones(self.world.count, dtype=bool)
        events = {}
        for part, routes in zip(self.plan.parts, taken):
            complete &= routes >= 0
            events[f"parts.{part.id}/unresolved"] = routes < 0
            for n, route in enumerate(part.routes):
                events[f"parts.{part.id}/route/{route.id}"] = routes == n
        events["complete"] = complete
        if self.budgeted is not None:
            events["overrun"] = self.budgeted > document["budget"]["amount"]
        if self.plan.finished is not None:
            events["loss"] = self.gap < 0
            events["regret"] = self.gap < -self.net_cost
        return events

    def departures(self):
        """How many leave for each supplier, by draw."""
        counts = {supplier.id: self.world.zeros() for supplier in self.plan.suppliers}
        for (supplier, *_), departure in self.walk.departures.items():
            counts[self.plan.suppliers[supplier].id] += departure.holds
        return counts
