"""What stands beside the entries on the input sheets: the key result and the first fault in words."""


def beside(est):
    rows = est.rows
    for entry, area in zip(rows["takeoff"], rows["areas"]):
        entry.set(shown_area=area.coated, shown_look=area.look, shown_fault=area.fault)
    for entry in rows["openings"]:
        entry.set(shown_deducted=entry.deducted)
    for entry in rows["systems"]:
        entry.set(shown_area=entry.coated)
    for entry, film, pick, amount in zip(rows["coats"], rows["films"], rows["picks"], rows["gallons"]):
        entry.set(shown_nozzle=pick.nozzle, shown_need=amount.need, shown_fault=film.fault)
    for entry in rows["kit"]:
        entry.set(shown_worn=entry.worn)
    for entry, hours in zip(rows["tasks"], rows["task_hours"]):
        entry.set(shown_hours=hours.hours and hours.hours[0])
    for block in ("openings", "systems", "kit", "tasks", "coatings", "families", "nozzles", "pumps", "surfaces", "profiles", "rates",
                  "crews", "exposures", "reaches", "holidays"):
        for entry in rows[block]:
            entry.shown_fault = entry.fault
