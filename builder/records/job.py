"""The job kinds: what the contractor and the partner type on the input sheets."""

from typing import Any

from builder.records.catalogs import MONEY, MONEY_HOUR
from builder.records.fields import Check, Field, Kind
from builder.records.rules import Between, Day, Judge, Length, Name, OneOf, Usual, Word
from builder.values import same

# fmt: off
SHARE = Between(0, 0.95)
# What an amount is, and what a basis counts: 1 an area, 2 a length, 3 a number, 0 nothing that a takeoff gives.
AMOUNTS = {"measured area": 1.0, "coated area": 1.0, "opening perimeter": 2.0, "line length": 2.0, "openings": 3.0}
BASES = {"area": 1.0, "perimeter": 2.0, "length": 2.0, "count": 3.0, "hours": 0.0, "visit": 0.0, "color": 0.0,
         "disturbed": 0.0}
WHOLE_JOB = ("visit", "color", "disturbed")


def _idle(row: Any, basis: object) -> bool:
    """Whether a task states an amount that its basis does not count by."""
    counts = {"area": ("area", "disturbed"), "length": ("perimeter", "length"), "count": ("count",)}
    return any(getattr(row, key) is not None and basis not in bases for key, bases in counts.items())


def _stated(judge: Judge, *keys: str) -> bool:
    """Whether Terms state these figures."""
    return all(getattr(terms, key) is not None for terms in judge.entered("terms") for key in keys)


def standard_sizes(*openings: str) -> Check:
    """That Terms say how large a standard opening is where some are counted."""
    sizes = {one: (f"{one}_width", f"{one}_height") for one in openings}
    return Check(
        "sizes",
        f"enter the size of a standard {' and a standard '.join(openings)} on Terms",
        "+".join(f'({{row.{one}s}}<>"")*(({{terms.{wide}}}="")+({{terms.{high}}}="")>0)'
                 for one, (wide, high) in sizes.items()),
        lambda row, judge: any(
            getattr(row, f"{one}s") is not None and not _stated(judge, *keys) for one, keys in sizes.items()))


JOB = Kind("job", upright=True, fields=(
    Field("name", "Job", help="As it stands on the bid."), Field("client", "Client", help="Who asks for the price."),
    Field("site", "Site", help="Where the work is."),
    Field("date", "Date of the estimate", "date", Day(), help="Prices are judged for age on this day."),
    Field("start", "First working day", "date", Day(), help="Leave blank for no finish date."),
    Field("crew", "Crew", rule=Usual("crews"),
          help="Who sprays. Leave blank for the first on Lists."),
    Field("people", "People on the job", "count", Between(1, 50, whole=True),
          help="All who are paid. Leave blank for the crew's own."),
    Field("pump", "Pump", rule=Usual("pumps"),
          help="What feeds the guns. Leave blank for the first on Pumps."),
    Field("exposure", "Exposure", rule=Usual("exposures"),
          help="Wind and weather. Leave blank for the first on Lists."),
    Field("travel_time", "Travel, one way", "time", Between(0, 24, "h"),
          help="From your yard to the site, for each visit. 0 if there is none; left blank, Checks asks."),
    Field("distance", "Distance, one way", "distance", Between(0, 2000, "mi"),
          help="From your yard to the site. 0 if there is none; left blank, Checks asks."),
    Field("vehicles", "Vehicles", "count", Between(0, 20, whole=True),
          help="That drive to the site each visit. Leave blank for 1."),
    Field("built", "Year built", "year", Between(1500, 2100, whole=True),
          help="Before 1978 old lead paint is likely: follow the lead-safe rules."),
    Field("building", "Kind of building", rule=Word("building"),
          help="Who lives or learns there decides which lead rules apply."),
    Field("disturbed_inside", "Old paint disturbed in a room", "area", Between(0, 1e6, "ft2"),
          help="Sanded, scraped or cut out, in the room with most."),
    Field("disturbed_outside", "Old paint disturbed outside", "area", Between(0, 1e6, "ft2"),
          help="Sanded, scraped or cut out."),
    Field("windows_replaced", "Windows replaced", rule=Word("answer"),
          help="Replacing windows disturbs old paint however little."),
    Field("lead_test", "Test for lead", rule=Word("lead_test"),
          help="Of all old paint that is disturbed, by somebody licensed for it. Leave blank for not done."),
    Field("exclusions", "Not included", help="Printed on the bid."), Field("notes", "Notes", help="For yourself."),
    Field("accepted", "Accepted as it is",
          help="Questions of Checks that may stand, by their short names, with commas: minimum, old prices."),
    Field("hose_length", "Hose", "length", Between(5, 500, "ft"), help="Leave blank to use the pump's own."),
    Field("rental_days", "Days of every rental", "days", Between(0, 1000, whole=True),
          help="Working days from delivery to return. Leave blank to use what the schedule gives."),
    Field("price_is", "The price of this job is", rule=Word("price_is"),
          help="A fixed price binds; an estimate may change with the work. Leave blank to use Terms."),
    Field("wage", "Wage for this job", "money_hour", MONEY_HOUR,
          help="One person, before burden. Leave blank to use the crew's."),
    Field("overhead", "Overhead for this job, share", "share", SHARE, help="Leave blank to use Terms."),
    Field("contingency", "Contingency for this job", "share", SHARE,
          help="Share of cost. Leave blank for what the risk asks (Price)."),
    Field("margin", "Margin for this job", "share", SHARE, help="Leave blank to use Terms."),
    Field("minimum", "Minimum charge for this job", "money", MONEY, help="Leave blank to use Terms."),
    Field("sales_tax", "Sales tax for this job", "share", SHARE, help="Leave blank to use Terms."),
    Field("rounding", "Rounding for this job", "money", Between(0.01, 1e5),
          help="The price is rounded up to whole steps of this. Leave blank to use Terms."),
    Field("voc_limit", "VOC limit", "voc", Between(0, 1000, "g/L"), help="Leave blank for none."),
    Field("opening_none", "Openings not deducted up to", "area", Between(0, 100, "m2"),
          help="Door or window sizes that are not taken off at all. Leave blank to use Terms."),
    Field("opening_both", "Openings deducted from one face up to", "area", Between(0, 100, "m2"),
          help="Larger ones from every face. Leave blank to use Terms."),
    Field("signed_on", "Signed on", "date", Day(), help="When the customer signed. 'wetfilm sign' fills it in."),
    Field("signed_price", "Price as signed", "money", Between(0, 1e9),
          help="Tax included, of the base. What is typed elsewhere does not move it any more."),
    Field("signed_days", "Days as signed", "days", Between(0, 1000), help="Working days of the signed plan."),
    Field("as_of", "Progress as of", "date", Day(), help="Leave blank for the last date of the log."),
    Field("closed_on", "Closed on", "date", Day(),
          help="When all was done and paid. 'wetfilm learn' reads closed jobs.")))

