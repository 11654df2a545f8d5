"""Published figures of films, sprays, wear and the hand: see support/figures.py for the tables."""

from math import pi

from support.figures import FIRE_WATER, FOOT, FT2, GALLON, GPM, INCH, MIL, POUND, PSI, WATER, close, figures

from builder.quantities import Units
from builder.stages.constants import shown_constants
from builder.trade import film, spray, wear

# ---- film
# ---------------------------------------------------------------------------------------------------------------------


@figures(
    "solids, dry, unit",
    (0.65, 5 * MIL, FT2 / GALLON, 208.5, 0.05, "D gallon of 231 in3"),
    (0.65, 125e-6, 1000, 5.20, 0.005, "D litre of 1000 cm3"),
    (1.0, MIL, FT2 / GALLON, 1604.1667, 0.00005, "D 231/144*1000"),
)
def test_theoretical_spread(solids, dry, unit, printed, within):
    close(film.theoretical_spread(dry, solids) / unit, printed, within)


@figures("system", ("us", 1604.1667, 0.00005, "D 231/144*1000 mil*ft2/gal"), ("metric", 1000, 1e-9, "D um*m2/L"))
def test_coverage_constant_of_a_book(system, printed, within):
    close(shown_constants(Units(system), 50)["cover"], printed, within)


@figures(
    "spread",
    (105, 15.28, 0.005, "D on UFGS 02761N 3.2.1 (P)"),
    (50, 32.08, 0.005, "D on UFGS 02761N 3.2.1 (P)"),
    (400, 4.01, 0.005, "D gallon of 231 in3"),
)
def test_wet_film_of_a_spread(spread, printed, within):
    close(film.wet_film_of_spread(spread * FT2 / GALLON, 0) / MIL, printed, within)


@figures(
    "spread",
    ("105 ft2/gal", 2.5, 0.10, "P UFGS 02761N 3.2.1, 105 +/- 5 ft2/gal is 2.5 +/- 0.10 m2/L"),
    ("250 ft2/gal", 6.13, 0.0057, "P UFGS 02761N, which cuts 6.1356 off where rounding gives 6.14"),
    ("1 ft2/gal", 0.0245424, 5e-8, "D"),
)
def test_coverage_in_both_systems(spread, printed, within):
    """The product's own conversion: text of a file in one system, cell of a book in the other."""
    close(Units("metric").to_cell(Units("us").parse(spread, "spread"), "spread"), printed, within)


@figures(
    "dry, solids, thinning",
    (2.80, 0.35, 0, 8.0, 0.005 / 0.35, "P MIL-HDBK-1110 procedure 13, 8 mil wet at 35 % dries to 2.80"),
    (2.8, 0.35, 0.10, 8.80, 0.005, "D on ASTM D4414-95(2020) 4.2 (P)"),
    (2.0, 0.40, 0.10, 5.50, 0.005, "D on ASTM D4414-95(2020) 4.2 (P)"),
    (5.0, 0.65, 0.15, 8.846, 0.0005, "D on ASTM D4414-95(2020) 4.2 (P)"),
)
def test_wet_film(dry, solids, thinning, printed, within):
    close(film.wet_film(dry * MIL, solids, thinning) / MIL, printed, within)


@figures(
    "function, arguments",
    (
        film.wet_film_of_spread,
        (150 * FT2 / GALLON * MIL, 0.10),
        11.764,
        5e-4,
        "D mil: 1604.1667 / 150 and a tenth more of thinner",
    ),
    (film.mean_uptake, (1.2, 2), 1.1, 1e-12, "D 1.2 for the first coat of two, 1 for the second"),
    (film.loss, (0.20, 0.9, 1.15), 0.207, 1e-12, "D 20 %, a tenth less, 15 % more"),
    (film.lap, (10, 0.4), 6, 1e-12, "D a 10-in fan, 40 % of it on the pass before"),
    (film.step, (10, 8, 5), 10, 0, "D a board of 8 in under a fan of 10 takes one pass"),
    (film.step, (10, 10, 5), 10, 0, "D and so does one of 10 in"),
    (film.step, (10, 10.001, 5), 5, 0, "D a wider face takes several"),
    (film.step, (10, 10.001, 5, 0.01), 10, 0, "D but for the slack"),
    (film.miss, (0.4, 36, 40), 0.64, 1e-12, "D railings, two fifths solid, 36 of 40 in swept: 14.4 of 40 hit"),
    (
        film.material,
        (9, 1.2, 0.25, 0.20),
        18,
        1e-12,
        "D 10.8 wet, three quarters not lost, four fifths on the face: .6 lands",
    ),
    (film.paint, (1.1, 0.10), 1.0, 1e-12, "D 1.1 L holds a litre of paint and a tenth of thinner"),
    (film.thinned_density, (1200, 0.25, 800), 1120, 1e-9, "D a litre of 1.2 kg and a quarter of .8: 1.4 kg in 1.25 L"),
)
def test_films_worked_by_hand(function, arguments, printed, within):
    close(function(*arguments), printed, within)


