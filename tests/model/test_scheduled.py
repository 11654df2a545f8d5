"""The schedule of small jobs, worked by hand: the day, the order, loads, machines on site, dates; formulas and model."""

import pytest
from support.editing import LiveBook
from support.places import ROOT

from builder.jobs import open_job
from builder.quantities import scale
from builder.records.sentences import NO_SCHEDULE
from builder.values import day

pytestmark = pytest.mark.slow

FT2, HOUR, GALLON, INCH, FOOT = (scale(unit) for unit in ("ft2", "h", "gal", "in", "ft"))
SMALL = {"takeoff": 6, "coats": 9, "nozzles": 4, "openings": 2, "tasks": 6, "kit": 2, "systems": 4}

# An invented yard: fence A 20 ft by 20 ft in two coats, wall B 20 ft by 30 ft in one, rolled at 200 ft2 an hour: passes
# of 2, 2 and 3 hours, each dry after 4. One person for eight hours a day, 1.6 of them lost to breaks: 6.4 hours of work.
YARD = """
job: {units: us, currency: USD, crew: one, people: PEOPLE, pump: Mine, exposure: EXPOSURE, start: 2026-05-18,
      opening_none: 5 ft2, opening_both: 5 ft2}
systems:
  - {name: Fence, surface: Flat boards, method: METHOD}
  - {name: Wall, surface: Flat boards, method: METHODALTERNATE}
coats:
  - {system: Fence, coating: Yard red, color: Red, coats: 2}
  - {system: Wall, coating: Yard red, color: White, coats: 1}
COATStakeoff:
  - {tag: A, system: Fence, length: 20 ft, height: 20 ft, access: FENCE}
  - {tag: B, system: Wall, length: 20 ft, height: 30 ft, access: WALL}
MORE
own:
  crews:
    - {name: one, guns: 1, rollers: 0, tenders: 0, flow_max: 2 gal/min, gun_speed_factor: 1, handling_factor: 1,
       wage: 20, source: invented}
  surfaces:
    - {name: Flat boards, profile: Flat, loss: 20 %, hand_loss: 0 %, clear_width: 100 in, solid: 1, uptake: 1,
       fan: {min: 6 in, max: 24 in}, gun_speed: {min: 0.1 ft/s, max: 9 ft/s}, handling: 0 s/ft2, roll_rate: 200 ft2/h,
       finish: plain, source: invented}
  coatings:
    - {name: Yard red, kind: finish, base: water, spread: 100 ft2/gal, density: 10 lb/gal, viscosity: 100 cP,
       thinning: 10 %, thinning_max: 10 %, pressure: 2000 psi, orifice: {min: 9 thou, max: 40 thou}, finish: plain,
       abrasion: 1, recoat: RECOAT, packs: [{volume: 1 gal, pack_price: 40}], priced_on: 2026-03-02, source: invented}
  pumps:
    - {name: Mine, flow_max: 2 gal/min, pressure_max: 4000 psi, guns_max: 2, heel: 0.2 gal, flush: 15 min,
       hose: {length: 100 ft, bore: 1/2 in, pressure_max: 4000 psi}, source: invented}
  access:
    - {name: steps, factor: 1, height_limit: 90 ft, owned_day: 7, source: invented}
    - {name: boom, factor: 1, height_limit: 90 ft, rental: 100, rental_5: 300, delivery: 30, source: invented}
  rates:
    - {name: Wash, basis: hours, source: invented}
    - {name: Sign in, basis: hours, when: first, source: invented}
    - {name: Walk round, basis: hours, when: last, source: invented}
    - {name: Look on, basis: hours, when: alongside, source: invented}
    - {name: Rinse pump, basis: color, hours_each: 0.5 h, each_material: 2, source: invented}
"""
USUAL = {"people": "1", "exposure": "indoors", "method": "roll", "fence": "steps", "wall": "steps", "alternate": "", "coats": "",
         "recoat": "4 h"}  # fmt: skip
SIZES = ("515", "521", "527", "621")
TERMS = {
    "unproductive": 1.6 * HOUR, "recovered": 0.75, "promise": 0.5,
    **{f"{driver}_{end}": 1.0 for driver in ("area", "material", "time", "wear") for end in ("low", "high")},
}  # fmt: skip


