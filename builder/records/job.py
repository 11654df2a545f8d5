"""The job kinds: what the contractor and the partner type on the input sheets."""

from builder.records.catalogs import MONEY, MONEY_HOUR
from builder.records.fields import Check, Field, Kind
from builder.records.rules import Between, Day, Name, OneOf, Word
from builder.values import same

# fmt: off
SHARE = Between(0, 0.95)
LINES = 2_000                  # rows of takeoff that a book may have, to be read back

JOB = Kind("job", upright=True, fields=(
    Field("name", "Job", help="As it stands on the bid."), Field("client", "Client", help="Who asks for the price."),
    Field("site", "Site", help="Where the work is."),
    Field("date", "Date of the estimate", "date", Day(), help="Prices are judged for age on this day."),
    Field("start", "First working day", "date", Day(), help="Leave blank for no finish date."),
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
    Field("crew", "Crew", rule=OneOf("crews"), required=True, help="Who sprays; a system may name another."),
    Field("people", "People on the job", "count", Between(1, 50, whole=True), True,
          help="All who are paid on the job, helpers too."),
    Field("pump", "Pump", rule=OneOf("pumps"), required=True, help="What feeds the guns; a system may name another."),
    Field("hose_length", "Hose", "length", Between(5, 500, "ft"), help="Leave blank to use the pump's own."),
    Field("exposure", "Exposure", rule=OneOf("exposures"), required=True,
          help="Wind raises the loss, weather takes days."),
    Field("opening_none", "Openings not deducted up to", "area", Between(0, 100, "m2"), True,
          help="Door or window sizes that are not taken off at all."),
    Field("opening_both", "Openings deducted from one face up to", "area", Between(0, 100, "m2"), True,
          "Larger ones from every face."),
    Field("voc_limit", "VOC limit", "voc", Between(0, 1000, "g/L"), help="Leave blank for none."),
    Field("wage", "Wage for this job", "money_hour", MONEY_HOUR,
          help="One person, before burden. Leave blank to use the crew's."),
    Field("overhead", "Overhead for this job, share", "share", SHARE, help="Leave blank to use Terms."),
    Field("contingency", "Contingency for this job", "share", SHARE,
          help="Share of cost. Leave blank to use what Range gives."),
    Field("margin", "Margin for this job", "share", SHARE, help="Leave blank to use Terms."),
    Field("minimum", "Minimum charge for this job", "money", MONEY, help="Leave blank to use Terms."),
    Field("sales_tax", "Sales tax for this job", "share", SHARE, help="Leave blank to use Terms."),
    Field("rounding", "Rounding for this job", "money", Between(0.01, 1e5),
          help="The price is rounded up to whole steps of this. Leave blank to use Terms."),
    Field("exclusions", "Not included", help="Printed on the bid."), Field("notes", "Notes", help="For yourself.")))

