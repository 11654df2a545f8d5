"""The catalog kinds: what the office keeps in YAML and the workbook shows on its catalog sheets."""

from typing import Any

from builder.records.fields import Check, Field, Kind
from builder.records.rules import Between, Day, Judge, Name, OneOf, SizeNumber, Word
from builder.values import same

# fmt: off
MONEY = Between(0, 1e7)
MONEY_HOUR, MONEY_VOLUME = Between(0, 1e5, "/h"), Between(0, 1e5, "/gal")
WHOLE = 1e-6  # how far from whole a multiple of packs may be
SOURCE = Field("source", "Source", help="Where the figures come from.")
PRICED = Field("priced_on", "Priced on", "date", Day(), help="The day the prices were true.")


def rentals(where: str) -> tuple[Field, ...]:
    """What it costs to have a machine on a site: rented by the day or for a number of days, or one's own."""
    return (Field("rental", "Rental", "money_day", MONEY, help=f"For one working day. Leave blank if {where}."),
            Field("rental_5", "Rental for 5 days", "money", MONEY,
                  help="For five working days, a week. Leave blank if it is rented by the day alone."),
            Field("rental_20", "Rental for 20 days", "money", MONEY,
                  help="For twenty working days, four weeks. Leave blank if it is not offered."),
            Field("delivery", "Delivery", "money", MONEY,
                  help="One trip; it is paid twice, to bring it and to fetch it. Leave blank for none."),
            Field("owned_day", "Own, cost a day", "money_day", MONEY,
                  help="Of one that is yours, for a day of use. Leave blank where your overhead pays for it."))


def packs(number: int) -> tuple[Field, Field]:
    """The two fields of one pack."""
    place = f"packs.{number - 1}"
    return (Field(f"pack{number}_volume", f"Pack {number}", "volume", Between(0.01, 500, "gal"), number == 1,
                  "Packs from small to large, each a whole multiple of the one before.", f"{place}.volume"),
            Field(f"pack{number}_price", f"Price of pack {number}", "money", MONEY, number == 1,
                  "What you pay for one, before tax.", f"{place}.pack_price"))


def _pack_check(number: int) -> Check:
    """Pack 2 or 3: a size with its price, and a whole multiple of the pack before."""
    size, price, below = f"pack{number}_volume", f"pack{number}_price", f"pack{number - 1}_volume"
    times = f"{{row.{size}}}/{{row.{below}}}"

    def wrong(row: Any, judge: Judge) -> bool:
        larger, smaller = getattr(row, size), getattr(row, below)
        if larger is None or getattr(row, price) is None or smaller is None:
            return not (larger is None and getattr(row, price) is None)
        return larger / smaller < 1.5 or abs(larger / smaller - int(larger / smaller + 0.5)) > WHOLE

    return Check(f"pack{number}",
                 f"enter both size and price of pack {number}, a whole multiple of pack {number - 1}; of sizes that "
                 "are not, such as 4 and 15, keep the one you buy",
                 f"IF(ISNUMBER({{row.{size}}})+ISNUMBER({{row.{price}}})=0,0,"
                 f"IFERROR((ISNUMBER({{row.{size}}})*ISNUMBER({{row.{price}}})=0)+({times}<1+1/2)"
                 f"+(ABS({times}-INT({times}+1/2))>{{constants.whole}}),1))", wrong)


