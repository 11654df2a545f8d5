"""The terms: how this contractor works and charges, one figure each, with a job's own figure before it."""

from typing import Any

from builder.records.catalogs import MONEY_HOUR
from builder.records.fields import Check, Field, Kind
from builder.records.rules import Between, Judge, Name, Word


# fmt: off
def _share(key: str, title: str, path: str, help: str, high: float = 0.95) -> Field:
    return Field(key, title, "share", Between(0, high), True, help, path)


def _spread(driver: str, title: str, help: str) -> tuple[Field, Field]:
    """P10 and P90 of a driver of cost, as factors of what is estimated."""
    return (Field(f"{driver}_low", f"{title}, P10 (1 job in 10 comes in lower)", "number", Between(0.1, 1.5), True,
                  help, f"risk.{driver}.low"),
            Field(f"{driver}_high", f"{title}, P90 (1 job in 10 comes in higher)", "number", Between(0.5, 10), True,
                  "At least the P10.", f"risk.{driver}.high"))


def _standard(opening: str) -> tuple[Field, Field]:
    """Width and height of the window or door that Takeoff and Rooms count."""
    return (Field(f"{opening}_width", f"Standard {opening}, width", "length", Between(0, 100, "ft"),
                  help="Of those that Takeoff and Rooms count, frame to frame.", path=f"takeoff.{opening}.width"),
            Field(f"{opening}_height", f"Standard {opening}, height", "length", Between(0, 100, "ft"),
                  help="Of those that Takeoff and Rooms count.", path=f"takeoff.{opening}.height"))


def _month(month: str) -> Field:
    """Working days that a month's weather takes from work in the open."""
    return Field(f"lost_{month[:3].lower()}", f"Lost to weather in {month}", "share", Between(0, 0.9),
                 help="Share of working days in the open that end without work. Your own logs of past years tell it. "
                      "Leave blank for none.", path=f"weather.lost.{month[:3].lower()}")


def _burden(key: str, title: str, help: str) -> Field:
    """One line of what an hour costs beside its wage."""
    return Field(f"burden_{key}", title, "share", Between(0, 1), path=f"labor.burdens.{key}",
                 help=f"Share of the wage. {help} Leave blank for none.")


def _upside_down(row: Any, judge: Judge) -> bool:
    return any(getattr(row, f"{driver}_low") > getattr(row, f"{driver}_high") for driver in DRIVERS)


DRIVERS = ("area", "material", "time", "wear")
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")
BURDENS = (("social", "Social insurance", "The employer's part; your payroll shows it."),
           ("unemployment", "Unemployment insurance", "On your state's yearly notice."),
           ("compensation", "Workers' compensation", "The rate of your class of work, on the insurer's bill."),
           ("liability", "Liability insurance", "Where your insurer charges it by the payroll."),
           ("health", "Health insurance", "What you pay for it over a year, as a share of the wages of that year."),
           ("retirement", "Retirement", "What you add to a plan."),
           ("other", "Other burden", "Clothing, training, tools that wages pay for."))