@pytest.fixture
def yard(tmp_path):
    """yard(...) -> the rows of the model, once every formula gives what they hold."""

    def build(more="", values=None, measured=True, **given):
        text = YARD.replace("MORE", more)
        for word, usual in USUAL.items():
            text = text.replace(word.upper(), given.get(word, usual))
        values = {"terms": {}} | (values or {})
        path = tmp_path / "yard.yaml"
        path.write_text(text)
        opened = open_job(path, [ROOT / "catalogs"])
        assert not opened.errors, opened.errors
        values["terms"] = TERMS | values["terms"]
        if not measured:
            opened.values["takeoff"] = []
        for block, own in values.items():
            opened.values[block][0].update(own)
        opened.values["nozzles"] = [row for row in opened.values["nozzles"] if row["size"] in SIZES][: SMALL["nozzles"]]
        book = LiveBook(opened.values, opened.units, tmp_path, **SMALL)
        assert book.differences() == []
        return book.estimate().rows

    return build


def placed(rows):
    """(system, begins, ends) of each step in order, in hours of work."""
    return [(row.system, row.start / HOUR, row.end / HOUR) for row in rows["run"] if row.live]


def test_one_person_coats_one_while_the_other_dries(yard):
    """An hour of work is 8 / 6.4 = 1.25 on the clock. Fence 0 to 2; dry at clock 2.5 + 4 = 6.5, hour 5.2. Wall 2 to 5.
    Fence again 5.2 to 7.2: into the second day. 7.2 / 6.4 = 1.125 days, 1.5 in halves, two visits, until Tuesday.
    Standing: from 5 to 5.2. Labor 7 h of work, paid 7 / 0.8 = 8.75 h.
    """
    rows = yard()
    assert placed(rows) == [pytest.approx(one) for one in ((1, 0, 2), (2, 2, 5), (1, 5.2, 7.2))]
    base = rows["days"][0]
    assert (rows["plan"][0].hours / HOUR, base.work / HOUR) == pytest.approx((6.4, 7.2))
    assert (base.days, base.visits, base.finish) == (1.5, 2, day("2026-05-19"))
    assert (base.labor / HOUR, base.standing / HOUR) == pytest.approx((8.75, 0.2))
    assert base.promised == base.finish  # a chance of a half


def test_standing_time_is_paid_by_its_share(yard):
    """0.2 h of work are 0.25 h of the day; half of it at 20 an hour and the burden of 32 %: 0.125 x 26.4 = 3.30."""
    rows = yard(values={"terms": {"standing_paid": 0.5, "burden": 0.32}})
    assert rows["cost"][0].standing_wages == pytest.approx(3.30)
    assert rows["cost"][0].wages == pytest.approx(7 / 0.8 * 26.4 + 3.30)


def test_tasks_come_before_first_last_and_alongside(yard):
    """Of stated hours 0.8 are work. One person, one lane: first 1.25 x 0.8 = 1 h, then 2.5 x 0.8 = 2 h of washing the
    wall as its first step. At 1 the fence has two passes left and the wall two steps: the fence is first in Paint.
    Fence 1 to 3, dry at clock 3.75 + 4 = 7.75: hour 6.2. Wash 3 to 5, wall 5 to 8, fence 8 to 10, last 0.625 x 0.8 =
    0.5 h: 10.5. Alongside: 3.75 x 0.8 = 3 h more of labor, 13.5 in all, which is more than 10 + 0.5: labor before the
    last is 1 + 2 + 7 + 3 = 13, so 13.5.
    """
    tasks = """
tasks:
  - {task: Wash, system: Wall, hours: 2.5 h}
  - {task: Sign in, hours: 1.25 h}
  - {task: Walk round, hours: 0.625 h}
"""
    rows = yard(tasks)
    assert placed(rows) == [pytest.approx(one) for one in ((1, 1, 3), (2, 3, 5), (2, 5, 8), (1, 8, 10))]
    assert rows["days"][0].work / HOUR == pytest.approx(10.5)
    rows = yard(tasks + "  - {task: Look on, hours: 3.75 h}\n")
    assert rows["days"][0].work / HOUR == pytest.approx(13.5)


def test_hands_beside_the_gun_prepare_what_comes_next(yard):
    """Two people, a crew of one: a hand lane of one. Of stated hours 0.8 are work. Fence 2.5 x 0.8 = 2 h of washing by
    both: 1 h. Wall 3.75 x 0.8 = 3 h by one: until 4. The
    fence is coated from 1 to 3, dry at clock 3.75 + 4: 6.2; the wall from 4 to 7; the fence again 7 to 9.
    """
    tasks = """
tasks:
  - {task: Wash, system: Fence, hours: 2.5 h}
  - {task: Wash, system: Wall, hours: 3.75 h}
"""
    rows = yard(tasks, people="2")
    assert [row.ready / HOUR for row in rows["lanes"][:2]] == pytest.approx([1, 4])
    assert placed(rows) == [pytest.approx(one) for one in ((1, 1, 3), (2, 4, 7), (1, 7, 9))]
    assert rows["plan"][0].two == 1 and rows["plan"][0].steps == 3


