"""Every kind of record, in the order in which rows are judged: a row refers only to kinds above its own."""

from types import MappingProxyType

from builder.records import catalogs, job
from builder.records.terms import TERMS
from builder.records.week import WEEK

CATALOGS = (
    TERMS,
    catalogs.FAMILIES,
    catalogs.NOZZLES,
    catalogs.COATINGS,
    catalogs.PUMPS,
    catalogs.PROFILES,
    catalogs.SURFACES,
    catalogs.RATES,
    catalogs.CREWS,
    catalogs.EXPOSURES,
    catalogs.ACCESS,
    catalogs.HOLIDAYS,
)
JOBS = (
    job.JOB,
    job.SYSTEMS,
    job.COATS,
    job.TAKEOFF,
    job.ROOMS,
    job.OPENINGS,
    job.KIT,
    job.GUARDS,
    job.TASKS,
    job.WEATHER,
    *WEEK,
)
KINDS = MappingProxyType({kind.key: kind for kind in (*CATALOGS, *JOBS)})
TABLES = MappingProxyType({kind.key: kind for kind in KINDS.values() if not kind.upright})