FIRM = (
    Field("demo", "Figures of the demo", rule=Word("answer"),
          help="yes: prices, wages, rates are invented, and the bid says that it is no offer. no: they are your own."),
    Field("firm", "Your firm", help="As it stands on the bid.", path="firm.name"),
    Field("contact", "Address and telephone", help="Below the name.", path="firm.contact"),
    Field("license", "License and insurance", help="Numbers that a bid must show where you work.", path="firm.license"),
    Field("validity", "Valid for", "days", Between(1, 365, whole=True), True, path="price.validity",
          help="From the date of the estimate."),
    Field("price_is", "The price is", rule=Word("price_is"), path="price.price_is",
          help="A fixed price binds; an estimate may change with the work. Leave blank for a fixed price."),
    Field("show_parts", "Parts on the bid", rule=Word("answer"), path="price.show_parts",
          help="yes: the bid says the price of each part. Leave blank for no."),
    Field("cancel_days", "Days to cancel", "count", Between(0, 365, whole=True), path="law.cancel_days",
          help="Business days in which a customer may cancel after signing, where you work. Check your local law. "
               "Leave blank to say none."),
    Field("bid_lines", "Lines that the bid must bear", path="law.lines",
          help="Words that the law where you work asks for on a bid. Check your local law. Leave blank for none."),
)
LABOR = (
    Field("burden", "Burden on wages", "share", Between(0, 3), path="labor.burden",
          help="Insurance, taxes, holidays, on top of the wage. Leave blank to add up the lines below."),
    *(_burden(*line) for line in BURDENS),
    Field("leave", "Paid leave", "time", Between(0, 1000, "h"), path="labor.leave",
          help="Hours a year that one person is paid and does not work: holidays, vacation, sick days, of 2,080. Leave "
               "blank for none."),
    Field("day_hours", "Working hours of a day", "time", Between(1, 24, "h"), True, path="labor.day_hours",
          help="From arriving to leaving, breaks left out."),
    Field("overtime_after", "Plain wage up to, a week", "time", Between(1, 168, "h"), path="labor.overtime.after",
          help="Five working days that are longer together have overtime; travel does not count. Check your local law. "
               "Leave blank for none."),
    Field("overtime_share", "Overtime, on top of the wage", "share", Between(0, 3), path="labor.overtime.share",
          help="Of the hours beyond that: 50 % is time and a half. Leave blank for none."),
    Field("unproductive", "Lost of a working day", "time", Between(0, 12, "h"), path="labor.unproductive",
          help="Of one person: breaks, waiting, moving about; not set-up, cleaning or travel, which have their own "
               "lines. Watch three days and write it down. Leave blank for none."),
    Field("day_step", "Days are counted in steps of", "days", Between(0.05, 5), True, "0.5: half days.",
          "labor.day_step"),
    Field("walk", "Walking past what is not painted", "share", Between(0, 1), path="labor.walk",
          help="Of spots: handling of the area between them, as a share of the handling of a whole face. Leave blank "
               "for none."),
    Field("standing_paid", "Standing time that is paid", "share", Between(0, 1), path="labor.standing_paid",
          help="Part of the hours in which people are there and idle: a coat dries, or others do the work. Leave "
               "blank for none."),
)
TRAVEL = (
    Field("travel_rate", "Cost of a vehicle", "money_distance", Between(0, 1e3, "/mi"), path="travel.rate",
          help="Fuel, wear and insurance by distance: the tax office's mileage rate of the year, or your books. Leave "
               "blank for none."),
    Field("travel_lump", "Travel, once a job", "money", Between(0, 1e7), path="travel.lump",
          help="Tolls, ferries, parking permits. Leave blank for none."),
    Field("travel_in_day", "Travel is within the working day", rule=Word("answer"), path="travel.in_day",
          help="yes: the hours of travel come off those of the day. no: they are added to it. Leave blank for no."),
    Field("trip_time", "Trip to the store, time", "time", Between(0, 24, "h"), path="travel.trip_time",
          help="Of one person, until the missing nozzle is in the gun. Write down your next five trips and take their "
               "mean. Leave blank for none."),
    Field("trip_cost", "Trip to the store, money", "money", Between(0, 1e7), path="travel.trip_cost",
          help="What it costs beside wages: the distance there and back times the cost of a vehicle, parking. Leave "
               "blank for none."),
)
PRICE = (
    Field("currency", "Currency", rule=Name(unique=False), required=True, help="The catalogs' own, as three letters.",
          path="price.currency"),
    Field("overhead_basis", "Overhead is a share of", rule=Word("overhead_basis"), required=True,
          path="price.overhead_basis",
          help="How your books spread rent, vans and office over jobs."),
    _share("overhead", "Overhead, share", "price.overhead", "Of direct cost or of sales, as the basis says."),
    Field("overhead_hour", "Overhead per labor hour", "money_hour", MONEY_HOUR, True, "For basis labor hours.",
          "price.overhead_hour"),
    _share("margin", "Margin", "price.margin", "Profit as a share of the price before tax."),
    Field("minimum", "Minimum charge", "money", Between(0, 1e7), True, path="price.minimum",
          help="No job leaves for less, before tax."),
    Field("rounding", "Price is rounded up to", "money", Between(0.01, 1e5), True, path="price.rounding",
          help="A price is rounded up to whole steps of this."),
    _share("sales_tax", "Sales tax", "price.sales_tax", "On the price."),
    _share("deposit", "Deposit", "price.deposit", "Share of the total, at signing."),
    Field("deposit_cap", "Deposit allowed up to", "share", Between(0, 1), path="price.deposit_cap",
          help="Share of the total, where a law or your insurer limits it. Leave blank for none."),
    Field("deposit_cap_amount", "Deposit allowed up to, money", "money", Between(0, 1e7),
          path="price.deposit_cap_amount",
          help="Where a law limits the amount; the lesser of this and the share counts. Leave blank for none."),
    Field("stages", "Payments after the deposit", "count", Between(1, 12, whole=True), True, path="price.stages",
          help="In equal parts; the last one is what remains."),
    Field("money_step", "Smallest amount that is paid", "number", Between(0.001, 1e3), path="price.money_step",
          help="In the job's currency. Tax and payments are rounded to it. Leave blank for a cent, or what it has."),
    Field("price_age_max", "Prices may be this old", "days", Between(1, 3650, whole=True), True,
          path="price.price_age_max",
          help="Checks asks about older prices."),
)
BUYING = (
    _share("purchase_tax", "Tax on purchases", "buying.purchase_tax", "On the base below; 0 if you recover it."),
    Field("purchase_tax_base", "Purchase tax is on", rule=Word("tax_base"), required=True,
          path="buying.purchase_tax_base",
          help="What you pay tax on when you buy."),
    _share("sundries", "Sundries", "buying.sundries",
           "Brushes, rollers, blades, rags, what no task counts: share of coating and thinner."),
    Field("touch_up", "Touch-up kept", "volume", Between(0, 10, "gal"), True, path="buying.touch_up",
          help="Of each coating and color, not of primers and fillers."),
    Field("spares", "Spare nozzles per gun", "number", Between(0, 10), True, path="buying.spares",
          help="Usable nozzles to carry beside the one in the gun."),
    Field("recovered", "Recovered from the hose", "share", Between(0, 1), path="buying.recovered",
          help="Part of what the hose holds that is pumped back into the pail at a change of color. Leave blank for "
               "none."),
)
TAKEOFF = (
    Field("opening_none", "Openings not deducted up to", "area", Between(0, 100, "m2"), path="takeoff.opening_none",
          help="Door or window sizes that are not taken off at all. Leave blank for none."),
    Field("opening_both", "Openings deducted from one face up to", "area", Between(0, 100, "m2"),
          path="takeoff.opening_both", help="Larger ones from every face. Leave blank for none."),
    *_standard("window"), *_standard("door"),
    Field("base_height", "Height of a base", "length", Between(0, 10, "ft"), path="takeoff.base_height",
          help="The board at the foot of a wall, for Rooms."),
    Field("ground_reach", "Reached from the ground", "length", Between(0, 50, "ft"), path="takeoff.ground_reach",
          help="Checks asks about a line that is higher and names no access. Leave blank to have none asked about."),
)
RISK = (
    *_spread("area", "Measured area", "Of the takeoff: what was missed or measured twice."),
    *_spread("material", "Material", "Film laid and loss, compared with the estimate."),
    *_spread("time", "Time", "Hours taken, compared with the estimate."),
    *_spread("wear", "Wear", "Nozzles used up, compared with the estimate."),
    Field("percentile", "Cost is covered in this share of jobs", "share", Between(0.5, 0.99), True,
          "The contingency makes up the difference.", "risk.percentile"),
    Field("promise", "Chance of the promised day", "share", Between(0.5, 0.99), path="schedule.promise",
          help="The finish that is promised is kept in this share of jobs. Leave blank for 50 %."),
)
WEATHER = (
    *map(_month, MONTHS),
    Field("dew_slope", "Magnus coefficient", "number", Between(10, 25), True, "WMO-No. 8: 17.62.", "weather.dew_slope"),
    Field("dew_offset", "Magnus temperature", "number", Between(200, 280), True,
          "WMO-No. 8: 243.12, in degrees Celsius.", "weather.dew_offset"),
    Field("dew_margin", "Surface above the dew point by", "warmth", Between(0, 20, "K"), True,
          "3 C, 5 F: FHWA-RD-98-084, MIL-HDBK-1110 9.6.6.", "weather.dew_margin"),
)
SPRAY = (
    Field("cd", "Discharge coefficient", "number", Between(0.3, 1), True,
          "0.80 gives the water flows the trade quotes at 2000 psi; a sharp-edged plate would be 0.62.", "spray.cd"),
    _share("overlap", "Overlap", "spray.overlap", "Of one pass on the one before."),
    Field("worn_orifice", "Worn orifice over new", "number", Between(1.01, 2), True,
          "17/15: the flow has grown by 28 %.", "spray.worn_orifice"),
    Field("worn_fan", "Worn fan over new", "number", Between(0.3, 0.99), True, "A fan a quarter narrower is worn out.",
          "spray.worn_fan"),
    Field("excess", "Extra paint when worn", "share", Between(0, 1), True, "Net of the larger flow.", "spray.excess"),
    Field("slow", "Slower hand when worn", "share", Between(0, 1), True, "Net of the larger flow.", "spray.slow"),
    Field("change_time", "Time to change a nozzle", "time", Between(0, 2, "h"), True, path="spray.change_time",
          help="Relieve the pressure, lock the trigger, swap, test: what one change takes."),
    Field("test_pressure", "Kit flow test, pressure", "pressure", Between(200, 7000, "psi"), True,
          "The flow of a used nozzle is measured with water at this pressure.", "spray.test_pressure"),
    _share("kit_preference", "Preference for the kit", "choice.kit_preference",
           "A nozzle you have is picked if it costs up to this much more."),
    Field("smooth_span", "Span of 'smoothest'", "number", Between(1, 3), True, "Times the smallest orifice that fits.",
          "choice.smooth_span"),
    Field("tie_step", "Tie step", "money_area", Between(0, 1, "/ft2"), True,
          "Added per row, so that equal costs fall to the earlier size.", "choice.tie_step"),
    Field("slack", "Slack of comparisons", "number", Between(0, 0.01), True, path="choice.slack",
          help="Two figures closer than this share count as equal, in every program alike."),
    _share("loss_plausible", "Highest plausible loss", "choice.loss_plausible", "A size that loses more does not fit."),
    _share("loss_limit", "Loss that cannot be right", "choice.loss_limit",
           "Nothing is worked out at this loss or more.", 0.99),
    Field("reynolds_max", "Highest Reynolds number", "number", Between(500, 1e5), True,
          "Above it the flow in the hose is not laminar, and loses more pressure than shown.", "choice.reynolds_max"),
    Field("round_slack", "Slack before rounding up", "number", Between(0, 0.01), True, path="buying.round_slack",
          help="A need this little over a whole pack or day does not add another one."),
    Field("tolerance", "Tolerance of cross-sums", "number", Between(0, 0.01), True, path="checks.tolerance",
          help="Sums taken two ways may differ by this share."),
)
RUNNING = (
    Field("lead_days", "Days to get more paint", "days", Between(0, 100), path="week.lead_days",
          help="Working days from the order to the pail on site. Leave blank for 1."),
    Field("draw_volume", "Marked volume of a pail", "volume", Between(0.05, 10, "gal"), path="week.draw_volume",
          help="That a worn nozzle's flow is timed with (Log). Leave blank if you do not time it."),
    Field("extra_hour", "Extra work, an hour", "money_hour", MONEY_HOUR, path="week.extra_hour",
          help="What you charge for an hour of agreed extra work, tax included. Leave blank to agree on amounts."),
    Field("extra_area", "Extra work, by area", "money_area", Between(0, 1e3, "/ft2"), path="week.extra_area",
          help="What you charge for agreed extra area, tax included. Leave blank to agree on amounts."),
    Field("bill_by", "Bills ask for", rule=Word("bill_by"), path="week.bill_by",
          help="stages: the payments of the bid, each once its part of the work is done. work done: what is done by "
               "then. Leave blank for stages."),
    Field("retained", "Held back until the end", "share", Between(0, 0.5), path="week.retained",
          help="Share of each bill that the customer keeps until all is done. Leave blank for none."),
    Field("not_ahead", "Never billed ahead of the work", rule=Word("answer"), path="law.not_ahead",
          help="yes: after the deposit no bill asks for more than the work done, as some laws want it. Check your "
               "local law. Leave blank for no."),
)
# What a contractor fills in stands first, what engineers measure last. The words stand above each group but the first.
GROUPS = (
    ("Who bids", FIRM),
    ("What an hour and a day are", LABOR),
    ("The way to the job", TRAVEL),
    ("From cost to price", PRICE),
    ("While the job runs", RUNNING),
    ("What is bought", BUYING),
    ("How surfaces are measured", TAKEOFF),
    ("How sure the estimate is", RISK),
    ("Weather", WEATHER),
    ("How nozzles spray, wear and are chosen", SPRAY),
)
SECTIONS = tuple((fields[0].key, words) for words, fields in GROUPS[1:])
TERMS = Kind("terms", upright=True, fields=tuple(one for _, fields in GROUPS for one in fields), checks=(
    Check("spreads", "a low figure of the risks (P10) is above its high one (P90)",
          "+".join(f"({{row.{driver}_low}}>{{row.{driver}_high}})" for driver in DRIVERS), _upside_down),
    Check("no_time", "breaks and waiting leave no time of a working day",
          "{row.unproductive}>={row.day_hours}*(1-{row.slack})",
          lambda row, judge: (row.unproductive or 0.0) >= row.day_hours * (1 - row.slack))))
