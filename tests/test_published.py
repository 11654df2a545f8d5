"""Figures from outside the project, at their printed precision.

P: the source's own text was read; S: a secondary page restates it; M: from memory, not read; D: derived from exact definitions.
Units are converted by literals, not by the product's own table.
"""
from math import pi

import pytest
from conftest import ROOT

from builder.jobs import open_job
from builder.trade import emission, film, price, spray, takeoff, wear, weather

INCH, FOOT, PSI, POUND = 0.0254, 0.3048, 6894.757293168361, 0.45359237
GALLON = 231 * INCH**3                       # NIST Handbook 44 appendix C (P)
MIL, GPM, FT2 = INCH / 1000, GALLON / 60, FOOT**2
WATER = 998.2067                             # kg/m3 at 20 C (M)


@pytest.mark.parametrize("solids, dry, area_per_volume, unit, printed", [
    (0.65, 5 * MIL, 208.5, FT2 / GALLON, 0.05),            # D
    (0.65, 125e-6, 5.20, 1000, 0.005),                     # D
    (1.0, MIL, 1604.1667, FT2 / GALLON, 0.00005),          # D: 231/144*1000
])
def test_theoretical_spread(solids, dry, area_per_volume, unit, printed):
    assert film.theoretical_spread(dry, solids) / unit == pytest.approx(area_per_volume, abs=printed)


@pytest.mark.parametrize("spread, wet, printed", [
    (105, 15.28, 0.005), (50, 32.08, 0.005), (400, 4.01, 0.005),   # D on UFGS 02761N 3.2.1 (P); D
])
def test_wet_film_of_a_spread(spread, wet, printed):
    assert film.wet_film_of_spread(spread * FT2 / GALLON, 0) / MIL == pytest.approx(wet, abs=printed)


@pytest.mark.parametrize("us, metric, printed", [(105, 2.5, 0.1), (250, 6.13, 0.006), (1, 0.0245424, 5e-8)])   # UFGS 02761N 3.2.1 (P); D
def test_coverage_in_both_systems(us, metric, printed):
    assert us * FT2 / GALLON / 1000 == pytest.approx(metric, abs=printed)


@pytest.mark.parametrize("dry, solids, thinning, wet, printed", [
    (2.8, 0.35, 0, 8.0, 0.05),               # MIL-HDBK-1110 procedure 13 (P): 8 mil wet at 35 % dry to 2.80
    (2.8, 0.35, 0.10, 8.80, 0.005), (2.0, 0.40, 0.10, 5.50, 0.005), (5.0, 0.65, 0.15, 8.846, 0.0005),   # D on ASTM D4414-95(2020) 4.2 (P)
])
def test_wet_film(dry, solids, thinning, wet, printed):
    assert film.wet_film(dry * MIL, solids, thinning) / MIL == pytest.approx(wet, abs=printed)


@pytest.mark.parametrize("orifice, flow", [(0.013, 0.1398), (0.015, 0.1862), (0.017, 0.2391), (0.021, 0.3649)])
def test_orifice_law(orifice, flow):
    """Q = 29.84 c d^2 sqrt(P), NFPA 291 (S); c = .62, Encyclopaedia Britannica 11th ed., Hydraulics 17 (P); 0.3 %: the rounded 29.84."""
    assert spray.flow(0.62, orifice * INCH, 2000 * PSI, WATER) / GPM == pytest.approx(flow, rel=0.003)


@pytest.mark.parametrize("orifice, flow, printed", [
    (0.013, 0.18, 0.005), (0.015, 0.24, 0.005), (0.017, 0.31, 0.005), (0.021, 0.47, 0.005), (0.025, 0.67, 0.005), (0.031, 1.03, 0.005),
    (0.019, 0.38, 0.01), (0.023, 0.57, 0.01), (0.027, 0.77, 0.01),     # no single coefficient fits all nine to two figures: within 0.01
])
def test_water_flow_of_airless_nozzles(orifice, flow, printed):
    """Common practice, from memory (M): what the coefficient 0.80 stands for, at 2000 psi."""
    assert spray.flow(0.80, orifice * INCH, 2000 * PSI, WATER) / GPM == pytest.approx(flow, abs=printed)


@pytest.mark.parametrize("density, factor", [(10, 1.10), (10.65, 1.13), (11, 1.15), (12, 1.20)])
def test_flow_falls_with_density(density, factor):
    """Nebraska CropWatch 2016, Georgia Extension (P); water 8.34 lb/gal there."""
    water, heavy = (spray.flow(0.8, 15 * MIL, 2000 * PSI, one * POUND / GALLON) for one in (8.34, density))
    assert water / heavy == pytest.approx(factor, abs=0.0051)