COATINGS = Kind("coatings", named="name", capacity=24, fields=(
    Field("name", "Coating", rule=Name(), required=True, help="As you would order it; coats name it by this."),
    Field("kind", "Kind", rule=Word("kind"), required=True, help="What it is for."),
    Field("where", "Meant for", rule=Word("where"),
          help="inside, outside or both, as the data sheet says. Leave blank for both."),
    Field("base", "Base", rule=Word("base"), required=True, help="What thins and cleans it."),
    Field("volume_solids", "Volume solids", "share", Between(0.05, 1),
          help="On the data sheet; what stays on the wall of what leaves the can."),
    Field("dry_film", "Dry film", "film", Between(0.2, 60, "mil"),
          help="Of one coat: 1.7 mil (43 um) is usual for wall paint; it is on the data sheet."),
    Field("spread", "Spread", "spread", Between(10, 1000, "ft2/gal"),
          help="For stains, sealers and fillers that are bought by spread, instead of solids and dry film."),
    Field("spread_is", "The spread is", rule=Word("spread_is"),
          help="practical: loss is in it already, as on most labels. Leave blank for theoretical."),
    Field("density", "Density", "density", Between(0.6, 2.5, "kg/L"), True,
          help="Weight of a volume; on the data sheet."),
    Field("viscosity", "Viscosity", "viscosity", Between(1, 20000, "cP"), True,
          "As it moves through a hose, at about 500 1/s."),
    Field("thinning", "Thinning", "share", Between(0, 0.5),
          help="Thinner over paint, by volume. Leave blank for none."),
    Field("thinning_max", "Maximum thinning", "share", Between(0, 0.5),
          help="What the data sheet allows. Leave blank for none."),
    Field("thinner_density", "Thinner density", "density", Between(0.6, 2.5, "kg/L"), help="Leave blank for water."),
    Field("thinner_price", "Thinner price", "money_volume", MONEY_VOLUME, help="Leave blank if it costs nothing."),
    Field("thinner_voc", "VOC of the thinner", "voc", Between(0, 1000, "g/L"),
          help="Leave blank for water, which does not count."),
    Field("wet_max", "Maximum wet film", "film", Between(0.5, 200, "mil"),
          help="More runs or sags. Leave blank for no limit."),
    Field("pressure", "Gun pressure", "pressure", Between(200, 7000, "psi"), True, "At the gun while spraying."),
    Field("orifice_min", "Smallest orifice", "orifice", Between(5, 60, "thou"), True, path="orifice.min",
          help="Smaller ones clog or starve it; on the data sheet."),
    Field("orifice_max", "Largest orifice", "orifice", Between(5, 60, "thou"), True, path="orifice.max",
          help="Larger ones lay on too much; on the data sheet."),
    Field("finish", "Finish", rule=Word("finish"), required=True,
          help="The coarsest nozzle finish this coating allows."),
    Field("abrasion", "Abrasion", "number", Between(0.1, 20), True,
          "How fast it wears a nozzle; 1 is a premium exterior acrylic."),
    Field("voc", "VOC less water", "voc", Between(0, 1000, "g/L"), help="As regulations limit it; on the data sheet."),
    Field("surface_temperature_min", "Lowest surface temperature", "temperature", Between(-20, 60, "degC"),
          path="surface_temperature.min",
          help="Of the surface while coating; on the data sheet."),
    Field("surface_temperature_max", "Highest surface temperature", "temperature", Between(-20, 80, "degC"),
          path="surface_temperature.max",
          help="Of the surface while coating; on the data sheet."),
    Field("air_humidity_max", "Highest humidity", "share", Between(0.1, 1),
          help="Of the air while coating; on the data sheet."),
    Field("recoat", "Recoat after", "time", Between(0, 720, "h"), True,
          help="From one coat to the next; on the data sheet, at the day's temperature."),
    *packs(1), *packs(2), *packs(3), PRICED, SOURCE), checks=(
    Check("film_or_spread", "enter volume solids and dry film, or spread alone",
          "ISNUMBER({row.volume_solids})+ISNUMBER({row.dry_film})+2*ISNUMBER({row.spread})<>2",
          lambda row,
          judge: (row.volume_solids is not None) + (row.dry_film is not None) + 2 * (row.spread is not None) != 2),
    Check("orifices", "the smallest orifice is above the largest", "{row.orifice_min}>{row.orifice_max}",
          lambda row, judge: row.orifice_min > row.orifice_max),
    Check("surface_temperatures", "the lowest surface temperature is above the highest",
          'IF(({row.surface_temperature_min}="")+({row.surface_temperature_max}="")>0,0,'
          "{row.surface_temperature_min}>{row.surface_temperature_max})",
          lambda row, judge: None not in (row.surface_temperature_min, row.surface_temperature_max)
          and row.surface_temperature_min > row.surface_temperature_max),
    _pack_check(2), _pack_check(3)))