# ---- flow
# ---------------------------------------------------------------------------------------------------------------------


@figures(
    "orifice",
    *(
        (
            orifice,
            flow,
            0.003 * flow,
            "S NFPA 291, 29.84 c d2 sqrt(P), +/- 0.3 %; c = .62 Encyclopaedia Britannica 11th ed., Hydraulics 17 (P)",
        )
        for orifice, flow in ((0.013, 0.1398), (0.015, 0.1862), (0.017, 0.2391), (0.021, 0.3649))
    ),
)
def test_orifice_law(orifice, printed, within):
    close(spray.flow(0.62, orifice * INCH, 2000 * PSI, WATER) / GPM, printed, within)


@figures(
    "c, orifice, pressure",
    (1.0, 1.0, 1, 29.83, 0.005, "S pages on fire flow tests, Q = 29.83 c d2 sqrt(P)"),
    (0.90, 2.5, 40, 1061, 0.5, "S a worked hydrant test with NFPA 291's c = .9"),
)
def test_flow_of_hydrants(c, orifice, pressure, printed, within):
    close(spray.flow(c, orifice * INCH, pressure * PSI, FIRE_WATER) / GPM, printed, within)


@figures(
    "orifice",
    *(
        (orifice, flow, 0.005, "M common practice, water at 2000 psi")
        for orifice, flow in ((0.013, 0.18), (0.015, 0.24), (0.017, 0.31), (0.021, 0.47), (0.025, 0.67), (0.031, 1.03))
    ),
    *(
        (orifice, flow, 0.01, "M common practice, no one coefficient fits all nine to two figures: within .01")
        for orifice, flow in ((0.019, 0.38), (0.023, 0.57), (0.027, 0.77))
    ),
)
def test_water_flow_of_airless_nozzles(shipped, orifice, printed, within):
    """What the coefficient of the shipped terms stands for."""
    close(spray.flow(shipped.terms.cd, orifice * INCH, 2000 * PSI, WATER) / GPM, printed, within)


@figures(
    "density",
    *(
        (density, factor, 0.005, "P Nebraska CropWatch 2016, Georgia Extension; water 8.34 lb/gal there")
        for density, factor in ((10, 1.10), (10.65, 1.13), (11, 1.15), (12, 1.20))
    ),
)
def test_flow_falls_with_density(density, printed, within):
    water, heavy = (spray.flow(0.8, 15 * MIL, 2000 * PSI, one * POUND / GALLON) for one in (8.34, density))
    close(water / heavy, printed, within)


@figures(
    "before, after",
    (1000, 2000, 1.41421, 5e-6, "S NFPA 291"),
    (2200, 1100, 0.707, 5e-4, "D"),
    (20, 80, 2, 1e-12, "M sprayer guides, four times the pressure for twice the flow"),
)
def test_flow_follows_the_root_of_pressure(before, after, printed, within):
    one, other = (spray.flow(0.62, 15 * MIL, pressure * PSI, WATER) for pressure in (before, after))
    close(other / one, printed, within)


@figures("orifice", (15, 0.213, 5e-4, "D 10.6 lb/gal, 2000 psi, c = .80"))
def test_flow_of_paint(orifice, printed, within):
    flow = spray.flow(0.80, orifice * MIL, 2000 * PSI, 10.6 * POUND / GALLON) / GPM
    close(flow, printed, within)
    close(5 / flow, 23.5, 0.05)  # D: minutes of trigger in a 5-gal pail


def test_another_fan_leaves_the_flow_alone(shipped):
    """P: MIL-HDBK-1110 p. 123, the same orifice at another fan gives the same flow."""
    by_orifice = {}
    for row in (row for row in shipped.rows["trials"] if row.flow and row.coat == 3):
        size = shipped.row("nozzles", row.size_at)
        if size.family == "standard":
            by_orifice.setdefault(size.orifice, {})[size.fan] = row.flow
    assert max(map(len, by_orifice.values())) >= 3
    assert all(len(set(flows.values())) == 1 for flows in by_orifice.values())