def test_pressure_doubled_and_halved():
    """NFPA 291 (S): times 1.41421; D: 2200 -> 1100 psi times 0.707."""
    one, two = (spray.flow(0.62, 15 * MIL, pressure * PSI, WATER) for pressure in (1000, 2000))
    assert two / one == pytest.approx(1.41421, abs=5e-6) and one / two == pytest.approx(0.707, abs=5e-4)


def test_paint_through_a_15_and_a_pail_of_it():
    """D: 10.6 lb/gal through 15 thou at 2000 psi is 0.213 gal/min with 0.80, a 5-gal pail 23.5 min."""
    flow = spray.flow(0.80, 15 * MIL, 2000 * PSI, 10.6 * POUND / GALLON) / GPM
    assert flow == pytest.approx(0.213, abs=5e-4) and 5 / flow == pytest.approx(23.5, abs=0.05)


@pytest.mark.parametrize("bore, gallons, printed", [(1 / 4, 0.1275, 5e-5), (3 / 8, 0.287, 5e-4)])   # D: 50 ft of hose
def test_what_a_hose_holds(bore, gallons, printed):
    assert spray.hose_volume(50 * FOOT, bore * INCH) / GALLON == pytest.approx(gallons, abs=printed)


@pytest.mark.parametrize("bore, psi", [(1 / 4, 874), (3 / 8, 173)])      # D: Hagen-Poiseuille, 100 ft, 250 cP, 0.5 gal/min
def test_what_a_hose_loses(bore, psi):
    lost = spray.resistance(0.25, 1, spray.hose_run(100 * FOOT, bore * INCH)) * 0.5 * GPM
    assert lost / PSI == pytest.approx(psi, abs=0.5)


def test_wear_by_area():
    """D: 17 -> 21 thou is 52.6 % more flow; USGA Green Section 2016 (P): a 10 % flow limit is an orifice 1.0488 times as wide."""
    new, worn = (spray.flow(0.8, orifice * MIL, 2000 * PSI, WATER) for orifice in (17, 21))
    assert worn / new == pytest.approx(1.526, abs=5e-4)
    assert wear.worn_by_flow(1.10, 1.0, 1.0488) == pytest.approx(1.0, abs=0.001)   # 1.0488 is rounded to 1e-4


@pytest.mark.parametrize("new, worn", [(12, 9), (10, 7.5)])              # common practice, no source: a quarter narrower is worn
def test_a_fan_a_quarter_narrower_is_worn(new, worn):
    assert wear.worn_by_fan(worn * INCH, new * INCH, 0.75) == pytest.approx(1)


def test_travel_speed():
    """D: 0.18616 gal/min, 6 mil wet, 10-in fan, 50 % overlap, no loss: 119.5 ft/min, 49.77 ft2/min."""
    speed = spray.gun_speed(0.18616 * GPM, 0, 6 * MIL, film.lap(10 * INCH, 0.5)) / FOOT * 60
    assert speed == pytest.approx(119.5, abs=0.06) and speed * 5 / 12 == pytest.approx(49.77, abs=0.006)


@pytest.mark.parametrize("size, share", [(0.5, 0), (0.6, 1 / 2), (3.0, 1 / 2), (3.1, 1)])
def test_openings(size, share):
    """IS 1200-13:1994 cl. 3.2 (P): up to 0.5 m2 none, up to 3 m2 one face, above it both."""
    assert takeoff.opening_share(size, 0.5, 3.0, 2) == share


COEFFICIENTS = {  # IS 1200-15:1987 table 1 (S, four copies agree), each side
    "Panelled door": 1.30, "Ledged and battened door": 1.30, "Flush door": 1.20, "Glazed timber": 0.80, "Railings and grilles": 1.00,
}


@pytest.fixture(scope="module")
def shipped():
    return open_job(None, [ROOT / "catalogs"]).estimate


@pytest.mark.parametrize("name, coefficient", COEFFICIENTS.items())
def test_profile_coefficients(shipped, name, coefficient):
    profile = shipped.judge.find("profiles", name)
    assert profile.coefficient == coefficient and "IS 1200" in profile.standard


def test_lap_boards(shipped):
    """Radford's Cyclopedia vol. 10, 1909 (P): a ninth more, 900 -> 1000 ft2."""
    assert takeoff.measured(900 * FT2, 0, shipped.judge.find("profiles", "Lap boards").coefficient, 1) / FT2 == pytest.approx(1000, abs=0.5)


@pytest.mark.parametrize("width, height, unit, sides, coefficient, area, printed", [
    (3, 7, FOOT, 1, 1.30, 27.3, 0.05), (3, 7, FOOT, 2, 1.30, 54.6, 0.05), (0.9, 2.1, 1, 2, 1.30, 4.914, 0.0005)])   # IS 1200-15 (S)
