"""A job worked off by the clock, in exact fractions: written apart from builder.trade.schedule, from the words of its rule.

A gun, hands, mornings, nights. Nothing here counts work hours: people walk through days, and every choice is made when
the gun comes free, by looking at when each system could be coated.
"""

import random
from fractions import Fraction as F
from types import SimpleNamespace


class Site:
    """When people work: `hours` of work in `span` hours of each listed day, in hours since the first morning."""

    def __init__(self, hours, span, mornings, months):
        self.hours, self.span, self.mornings, self.months = F(hours), F(span), mornings, months

    def at_work(self, clock):
        """The first moment from `clock` on at which somebody works, and its day."""
        for day, morning in enumerate(self.mornings):
            if clock < morning + self.span:
                return max(clock, F(morning)), day
        raise ValueError("no such day")

    def after(self, clock, work):
        """The moment at which so many hours of work are done from `clock` on."""
        while work > 0:
            clock, day = self.at_work(clock)
            until = self.mornings[day] + self.span
            today = min(work, (until - clock) * self.hours / self.span)
            clock, work = clock + today * self.span / self.hours, work - today
        return clock

    def worked(self, clock):
        """Hours of work from the first morning to `clock`."""
        each = (min(max(clock - morning, 0), self.span) for morning in self.mornings)
        return sum(each, F(0)) * self.hours / self.span

    def hindered(self, clock, step):
        """How many times longer weather makes a step that begins then."""
        _, day = self.at_work(clock)
        return 1 / (1 - min(F(9, 10), self.months[day] * step.weather + step.always))


def hands(site, begin, tasks, people, beside):
    """The moment at which each system is prepared: the first by everybody, the gun's team too."""
    free, ready = begin, []
    for system, task in enumerate(tasks):
        if task is None:
            ready.append(begin)
            continue
        at_it = beside if system else people
        free = site.after(free, task.time / at_it * site.hindered(free, task))
        ready.append(free)
    return ready


def gun(site, begin, ready, systems):
    """What the gun does, one step after another."""
    todo, dry, pumps, free, done = [list(steps) for steps in systems], list(ready), {}, begin, []
    while any(todo):
        choices = []
        for system, steps in enumerate(todo):
            if steps:
                could, _ = site.at_work(max(free, dry[system]))
                refill = steps[0].pump and pumps.get(steps[0].pump) != steps[0].load
                choices.append((could, -len(steps), bool(refill), -steps[0].rented, system))
        start, _, refilled, _, system = min(choices)
        step = todo[system].pop(0)
        free = site.after(start, step.time * site.hindered(start, step))
        dry[system] = free + step.recoat
        if step.pump:
            pumps[step.pump] = step.load
        done.append((system, site.worked(start), site.worked(free), site.worked(dry[system]), refilled))
    return done


def drawn(seed):
    """A job that nobody thought of, on a grid of quarters of an hour."""
    luck = random.Random(seed)
    days, day = [], 0
    for _ in range(120):
        days.append(day)
        day += luck.choice((1, 1, 1, 1, 3, 2, 4))
    hours, span = luck.choice(((8, 8), (7, 8), (F(13, 2), F(17, 2)), (6, 7), (10, 12)))
    shares = [F(luck.choice((0, 5, 10, 20, 30)), 100) for _ in range(4)]
    site = Site(hours, span, [24 * one for one in days], [shares[one // 30 % 4] for one in days])

    def step(tasks=False):
        weather = luck.choice((F(0), F(1, 2), F(1), F(3, 2)))
        pump = luck.choice((0, 1, 1, 2))
        return SimpleNamespace(
            time=F(luck.randint(1, 60), 4),
            recoat=F(0) if tasks else F(luck.choice((0, 1, 2, 4, 12, 16, 24, 36, 48)) * 2, 2),
            weather=weather,
            always=F(0) if weather else F(luck.choice((0, 0, 10)), 100),
            pump=pump,
            load=luck.randint(1, 4) if pump else 0,
            rented=luck.choice((0, 1)),
        )

    systems = [[step() for _ in range(luck.randint(0, 5))] for _ in range(luck.randint(1, 7))]
    tasks = [step(tasks=True) if luck.random() < 0.7 else None for _ in systems]
    people = luck.randint(2, 4)
    return SimpleNamespace(
        site=site, systems=systems, tasks=tasks, people=people, hands=luck.randint(1, people - 1),
        first=F(luck.randint(0, 20), 4),
    )  # fmt: skip