FAMILIES = Kind("families", named="name", capacity=6, most=30, fields=(
    Field("name", "Family", rule=Name(), required=True, help="A plain word of your own."),
    Field("loss_factor", "Loss factor", "number", Between(0.1, 3), True, "Times the loss of a standard nozzle."),
    Field("pressure_factor", "Pressure factor", "number", Between(0.2, 2), True,
          "Times the coating's pressure that this family needs."),
    Field("finish", "Finish", rule=Word("finish"), required=True, help="The finest finish it leaves."),
    Field("life", "Life", "volume", Between(0.5, 5000, "gal"), True,
          "Until worn out, at the orifice and pressure beside it, in a coating of abrasion 1."),
    Field("life_orifice", "Life stated at orifice", "orifice", Between(5, 60, "thou"), True,
          help="The size that the life was stated for."),
    Field("life_pressure", "Life stated at pressure", "pressure", Between(200, 9000, "psi"), True,
          help="The pressure that the life was stated for."),
    Field("pressure_max", "Rated to", "pressure", Between(200, 9000, "psi"), True,
          help="Stamped on the nozzle and its guard; never above it."),
    Field("guard", "Guard", rule=Name(unique=False),
          help="The safety guard that its nozzles sit in, by a plain word. Leave blank if none is asked for."),
    Field("guard_price", "Price of the guard", "money", Between(0.01, 1e7),
          help="What you pay for one, before tax. Leave blank if it is never bought with a job."),
    SOURCE))

NOZZLES = Kind("nozzles", capacity=50, named="name", fields=(
    Field("family", "Family", rule=OneOf("families"), required=True, help="From the sheet Nozzle families."),
    Field("size", "Size", rule=SizeNumber(), required=True,
          help="515: half the fan is 5 inches at 12 inches, the orifice 15 thou."),
    Field("nozzle_price", "Price", "money", Between(0.01, 1e7), True, help="What you pay for one, before tax."),
    Field("stocked", "Stocked nearby", rule=Word("answer"),
          help="no: the nearest store must order it. Leave blank for yes."),
    PRICED), checks=(
    Check("twice", "this size of this family is listed twice",
          "SUMPRODUCT(--({nozzles.family}={row.family}),--({nozzles.size}={row.size}))>1",
          lambda row, judge: sum(other.size == row.size and same(other.family) == same(row.family)
                                 for other in judge.entered("nozzles")) > 1),))

PUMPS = Kind("pumps", named="name", capacity=8, most=30, fields=(
    Field("name", "Pump", rule=Name(), required=True, help="As it is marked in your van."),
    Field("flow_max", "Feeds up to", "flow", Between(0.05, 20, "gal/min"), True, "At the pressure it is used at."),
    Field("pressure_max", "Pump rated to", "pressure", Between(200, 9000, "psi"), True, help="On its plate."),
    Field("guns_max", "Guns", "count", Between(1, 6, whole=True), True, help="That it can feed at once."),
    *rentals("it is your own"),
    Field("heel", "Left in pail and pump", "volume", Between(0, 10, "gal"), True,
          "Not recovered at a change of color."),
    Field("flush", "Time to flush", "time", Between(0, 24, "h"),
          help="At the end of a day, with more of the same color to come. Leave blank for none."),
    Field("hoses", "Hoses", "count", Between(1, 6, whole=True),
          help="That carry paint side by side, each to a whip or to several. Leave blank for 1."),
    Field("hose_length", "Hose", "length", Between(5, 500, "ft"), True, path="hose.length",
          help="From pump to whip or gun."),
    Field("hose_bore", "Hose bore", "width", Between(0.1, 2, "in"), True, path="hose.bore",
          help="Inside width; printed on the hose."),
    Field("hose_pressure_max", "Hose rated to", "pressure", Between(200, 9000, "psi"), True, path="hose.pressure_max",
          help="Printed on the hose."),
    Field("whip_length", "Whip", "length", Between(1, 50, "ft"), path="whip.length",
          help="The thin end of the hose. Leave blank for none."),
    Field("whip_bore", "Whip bore", "width", Between(0.1, 2, "in"), path="whip.bore", help="Inside width."),
    Field("whip_pressure_max", "Whip rated to", "pressure", Between(200, 9000, "psi"), path="whip.pressure_max",
          help="Printed on the whip."),
    SOURCE), checks=(
    Check("whip", "enter length, bore and rating of the whip, or none of them",
          "(ISNUMBER({row.whip_length})<>ISNUMBER({row.whip_bore}))"
          "+(ISNUMBER({row.whip_bore})<>ISNUMBER({row.whip_pressure_max}))",
          lambda row,
          judge: ((row.whip_length is None) + (row.whip_bore is None) + (row.whip_pressure_max is None)) % 3 > 0),))