# The field from which on they stand under a heading, and the heading.
SECTIONS = (("hose_length", "Only where this job differs"), ("signed_on", "Once it is signed"))

SYSTEMS = Kind("systems", named="name", capacity=10, most=40, fields=(
    Field("name", "System", rule=Name(), required=True, help="One surface with its coats, as 'Cladding'."),
    Field("surface", "Surface", rule=OneOf("surfaces"), required=True,
          help="What it is sprayed on: sets loss, fans and hand speed."),
    Field("goal", "Goal", rule=Word("goal"), help="Leave blank for least cost."),
    Field("method", "Method", rule=Word("method"), help="Leave blank for spray."),
    Field("finish", "Finish", rule=Word("finish"), help="Leave blank to use the surface's."),
    Field("clear_width", "Width to paint in one go", "width", Between(0.5, 4000, "in"),
          help="Leave blank to use the surface's."),
    Field("solid", "Painted share of the face", "share", Between(0.05, 1), help="Leave blank to use the surface's."),
    Field("pump", "Pump", rule=OneOf("pumps"), help="Leave blank to use the job's."),
    Field("crew", "Crew", rule=OneOf("crews"), help="Leave blank to use the job's."),
    Field("exposure", "Exposure", rule=OneOf("exposures"), help="Leave blank to use the job's."),
    Field("alternate", "Alternate", rule=Word("alternate"),
          help="Leave blank for the base price. A, B or C is priced apart.")))

COATS = Kind("coats", capacity=16, most=60, fields=(
    Field("system", "System", rule=OneOf("systems"), required=True, help="What it goes on."),
    Field("coating", "Coating", rule=OneOf("coatings"), required=True, help="What goes on."),
    Field("color", "Color", rule=Name(unique=False), help="Each coating and color is bought apart."),
    Field("coats", "Coats", "count", Between(1, 9, whole=True), help="How often it goes on. Leave blank for 1."),
    Field("face", "First coat goes on", rule=Word("face"), help="Bare or sealed. Leave blank for sealed."),
    Field("share", "Share", "share", Between(0.001, 1),
          help="Part of the area, for spot priming. Leave blank for all."),
    Field("tag", "Tag", help="Your own mark for the coat, by which a log names it."),
    Field("dry_film", "Dry film of this coat", "film", Between(0.2, 60, "mil"),
          help="Of one coat: 1.7 mil (43 um) is usual for wall paint. Leave blank to use the coating's."),
    Field("thinning", "Thinning of this coat", "share", Between(0, 0.5), help="Leave blank to use the coating's."),
    Field("pressure", "Pressure of this coat", "pressure", Between(200, 7000, "psi"),
          help="At the gun. Leave blank to use the coating's."),
    Field("nozzle", "Nozzle of this coat", rule=OneOf("nozzles"), help="Leave blank to use the pick."),
    Field("method", "Method of this coat", rule=Word("method"), help="Leave blank to use the system's."),
    Field("owner_supplied", "Owner supplies", rule=Word("answer"), help="yes: the coating costs nothing.")), checks=(
    Check("tag_twice", "give each coat a tag of its own", '({row.tag}<>"")*(SUMPRODUCT(--({coats.tag}={row.tag}))>1)',
          lambda row, judge: row.tag is not None
          and sum(same(one.tag) == same(row.tag) for one in judge.entered("coats") if one.tag is not None) > 1),))

