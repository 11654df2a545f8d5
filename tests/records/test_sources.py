"""The sheet Sources speaks for every figure of the terms, once, and says honestly of what kind each source is."""

from collections import Counter

from builder.records.sources import KINDS_OF_SOURCE, SOURCES
from builder.records.terms import TERMS


def test_every_figure_of_the_terms_has_its_source():
    assert Counter(key for source in SOURCES for key in source.terms) == Counter(field.key for field in TERMS.fields)


def test_every_source_is_of_a_known_kind_and_says_how_to_replace_it():
    for source in SOURCES:
        assert source.kind in KINDS_OF_SOURCE and source.source and source.replace, source.topic
        assert source.kind != "common practice" or source.source == "No source", source.topic


def test_catalog_records_say_where_they_come_from(books):
    values = books["boathouse"].opened.values
    for block in ("coatings", "families", "pumps", "surfaces", "profiles", "rates", "crews", "exposures", "access"):
        assert all(row["source"] for row in values[block]), block
    assert all(row["standard"] for row in values["profiles"])