SURFACES = Kind("surfaces", named="name", capacity=14, fields=(
    Field("name", "Surface", rule=Name(), required=True, help="What you call such a face; systems name it by this."),
    Field("profile", "Profile", rule=OneOf("profiles"),
          help="Of a takeoff line that names none. Say Flat where it is flat; leave blank to be asked for each line."),
    Field("loss", "Loss", "share", Between(0, 0.9), True, "Overspray and bounce in still air, with a standard nozzle."),
    Field("hand_loss", "Loss by hand", "share", Between(0, 0.5), True, help="Left in tray, roller and brush."),
    Field("clear_width", "Width to paint in one go", "width", Between(0.5, 4000, "in"), True,
          "Usual unbroken run between corners and openings, not the width of a board."),
    Field("solid", "Painted share of the face", "share", Between(0.05, 1), True,
          "100 %; less for railings, where paint flies between the bars."),
    Field("uptake", "Uptake when bare", "number", Between(1, 3), True,
          "First coat on the bare face takes this many times the wet film."),
    Field("fan_min", "Narrowest fan", "width", Between(1, 60, "in"), True, path="fan.min",
          help="Narrower ones take too many passes."),
    Field("fan_max", "Widest fan", "width", Between(1, 60, "in"), True, path="fan.max",
          help="Wider ones spray past the face."),
    Field("gun_speed_min", "Slowest hand", "speed", Between(0.05, 10, "ft/s"), True, path="gun_speed.min",
          help="Slower and the hand cannot keep even."),
    Field("gun_speed_max", "Fastest hand", "speed", Between(0.05, 10, "ft/s"), True, path="gun_speed.max",
          help="Faster and the hand cannot keep even."),
    Field("handling", "Handling", "handling", Between(0, 600, "s/ft2"), True,
          "Ladders, shields, hose and walking: time per area beside the trigger."),
    Field("roll_rate", "Rolling rate", "rate", Between(5, 2000, "ft2/h"),
          help="One person. Leave blank if it is never rolled."),
    Field("brush_rate", "Brushing rate", "rate", Between(5, 2000, "ft2/h"),
          help="One person. Leave blank if it is never brushed."),
    Field("finish", "Finish", rule=Word("finish"), required=True, help="What people expect to see here."),
    SOURCE), checks=(
    Check("fans", "the narrowest fan is above the widest", "{row.fan_min}>{row.fan_max}", lambda row,
          judge: row.fan_min > row.fan_max),
    Check("speeds", "the slowest hand is above the fastest", "{row.gun_speed_min}>{row.gun_speed_max}",
          lambda row, judge: row.gun_speed_min > row.gun_speed_max)))

PROFILES = Kind("profiles", named="name", capacity=30, fields=(
    Field("name", "Profile", rule=Name(), required=True, help="The shape of the face, as the standard names it."),
    Field("coefficient", "Coefficient", "number", Between(0.1, 5), True, "Measured area over flat area, each face."),
    Field("paint_coefficient", "Paint coefficient", "number", Between(0.01, 5),
          help="Painted area over flat area. Leave blank if it is the same."),
    Field("all_over", "All over", rule=Word("answer"), help="yes: one flat area counts for both faces."),
    Field("standard", "Standard", help="Where the coefficient is printed."), SOURCE))