def test_nobody_washes_and_coats_at_once(yard):
    """Both people wash the fence, 1.5 h of work each (3.75 h stated, of which 0.8 are work). So the wall, which has no
    tasks, cannot begin at 0; at 1.5 the fence has more left. Fence 1.5 to 3.5, dry at clock 4.375 + 4, after the 8 hours
    of the day: 6.4. Wall 3.5 to 6.5, fence 6.5 to 8.5.
    """
    rows = yard("tasks:\n  - {task: Wash, system: Fence, hours: 3.75 h}\n", people="2")
    assert placed(rows) == [pytest.approx(one) for one in ((1, 1.5, 3.5), (2, 3.5, 6.5), (1, 6.5, 8.5))]


def test_the_gun_begins_at_once_with_a_system_that_has_no_tasks(yard):
    """One of two washes the wall meanwhile, 3 h of work (3.75 h stated). Fence 0 to 2, wall 3 to 6, fence, dry at 5.2, 6 to 8."""
    rows = yard("tasks:\n  - {task: Wash, system: Wall, hours: 3.75 h}\n", people="2")
    assert placed(rows) == [pytest.approx(one) for one in ((1, 0, 2), (2, 3, 6), (1, 6, 8))]


@pytest.mark.parametrize(
    "exposure, months, lost",
    [
        ("open", {"lost_may": 0.2}, 0.2),
        ("sheltered", {"lost_may": 0.2}, 0.1),
        ("windy", {"lost_may": 0.2}, 0.3),
        ("indoors", {"lost_may": 0.2}, 0.0),
        ("windy", {"lost_may": 0.8}, 0.9),
        ("open", {"lost_may": 0.0, "lost_jun": 0.5}, 0.0),
    ],
)
def test_weather_takes_working_time_of_outdoor_steps_by_the_month(yard, exposure, months, lost):
    """Of May, when it begins; times 0 indoors, 1/2, 1, 3/2 where it is; at most nine tenths. The first pass takes 2 h."""
    rows = yard(exposure=exposure, values={"terms": months})
    assert placed(rows)[0][2] == pytest.approx(2 / (1 - lost))


def test_an_exposure_of_before_loses_the_same_in_any_month(yard):
    """`weather` blank: its days lost, a fifth. 2 / 0.8 = 2.5 h."""
    old = {"name": "indoors", "weather": None, "lost_days": 0.2}
    rows = yard(values={"exposures": old, "terms": {"lost_may": 0.9}})
    assert placed(rows)[0][2] == pytest.approx(2.5)


def test_a_rented_boom_is_paid_from_first_to_last_use_and_brought_and_fetched(yard):
    """On the wall alone: hours 2 to 5 of the first day, one day: 100 + 2 x 30. On the fence: two days: 260. Four days
    said on Job: 300 for the week, less than 4 x 100. Steps of one's own: 7 for each day of use.
    """
    cost = yard(wall="boom")["cost"][0]
    assert cost.access_rental == pytest.approx(100 + 60 + 2 * 7)  # the boom; steps on both days
    assert yard(fence="boom")["cost"][0].access_rental == pytest.approx(200 + 60 + 7)
    assert yard(fence="boom", values={"job": {"rental_days": 4.0}})["cost"][0].access_rental == pytest.approx(
        300 + 60 + 7
    )


def test_the_boom_of_an_alternate_is_paid_for_the_days_that_its_steps_add(yard):
    """Wall as alternate A: 3 h of the gun, a day of the boom, 160. The fence alone: 0 to 2 and 5.2 to 7.2, two days.
    With the wall the gun works 2 + 2 + 3 = 7 h, not longer than it waits for the fence to dry: 7.2 still. Without a boom
    both times; steps on both days.
    """
    rows = yard(wall="boom", alternate=", alternate: A")
    assert placed(rows) == [pytest.approx(one) for one in ((1, 0, 2), (1, 5.2, 7.2))]
    assert [row.work / HOUR for row in rows["days"][:2]] == pytest.approx([7.2, 7.2])
    assert [row.labor / HOUR for row in rows["days"][:2]] == pytest.approx([4 / 0.8, 7 / 0.8])
    assert [row.access_rental for row in rows["cost"][:2]] == pytest.approx([14, 14 + 160])