SYSTEMS = Kind("systems", named="name", capacity=10, fields=(
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

COATS = Kind("coats", capacity=16, fields=(
    Field("tag", "Tag", help="Your own mark for the coat."),
    Field("system", "System", rule=OneOf("systems"), required=True, help="What it goes on."),
    Field("coating", "Coating", rule=OneOf("coatings"), required=True, help="What goes on."),
    Field("color", "Color", rule=Name(unique=False), help="Each coating and color is bought apart."),
    Field("coats", "Coats", "count", Between(1, 9, whole=True), True, help="How often it goes on."),
    Field("face", "First coat goes on", rule=Word("face"), help="Bare or sealed. Leave blank for sealed."),
    Field("share", "Share", "share", Between(0.001, 1),
          help="Part of the area, for spot priming. Leave blank for all."),
    Field("dry_film", "Dry film of this coat", "film", Between(0.2, 60, "mil"),
          help="Of one coat: 1.7 mil (43 um) is usual for wall paint. Leave blank to use the coating's."),
    Field("thinning", "Thinning of this coat", "share", Between(0, 0.5), help="Leave blank to use the coating's."),
    Field("pressure", "Pressure of this coat", "pressure", Between(200, 7000, "psi"),
          help="At the gun. Leave blank to use the coating's."),
    Field("nozzle", "Nozzle of this coat", rule=OneOf("nozzles"), help="Leave blank to use the pick."),
    Field("method", "Method of this coat", rule=Word("method"), help="Leave blank to use the system's."),
    Field("owner_supplied", "Owner supplies", rule=Word("answer"), help="yes: the coating costs nothing.")))

TAKEOFF = Kind("takeoff", named="tag", capacity=100, fields=(
    Field("tag", "Tag", rule=Name(), help="Needed where openings name this line."),
    Field("place", "Place", help="Side, floor or room."), Field("item", "Item", help="What it is."),
    Field("system", "System", rule=OneOf("systems"), required=True, help="What goes on it."),
    Field("shape", "Shape", rule=Word("shape"), help="Leave blank for rectangle."),
    Field("profile", "Profile", rule=OneOf("profiles"), help="Leave blank for flat."),
    Field("length", "Length", "length", Between(0, 5000, "ft"), True,
          "Of a cylinder: its length. Arithmetic such as =12+14+9 is fine."),
    Field("height", "Height", "length", Between(0, 500, "ft"), True,
          "Of a cylinder: its diameter. Of a strip: its girth."),
    Field("count", "Count", "count", Between(0, 10000), help="Leave blank for 1."),
    Field("sides", "Sides", "count", Between(1, 2, whole=True), help="Leave blank for 1."),
    Field("access", "Access", rule=OneOf("access"), help="Ladder, lift or scaffold. Leave blank for the ground."),
    Field("note", "Note", help="For yourself.")))

OPENINGS = Kind("openings", capacity=40, fields=(
    Field("line", "Line", rule=OneOf("takeoff"), required=True, help="The tag of a takeoff line."),
    Field("name", "Opening", help="Door, window, louver."),
    Field("width", "Width", "length", Between(0, 500, "ft"), True, help="Of one, frame to frame."),
    Field("height", "Height", "length", Between(0, 500, "ft"), True, help="Of one, sill to head."),
    Field("count", "Count", "count", Between(0, 10000), help="Leave blank for 1.")))

KIT = Kind("kit", named="tag", capacity=12, fields=(
    Field("tag", "Tag", rule=Name(), required=True, help="Scratch it into the nozzle."),
    Field("nozzle", "Nozzle", rule=OneOf("nozzles"), required=True, help="Family and size, as 'standard 515'."),
    Field("used", "Used", "volume", Between(0, 5000, "gal"),
          help="Through it so far, counted in a coating of abrasion 1."),
    Field("fan", "Fan measured", "width", Between(0.5, 60, "in"), help="At 12 inches from the face."),
    Field("flow", "Flow measured", "flow", Between(0.01, 20, "gal/min"),
          help="With water at the test pressure on Terms.")))

TASKS = Kind("tasks", capacity=24, fields=(
    Field("task", "Task", rule=OneOf("rates"), required=True, help="From the sheet Task rates."),
    Field("system", "System", rule=OneOf("systems"), help="Leave blank for the whole job."),
    Field("area", "Area of this task", "area", Between(0, 1e6, "ft2"),
          help="For basis area. Leave blank to use the measured area."),
    Field("length", "Length", "length", Between(0, 1e6, "ft"),
          help="For basis length. For basis perimeter, leave blank to use that of the openings."),
    Field("count", "Count", "count", Between(0, 1e6), help="For basis count."),
    Field("hours", "Hours of this task", "time", Between(0, 10000, "h"),
          help="Of each person, instead of the rate. Needed for basis hours."),
    Field("people", "People", "count", Between(1, 20, whole=True), help="Leave blank to use the rate's.")), checks=(
    Check("amount_missing", "enter the length, count or hours that its basis needs",
          "CHOOSE(MATCH({rate.basis},{words.basis},0),1,1,ISNUMBER({row.length})*1,ISNUMBER({row.count})*1,0,1,1)"
          "+ISNUMBER({row.hours})=0",
          lambda row, judge: row.hours is None and {"length": row.length, "count": row.count, "hours": None}.get(
              same(judge.find("rates", row.task).basis), 1) is None),
    Check("whole_job", "a task by visit or by color is for the whole job: leave System blank",
          "INDEX({words.basis_whole_job},MATCH({rate.basis},{words.basis},0))*({row.system}<>\"\")",
          lambda row,
          judge: row.system is not None and same(judge.find("rates", row.task).basis) in ("visit", "color"))))

WEATHER = Kind("weather", upright=True, fields=(
    Field("air", "Air temperature", "temperature", Between(-20, 55, "degC"),
          help="Where the work is, again about every four hours."),
    Field("humidity", "Relative humidity", "share", Between(0.01, 1), help="Beside the surface."),
    Field("surface", "Surface temperature", "temperature", Between(-20, 80, "degC"),
          help="Of the face itself; sun and night sky move it away from the air's.")))
