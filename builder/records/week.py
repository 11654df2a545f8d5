"""What is typed while a job runs: the plan and the contract as signed, the log, agreed changes, bills."""

from builder.records.fields import Check, Field, Kind
from builder.records.rules import Between, Day, Name, Offered, OneOf, Word

# fmt: off
ALTERNATE = Field("alternate", "Alternate", rule=Word("alternate"),
                  help="Counts once a row of Changes names this alternate. Leave blank for the base.")

CHANGES = Kind("changes", capacity=12, fields=(
    Field("date", "Date", "date", Day(), True, help="On which it was agreed."),
    Field("what", "What is changed", required=True, help="In words that both sides understand, in writing."),
    Field("alternate", "Alternate taken", rule=Word("alternate"),
          help="A, B or C, at its price in the contract. Leave blank for other work."),
    Field("amount", "Amount", "money", Between(-1e7, 1e7),
          help="As agreed, tax included; less than 0 for work that is left out. Counts before area and hours."),
    Field("area", "Area", "area", Between(0, 1e6, "ft2"), help="At the price of extra area on Terms."),
    Field("hours", "Hours", "time", Between(0, 10000, "h"),
          help="Of all people together, at the price of an extra hour on Terms."),
    Field("agreed", "Agreed by", help="Who said yes for the customer.")), checks=(
    Check("unpriced", "enter an alternate, an amount, an area or hours",
          '({row.alternate}="")*({row.amount}="")*({row.area}="")*({row.hours}="")',
          lambda row, judge: row.alternate is None and row.amount is None and row.area is None and row.hours is None),
    Check("area_price", "enter the price of extra area on Terms, or an amount",
          '({row.area}<>"")*({row.amount}="")*({terms.extra_area}="")',
          lambda row, judge: row.area is not None and row.amount is None
          and judge.entered("terms")[0].extra_area is None),
    Check("hour_price", "enter the price of an extra hour on Terms, or an amount",
          '({row.hours}<>"")*({row.amount}="")*({terms.extra_hour}="")',
          lambda row, judge: row.hours is not None and row.amount is None
          and judge.entered("terms")[0].extra_hour is None)))

BILLS = Kind("bills", capacity=8, fields=(
    Field("date", "Date", "date", Day(), True,
          help="Of the bill; the first row is that of the deposit if there is one."),
    Field("done", "Done so far", "share", Between(0, 1),
          help="Part of the work. Leave blank for what the log says on that day (Progress)."),
    Field("paid", "Paid", "money", Between(0, 1e7), help="What came in on this bill. Leave blank while nothing has."),
    Field("note", "Note", help="For yourself.")))

CONTRACT = Kind("contract", capacity=2, spare=0, fields=(
    Field("what", "Part or payment", required=True, help="As the bid said it on the day it was signed."),
    ALTERNATE,
    Field("price", "Price", "money", Between(-1e7, 1e9), help="Of a part of the work."),
    Field("payment", "Payment", "money", Between(0, 1e9), help="The deposit, then each payment, in their order.")))

SIGNED = Kind("signed", named="tag", capacity=2, spare=0, fields=(
    Field("tag", "Tag", rule=Name(), required=True, help="By which the log names it. Keep it as it is."),
    Field("what", "Coat or task", help="In words."),
    Field("coating", "Coating", rule=Name(unique=False), help="Of a coat. Blank for a task."),
    Field("color", "Color", rule=Name(unique=False), help="Of a coat."),
    ALTERNATE,
    Field("area", "Area", "area", Between(0, 1e9, "ft2"), help="Of all passes of the coat. Blank for a task."),
    Field("hours", "Hours", "time", Between(0, 1e6, "h"), True, help="That are paid, of all people."),
    Field("gallons", "Paint needed", "volume", Between(0, 1e6, "gal"), help="Of a coat."),
    Field("bought", "Paint bought", "volume", Between(0, 1e6, "gal"), help="Its part of the packs."),
    Field("cost", "Cost", "money", Between(0, 1e9),
          help="In itself: paint, nozzles, wages, material. Travel, machines, tax and overhead stand in no row.")))

LOG = Kind("log", capacity=60, spare=20, most=2000, awaits="signed", fields=(
    Field("date", "Date", "date", Day(), True, help="One row a day and coat or task."),
    Field("tag", "Coat or task", rule=Offered("signed"), required=True,
          help="Its tag in the signed plan, or what stands beside it there. Other words stand for work that was not "
               "planned; waiting, breaks, lost time tell what a day loses."),
    Field("people", "People", "count", Between(1, 50, whole=True), help="Leave blank for the people on the job."),
    Field("hours", "Hours of each", "time", Between(0, 24, "h"), help="That are paid, travel left out."),
    Field("gallons", "Paint used", "volume", Between(0, 10000, "gal"),
          help="From the pail; packs beside it are added."),
    Field("packs", "Packs used", "number", Between(0, 10000), help="Of the coating's largest pack; parts count too."),
    Field("area", "Area done", "area", Between(0, 1e6, "ft2"), help="Each pass counts: two coats are twice the face."),
    Field("done", "Finished", rule=Word("answer"), help="yes: nothing of this coat or task is left to do."),
    Field("kit", "Nozzle", rule=OneOf("kit"), help="Tag of the nozzle on Kit that sprayed it."),
    Field("fan", "Fan measured", "width", Between(0.5, 60, "in"), help="At 12 inches from the face, on cardboard."),
    Field("drawn", "Seconds of trigger", "seconds", Between(1, 3600, "s"),
          help="To draw the marked volume (Terms) from the pail at set pressure. Nobody and nothing held before the "
               "gun; pail grounded."),
    Field("wet_film", "Wet film read", "film", Between(0.2, 200, "mil"), help="With the gauge, the mean of the day."),
    Field("note", "Note", help="Rain, waiting, what went wrong.")))

# As a book grows: what a job needs of these tables, not what a table can hold, is what it is built with.
WEEK = (SIGNED, CONTRACT, LOG, CHANGES, BILLS)
# fmt: on
