"""The questions that a careful estimator asks before a price is signed, in order of the money that hangs on them."""

from collections.abc import Collection
from dataclasses import dataclass

from builder.records.kinds import KINDS


# fmt: off
@dataclass(frozen=True)
class Question:
    """One question. It is open while its count is not 0 and its name does not stand in 'Accepted as it is' on Job.

    `why`: what hangs on it; `at`: the one place where it is answered, 'kind.field'; `beside`: other fields it asks for.
    """

    key: str
    words: str
    why: str
    at: str
    beside: tuple[str, ...] = ()

    def waits(self, unread: Collection[str]) -> bool:
        """Whether it asks for what a problem tells already. unread: 'kind.field' of values that could not be read."""
        return not {self.at, *self.beside}.isdisjoint(unread)

    @property
    def name(self) -> str:
        """The short name that a person types to accept it."""
        return self.key.replace("_", " ")

    @property
    def code(self) -> str:
        """That name as it is compared: however it was spaced."""
        return self.key.replace("_", "")

    @property
    def topic(self) -> str:
        """What it asks for, beside its answer: 'Client', 'Tasks'."""
        kind, _, field = self.at.partition(".")
        return KINDS[kind].field_of[field].title if KINDS[kind].upright else KINDS[kind].title

    @property
    def sheet(self) -> str:
        """The sheet where it is answered."""
        return KINDS[self.at.partition(".")[0]].sheet

    @property
    def where(self) -> str:
        """The place where it is answered, in words: 'Terms: Figures of the demo'."""
        kind, _, field = self.at.partition(".")
        return f"{self.sheet}: {KINDS[kind].field_of[field].title}"


QUESTIONS = (
    Question("area_sum", "Area added up by line and by system differs",
             "A formula was typed over: 'wetfilm inspect' names the cell.", "takeoff.length"),
    Question("gallons_sum", "Gallons added up by coat and by coating differ",
             "A formula was typed over: 'wetfilm inspect' names the cell.", "coats.coating"),
    Question("cost_sum", "Cost added up by item and by kind differs",
             "A formula was typed over: 'wetfilm inspect' names the cell.", "takeoff.length"),
    Question("demo", "Prices, wages and rates are those of the demo",
             "They are invented. Put in your own, then say no here.", "terms.demo"),
    Question("tasks", "No task is counted",
             "Washing, masking, covering and setting up cost nothing in this price.", "tasks.task"),
    Question("travel", "How far it is to the site is not said",
             "The way costs money each day. Type time and distance, or 0.",
             "job.travel_time", ("job.distance",)),
    Question("profile", "Takeoff lines whose profile is not said",
             "Boards and siding have more area than a flat face. Say Flat if it is flat.",
             "takeoff.profile"),
    Question("empty", "Takeoff lines that measure nothing", "Type what is missing, or clear the line.",
             "takeoff.length", ("takeoff.height",)),
    Question("start", "Work in the open whose first day is not said",
             "It is reckoned with weather of all months alike.", "job.start"),
    Question("old_prices", "Coatings and nozzles whose price is older than Terms allow",
             "Get new prices, and date them.", "coatings.priced_on"),
    Question("inside", "Coats meant for inside, used outdoors",
             "Choose a coating for outdoors, or say that the exposure is indoors.", "coats.coating"),
    Question("lead_test", "Old paint is disturbed in an old home, and no test for lead is said",
             "Lead-safe work (40 CFR 745) costs more. Have licensed people test it.",
             "job.lead_test"),
    Question("lead_safe", "Lead was found: the lead-safe rules apply (40 CFR 745)",
             "Tasks for containment, cleaning, certified people; accept it. Local rules first.",
             "tasks.task"),
    Question("building", "Old paint is scraped or sanded, and the kind of building is not said",
             "Homes and places for children built before 1978 may carry lead paint.", "job.building"),
    Question("misfit", "Chosen nozzles that do not fit", "Leave the nozzle blank to use the pick.", "coats.nozzle"),
    Question("spots", "Coats sprayed on less than half of their area",
             "Roll or brush them; accept it where they lie in large pieces.", "coats.method"),
    Question("too_high", "Takeoff lines higher than their access, or a painter on the ground, reaches",
             "Choose an access that reaches; accept it where the face lies flat.",
             "takeoff.access"),
    Question("sags", "Coats too wet for one pass: they run or sag", "Take a thinner film, and more coats.",
             "coats.dry_film"),
    Question("overthinned", "Coats thinned beyond their coating's limit",
             "The data sheet says how far it may be thinned.", "coats.thinning"),
    Question("turbulent", "Coats whose flow in the hose may be turbulent",
             "The hose loses more pressure than is shown: the pump is set higher.", "coats.pressure"),
    Question("guards", "Nozzles of the kit whose guard is not among the guards on the van",
             "Type it under Guards if you have it: what is not listed is bought.", "guards.guard"),
    Question("stock", "Coats whose nozzle the nearest store must order", "Order it in time, or choose another.",
             "nozzles.stocked"),
    Question("rental", "Rented machines stand on site more than twice as long as they are used",
             "Put their systems one after another on Paint, or type the rental days.",
             "job.rental_days"),
    Question("idle", "People are on site more than twice as long as they work",
             "Take fewer people, or pay them: Terms, standing time that is paid.", "job.people"),
    Question("team", "Tasks for more people than the job has",
             "Each of them is paid. Type fewer, or accept it: who is there does it all.", "tasks.people"),
    Question("minimum", "The price is lifted to the minimum charge", "The work itself comes to less.", "job.minimum"),
    Question("deposit", "The deposit is above the most that Terms allow",
             "A law or your insurer limits it: the bid asks for the lesser.", "terms.deposit"),
    Question("voc", "Coats above the job's VOC limit", "Choose a coating that keeps to it.", "coats.coating"),
    Question("client", "The client is not named", "The bid is for nobody.", "job.client"),
    Question("date", "The estimate has no date", "It is valid from no day, and no price is judged for its age.",
             "job.date"),
    Question("firm", "The bid bears no firm of yours", "It stands at the head of the bid.", "terms.firm"),
    Question("license", "The bid bears no license and insurance of yours",
             "Many places ask for their numbers on a bid.", "terms.license"),
    Question("accepted", "'Accepted as it is' on Job names no question",
             "Type the short names of open questions, with commas between them.", "job.accepted"),
)
# What stands in the shipped terms, now and before, until the office has put in its own.
PLACEHOLDERS = ("Larkspur Spray Painting (invented)", "License and insurance numbers go here",
                "Licence and insurance numbers go here")

# The states of what is found, in the order in which it is told.
STATES = ("to fix", "open", "accepted", "answered", "clear")
NO_PRICE, DRAFT, READY, SIGNED = "NO PRICE", "DRAFT", "READY", "SIGNED"      # the states of a price
CLEAR = "other checks found nothing to fix and nothing to ask"
DEMO = "This is a demonstration with invented figures: it is no offer."


def accepted_list(text: str) -> str:
    """',oldprices,voc,' of 'Old prices, voc': the names that a person accepts, as they are looked for."""
    return f",{text.lower().replace(' ', '').replace('_', '')},".replace(",,", ",")
