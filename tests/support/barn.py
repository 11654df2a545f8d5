"""An invented barn for figures worked by hand: one face, one coat, and no more of the terms than a test states."""

from builder.jobs import open_job
from builder.quantities import scale
from builder.records.kinds import TABLES
from builder.records.terms import BURDENS
from support.editing import LiveBook
from support.places import ROOT

SMALL = {"takeoff": 8, "coats": 3, "nozzles": 4, "openings": 2, "tasks": 8, "kit": 3, "systems": 3}

# An invented barn: 20 ft by 20 ft, rolled once with a paint of 100 ft2 a gallon, sold by the gallon; nothing is lost.
BARN = """
job: {units: us, MONEY, crew: one, people: 2, pump: Mid electric, exposure: indoors,
      opening_none: 5 ft2, opening_both: 5 ft2}
systems:
  - {name: Boards, surface: Flat boards, method: roll}
coats:
  - {system: Boards, coating: Barn red, coats: 1}
takeoff:
  - {tag: A, system: Boards, length: 20 ft, height: 20 ft}
MORE
own:
  crews:
    - {name: one, guns: 1, rollers: 0, tenders: 0, flow_max: 1 gal/min, gun_speed_factor: 1, handling_factor: 1, wage: 20,
       source: invented}
  surfaces:
    - {name: Flat boards, loss: 20 %, hand_loss: 0 %, clear_width: 100 in, solid: 1, uptake: 1,
       fan: {min: 8 in, max: 12 in}, gun_speed: {min: 0.5 ft/s, max: 6 ft/s}, handling: 0 s/ft2, roll_rate: 200 ft2/h,
       finish: plain, source: invented}
  coatings:
    - {name: Barn red, kind: finish, base: water, spread: 100 ft2/gal, density: 10 lb/gal, viscosity: 100 cP,
       pressure: 2000 psi, orifice: {min: 9 thou, max: 30 thou}, finish: plain, abrasion: 1, recoat: 1 h,
       packs: [{volume: 1 gal, pack_price: 40}], priced_on: 2026-03-02, source: invented}
"""


# What no figure hangs on where it is blank: each test states what it is about.
NEUTRAL = {
    "burden": 0.32,
    "leave": None,
    "unproductive": None,
    "walk": None,
    "recovered": None,
    "standing_paid": None,
    **{f"{driver}_{end}": 1.0 for driver in ("area", "time") for end in ("low", "high")},
    "travel_rate": None,
    "travel_lump": None,
    "ground_reach": None,
    **{f"burden_{key}": None for key, *_ in BURDENS},
}


def racks():
    """Sizes that differ in their loss alone: with unpaid people and no waste by wear cost goes by 1 / (1 - loss)."""
    alike = {
        "pressure_factor": 1.0,
        "finish": "good",
        "life": 40 * scale("gal"),
        "life_orifice": 15 * scale("thou"),
        "life_pressure": 2000 * scale("psi"),
        "pressure_max": 5000 * scale("psi"),
        "source": "invented",
    }
    names = ("first", "second", "third")
    families = [{"name": name, "loss_factor": 1.0, **alike} for name in names]
    size = {"size": "515", "nozzle_price": 28.0, "priced_on": 46083.0}
    return {
        "families": families,
        "nozzles": [{"family": row["name"], **size} for row in families],
        "kit": [{"tag": "K1", "nozzle": "second 515"}, {"tag": "K2", "nozzle": "third 515"}],
        "terms": {"excess": 0.0, "slow": 0.0, "kit_preference": 0.03},
    }


class Barn(LiveBook):
    """The barn as a workbook in a spreadsheet engine beside its model, with Terms that add nothing (NEUTRAL)."""

    def __init__(self, folder, more="", money="currency: USD", lines="", **values):
        """`lines`: rows of takeoff after the barn's; `more`: job text after the barn's.

        `values`: block -> rows, or figures of an upright block, in SI and the catalogs' money.
        """
        path = folder / "barn.yaml"
        path.write_text(BARN.replace("MONEY", money).replace("MORE", lines.strip("\n")) + more)
        opened = open_job(path, [ROOT / "catalogs"])
        assert not opened.errors, opened.errors
        self.problems = opened.problems
        opened.values["terms"][0].update(NEUTRAL)
        for block, given in values.items():
            if isinstance(given, dict):
                opened.values[block][0].update(given)
            else:
                opened.values[block] = given
        opened.values["nozzles"] = opened.values["nozzles"][: SMALL["nozzles"] - 1]
        rows = {table: max(SMALL.get(table, 2), len(opened.values[table]) + 1) for table in TABLES}
        super().__init__(opened.values, opened.units, folder, **rows)

    def worked(self):
        """The rows of the model, once every formula gives what they hold."""
        assert self.differences() == []
        return self.estimate().rows
