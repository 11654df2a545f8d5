"""Closed jobs drawn at random: a house, its plan as signed, and a log of what it would have taken if the truth were
another than the catalogs say.

The log is worked out from the film, the loss and the hours of the plan in plain arithmetic, apart from what is learned
of it.
"""

from dataclasses import dataclass
from math import exp
from random import Random

from builder.api import make, open_job
from builder.values import to_date

FT, FT2, GAL, HOUR, MIL = 0.3048, 0.3048**2, 231 * 0.0254**3, 3600.0, 25.4e-6
MONDAY = 46_146  # 2026-05-04, a day number


@dataclass(frozen=True)
class Truth:
    """What is so, over or beside what the catalogs say."""

    handling: float = 1.25  # of Lap siding, over the catalog's
    loss: float = 0.27  # of Lap siding; the catalog says 20 %
    masking: float = 0.8  # rate of Mask openings, over the catalog's
    life: float = 0.7  # of a standard nozzle, over the catalog's
    rain: float = 0.35  # share of working days that are lost
    scatter: float = 0.15  # of the logarithm of hours from job to job
    film: float = 0.05  # of that of film and of loss
    setting_up: float = 0.7  # h a day of each of two people; the catalog says 0.5 h
    waiting: float = 0.0  # h a day of each, told apart in the log; 0: part of the other hours


def _day(number):
    return to_date(float(number)).isoformat()


def job_text(draw, signed="", log="", closed="", name="House"):
    """A job file: boards outside, sprayed, with the openings masked."""
    length, height = draw.uniform(60, 160), draw.uniform(9, 12)
    return f"""
job: {{name: {name}, date: 2026-04-20, start: 2026-05-04, units: us, currency: USD, travel_time: 0 h, distance: 0 mi,
      built: 1990, building: other, crew: steady, people: 2, pump: Mid electric, exposure: open{closed}}}
systems: [{{name: Boards, surface: Lap siding}}]
coats: [{{tag: C1, system: Boards, coating: Exterior acrylic satin, color: Gray, coats: 2, nozzle: standard 515}}]
takeoff:
  - {{tag: A, system: Boards, length: {length:.1f} ft, height: {height:.1f} ft, count: 2, openings: [
      {{name: Window, width: 3 ft, height: 5 ft, count: {draw.randint(20, 40)}}}]}}
kit: [{{tag: K1, nozzle: standard 515}}]
tasks: [{{task: Mask openings, system: Boards}}, {{task: Set up}}]
{signed}
{log}
"""


def closed_job(seed, truth, folder, catalogs, name=None, slip=1.0):
    """The text of a closed job. slip: typing errors in its log: paint with a digit too many, hours with
    one too few, as a factor."""
    name = name or f"House {seed}"
    plain = folder / f"plain-{seed}.yaml"
    plain.write_text(job_text(Random(seed)), encoding="utf-8")
    est = open_job(plain, catalogs).estimate
    plain.unlink()
    coat, pick, hours, gallons = (est.rows[block][0] for block in ("film", "picks", "hours", "gallons"))
    masks, productive = est.rows["task_hours"][0], est.basics.productive
    draw = Random(10_000 + seed)

    def noise():
        return exp(draw.gauss(0, truth.scatter))

    paid = hours.labor / productive
    mask = masks.hours[0] / productive
    signed = (
        "signed:\n"
        f"  - {{tag: C1, what: Boards, coating: Exterior acrylic satin, color: Gray, "
        f"area: {coat.surface_coats / FT2:.3f} ft2, hours: {paid / HOUR:.4f} h, gallons: {gallons.need / GAL:.4f} gal, "
        "cost: 100}\n"
        f'  - {{tag: T1, what: "Mask openings, Boards", hours: {mask / HOUR:.4f} h, cost: 100}}\n'
        "  - {tag: T2, what: Set up, hours: 4 h, cost: 100}"
    )
    productive = productive if truth.waiting else 1.0  # of the hours of a coat or task in the log
    trigger = hours.trigger_share * paid
    truly = trigger + (paid - trigger) * truth.handling * noise()
    truly *= productive
    masked = mask / truth.masking * noise() * productive
    wet = coat.wet_film * exp(draw.gauss(0, truth.film))
    exposed = est.row("exposures", est.row("systems", 1).exposure_at).factor
    kept = (1 - truth.loss * exposed * exp(draw.gauss(0, truth.film))) * (1 - pick.miss)
    used = coat.surface_coats * wet / kept * (1 + pick.over) / (1 + coat.thinning)
    fan = est.row("nozzles", pick.size_at).fan
    days = max(3, round(truly / HOUR / 14))
    workdays = _worked(draw, days + 1, truth.rain)
    rows, through = (
        [f"{{date: {workdays[0]}, tag: T1, people: 2, hours: {masked / HOUR / 2 / slip:.4f} h, done: yes}}"],
        0.0,
    )
    for day in workdays[1:]:
        through += used / days
        narrower = 1 - 0.25 * through * (1 + coat.thinning) / (truth.life * pick.life)
        rows.append(
            f"{{date: {day}, tag: C1, people: 2, hours: {truly / days / HOUR / 2 / slip:.4f} h, "
            f"gallons: {used / days / GAL * slip:.4f} gal, area: {coat.surface_coats / days / FT2:.3f} ft2, kit: K1, "
            f"fan: {fan * narrower / 0.0254:.3f} in, wet_film: {wet / MIL:.3f} mil}}"
        )
    for day in workdays:
        rows.append(f"{{date: {day}, tag: T2, people: 2, hours: {truth.setting_up} h}}")
        rows += [f"{{date: {day}, tag: waiting, people: 2, hours: {truth.waiting} h}}"] * bool(truth.waiting)
    log = "log:\n" + "\n".join(f"  - {row}" for row in rows)
    closed = f", signed_on: 2026-04-25, signed_price: 5000, closed_on: {workdays[-1]}"
    return job_text(Random(seed), signed, log, closed, name)


def _worked(draw, many, rain):
    """Dates of working days from a Monday in May on, each lost with a chance, never more than four in a row."""
    found, day, lost = [], MONDAY + 7 * draw.randrange(2), 0
    while len(found) < many:
        if (day - 2) % 7 < 5:
            lost = lost + 1 if found and lost < 4 and draw.random() < rain else 0
            if not lost:
                found.append(_day(day))
        day += 1
    return found


def build(path, seed, truth, folder, catalogs, **more):
    """Write the workbook of a closed job."""
    text = folder / f"{path.stem}.yaml"
    text.write_text(closed_job(seed, truth, folder, catalogs, **more), encoding="utf-8")
    path.write_bytes(make(open_job(text, catalogs)))
