"""Sentences that pages and cells say, each once for its formula and its model."""

from textwrap import wrap

from builder.records.cautions import CAUTIONS

# fmt: off
NO_ROOM = "no room for this row: delete a blank one above it"

# Readings of the day and crew card.
VERDICTS = ("dry enough for the dew-point rule; the coating's own limits count too", "too near the dew point: wait")
TODAY = ("not read yet: type the readings on Schedule", "dry enough, and within the coating's limits",
         "WAIT: too near the dew point",
         "WAIT: outside the coating's limits", "WAIT: too near the dew point, outside the coating's limits")

# Schedule.
NO_SCHEDULE = "No schedule yet: Checks says what to fix."
LEGEND = ("S sprayed, B sprayed and back-rolled, R rolled, H brushed, each with the number of the pass; T tasks; then "
          "hours of work.")

WAITS = ("People stand idle: ", " h in all, ", " of wages; Terms say how much is paid.")

# Bid.
NO_PRICE = "This bid is not complete. It shows no price until this is fixed:"
SIGNED_BID = "This bid is signed. The contract stands on Changes; this page is worked out from today's inputs."
DRAFT_BID = "This bid is a draft: questions are still open, and the price may change."
FIXED = "a fixed price for the work below"
ESTIMATE = "an estimate: the price may change with the work that is found"
CANCEL = ("the customer may cancel within ", " business days of signing")  # the number of days between them
LEAD = ("Old paint here may hold lead. It is tested before it is disturbed; the work follows lead-safe work practices "
        "(40 CFR 745), "
        "by people certified for them where the law asks it.")
CONDITIONS = ("Coats go on when weather and surface are within what the makers of the coatings ask for; dates move "
              "with the weather. "
              "Changes to the work or the price are agreed in writing. Local codes come first.")
SIGNED = (("accepted", "Accepted", '"The price, the work and the conditions above are accepted."'),
          ("customer", "Customer", '"Name, signature, date:"'),
          ("contractor", "Contractor", '"Name, signature, date:"'))

# Bill.
UNSIGNED_BILL = "No bill yet: type the price as signed on Job, and the contract on Changes."
NO_BILL = "No bill yet: type its date under Bills on Changes. What is wrong in a row is said beside it."
BILL_STAGED = "A payment falls due once its part of the work is done, changes as the work goes on."
BILL_WORKED = "What falls due follows the work done; the deposit counts first."
BILL_SETTLED = "All is done: this bill settles the contract with its changes."
BILL_HELD = "Part of it is held back until all is done."
BILL_TAX = "included as in the contract"

# Summary: three steps, each in its column, with the sheet it leads to and its words.
STEPS = (
    (2, "Job", "1  Job: who, where, crew"),
    (4, "Takeoff", "2  Takeoff: one row a surface"),
    (6, "Price", "3  Price: read, print"),
)
# Below them: (role, words); braces hold what the book fills in.
BELOW = (
    ("section", "Key"),
    ("sample", "Type here"),
    ("label", "Cells like the one above are yours to type in; all others are worked out and locked, without a "
              "password."),
    ("label", "What is wrong is said beside its row, in bold. While something is missing there is no price, and Checks "
              "says what to fix."),
    ("label", "Nozzle: what painters call a tip."),
    ("label", "Folded away, behind a + above the letters or beside the rows (unprotect the sheet to open it): single "
              "steps of {folded}."),
    ("label", "Hidden: the workings; Log, Progress, Changes and Bill until 'wetfilm sign'. Right-click any tab and "
              "choose Unhide (Show Sheet); all are named below."),
    ("", ""),
    ("section", "Before anyone sprays"),
    *(("label", line) for caution in CAUTIONS for line in wrap(f"{caution.topic}: {caution.words} [{caution.source}]",
                                                               140, subsequent_indent="      ")),
    ("", ""),
    ("section", "What to know of the figures"),
    ("label", "Catalog figures are invented for the demo unless their source says otherwise. Replace them with your "
              "own before you bid."),
    ("label", "Flow, wear and hours follow published equations with coefficients of common practice; you can change "
              "them on Terms."),
    ("label", "Room: {takeoff} lines of takeoff, {openings} openings, {systems} systems, {coats} coats, {nozzles} "
              "nozzle sizes, {tasks} tasks."),
    ("label", "To change units or currency, build the workbook again. What this one was built of stands on Sources."),
)