def test_airless_practice(shipped):
    """P: MIL-HDBK-1110 7.5.4.2, 1000 to 3000 psi; 9.6.8.1, each pass half over the one before. Stains and sealers that
    soak in are no film.
    """
    assert shipped.terms.overlap == 0.5
    films = [row.pressure / PSI for row in shipped.rows["coatings"] if row.sound and row.volume_solids]
    assert len(films) > 10 and all(1000 <= pressure <= 3000 for pressure in films)


# ---- hose
# ---------------------------------------------------------------------------------------------------------------------


@figures(
    "length, bore, unit",
    (50, 1 / 4, GALLON, 0.1275, 5e-5, "D gal in 50 ft of hose"),
    (50, 3 / 8, GALLON, 0.287, 5e-4, "D gal in 50 ft of hose"),
    (1, 12 * (4 / pi) ** 0.5, GALLON, 7.481, 5e-4, "P NIST Handbook 44 appendix C, gallons in a cubic foot"),
    (
        11.31,
        4.026,
        FOOT**3,
        1,
        0.0005,
        "P US standard pipe, Hawkins, Self-Help Mechanical Drawing, 11.31 ft of 4-in pipe hold a cubic foot",
    ),
    (
        4.98,
        6.065,
        FOOT**3,
        1,
        0.001,
        "P US standard pipe, Hawkins, Self-Help Mechanical Drawing, 4.98 ft of 6-in pipe hold a cubic foot",
    ),
)
def test_what_a_hose_holds(length, bore, unit, printed, within):
    close(spray.hose_volume(length * FOOT, bore * INCH) / unit, printed, within)


@figures(
    "bore",
    (1 / 4, 874, 0.5, "D Hagen-Poiseuille, 100 ft, 250 cP, .5 gal/min"),
    (3 / 8, 173, 0.5, "D Hagen-Poiseuille, 100 ft, 250 cP, .5 gal/min"),
)
def test_what_a_hose_loses(bore, printed, within):
    close(spray.resistance(0.25, 1, spray.hose_run(100 * FOOT, bore * INCH)) * 0.5 * GPM / PSI, printed, within)


@figures(
    "viscosity, length, bore, loss",
    (
        0.18,
        10,
        0.06,
        4.9 * 900 * 9.807,
        0.0076,
        0.00005,
        "M White, Fluid Mechanics, ch. 6: oil in an inclined pipe, head loss 4.9 m",
    ),
    (0.1, 300, 0.05, 68.43e4, 0.0035, 0.000005, "M Bansal, Fluid Mechanics, ch. on viscous flow: 68.43 N/cm2"),
)
def test_laminar_flow_of_textbooks(viscosity, length, bore, loss, printed, within):
    close(loss / spray.resistance(viscosity, 1, spray.hose_run(length, bore)), printed, within)


@figures(
    "density, flow, bore, viscosity",
    (900, 0.0076, 0.06, 0.18, 810, 5, "M White, Fluid Mechanics, ch. 6, the same oil"),
    (900, 0.0035, 0.05, 0.1, 802, 0.5, "M Bansal, Fluid Mechanics, the same oil"),
)
def test_reynolds_number_of_textbooks(density, flow, bore, viscosity, printed, within):
    close(spray.reynolds(density, flow, bore, viscosity), printed, within)


def test_laminar_below_2000(shipped):
    """M: any text on fluid mechanics, flow in a pipe is laminar below a Reynolds number of about 2000."""
    assert shipped.terms.reynolds_max == 2000


# ---- wear
# ---------------------------------------------------------------------------------------------------------------------


@figures(
    "before, after",
    (17, 21, 1.526, 5e-4, "D"),
    (17, 21, 1.53, 0.005, "D flow and film +53 %"),
    (15, 17, 1.28, 0.005, "C flow grown by 28 % is worn"),
    (1.0, 1.0488, 1.10, 1.1e-4, "P USGA Green Section 2016, 10 % more flow is worn: within what 1.0488 is rounded to"),
)
def test_flow_grows_with_the_area_of_the_orifice(before, after, printed, within):
    new, worn = (spray.flow(0.8, orifice * MIL, 2000 * PSI, WATER) for orifice in (before, after))
    close(worn / new, printed, within)
    # at one speed of hand, the film grows so
    close(spray.gun_speed(worn, 0, MIL, INCH) / spray.gun_speed(new, 0, MIL, INCH), printed, within)
    close(wear.worn_by_flow(printed, 1.0, after / before), 1, within / (printed - 1))


