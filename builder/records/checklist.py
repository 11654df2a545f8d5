"""What stops the price: each is counted on Check counts, and told first on Checks."""

from dataclasses import dataclass

from builder.records.kinds import KINDS

PARTS = 12  # of the work, by which a price is told
TABLES = tuple(kind for kind in KINDS.values() if not kind.upright)


# fmt: off
@dataclass(frozen=True)
class Item:
    """One check. The price stays blank while its count is not 0; `where`: the sheet to look on, 'Takeoff', or the
    place on it, 'Takeoff: Part'.
    """

    key: str
    words: str
    where: str

    @property
    def sheet(self) -> str:
        """The sheet where it is fixed."""
        return self.where.partition(":")[0]


ITEMS = (
    *(Item(f"faults_{kind.key}", f"Rows with an error in {kind.title}", kind.sheet) for kind in KINDS.values()),
    *(Item(f"beyond_{kind.key}", f"Cells typed above or below the rows of {kind.title}", kind.sheet)
      for kind in TABLES),
    Item("no_lines", "Type the first line", "Takeoff"),
    Item("too_open", "Takeoff lines whose openings are larger than the face", "Takeoff"),
    Item("too_open_rooms", "Rooms whose openings are larger than the walls", "Rooms"),
    Item("uncoated", "Systems with takeoff lines but no coat", "Paint"),
    Item("film", "Coats with entries that do not go together", "Paint"),
    Item("no_nozzle", "Sprayed coats that no nozzle fits", "Paint"),
    Item("no_day", "Visits filled by their fixed work: no time is left for the job", "Tasks"),
    Item("too_many", "More passes and tasks than the schedule has rows for: split the job into two", "Paint"),
    Item("too_long", "More working days than the schedule lists: split the job into two, or add people", "Job"),
    Item("too_many_parts", f"More than {PARTS} parts of the work are named: give lines that go together one name",
         "Takeoff: Part"),
    Item("refused", "Margin and overhead add up to 100 % of the price or more", "Job"),
    Item("overhead", "Overhead for this job is a share, but Terms charge it by the labor hour", "Job"),
)
ITEMS_OF_COST = ("paint", "thinner", "nozzles", "guards", "task_material", "sundries", "coat_wages", "task_wages",
                 "change_wages", "standing_wages", "travel_wages", "travel", "pump_rental", "access_rental", "tax",
                 "overhead")
