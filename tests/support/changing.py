"""An estimate made again after changes to its values."""

import copy

from builder.stages.estimate import Estimate


def again(opened, *changes):
    """The estimate of a job after `change(values)`, one after another."""
    values = copy.deepcopy(opened.values)
    for change in changes:
        change(values)
    return Estimate(values, opened.units, opened.estimate.capacity)


def setting(block, key, value):
    """A change: one figure of every row of a block."""

    def change(values):
        for row in values[block]:
            row[key] = value

    return change


def scaling(block, key, factor):
    """A change: one figure of every row of a block that has it, times a factor."""

    def change(values):
        for row in values[block]:
            if row.get(key) is not None:
                row[key] *= factor

    return change


def own_nozzles(opened):
    """A change: each coat keeps the nozzle that it has, so that no other pick answers what changes next."""
    nozzles = [row.nozzle for row in opened.estimate.rows["picks"]]

    def change(values):
        for coat, nozzle in zip(values["coats"], nozzles):
            coat["nozzle"] = nozzle

    return change


def net(estimate, scenario=1):
    return estimate.rows["price"][scenario - 1].net


def needs(estimate):
    return [row.need for row in estimate.rows["gallons"] if row.live]
