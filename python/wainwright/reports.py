"""The reports and all they are made of. Units stand in brackets.

Made from the published schemas by `cargo xtask python-types`; edit the reports' declarations instead.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from ._report import Record, Report

__all__ = [
    "Assumption",
    "Category",
    "Caution",
    "Engine",
    "Finding",
    "FluidMass",
    "HeavyPart",
    "Label",
    "MassBand",
    "PayloadReport",
    "Reconciliation",
    "Record",
    "Relabel",
    "Report",
    "StateMass",
]


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class PayloadReport(Report):
    """What the trailer weighs, and what may still be loaded."""

    gvwr_lb: float
    """Gross vehicle weight rating, as given. [lb]"""
    bare_mass_lb: float
    """Bare trailer, as given. [lb]"""
    parts_mass_lb: float
    """All parts together. [lb]"""
    unloaded_mass_lb: float
    """Unloaded: bare trailer, parts, and propane at its full fill; no water, no cargo. [lb]"""
    categories: tuple[Category, ...]
    """Mass of the parts by category, heaviest first. Parts that name none are under `other`."""
    heaviest: tuple[HeavyPart, ...]
    """The heaviest parts, at most ten, heaviest first."""
    fluids: Mapping[str, FluidMass]
    """What each tank holds when full."""
    states: Mapping[str, StateMass]
    """Each loading state."""
    label: Label
    """Figures for the cargo capacity label."""
    relabel: Relabel
    """Whether the maker's label must be corrected."""
    reconciliation: Mapping[str, Reconciliation]
    """What a scale showed beyond the listed masses, for every state that carries readings."""
    findings: tuple[Finding, ...]
    """What the rules say, gravest first."""
    assumptions: tuple[Assumption, ...]
    """Every default that was used."""
    cautions: tuple[Caution, ...]
    """What goes with every report on weights."""
    engine: Engine
    """What worked this out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Category(Record):
    """The mass of one category of parts."""

    category: str
    """The category."""
    mass_lb: float
    """Its mass. [lb]"""
    gvwr_fraction: float
    """Its share of the GVWR. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeavyPart(Record):
    """One of the heaviest parts."""

    part: str
    """The part's id."""
    mass_lb: float
    """Its mass, times its quantity. [lb]"""
    gvwr_fraction: float
    """Its share of the GVWR. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class FluidMass(Record):
    """What one tank holds when full."""

    density_lb_per_gal: float
    """Density that loads are worked out with. [lb/gal]"""
    full_lb: float
    """Mass of a full tank at that density. [lb]"""
    label_lb: float | None
    """Mass as the label states it, at the label's own density; none for what is not water. [lb]"""
    label_kg: float | None
    """The same in kilograms, at the label's density in kilograms. [kg]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class StateMass(Record):
    """The masses of one loading state."""

    moving: bool
    """Is it driven in this state?"""
    fluids_lb: float
    """Liquids. [lb]"""
    cargo_lb: float
    """Cargo. [lb]"""
    gross_mass_lb: float
    """Everything: what a scale would show, tongue and axles together. [lb]"""
    payload_left_lb: float
    """What is left of the GVWR; below 0 the trailer is overweight. [lb]"""
    gvwr_fraction: float
    """Gross mass as a share of the GVWR. [1]"""
    band: MassBand
    """How far the gross mass may be off, from the tolerances given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MassBand(Record):
    """How far a mass may be off, from the tolerances given. What gives none is taken as exact."""

    worst_lb: float
    """All off the same way: for go or no-go. [lb]"""
    scatter_lb: float
    """Independent of one another (root of the sum of squares): the scatter to expect. [lb]"""
    without_tolerance_count: int
    """How many masses aboard give no tolerance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label(Record):
    """Figures for the cargo capacity label. Rounded down, so that the label never promises too much."""

    cargo_capacity_lb: float
    """Cargo carrying capacity in whole pounds, rounded down. [lb]"""
    cargo_capacity_kg: float
    """Cargo carrying capacity in whole kilograms, rounded down. [kg]"""
    water_lb: float
    """A full load of fresh water at the label's 8.3 lb/gal, not rounded; print it rounded up. [lb]"""
    water_kg: float
    """A full load of fresh water at the label's 1 kg/L, not rounded; print it rounded up. [kg]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Relabel(Record):
    """Whether the cargo capacity label that came with the trailer must be corrected before its first sale."""

    threshold_lb: float
    """Mass that may be added before it must: the lesser of 1.5 % of the GVWR and 100 lb. [lb]"""
    added_lb: float
    """Mass added: all parts. [lb]"""
    correction_due: bool
    """Is more added than that?"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reconciliation(Record):
    """What a scale showed in one state beyond the listed masses."""

    measured_lb: float | None
    """What it showed, tongue and axles together; none where the readings make up no total. [lb]"""
    listed_lb: float
    """What is listed as aboard then. [lb]"""
    unaccounted_lb: float | None
    """Measured less listed; below 0 the list is too heavy. [lb]"""
    tolerance_lb: float
    """How far that may be off for the scale alone. [lb]"""
    moment_lb_in: float | None
    """Measured less listed moment about the ball. [lb·in]"""
    x_in: float | None
    """Where behind the ball the unaccounted mass must sit. None where it is within the scale's tolerance, or
    where readings or places do not tell. [in]"""
    x_tolerance_in: float | None
    """How far that place may be off for the scale alone. [in]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding(Record):
    """What a rule says of this build."""

    code: str
    """The rule's stable name. Later versions add names and never rename one."""
    severity: Literal["violation", "caution", "note"]
    """`violation`: a rating, a law or a standard is broken; `caution`: within it, with little margin or
    against good practice; `note`: worth knowing."""
    subject: str
    """JSON Pointer into the build, to what a person would look at or change."""
    message: str
    """What is found, for a person. The words may change in any release."""
    value: float | None
    """The figure that was judged."""
    limit: float | None
    """What it was judged against."""
    limit_kind: Literal["maximum", "minimum"] | None
    """Which side of the limit is wanted."""
    unit: str | None
    """Unit of `value` and `limit`."""
    remedy: str
    """What would put it right."""
    citation: str
    """Where the rule is from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption(Record):
    """A default that was used because the build does not say."""

    pointer: str
    """JSON Pointer to where the caller would say it."""
    value: float | str | bool
    """What was taken."""
    unit: str | None
    """Its unit."""
    reason: str
    """Why this value."""
    citation: str
    """Where it is from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution(Record):
    """A fixed sentence of safety that goes with every report of its subject."""

    code: str
    """Its stable name."""
    text: str
    """The sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Engine(Record):
    """What worked the answer out. The same build and the same engine give the same bytes."""

    version: str
    """Version of the calculation."""
