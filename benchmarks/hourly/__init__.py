"""An hourly yardstick for the monthly method of the core; never a part of the product.

Of the core it takes the house, the U-values and the published infiltration formula; the balance,
the sun, storage, control and windows are its own, so that what both agree on is not one mistake
made twice.
"""