CONTENT = 3.141592653589793 / 4 * (0.5 * INCH) ** 2 * 100 * FOOT  # of the hose: pi / 4 d^2 times its length
FILL = (0.2 * GALLON + 0.25 * CONTENT) / 1.1  # heel and the quarter that is not won back, less a tenth of thinner


def test_each_change_of_color_is_a_load(yard):
    """Sprayed, each pass far shorter than its 24 hours of drying: red, white, and red again the next day: three loads,
    three cleanings, three fills. White was done on the first day, red begins on the second: no evening keeps a load.
    """
    tasks = "tasks:\n  - {task: Rinse pump}\n"
    rows = yard(tasks, method="spray", recoat="24 h")
    base, buys = rows["days"][0], {row.what: row for row in rows["purchases"] if row.live and row.scenario == 1}
    order = [row.system for row in rows["run"] if row.live]
    assert order == [1, 2, 1] and base.loads == 3
    assert buys["Yard red / Red"].line_fill == pytest.approx(2 * FILL)
    assert buys["Yard red / White"].line_fill == pytest.approx(FILL)
    assert base.clean_labor / HOUR == pytest.approx(3 * 0.5)  # of one person; nothing is flushed
    assert rows["cost"][0].task_material == pytest.approx(3 * 2)


def test_a_load_that_stays_overnight_is_flushed_in_the_evening(yard):
    """The fence alone, of a paint dry after 24 hours: its second pass is on the second day. One load, one cleaning of
    half an hour, one evening with more of the color to come: a quarter of an hour.
    """
    tasks = "tasks:\n  - {task: Rinse pump}\n"
    rows = yard(tasks, method="spray", recoat="24 h", alternate=", alternate: A")
    base = rows["days"][0]
    assert base.loads == 1 and base.clean_labor / HOUR == pytest.approx(0.5 + 0.25)


# ---- edges -------------------------------------------------------------------------------------------------------


def test_a_start_on_a_holiday_moves_on(yard):
    """25 May 2026, a Monday, is a holiday of the shipped catalogs: Tuesday and Wednesday. From a Saturday: Monday on."""
    rows = yard(values={"job": {"start": day("2026-05-25")}})
    assert [row.date for row in rows["work_days"][:2]] == [day("2026-05-26"), day("2026-05-27")]
    assert rows["days"][0].finish == day("2026-05-27")
    rows = yard(values={"job": {"start": day("2026-06-06")}})
    assert rows["days"][0].finish == day("2026-06-09")


def test_what_takes_no_time_is_done_on_its_first_day(yard):
    """Nothing is measured: from a Saturday, June 6th 2026, that is the Monday."""
    rows = yard(values={"job": {"start": day("2026-06-06")}}, measured=False)
    base = rows["days"][0]
    assert (base.days, base.finish, base.promised) == (0, day("2026-06-08"), day("2026-06-08"))


def test_a_first_day_with_a_time_is_that_day(yard):
    """As a cell may have it: Friday, June 5th, at eight is that Friday, and Monday follows it."""
    rows = yard(values={"job": {"start": day("2026-06-05") + 8 / 24}})
    assert [row.date for row in rows["work_days"][:2]] == [day("2026-06-05"), day("2026-06-08")]
    base = rows["days"][0]
    assert base.finish == day("2026-06-08") and base.promised == int(base.promised)


def test_a_job_without_a_first_day_has_days_and_no_dates(yard):
    """In the open, of the mean month: twelve months that lose 0.6 in all lose 0.05 each."""
    months = {f"lost_{month}": 0.05 for month in "jan feb mar apr may jun jul aug sep oct nov dec".split()}
    rows = yard(exposure="open", values={"job": {"start": None}, "terms": months | {"lost_jan": 0.1, "lost_dec": 0.0}})
    base = rows["days"][0]
    assert (base.days, base.visits, base.finish, base.promised) == (1.5, 2, None, None)
    assert placed(rows)[0][2] == pytest.approx(2 / 0.95)
    assert [row.date for row in rows["day_list"][:3]] == ["Day 1", "Day 2", None]
    assert rows["schedule"][0].headline == "2 working days, no first day yet"