def test_worked_doors(width, height, unit, sides, coefficient, area, printed):
    gross = takeoff.gross(1, width * unit, height * unit)
    assert takeoff.measured(gross, 0, coefficient, sides) / unit**2 == pytest.approx(area, abs=printed)


@pytest.mark.parametrize("factor, length, height, area", [
    (1, 48, 8, 384), (1, 12, 12, 144), (0.5, 24, 8, 96),     # D: walls and ceiling of a room 12x12x8 ft, a gable 24 wide 8 high
    (1, 120, 15, 1800),                                      # S: a house 20x40 ft at 15 ft effective
    (pi, 1, 1, 3.14159)])                                    # D: a cylinder 1 long and 1 across
def test_areas(factor, length, height, area):
    assert takeoff.gross(factor, length, height) == pytest.approx(area, abs=5e-6)


@pytest.mark.parametrize("celsius, humidity, dew", [(20, 0.50, 9.26), (25, 0.60, 16.69), (30, 0.70, 23.93)])
def test_dew_point(celsius, humidity, dew):
    """ASHRAE 2017 values as a reference library's own tests print them (P); Magnus holds within 0.03 C."""
    assert weather.dew_point(celsius + 273.15, humidity) - 273.15 == pytest.approx(dew, abs=0.03)


def test_dew_point_in_fahrenheit():
    """70 F, 50 %: 50.5 F (P), within 0.03 C and the printed 0.05 F."""
    dew = weather.dew_point((70 - 32) * 5 / 9 + 273.15, 0.5)
    assert (dew - 273.15) * 9 / 5 + 32 == pytest.approx(50.5, abs=0.054 + 0.05)


def test_saturation_pressure():
    """ASHRAE 2017 (P): 3169.7 Pa at 25 C; Magnus within 0.5 %."""
    assert weather.saturation_pressure(298.15) == pytest.approx(3169.7, rel=0.005)


def test_surface_above_the_dew_point(shipped):
    """3 C, 5 F: FHWA-RD-98-084, MIL-HDBK-1110 9.6.6 (P)."""
    assert shipped.terms.dew_margin == pytest.approx(3) and not weather.dry_enough(285.0, 282.5, shipped.terms.dew_margin)


def test_voc_less_water():
    """40 CFR 59 (symbols P, form M): 166.67 g/L; D: 1 lb/gal is 119.8264 g/L."""
    assert emission.voc_less_water(0.5, 0.4, 0.001, 1000) == pytest.approx(166.67, abs=0.005)
    assert POUND / GALLON == pytest.approx(119.8264, abs=5e-5)


@pytest.mark.parametrize("margin, markup", [(0.40, 0.667), (0.50, 1.000), (0.20, 0.250)])   # D
def test_markup(margin, markup):
    assert price.markup(margin) == pytest.approx(markup, abs=5e-4)


def test_overhead_of_sales_and_margin():
    """D: overhead 15 % of sales and margin 20 % on 10,000 of direct cost: 15,385."""
    assert price.selling_price(10000, 0.20, 0.15) == pytest.approx(15385, abs=0.5)


def test_airless_practice(shipped):
    """MIL-HDBK-1110 9.6.8.1 (P): 50 % overlap; 7.5.4.2: 1000 to 3000 psi; p. 123: the fan leaves the flow alone."""
    assert shipped.terms.overlap == 0.5
    sprayed = [row for row in shipped.rows["coatings"] if row.ready and row.base == "water" and row.volume_solids]
    assert all(1000 <= row.pressure / PSI <= 3000 for row in sprayed)
    flows = {}
    for row in (row for row in shipped.rows["trials"] if row.live and row.coat == 2 and "standard" in row.nozzle):
        flows.setdefault(shipped.row("nozzles", row.size).orifice, set()).add(row.flow)
    assert all(len(same) == 1 for same in flows.values())


@pytest.mark.parametrize("built, building, inside, outside, windows, applies", [
    (1977, "home", 6.1, 0, None, 1), (1977, "home", 6, 20, None, 0), (1977, "child-occupied", 0, 20.1, None, 1),
    (1978, "home", 100, 100, "yes", 0), (1950, "home", 0, 0, "yes", 1), (1950, "other", 100, 100, None, 0)])
def test_lead_safe_rule(built, building, inside, outside, windows, applies):
    """40 CFR 745.83 (P): homes and child-occupied buildings before 1978; up to 6 ft2 a room and 20 ft2 outside is minor; windows never."""
    opened = open_job(None, [ROOT / "catalogs"])
    opened.values["job"][0].update(built=float(built), building=building, disturbed_inside=inside * FT2, disturbed_outside=outside * FT2,
                                   windows_replaced=windows)
    assert type(opened.estimate)(opened.values, opened.units, opened.estimate.capacity).checks.lead == applies
