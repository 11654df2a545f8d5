"""What to beware of where paint is sprayed: shown on Summary and printed on the crew card, each with its source."""

from typing import NamedTuple


# fmt: off
class Caution(NamedTuple):
    topic: str
    words: str
    source: str


INJECTION = ("Paint under pressure goes through skin from about 100 psi: an injection is a surgical emergency, "
             "however small it looks. To hospital at once.")
CAUTIONS = (
    Caution("Injection", INJECTION, "an orthopaedic text's chapter on injection injuries"),
    Caution("Nozzle", "Relieve the pressure and lock the trigger before touching nozzle, filter or hose. Guard on. "
                      "Never feel for a leak by hand.",
            "29 CFR 1926.302(b)(8)-(9), from memory"),
    Caution("Fire", "With solvents: ground pump and pail, bond metal to metal when pouring, no flame or spark, fresh "
                    "air. Rags with oil in water.",
            "29 CFR 1926.152, from memory; rags: common practice"),
    Caution("Breathing", "Wear the respirator and the eye protection that the coating's data sheet names. Ventilate "
                         "until the air is clear.",
            "29 CFR 1910.134 and 1926.57, from memory"),
    Caution("Lead", "Homes and places for children built before 1978 may carry lead paint: test before sanding or "
                    "scraping, follow the lead-safe rules.",
            "40 CFR 745"),
    Caution("Height", "Ladders, lifts, scaffolds: tie off as local rules say. Hose, lift and metal ladder well clear "
                      "of power lines.",
            "29 CFR 1926.1053, 1926.453 and 1926.416, from memory"),
    Caution("Law", "Local codes, data sheets and licensed practice come before anything in this book.",
            "a rule of this book"),
)