@pytest.mark.parametrize(
    "more, values, fault, where",
    [
        # seven coats of nine passes are 63 steps
        (7, {}, "More passes and tasks than the schedule has rows for", "Paint"),
        # 5,000 ft by 20 ft at 200 ft2 an hour are 500 h a pass: 1,000 of them over 6.4 a day
        (0, {"takeoff": {"length": 5000 * FOOT}}, "More working days than the schedule lists", "Job"),
        # eight hours of a day, all lost
        (0, {"terms": {"unproductive": 8 * HOUR}}, "Terms: breaks and waiting leave no time of a working day", "Terms"),
        # eight hours of a day, all of them on the road: four there, four back
        (
            0,
            {"job": {"travel_time": 4 * HOUR}, "terms": {"travel_in_day": "yes"}},
            "Visits filled by their fixed work",
            "Tasks",
        ),
    ],
)
def test_what_cannot_be_scheduled_is_a_fault_in_words_and_there_is_no_price(yard, more, values, fault, where):
    coats = "".join(f"  - {{system: Fence, coating: Yard red, color: C{n}, coats: 9}}\n" for n in range(more))
    rows = yard(coats=coats, values=values)
    said = [row.finding for row in rows["check_lines"] if row.state == "to fix"]
    assert len(said) == 1 and said[0].startswith(fault) and rows["check_lines"][0].answer_place == where
    assert rows["price"][0].total is None and rows["schedule"][0].headline == NO_SCHEDULE


def test_days_beyond_those_told_in_words_are_said_to_be_left_out(yard):
    """1,300 ft by 20 ft at 200 ft2 an hour are 130 h a pass: with the wall's 3 h 263 h, 41.1 days of 6.4. 40 are told."""
    rows = yard(values={"takeoff": {"length": 1300 * FOOT}})
    headline = rows["schedule"][0].headline
    assert headline.startswith("42 working days: planned until ") and headline.endswith("; days up to 40 are listed")
    assert sum(row.date is not None for row in rows["day_list"]) == 40


def test_the_calendar_says_in_letters_and_words_what_is_done_on_which_day(yard):
    """Rolled: R and the number of the pass, then hours to their half. Fence 2 h and 6.4 - 5.2 = 1.2 of its second pass
    on Monday, the other 0.8 on Tuesday; running sums are rounded: 2 + 1.2 = 3.2 is 3 h, 4 less 3 is 1.
    """
    rows = yard(wall="boom")
    lines = [row for row in rows["calendar"] if row.name]
    assert [row.name for row in lines] == ["Weekday", "Date", "Fence", "Wall", "steps", "boom"]
    assert [row.day[:3] for row in lines] == [
        ("Mon", "Tue", ""), ("May 18", "May 19", ""), ("R2 3", "R2 1", ""), ("R1 3", "", ""),
        ("on", "on", ""), ("on", "", ""),
    ]  # fmt: skip
    days = [(row.date, row.crew, row.work) for row in rows["day_list"] if row.date]
    fence = "Fence: coat 1, Red to coat 2, Red"
    assert days == [
        ("Mon May 18", "1 person, gun 6 h", f"{fence}; Wall: coat 1, White"),
        ("Tue May 19", "1 person, gun 1 h", "Fence: coat 2, Red"),
    ]
    assert rows["schedule"][0].headline == "2 working days: planned until 19 May 2026, promised by 19 May 2026"


def test_days_with_tasks_alongside_alone_are_told_as_such(yard):
    """Seven hours of coats and 20 stated hours of looking on, 16 of work: 23 h, which one person has done on the fourth
    day of 6.4 h. The gun is done after .6 h of the second.
    """
    rows = yard("tasks:\n  - {task: Look on, hours: 20 h}\n")
    days = [(row.date, row.crew, row.work) for row in rows["day_list"] if row.date]
    assert days[0] == ("Mon May 18", "1 person, gun 6 h", "Fence: coat 1, Red to coat 2, Red; Wall: coat 1, White")
    assert days[1:] == [
        ("Tue May 19", "1 person, gun 1 h", "Fence: coat 2, Red; other tasks"),
        ("Wed May 20", "1 person, gun 0 h", "other tasks"),
        ("Thu May 21", "1 person, gun 0 h", "other tasks"),
    ]


def test_a_step_that_takes_no_time_is_flushed_like_any(yard):
    """A line of no height: its second pass ends as it begins, on the border of two days. One evening with more to come,
    not one less.
    """
    tasks = "tasks:\n  - {task: Rinse pump}\n"
    rows = yard(tasks, {"takeoff": {"height": 0.0}}, method="spray", recoat="24 h", alternate=", alternate: A")
    assert [row.evenings for row in rows["run"] if row.live] == [0, 1]
    assert rows["days"][0].clean_labor / HOUR == pytest.approx(0.5 + 0.25)