RATES = Kind("rates", named="name", capacity=36, fields=(
    Field("name", "Task", rule=Name(), required=True, help="What is done; tasks name it by this."),
    Field("basis", "Basis", rule=Word("basis"), required=True, help="What the rate counts."),
    Field("area_rate", "Rate by area", "rate", Between(1, 1e5, "ft2/h"),
          help="One person; for basis area or disturbed."),
    Field("length_rate", "Rate by length", "length_rate", Between(0.5, 1e5, "ft/h"),
          help="One person; for basis perimeter or length."),
    Field("count_rate", "Rate by count", "count_rate", Between(0.01, 1e4, "/h"), help="One person; for basis count."),
    Field("hours_each", "Time each", "time", Between(0, 100, "h"), help="Of each person; for basis visit or color."),
    Field("people", "People", "count", Between(1, 20, whole=True),
          help="Working at once: they share the time of a rate; hours of each are paid to each. Leave blank for 1."),
    Field("area_material", "Material by area", "money_area", Between(0, 1e4, "/ft2"),
          help="Tape, film, cleaner for a unit of area."),
    Field("length_material", "Material by length", "money_length", Between(0, 1e4, "/ft"),
          help="Tape and film for a unit of length."),
    Field("each_material", "Material each", "money", MONEY, help="For basis count, visit or color."),
    Field("disturbs", "Disturbs old paint", rule=Word("answer"),
          help="yes: it scrapes, sands or cuts into what is there. Leave blank for no."),
    Field("access", "Slower up high", rule=Word("answer"),
          help="yes: done from the ladder or lift of its lines, and slower by their factor, but for a typed count. "
               "Leave blank for no."),
    Field("when", "When", rule=Word("when"),
          help="A task of no system comes first, last, or alongside the others. Leave blank for first."),
    Field("named", "Named on the bid", rule=Word("answer"),
          help="no: the customer does not read of it. Leave blank for yes."),
    SOURCE), checks=(
    Check("rate_missing", "enter the rate that its basis needs",
          "CHOOSE(MATCH({row.basis},{words.basis},0),ISNUMBER({row.area_rate})*1,ISNUMBER({row.length_rate})*1,"
          "ISNUMBER({row.length_rate})*1,"
          "ISNUMBER({row.count_rate})*1,1,ISNUMBER({row.hours_each})*1,ISNUMBER({row.hours_each})*1,"
          "ISNUMBER({row.area_rate})*1)=0",
          lambda row, judge: {"area": row.area_rate, "perimeter": row.length_rate, "length": row.length_rate,
                              "count": row.count_rate,
                              "hours": 1, "visit": row.hours_each, "color": row.hours_each,
                              "disturbed": row.area_rate}[same(row.basis)] is None),))

CREWS = Kind("crews", named="name", capacity=6, most=30, fields=(
    Field("name", "Crew", rule=Name(), required=True, help="Jobs and systems name it by this."),
    Field("guns", "Guns at once", "count", Between(1, 6, whole=True), True, help="Spraying at once."),
    Field("rollers", "Rollers", "count", Between(0, 6, whole=True), True, "People who back-roll behind a gun."),
    Field("tenders", "Tenders", "count", Between(0, 6, whole=True), True, "People who move hose and shields."),
    Field("flow_max", "Handles up to", "flow", Between(0.05, 5, "gal/min"), True, "A learner is kept to a small flow."),
    Field("gun_speed_factor", "Hand speed factor", "number", Between(0.3, 2), True,
          help="Times the fastest hand of the surface; 1 is a steady crew."),
    Field("handling_factor", "Handling factor", "number", Between(0.3, 3), True,
          help="Times the surface's handling; 1 is a steady crew."),
    Field("wage", "Wage", "money_hour", MONEY_HOUR, True, "One person, before burden."),
    SOURCE))

EXPOSURES = Kind("exposures", named="name", capacity=6, most=30, fields=(
    Field("name", "Exposure", rule=Name(), required=True, help="Jobs and systems name it by this."),
    Field("factor", "Loss factor", "number", Between(0.5, 3), True, help="Times the loss of the surface in still air."),
    Field("weather", "Share of the weather that counts", "number", Between(0, 5),
          help="Times the share of days that the month loses, on Terms: 0 indoors, 1 in the open. Leave blank to use "
               "the days lost beside it."),
    Field("lost_days", "Days lost to weather", "share", Between(0, 0.9),
          help="Part of the days that weather takes in any month. Leave blank for none, or to go by the month."),
    Field("outdoors", "Outdoors", rule=Word("answer"), help="no: under a roof and between walls. Leave blank for yes."),
    SOURCE))

ACCESS = Kind("access", named="name", capacity=6, most=30, fields=(
    Field("name", "Access", rule=Name(), required=True, help="Takeoff lines name it by this."),
    Field("factor", "Work factor", "number", Between(0.5, 5), True,
          help="Times the measured area: how much slower the work is up there."),
    *rentals("it is your own, or there is none"),
    Field("height_limit", "Reaches up to", "length", Between(1, 500, "ft"), True,
          help="Checks asks about a line that is higher."), SOURCE))

HOLIDAYS = Kind("holidays", capacity=20, fields=(
    Field("date", "Date", "date", Day(), True, help="A day on which nobody works."),
    Field("name", "Holiday", help="What the day is called.")))
