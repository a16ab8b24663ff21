"""The schedule of one draw: a literal event loop, written from section 3, point 5, of the design."""
import heapq
import itertools

INSTANT = 1e-9


class Chain:
    """Steps in order. Its status: "between" steps, "ready" for the owner, "busy", or "over"."""

    def __init__(self, steps):
        self.steps, self.next, self.status = steps, 0, "between"

    @property
    def step(self):
        return self.steps[self.next]


class Lot:
    """A departure: who is to come, and who is there."""

    def __init__(self, weeks):
        self.weeks, self.expected, self.there, self.has_left = weeks, 0, [], False


class WeekLoop:
    """@param phases lists of chains: all of one phase run in parallel, and are over before the next begins
    @param lead_of the weeks of a departure, by its key
    @param order a departure's key to sort by, where nothing can move
    """

    def __init__(self, phases, lead_of, order):
        self.phases = [[Chain(steps) for steps in phase] for phase in phases]
        self.order, self.now, self.owner_is_free = order, 0.0, True
        self.events, self.count = [], itertools.count()
        self.lots = {}
        self.bind(lead_of)

    def bind(self, lead_of):
        """Finds what every step waits for, and who comes to every departure."""
        last, chain_of = {}, {}
        for chain in itertools.chain(*self.phases):
            for step in chain.steps:
                chain_of[step] = chain
                for path in step.paths:
                    last[path] = step
                if step.departure is not None:
                    lot = self.lots.setdefault(step.departure, Lot(lead_of(step.departure)))
                    lot.expected += 1
        for step, chain in chain_of.items():
            others = [last[path] for path in step.after if path in last]
            # Within one chain its order stands for precedence.
            step.waits_for = [other for other in others if chain_of[other] is not chain]

    def run(self):
        """@returns the weeks it all takes"""
        for self.chains in self.phases:
            while True:
                self.settle()
                if all(chain.status == "over" for chain in self.chains):
                    break
                ready = [chain for chain in self.chains if chain.status == "ready"]
                if self.owner_is_free and ready:
                    self.take_up(choice(ready))
                elif self.events:
                    self.now = self.events[0][0]
                else:
                    self.send_first()
        return self.now

    def settle(self):
        """All that happens at this instant."""
        moved = True
        while moved:
            moved = False
            while self.events and self.events[0][0] <= self.now + INSTANT:
                heapq.heappop(self.events)[2]()
                moved = True
            for chain in self.chains:
                if chain.status == "between":
                    moved |= self.begin(chain)

    def begin(self, chain):
        """@returns whether the chain can go on with its next step"""
        if chain.next == len(chain.steps):
            chain.status = "over"
            return True
        step = chain.step
        if not all(other.is_over for other in step.waits_for):
            return False
        if step.kind == "own":
            chain.status = "ready"
        elif step.kind == "away":
            chain.status = "busy"
            self.arrive(chain, self.lots[step.departure])
        else:
            self.end_at(max(self.now, step.weeks) if step.kind == "until" else self.now + step.weeks, chain)
        return True

    def end_at(self, time, chain):
        chain.status = "busy"
        self.at(time, lambda: self.end(chain))

    def end(self, chain):
        chain.step.is_over = True
        chain.next += 1
        chain.status = "between"

    def at(self, time, action):
        heapq.heappush(self.events, (time, next(self.count), action))

    def take_up(self, chain):
        self.owner_is_free, chain.status = False, "busy"
        self.at(self.now + chain.step.weeks, lambda: self.put_down(chain))

    def put_down(self, chain):
        self.owner_is_free = True
        self.end_at(self.now + chain.step.lead, chain)

    def arrive(self, chain, lot):
        lot.there.append(chain)
        if lot.has_left:
            self.end_at(self.now + lot.weeks + chain.step.lead, chain)
        elif len(lot.there) == lot.expected:
            self.send(lot)

    def send(self, lot):
        lot.has_left = True
        for chain in lot.there:
            self.end_at(self.now + lot.weeks + chain.step.lead, chain)

    def send_first(self):
        """Nothing can move: the first departure with a visit ready leaves with those it has."""
        waiting = [key for key, lot in self.lots.items() if lot.there and not lot.has_left]
        self.send(self.lots[min(waiting, key=self.order)])


def choice(ready):
    """The chain with the longest median time still to go; of those within an instant, the first of the document."""
    longest = max(chain.step.to_go for chain in ready)
    return min((chain for chain in ready if chain.step.to_go >= longest - INSTANT), key=lambda chain: chain.step.place)


def weeks_of(plan, diary, departures):
    """@returns by draw the weeks from the first hour of the strip-down"""
    leads = diary.leads(departures)
    names = [f"part-{n}" for n in range(len(plan.parts))] + [f"finding-{n}" for n in range(len(plan.findings))]

    def order(key):
        supplier, lot, series, n = key
        return series[0] == "3", supplier, plan.lots.index((supplier, lot)), series, n

    def weeks(draw):
        before, after, *middle = [
            diary.chains[name][draw] if name in diary.chains else [] for name in ["before", "after", *names]
        ]
        return WeekLoop([[before], middle, [after]], lambda key: leads[key][draw], order).run()

    return [weeks(draw) for draw in range(diary.world.count)]