TAKEOFF = Kind("takeoff", named="tag", capacity=80, spare=20, most=2000, fields=(
    Field("system", "System", rule=OneOf("systems"), required=True, help="What goes on it."),
    Field("place", "Place", help="Side, floor or room."), Field("item", "Item", help="What it is."),
    Field("length", "Length", "length", Length(0, 5000, "ft"), True,
          "Of a cylinder: its length. Arithmetic such as =12+14+9 is fine."),
    Field("height", "Height", "length", Length(0, 500, "ft"), True,
          "Of a cylinder: its diameter. Of a strip: its girth."),
    Field("count", "Count", "count", Between(0, 10000), help="Leave blank for 1."),
    Field("windows", "Windows", "count", Between(0, 10000, whole=True),
          help="All of the line that have the standard size on Terms; others stand on Openings."),
    Field("doors", "Doors", "count", Between(0, 10000, whole=True),
          help="All of the line that have the standard size on Terms; others stand on Openings."),
    Field("shape", "Shape", rule=Word("shape"), help="Leave blank for rectangle."),
    Field("profile", "Profile", rule=OneOf("profiles"),
          help="Flat, lapped, ribbed: the shape of the face. Leave blank to use the surface's."),
    Field("sides", "Sides", "count", Between(1, 2, whole=True), help="Leave blank for 1."),
    Field("access", "Access", rule=OneOf("access"), help="Ladder, lift or scaffold. Leave blank for the ground."),
    Field("base", "Foot above the ground", "length", Between(0, 500, "ft"),
          help="How high above the ground the line begins: 10 ft for an upper story. Leave blank for 0."),
    Field("part", "Part", rule=Name(unique=False),
          help="The part of the price that it belongs to, such as 'Garage'. Leave blank for 'Other'."),
    Field("tag", "Tag", rule=Name(), help="Needed where openings name this line."),
    Field("note", "Note", help="For yourself.")), checks=(standard_sizes("window", "door"),))

ROOMS = Kind("rooms", capacity=12, fields=(
    Field("name", "Room", help="What it is called, as 'Bedroom 2'."),
    Field("length", "Length", "length", Length(0, 500, "ft"), True, "Of the floor, wall to wall."),
    Field("width", "Width", "length", Length(0, 500, "ft"), True, "Of the floor, wall to wall."),
    Field("height", "Height", "length", Length(0, 100, "ft"), True, "Floor to ceiling."),
    Field("count", "Count", "count", Between(0, 10000, whole=True), help="Rooms just like this. Leave blank for 1."),
    Field("doors", "Doors", "count", Between(0, 1000, whole=True),
          help="In one such room, of the standard size on Terms."),
    Field("windows", "Windows", "count", Between(0, 1000, whole=True),
          help="In one such room, of the standard size on Terms."),
    Field("walls", "Walls", rule=OneOf("systems"), help="What goes on them. Leave blank if they are not painted."),
    Field("ceiling", "Ceiling", rule=OneOf("systems"), help="What goes on it. Leave blank if it is not painted."),
    Field("base", "Base", rule=OneOf("systems"),
          help="What goes on it. Leave blank if it is not painted. Its height stands on Terms."),
    Field("part", "Part", rule=Name(unique=False),
          help="The part of the price that it belongs to, such as 'Upstairs'. Leave blank for 'Other'.")), checks=(
    Check("unpainted", "name the system of its walls, its ceiling or its base",
          '({row.walls}="")*({row.ceiling}="")*({row.base}="")',
          lambda row, judge: row.walls is None and row.ceiling is None and row.base is None),
    standard_sizes("window", "door"),
    Check("base_height", "enter the height of a base on Terms", '({row.base}<>"")*({terms.base_height}="")',
          lambda row, judge: row.base is not None and not _stated(judge, "base_height"))))

OPENINGS = Kind("openings", capacity=40, most=500, fields=(
    Field("line", "Line", rule=OneOf("takeoff"), required=True, help="The tag of a takeoff line."),
    Field("name", "Opening", help="Door, window, louver."),
    Field("width", "Width", "length", Length(0, 500, "ft"), True, help="Of one, frame to frame."),
    Field("height", "Height", "length", Length(0, 500, "ft"), True, help="Of one, sill to head."),
    Field("count", "Count", "count", Between(0, 10000), help="Leave blank for 1.")))

