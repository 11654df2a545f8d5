"""From cost to price (E22)."""


def selling_price(cost, margin, overhead_of_sales):
    """The price of which `margin` is profit and `overhead_of_sales` pays the office (E22b).

    cost [money]; margin, overhead_of_sales [-], together below 1. Returns [money].
    """
    return cost / (1 - margin - overhead_of_sales)


def markup(margin):
    """The markup on cost that equals a margin on price. Returns [-]."""
    return margin / (1 - margin)
