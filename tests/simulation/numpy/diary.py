"""What each chain does in each draw, one step after the other: what the schedule is made from."""
import numpy as np

from chance import ALL, narrowed


class Step:
    """One thing a chain does.

    kind "until": over at a moment (a hunt that began at week 0); "pass": time goes by; "own": the owner works, then `lead`
    goes by; "away": a visit to a supplier, with `lead` on top when the departure is back
    """

    __slots__ = ("kind", "weeks", "lead", "to_go", "place", "paths", "after", "departure", "is_over", "waits_for")

    def __init__(self, kind, weeks, lead=0.0, operation=None, departure=None):
        self.kind, self.weeks, self.lead, self.departure = kind, weeks, lead, departure
        self.to_go, self.place, self.paths, self.after = 0.0, 0, [], []
        self.is_over, self.waits_for = False, []
        if operation is not None:
            self.to_go, self.place = operation.to_go, operation.place
            self.add(operation)

    def add(self, operation):
        self.paths.append(operation.path)
        self.after += operation.after


class Diary:
    def __init__(self, plan, world):
        self.plan, self.world = plan, world
        self.chains = {}  # by name: for each draw its steps

    def steps(self, chain):
        if chain.name not in self.chains:
            self.chains[chain.name] = [[] for _ in range(self.world.count)]
        return self.chains[chain.name]

    def by_draw(self, column, where):
        size = self.world.size(where)
        return (column if np.ndim(column) else np.full(size, column)).tolist()

    def draws(self, where):
        return range(self.world.count) if where is ALL else where.tolist()

    def hunted(self, chain, where, weeks, from_start):
        steps = self.steps(chain)
        for draw, wait, is_first in zip(self.draws(where), weeks.tolist(), from_start.tolist()):
            steps[draw].append(Step("until" if is_first else "pass", wait))

    def did(self, chain, operation, where, hours, joined, goes_on):
        steps = self.steps(chain)
        lead = self.by_draw(self.world.amount(operation.lead, where), where)
        if joined:
            departure = {draw: key for key, these in joined for draw in self.draws(these)}
            for draw, on_top in zip(self.draws(where), lead):
                if goes_on:
                    steps[draw][-1].lead += on_top
                    steps[draw][-1].add(operation)
                else:
                    steps[draw].append(Step("away", 0.0, on_top, operation, departure[draw]))
        elif operation.by == "owner" and operation.hours is not None:
            per_week = self.world.own_per_week
            weeks = self.by_draw(hours / (per_week[where] if np.ndim(per_week) else per_week), where)
            for draw, work, then in zip(self.draws(where), weeks, lead):
                steps[draw].append(Step("own", work, then, operation))
        else:
            weeks = lead if operation.lead is not None else self.by_draw(hours / 40, where)
            for draw, passing in zip(self.draws(where), weeks):
                steps[draw].append(Step("pass", passing, 0.0, operation))

    def leads(self, departures):
        """For each departure, by draw, the weeks of its supplier."""
        weeks = {}
        for key, departure in departures.items():
            column, where = self.world.zeros(), narrowed(ALL, departure.holds)
            column[where] = self.world.amount(self.plan.suppliers[key[0]].lead, where)
            weeks[key] = column.tolist()
        return weeks
