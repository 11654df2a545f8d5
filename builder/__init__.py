"""Wetfilm: catalogs and a job file in, a living estimate workbook out."""

__version__ = "0.1.0"