@figures(
    "new, worn",
    (12, 9, 1, 1e-12, "C a fan a quarter narrower is worn"),
    (10, 7.5, 1, 1e-12, "C a fan a quarter narrower is worn"),
)
def test_a_fan_a_quarter_narrower_is_worn(shipped, new, worn, printed, within):
    close(wear.worn_by_fan(worn * INCH, new * INCH, shipped.terms.worn_fan), printed, within)


@figures(
    "setup, demand, holding",
    (8, 1300, 0.225, 304.0, 0.05, "S Snyder and Shen, Fundamentals of Supply Chain Theory, example 3.1: 304.0"),
    (20, 50000, 0.25, 2828, 0.5, "S an exercise on order quantities, fasteners"),
    (100, 1200, 1.5, 400, 0.5, "S an exercise on order quantities"),
    (12, 3120, 0.005, 3870, 0.5, "M Nahmias, Production and Operations Analysis, example 4.1, pencils"),
)
def test_least_cost_interval_is_an_economic_order_quantity(setup, demand, holding, printed, within):
    """A change of nozzle is an order, what is wasted at the end of life over that life is the cost of holding; life is
    taken long.
    """
    close(wear.interval(10 * demand, setup, 10 * holding), printed, within)


@figures(
    "function, arguments",
    (wear.endurance, (45, 45, 15, 2200), 891000, 1e-6, "D three times the orifice, nine times the life, at 2200 psi"),
    (wear.life, (99000, 1100, 3), 30, 1e-9, "D half the pressure, a paint three times as rough"),
    (wear.worn_by_volume, (18, 45), 0.4, 1e-12, "D 18 of 45 gal"),
    (wear.worn_by_fan, (13, 12, 0.75), 0, 0, "D wider than new is not worn"),
    (wear.worn_by_flow, (0.9, 1.0, 1.1), 0, 0, "D less than new is not worn"),
    (
        wear.waste_rate,
        (0.05, 44, 0.10, 0.10, 30, 12),
        2.25,
        1e-12,
        "D 5 % of a gallon that is a tenth thinner, 10 % of its time: 2 and .25",
    ),
    (wear.interval, (45, 40, 0), 45, 0, "D nothing wasted, used until worn out"),
    (
        wear.cost,
        (2, 0.1, 5, 3, 4, 2.5, 40, 10),
        34,
        1e-12,
        "D 11 of paint, 12 of wages, 2.75 of the 10 that a change for 40 serves",
    ),
)
def test_wear_worked_by_hand(function, arguments, printed, within):
    close(function(*arguments), printed, within)


# ---- hand
# ---------------------------------------------------------------------------------------------------------------------


@figures(
    "width",
    (12, 119.5, 0.05, "D .18616 gal/min, 6 mil wet, 10-in fan, half overlapped: ft/min"),
    (5, 49.77, 0.005, "D the same, ft2/min: a lap of 5 in"),
)
def test_travel_speed(width, printed, within):
    speed = spray.gun_speed(0.18616 * GPM, 0, 6 * MIL, film.lap(10 * INCH, 0.5))
    close(speed * width * INCH * 60 / FT2, printed, within)


@figures(
    "function, arguments",
    (spray.gun_speed, (3, 0.2, 0.01, 40), 6, 1e-12, "D 2.4 of 3 lands, .4 a length"),
    (spray.gun_time, (0.02, 0.5, 0.01, 1.5, 4), 9, 1e-12, "D .03 at .01 a second, and 4 s on half as much again"),
    (spray.elapsed, (7, 2, 3), 3.5, 1e-12, "D two guns take half the time"),
    (spray.elapsed, (7, 2, 5), 5, 1e-12, "D unless the roller behind is slower"),
    (
        spray.set_pressure,
        (2200, 800, 0.25),
        2400,
        1e-9,
        "D 800 psi lost for a gallon a minute, a quarter of it flowing",
    ),
)
def test_hands_worked_by_hand(function, arguments, printed, within):
    close(function(*arguments), printed, within)