KIT = Kind("kit", named="tag", capacity=12, fields=(
    Field("tag", "Tag", rule=Name(), required=True, help="Scratch it into the nozzle."),
    Field("nozzle", "Nozzle", rule=OneOf("nozzles"), required=True, help="Family and size, as 'standard 515'."),
    Field("used", "Used", "volume", Between(0, 5000, "gal"),
          help="Through it so far, counted in a coating of abrasion 1."),
    Field("fan", "Fan measured", "width", Between(0.5, 60, "in"), help="At 12 inches from the face."),
    Field("flow", "Flow measured", "flow", Between(0.01, 20, "gal/min"),
          help="With water at the test pressure on Terms.")))

GUARDS = Kind("guards", named="guard", capacity=6, fields=(
    Field("guard", "Guard", rule=Name(), required=True,
          help="A guard on the van, one for each gun, by the word that Nozzle families use."),
    Field("note", "Note", help="For yourself.")))

TASKS = Kind("tasks", capacity=24, most=60, fields=(
    Field("task", "Task", rule=OneOf("rates"), required=True, help="From the sheet Task rates."),
    Field("system", "System", rule=OneOf("systems"), help="Leave blank for the whole job."),
    Field("amount_from", "Amount from", rule=Word("amount_from"),
          help="What the takeoff gives, of the system or of the whole job. Leave blank for what its basis says."),
    Field("share", "Share of it", "share", Between(0, 1), help="Part of that amount. Leave blank for all."),
    Field("area", "Area of this task", "area", Between(0, 1e6, "ft2"),
          help="For basis area or disturbed. Leave blank to take it from the takeoff, or from Job."),
    Field("length", "Length", "length", Between(0, 1e6, "ft"),
          help="For basis perimeter and length. Leave blank to take it from the takeoff."),
    Field("count", "Count", "count", Between(0, 1e6),
          help="For basis count. Leave blank to take it from the takeoff."),
    Field("hours", "Hours of this task", "time", Between(0, 10000, "h"),
          help="Of each person, instead of the rate. Needed for basis hours."),
    Field("people", "People", "count", Between(1, 20, whole=True), help="Leave blank to use the rate's.")), checks=(
    Check("amount_missing", "enter the length, count or hours its basis asks, or Amount from",
          "CHOOSE(MATCH({rate.basis},{words.basis},0),1,1,ISNUMBER({row.length})*1,ISNUMBER({row.count})*1,0,1,1,1)"
          '+ISNUMBER({row.hours})+({row.amount_from}<>"")=0',
          lambda row, judge: row.hours is None and row.amount_from is None and {
              "length": row.length, "count": row.count, "hours": None}.get(
              same(judge.find("rates", row.task).basis), 1) is None),
    Check("amount_unlike", "take the amount from an area, a length or a number, as its basis counts",
          'IF({row.amount_from}="",0,INDEX({words.amount_is},MATCH({row.amount_from},{words.amount_from},0))'
          "<>INDEX({words.basis_is},MATCH({rate.basis},{words.basis},0)))",
          lambda row, judge: row.amount_from is not None
          and AMOUNTS[same(row.amount_from)] != BASES[same(judge.find("rates", row.task).basis)]),
    Check("amount_idle", "clear the area, length or count: its basis does not count by it",
          "(({row.area}<>\"\")*(INDEX({words.basis_is},MATCH({rate.basis},{words.basis},0))<>1)*({rate.basis}<>\"disturbed\")"
          '+({row.length}<>"")*(INDEX({words.basis_is},MATCH({rate.basis},{words.basis},0))<>2)'
          '+({row.count}<>"")*(INDEX({words.basis_is},MATCH({rate.basis},{words.basis},0))<>1+2)>0)*1',
          lambda row, judge: _idle(row, same(judge.find("rates", row.task).basis))),
    Check("whole_job", "a task by visit, color or old paint disturbed is for the whole job: leave System blank",
          "INDEX({words.basis_whole_job},MATCH({rate.basis},{words.basis},0))*({row.system}<>\"\")",
          lambda row,
          judge: row.system is not None and same(judge.find("rates", row.task).basis) in WHOLE_JOB)))

WEATHER = Kind("weather", upright=True, fields=(
    Field("air", "Air temperature", "temperature", Between(-20, 55, "degC"),
          help="Where the work is, again about every four hours."),
    Field("humidity", "Relative humidity", "share", Between(0.01, 1), help="Beside the surface."),
    Field("surface", "Surface temperature", "temperature", Between(-20, 80, "degC"),
          help="Of the face itself; sun and night sky move it away from the air's.")))
