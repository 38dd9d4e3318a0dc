"""The reports and all they are made of. Units stand in brackets.

Made from the published schemas by `cargo xtask python-types`; edit the reports' declarations instead.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from ._report import Answer, Record, Report

__all__ = [
    "AiringReport",
    "Answer",
    "ArrayHarvest",
    "ArrayWiring",
    "Assumption",
    "Autonomies",
    "AxleLoadReport",
    "AxleRange",
    "AxleState",
    "AxleStation",
    "BankUsed",
    "BarsState",
    "BatchReport",
    "BatteryFault",
    "BoxAir",
    "Category",
    "Caution",
    "Center",
    "ChangeReport",
    "ChargingReport",
    "Check",
    "CircuitInMode",
    "CircuitLoadReport",
    "CircuitSummary",
    "CompareReport",
    "Condensation",
    "ControllerWiring",
    "CoolerReport",
    "CoolingLoadReport",
    "Coupling",
    "DayBalance",
    "DesignUsed",
    "DocumentChange",
    "EnergyBudgetReport",
    "Engine",
    "EnvelopeUsed",
    "EvaluateReport",
    "Extreme",
    "FigureChange",
    "Finding",
    "FindingChange",
    "Fit",
    "FloorLoad",
    "FluidMass",
    "GainReport",
    "HandedOver",
    "HeatingLoad",
    "HeavyPart",
    "Hold",
    "HourDemand",
    "HourLoad",
    "InsideReport",
    "Label",
    "LargestMass",
    "Legs",
    "LifeReport",
    "LoadParts",
    "LoadShare",
    "Loading",
    "Margins",
    "MassBand",
    "ModeLoad",
    "MonthBalance",
    "MonthReport",
    "NormalUse",
    "OptionReport",
    "OptionsReport",
    "PayloadReport",
    "PeakLoad",
    "PlaceRange",
    "Placement",
    "PullDownReport",
    "Ramp",
    "Range",
    "RankedChoice",
    "Reconciliation",
    "Record",
    "Relabel",
    "Report",
    "RoadState",
    "RowError",
    "SearchReport",
    "Sizing",
    "SolarWiring",
    "SolvePoint",
    "SolveRange",
    "SolveReport",
    "SolveSpan",
    "SourceLoad",
    "Stability",
    "StateLoads",
    "StateMass",
    "StayReport",
    "StepTrace",
    "SurfaceUsed",
    "TieDownCheck",
    "TongueBand",
    "TowState",
    "ToyReport",
    "TraceReport",
    "Unhitched",
    "Verdict",
    "VerdictChange",
    "WeatherUsed",
    "WordChange",
    "WorksheetReport",
    "Worst",
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


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class AxleLoadReport(Report):
    """What tongue, axles, wheels and tow vehicle carry, and where heavy things may stand."""

    states: Mapping[str, StateLoads]
    """Each loading state."""
    worst: Worst
    """Exact worst cases over every fill of every tank and every choice of cargo, with the state that produces
    each."""
    normal_use: NormalUse | None
    """The same where the waste tanks hold no more than came out of the fresh tanks. None where there are no
    fresh and waste tanks."""
    checks: tuple[Check, ...]
    """Every limit the build gives, at its worst, nearest to its bound first."""
    placement: Mapping[str, Placement | None]
    """Where each part and each piece of cargo may stand in the states that move. None where nothing fits: see
    `no_place`."""
    no_place: Mapping[str, tuple[str, ...]]
    """For what has no place, the two limits that leave it none."""
    largest_mass: Mapping[str, LargestMass | None]
    """The greatest mass of each piece of cargo at its place, in the states that move and have it aboard. None
    where no mass there keeps every limit."""
    axle_station: AxleStation
    """Where the axles should be."""
    coupling: Coupling
    """What the coupling must bear, and what governs it."""
    unhitched: Unhitched | None
    """The unhitched trailer with somebody or something at its tail. None without a floor or a bay."""
    toys: Mapping[str, ToyReport]
    """Each toy in its bay: fit, ramp, floor and tie-downs."""
    findings: tuple[Finding, ...]
    """What the rules say, gravest first."""
    assumptions: tuple[Assumption, ...]
    """Every default that was used."""
    cautions: tuple[Caution, ...]
    """What goes with every report on loads."""
    engine: Engine
    """What worked this out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StateLoads(Record):
    """The loads of one state, level and at rest unless said otherwise."""

    moving: bool
    """Is it driven in this state?"""
    gross_mass_lb: float
    """Everything aboard. [lb]"""
    center: Center
    """Centre of gravity."""
    tongue_lb: float
    """Load of the coupler on the ball, without spring bars; below 0 it pulls up. [lb]"""
    tongue_fraction: float
    """Tongue load over gross mass. [1]"""
    tongue_band: TongueBand
    """How sure the tongue is, from the tolerances given."""
    axles: Mapping[str, AxleState]
    """Each axle, without spring bars."""
    tow_vehicle: TowState | None
    """The tow vehicle, coupled, without spring bars. None without a tow vehicle."""
    with_bars: BarsState | None
    """What the spring bars of a weight-distributing hitch make of it. None without bars."""
    jack_lb: float | None
    """Load on the jack, unhitched and level. None without a jack. [lb]"""
    road: RoadState
    """On the move."""
    stability: Stability
    """Sideways."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Center(Record):
    """A center of gravity."""

    x_in: float
    """Behind the ball. [in]"""
    y_in: float
    """Right (+) or left (-) of the centerline. [in]"""
    z_in: float
    """Above the ground. [in]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class TongueBand(Record):
    """How sure the tongue is, from the tolerances given. All 0 where none is given."""

    min_lb: float
    """Least tongue load, every mass and place off the worst way. [lb]"""
    max_lb: float
    """Greatest tongue load, every mass and place off the worst way. [lb]"""
    scatter_lb: float
    """Scatter to expect where errors are independent (root of the sum of squares). [lb]"""
    min_fraction: float
    """Least tongue fraction, every mass and place off the worst way. [1]"""
    max_fraction: float
    """Greatest tongue fraction, every mass and place off the worst way. [1]"""
    scatter_fraction: float
    """Scatter of the tongue fraction. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class AxleState(Record):
    """One axle in one state."""

    load_lb: float
    """On the ground under both wheels; 0 where it has lifted. [lb]"""
    left_lb: float
    """Under the left wheel or wheels. [lb]"""
    right_lb: float
    """Under the right wheel or wheels. [lb]"""
    gawr_fraction: float
    """Load over the axle's rating. [1]"""
    needed_psi: float | None
    """Cold pressure at which the tires carry the heavier side, by the power law with exponent 0.7. None where
    the tires' rating or its pressure is not given, or no pressure carries it. [psi]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class TowState(Record):
    """The tow vehicle in one state, coupled, without spring bars."""

    front_axle_lb: float
    """Front axle. [lb]"""
    rear_axle_lb: float
    """Rear axle. [lb]"""
    combination_lb: float
    """Tow vehicle and trailer together. [lb]"""
    front_fraction: float
    """Front axle over its load before coupling. Below 0.8 the steering gets light. [1]"""
    payload_left_lb: float | None
    """What is left of the tow vehicle's own rating. None where it is not given. [lb]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BarsState(Record):
    """One state with the spring bars of a weight-distributing hitch set as the build says."""

    moment_lb_in: float
    """Moment of the bars on the tow vehicle. [lb·in]"""
    front_axle_lb: float
    """Front axle of the tow vehicle. [lb]"""
    rear_axle_lb: float
    """Rear axle of the tow vehicle. [lb]"""
    net_tongue_lb: float
    """What the hitch passes to the tow vehicle: the tongue load less what the bars put on the trailer's
    axles. [lb]"""
    axles: Mapping[str, float]
    """Load of each trailer axle: bars add to them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoadState(Record):
    """One state on the move."""

    stop_tongue_lb: float
    """Tongue load in a hard stop. [lb]"""
    stop_push_lb: float
    """Push on the tow vehicle in a hard stop; 0 where the trailer brakes itself. [lb]"""
    emergency_tongue_lb: float
    """Tongue load in an emergency stop. [lb]"""
    emergency_push_lb: float
    """Push on the tow vehicle in an emergency stop. [lb]"""
    uphill_tongue_lb: float
    """Tongue load uphill at a steady speed. [lb]"""
    downhill_tongue_lb: float
    """Tongue load downhill at a steady speed, the trailer's brakes off. [lb]"""
    bend_heavy_lb: float
    """Load of the wheels on the outer side in a bend, all axles together, the mass leaning that way. [lb]"""
    bend_light_lb: float
    """Load of the wheels on the inner side. [lb]"""
    sway_damping: float | None
    """Damping ratio of the least damped swing of tow vehicle and trailer. For comparing packages with one
    another, never a safe speed. None without a tow vehicle, or in a parked state."""
    yaw_inertia_slug_ft2: float
    """Resistance to yaw about the trailer's own center of gravity. [slug·ft2]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stability(Record):
    """How far one state is from tipping sideways. Springs and tires make the real figures 10 to 20 % less."""

    static_stability_factor: float | None
    """Static stability factor: half the track over the height of the center of gravity. None where that is 0.
    [1]"""
    tip_lateral_g: float | None
    """Sideways acceleration at which the trailer tips over ball and outer tires. [g, standard gravity]"""
    tip_slope_deg: float | None
    """Side slope on which it tips. [degree]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Worst(Record):
    """Exact worst cases over every fill of every tank and every choice of cargo."""

    gross_mass_lb: Range
    """Everything aboard. [lb]"""
    tongue_lb: Range
    """Tongue load. [lb]"""
    tongue_fraction: Range
    """Tongue load over gross mass. [1]"""
    axles: Mapping[str, AxleRange]
    """Each axle."""
    exact: bool
    """False where an axle can lift off and there is so much that may vary that the figures enclose the truth
    on the safe side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Range(Record):
    """Least and greatest of one load, each with the state that produces it."""

    min: Extreme
    """Least."""
    max: Extreme
    """Greatest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extreme(Record):
    """One extreme, and the state that produces it."""

    value: float
    """The value."""
    fill: Mapping[str, float]
    """How full each tank is then; a tank left out is empty."""
    aboard: tuple[str, ...]
    """The cargo aboard then."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AxleRange(Record):
    """Least and greatest loads of one axle."""

    min: Extreme
    """Least load."""
    max: Extreme
    """Greatest load."""
    left: Range
    """Wheel or wheels on the left."""
    right: Range
    """Wheel or wheels on the right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NormalUse(Record):
    """Worst cases where fresh and waste tanks together hold no more than the fresh tanks do: water is used,
    not added. The figures above are the safe side of these."""

    water_lb: float
    """Water that goes round. [lb]"""
    gross_mass_max_lb: float
    """Greatest gross mass. [lb]"""
    tongue_min_lb: float
    """Least tongue load. [lb]"""
    tongue_max_lb: float
    """Greatest tongue load. [lb]"""
    tongue_fraction_min: float
    """Least tongue fraction. [1]"""
    tongue_fraction_max: float
    """Greatest tongue fraction. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Check(Record):
    """One limit at its worst."""

    limit: str
    """What the limit is of; a limit of one axle has its id behind a dot. Later versions may add names."""
    subject: str
    """JSON Pointer to the rating."""
    value: float
    """The load in the worst of the states that move. Tongue fractions are shares."""
    bound: float
    """Its bound."""
    unit: str
    """Unit of value and bound: `lb`, or `1` for a share."""
    used_fraction: float
    """The load over its bound. [1]"""
    state: str
    """The state."""
    worst_value: float
    """The load in the worst case over all fills and cargo. For a tongue fraction that of `worst`."""
    status: str
    """`ok` below 95 % of its bound, `near` up to it, `over` past it; judged in the states that move."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement(Record):
    """Where one thing may stand, everything else where it is."""

    min_x_in: float | None
    """Foremost place. None where nothing bounds it. [in]"""
    max_x_in: float | None
    """Rearmost place. None where nothing bounds it. [in]"""
    bound_by: tuple[str, ...]
    """The limits that end it: forward first, then rearward."""
    any_fill: PlaceRange | None
    """The same with any fill of the tanks and any other cargo. None where nothing fits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceRange(Record):
    """An interval of places."""

    min_x_in: float | None
    """Foremost place. None where nothing bounds it. [in]"""
    max_x_in: float | None
    """Rearmost place. None where nothing bounds it. [in]"""
    bound_by: tuple[str, ...]
    """The limits that end it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LargestMass(Record):
    """The greatest mass of one piece of cargo at its place, everything else as it is."""

    mass_lb: float | None
    """The mass. None where nothing bounds it. [lb]"""
    bound_by: str | None
    """The limit that ends it."""
    least_lb: float
    """Least mass that must stand there for the other limits to hold; 0 where nothing must. [lb]"""
    any_fill_lb: float | None
    """The greatest mass with any fill of the tanks and any other cargo. None where no mass keeps every limit.
    [lb]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class AxleStation(Record):
    """Where the axle group should be for a tongue of 10 to 15 %."""

    now_in: float
    """Where its load acts now. [in]"""
    best_in: float
    """Station that keeps the states that move nearest to 12.5 %. [in]"""
    min_in: float | None
    """Foremost station that keeps every state that moves at 10 % or more. None where no station can keep all.
    [in]"""
    max_in: float | None
    """Rearmost station that keeps every state that moves at 15 % or less. [in]"""
    any_fill_min_in: float | None
    """Foremost station for any fill and any cargo. None where no station can keep all. [in]"""
    any_fill_max_in: float | None
    """Rearmost station for any fill and any cargo. [in]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Coupling(Record):
    """What the coupling must bear. Ratings marked on the parts govern; these figures raise none."""

    coupler_class: int | None
    """Class of the coupling by the trailer's rating: 1 to 4. None above 10,000 lb."""
    longitudinal_lb: float | None
    """Least breaking strength fore and aft. [lb]"""
    transverse_lb: float | None
    """Least breaking strength sideways. [lb]"""
    vertical_tension_lb: float | None
    """Least breaking strength upward; the larger of two states' tables, which differ. [lb]"""
    vertical_compression_lb: float | None
    """Least breaking strength downward. [lb]"""
    chain_lb: float
    """Breaking strength that each safety chain must have: the greater of rating and greatest gross mass.
    [lb]"""
    gross_limit_lb: float
    """Least of all ratings of the gross mass. [lb]"""
    gross_limit_by: str
    """What it is of."""
    tongue_limit_lb: float | None
    """Least of all ratings of the tongue load. None where none is given. [lb]"""
    tongue_limit_by: str | None
    """What it is of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unhitched(Record):
    """The unhitched trailer: what at its tail lifts the jack, whatever is in the tanks."""

    hinge_x_in: float
    """The ramp's hinge, or the rear edge of the floor. [in]"""
    lift_mass_lb: float | None
    """Least mass at the hinge that lifts the jack in the listed states, toys left out. None where the trailer
    stands on its tail anyway. [lb]"""
    lift_state: str | None
    """The state in which that is."""
    any_fill_lift_mass_lb: float | None
    """The same over every fill and every choice of other cargo. [lb]"""
    any_fill_tip_mass_lb: float | None
    """Least mass at the hinge beyond which nothing holds it, over every fill and choice of other cargo.
    [lb]"""
    jack_max_lb: float | None
    """Greatest load on the jack over every fill and choice of cargo. None without a jack. [lb]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToyReport(Record):
    """One toy: what it and the trailer must be for it to ride there."""

    fit: Fit | None
    """What is left of the bay and the opening around it. None without a bay."""
    ramp: Ramp | None
    """The ramp under it. None where deck height or ramp length is not given."""
    floor: FloorLoad | None
    """The floor under its heaviest wheel. None where panel or crossmembers are not given."""
    tie_downs: TieDownCheck | None
    """What holds it. None without tie-downs."""
    loading: Loading
    """Driving or rolling it in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit(Record):
    """What is left around a toy, beyond the toy itself; below 0 it does not fit. None where the bay does not
    give the clear figure."""

    width_left_in: float | None
    """Clear width less the toy's, both sides together. [in]"""
    length_left_in: float
    """Bay length less the lengths of all toys that ride together. [in]"""
    together_count: int
    """How many toys ride together."""
    height_left_in: float | None
    """Clear height less the toy's. [in]"""
    opening_width_left_in: float | None
    """Width of the door opening less the toy's. [in]"""
    opening_height_left_in: float | None
    """Height of the door opening less the toy's. [in]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ramp(Record):
    """The slope of the ramp, and what it asks of the toy."""

    angle_deg: float
    """Its angle on level ground. [degree]"""
    needed_clearance_in: float | None
    """Ground clearance that the toy needs at the hinge, tires taken as points (the safe side). None without a
    wheelbase. [in]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorLoad(Record):
    """The floor panel under the heaviest wheel, midway between two crossmembers of the last span."""

    wheel_lb: float
    """Load of the heaviest wheel, the rider's share included. [lb]"""
    stress_psi: float
    """Bending stress with a strip 12 in wider than the tire. [psi]"""
    narrow_stress_psi: float
    """The same with a strip 4 in wider. [psi]"""
    deflection_in: float
    """Deflection with the wider strip. [in]"""
    span_over_deflection: float
    """Span over deflection, with the wider strip."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TieDownCheck(Record):
    """What the tie-downs of one toy hold, each direction alone."""

    count: int
    """How many there are."""
    aggregate_lb: float
    """Sum of their working load limits as the rule counts them: half for a direct one. [lb]"""
    aggregate_needed_lb: float
    """What that sum must be: half the toy's mass. [lb]"""
    directions: tuple[Hold, ...]
    """Each direction."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold(Record):
    """What holds a toy against moving in one direction."""

    direction: str
    """The way the toy would go: `forward`, `rearward`, `left`, `right`."""
    wll_lb: float
    """Sum of the working load limits that pull against it. [lb]"""
    wll_needed_lb: float
    """What they must hold within their working load limits. [lb]"""
    breaking_lb: float | None
    """Sum of the breaking strengths that pull against it. None where one is not given. [lb]"""
    breaking_needed_lb: float
    """What they must hold before they break. [lb]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loading(Record):
    """Driving or rolling a toy in: its mass goes over the hinge behind the axles first."""

    mass_lb: float
    """The toy with its rider. [lb]"""
    hitched_tongue_lb: float | None
    """Least tongue load while it stands at the hinge, hitched, over every fill and choice of other cargo;
    below 0 the coupler pulls up on the ball. None without a floor or a bay. [lb]"""
    ramp_moment_lb_in: float | None
    """Greatest moment behind the axles on the way in, front or rear axle on the hinge, the ramp's foot on the
    ground. None without a ramp and a wheelbase. [lb·in]"""
    standing_moment_lb_in: float | None
    """Moment of the whole toy standing at the hinge: what the verdict is on. [lb·in]"""
    holding_moment_lb_in: float | None
    """Moment that keeps the jack down, unhitched, at its least over the listed states without toys.
    [lb·in]"""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class CircuitLoadReport(Report):
    """What every circuit carries in every supply mode, what it needs, and what may run together."""

    circuits: Mapping[str, CircuitSummary]
    """Each circuit in the mode in which it carries most."""
    modes: Mapping[str, ModeLoad]
    """Each supply mode."""
    battery: BatteryFault | None
    """The battery as a source of fault current; `null` where the build has no battery."""
    solar: SolarWiring | None
    """The wiring of the solar arrays; `null` where the build has none."""
    findings: tuple[Finding, ...]
    """What the rules say, gravest first."""
    assumptions: tuple[Assumption, ...]
    """Every default that was used."""
    cautions: tuple[Caution, ...]
    """What goes with every report on circuits."""
    engine: Engine
    """What worked this out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitSummary(Record):
    """One circuit in the mode in which it carries most."""

    mode: str | None
    """That mode; `null` where no mode feeds the circuit."""
    breaker_a: float | None
    """Rating of its breaker or fuse, as given. [A]"""
    device_a: float | None
    """The smallest breaker or fuse that does. [A]"""
    awg: str | None
    """Size of its wire, as given."""
    current_a: float
    """What it carries with everything on. [A]"""
    required_a: float
    """What conductor and device must be made for. [A]"""
    ampacity_a: float | None
    """What its wire may carry. [A]"""
    drop_fraction: float | None
    """Share of the voltage lost on the way, cord and feeder not counted. [1]"""
    smallest_awg: str | None
    """The smallest wire that does in every mode."""
    bound_by: Literal["ampacity", "drop", "device", "minimum"] | None
    """What asks for that size: the current (`ampacity`), the voltage lost (`drop`), the breaker or fuse ahead
    (`device`), or the smallest size that is wanted or allowed (`minimum`)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ModeLoad(Record):
    """One supply mode with every load on."""

    sources: Mapping[str, SourceLoad]
    """Each source that feeds a circuit in this mode."""
    circuits: Mapping[str, CircuitInMode]
    """Each circuit that is fed."""
    conflicts: tuple[tuple[str, ...], ...]
    """What may not run together: parts of which all but any one may, the fewest first. At most 100 are
    listed."""
    conflict_count: int
    """How many such conflicts there are."""
    largest_sets: tuple[tuple[str, ...], ...]
    """What may run together: parts to which no other can be added, the most first. At most 100 are listed;
    none where they are not complete."""
    largest_set_count: int
    """How many such sets there are."""
    sets_exact: bool
    """Are conflicts and sets complete? Beyond 20 parts in conflicts only those of up to four parts are looked
    for."""
    best_set: tuple[str, ...]
    """Of all that may run together, the parts with the greatest sum of priorities."""
    unrestricted: tuple[str, ...]
    """Parts that may run whatever else does."""
    unpowered: tuple[str, ...]
    """Parts without power in this mode."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceLoad(Record):
    """One source in one mode."""

    current_a: float
    """What it gives with everything on; of two legs the more loaded. Of a battery with its inverters at what
    their own loads take. [A]"""
    inverters_rated_a: float
    """The same with its inverters at their rated output, for which their cables are made. [A]"""
    limit_a: float | None
    """What it may give for hours; `null` where nothing limits it. [A]"""
    limited_by: str | None
    """What sets that limit: `rating`, `mode`, `power`, or the name of a rating on its path."""
    rating_a: float | None
    """The least rating on its path, which a short load may reach. [A]"""
    continuous_a: float
    """The part of the current that flows for three hours and more. [A]"""
    power_w: float
    """The power of everything on. [W]"""
    legs: Legs | None
    """Each leg of a 120/240 V supply, and their neutral; `null` for a supply of one leg."""
    start_va: float
    """The greatest demand while one load starts and all others run. [VA]"""
    starter: str | None
    """The part that starts then."""
    input_w: float | None
    """What an inverter takes in with everything on; `null` for other sources. [W]"""
    input_a: float | None
    """That as current, at the voltage at which it shuts off. [A]"""
    bus_v: float | None
    """The voltage at its panel or bus bar with everything on, after cord or cable; `null` where the supply
    cannot hold the load. [V]"""
    expected_a: float
    """Mean of the current over the day, from the hours of the loads. [A]"""
    trip_risk: float | None
    """Chance, in the worst hour, that the loads on at one moment pass the rating, if they switch
    independently; `null` where a load does not say its hours, where there is no rating, and where there are
    too many loads."""
    hours: tuple[HourDemand, ...]
    """Hour by hour, where a load says in which hours it runs; empty elsewhere."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Legs(Record):
    """The legs of a 120/240 V supply."""

    a_a: float
    """What the first leg carries. [A]"""
    b_a: float
    """What the second leg carries. [A]"""
    neutral_a: float
    """What the neutral carries. [A]"""
    in_phase: bool
    """Are the legs in phase, so that the neutral carries their sum?"""
    imbalance_fraction: float
    """How far a leg is from their mean, as a share of it. [1]"""
    a_v: float
    """Voltage of the first leg at the panel. [V]"""
    b_v: float
    """Voltage of the second leg at the panel. [V]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class HourDemand(Record):
    """The demand on a source in one hour of the day."""

    hour: int
    """The hour, from midnight."""
    expected_a: float
    """Mean of the current. [A]"""
    peak_a: float
    """The current of everything that may be on in this hour. [A]"""
    trip_risk: float | None
    """Chance that the loads on at one moment pass the rating; `null` where there is no rating."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitInMode(Record):
    """One circuit in one mode."""

    source: str
    """The source that feeds it."""
    voltage_v: float
    """The voltage it is fed with. [V]"""
    current_a: float
    """What it carries with everything on. [A]"""
    required_a: float
    """What conductor and device must be made for: all, and a quarter more of what is continuous and of the
    greatest motor. [A]"""
    phasor_a: float
    """Currents added up with regard to phase. [A]"""
    power_w: float
    """The power of everything on. [W]"""
    awg: str | None
    """The size that ampacity and drop are worked out for: its own, or the smallest that does where it names
    none."""
    ampacity_a: float | None
    """What that wire may carry; `null` where the table has no such wire. [A]"""
    drop_v: float | None
    """Voltage lost out and back, at 75 °C of the conductor; `null` where the length of the wire is not given.
    [V]"""
    drop_fraction: float | None
    """That as a share of the voltage it is fed with. [1]"""
    total_drop_fraction: float | None
    """The same with cord, cable and feeder ahead of it. [1]"""
    conductor_f: float | None
    """Temperature that its conductor settles at; `null` where it is not known. [°F]"""
    expected_drop_v: float | None
    """Voltage lost at that temperature: what a meter would show, where `drop_v` is for the verdict. [V]"""
    arriving_v: float | None
    """What arrives at its end while everything on the source runs, loads that keep their power drawing more;
    `null` where the supply cannot hold the load. [V]"""
    smallest_awg: str | None
    """The smallest wire that does."""
    bound_by: Literal["ampacity", "drop", "device", "minimum"] | None
    """What asks for that size: the current (`ampacity`), the voltage lost (`drop`), the breaker or fuse ahead
    (`device`), or the smallest size that is wanted or allowed (`minimum`)."""
    by_ampacity_awg: str | None
    """The smallest wire by ampacity alone."""
    by_drop_awg: str | None
    """The smallest wire by voltage drop alone."""
    device_a: float | None
    """The smallest breaker or fuse that does. [A]"""
    margin_fraction: float | None
    """The share of its breaker or fuse that is left. [1]"""
    grounding_awg: str | None
    """The smallest equipment grounding conductor, copper; `null` for direct current."""
    fault_a: float | None
    """Current of a short circuit at its device, for circuits of a battery. [A]"""
    withstand_s: float | None
    """How long the wire bears that current, insulation rated for 75 °C and damaged at 150 °C, where it is
    under 2 s. [s]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BatteryFault(Record):
    """The battery as a source of fault current."""

    open_circuit_v: float
    """Voltage at rest and full. [V]"""
    resistance_mohm: float
    """Resistance between its terminals. [mΩ]"""
    fault_a: float
    """Current of a short circuit at its terminals. [A]"""
    charge_v: float
    """Greatest voltage it is charged at. [V]"""
    main_interrupting_a: float | None
    """Least interrupting rating of a main device by its cold-cranking rating, where that is given. [A]"""
    branch_interrupting_a: float | None
    """The same of a branch device. [A]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SolarWiring(Record):
    """The wiring of the solar arrays."""

    arrays: Mapping[str, ArrayWiring]
    """Each array whose modules' voltage and current are given."""
    controller: ControllerWiring | None
    """The side of the controller toward the battery; `null` where there is no controller."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrayWiring(Record):
    """The wiring of one array."""

    cold_voltage_v: float | None
    """Open-circuit voltage of a string on the coldest day. [V]"""
    hot_voltage_v: float | None
    """Voltage of a string at its greatest power on the hottest day. [V]"""
    most_current_a: float | None
    """Short-circuit current of all strings, and a quarter more for bright sky. [A]"""
    required_a: float | None
    """What conductor and device must be made for. [A]"""
    backfeed_a: float | None
    """Current that the other strings can drive back into one. [A]"""
    string_fuse_needed: bool | None
    """Must each string have a fuse? `null` where the module's label is not given."""
    string_fuse_a: float | None
    """The smallest fuse of a string. [A]"""
    ampacity_a: float | None
    """What its wire may carry. [A]"""
    drop_fraction: float | None
    """Voltage lost on the way at the working current. [1]"""
    smallest_awg: str | None
    """The smallest wire that does."""
    bound_by: Literal["ampacity", "drop", "device", "minimum"] | None
    """What asks for that size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ControllerWiring(Record):
    """The side of the controller toward the battery."""

    cold_voltage_v: float | None
    """Greatest open-circuit voltage of an array on the coldest day. [V]"""
    short_circuit_a: float | None
    """Short-circuit current of all arrays. [A]"""
    output_a: float
    """What it gives to the battery from the rated power of all arrays, at most its own rating. [A]"""
    required_a: float
    """What conductor and device must be made for: its rating and a quarter more. [A]"""
    device_a: float | None
    """The smallest breaker or fuse that does. [A]"""
    ampacity_a: float | None
    """What its wire may carry. [A]"""
    drop_fraction: float | None
    """Voltage lost on the way. [1]"""
    smallest_awg: str | None
    """The smallest wire that does."""
    bound_by: Literal["ampacity", "drop", "device", "minimum"] | None
    """What asks for that size."""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class EnergyBudgetReport(Report):
    """Harvest, state of charge, days of autonomy and shortfall by month."""

    summary: str
    """The answer in two sentences, for whoever will camp in it."""
    load_wh_per_day: float
    """What is asked of the battery in a mean day. [Wh/day]"""
    autonomy_h: float | None
    """Hours that the battery carries the loads without any sun, from the start of the stay on, its reserve
    left in it; `null` where it lasts longer than the weather given. [h]"""
    months: tuple[MonthBalance, ...]
    """Month by month, in the order of the weather given; the battery is full at the start."""
    smallest_array_w: float | None
    """The smallest rated power of arrays like those of the build that meets the target with this battery, the
    controller's limit lifted; `null` where no array can. [W]"""
    smallest_bank_ah: float | None
    """The smallest battery of this kind that meets the target with these arrays, by its capacity; `null`
    where no battery for 30 days without sun or less can. [Ah]"""
    sizing: Sizing
    """How the two smallest sizes were looked for, and why there is none where there is none."""
    weather: WeatherUsed
    """The weather that was used."""
    mode: str | None
    """The supply mode that was looked at; `null` where the build has none."""
    loads: Mapping[str, LoadShare]
    """What each part asks of the battery."""
    inverter_idle_wh_per_day: float
    """What the inverters take for themselves in a mean day. [Wh/day]"""
    bank: BankUsed
    """The battery as it counts here."""
    autonomy: Autonomies
    """How long it lasts without sun."""
    days_to_recover: float | None
    """Days until the emptied battery is full again, from the start of the stay on; `null` where it takes more
    than 60."""
    stay: StayReport | None
    """The stay; `null` where the build says of none, or its day is not in the weather given."""
    total: MonthBalance
    """All of the weather given."""
    arrays: Mapping[str, ArrayHarvest]
    """Each array."""
    charging: Mapping[str, ChargingReport]
    """Each source beside the sun."""
    worksheet: WorksheetReport | None
    """The budget worked out on one line, as a check; `null` where there is no array or no light."""
    life: LifeReport
    """How long the battery will last."""
    days: tuple[DayBalance, ...]
    """Day by day, where `stay.detail` asks for it."""
    steps: StepTrace | None
    """Step by step, where `stay.detail` asks for it."""
    findings: tuple[Finding, ...]
    """What the rules say, gravest first."""
    assumptions: tuple[Assumption, ...]
    """Every default that was used."""
    cautions: tuple[Caution, ...]
    """What goes with every energy budget."""
    engine: Engine
    """What worked this out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthBalance(Record):
    """The energy of a month."""

    month: int
    """The month, 1 to 12."""
    year: int
    """Its year in the weather given; a typical year is laid in 2025."""
    days: float
    """How many days of it the weather has."""
    harvest_kwh: float
    """What the arrays could give behind the controller. [kWh]"""
    load_kwh: float
    """What was asked of the battery. [kWh]"""
    spilled_kwh: float
    """What of the harvest nothing could take. [kWh]"""
    other_kwh: float
    """What other sources gave. [kWh]"""
    lost_kwh: float
    """What was lost in the battery. [kWh]"""
    unmet_kwh: float
    """What was asked for in vain. [kWh]"""
    unmet_h: float
    """Hours in which something was. [h]"""
    lowest_soc: float
    """Lowest state of charge. [1]"""
    mean_soc: float
    """Mean state of charge. [1]"""
    end_soc: float
    """State of charge at its end. [1]"""
    sun_hours_per_day: float
    """Light on the planes of the arrays in a mean day, as hours of full sun. [h/day]"""
    generator_h: float | None
    """Hours that the first generator of the build would run to give what went unmet; `null` where there is
    none. [h]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizing(Record):
    """How the smallest sizes were looked for."""

    max_unmet_fraction: float
    """Share of the load that may go unmet. [1]"""
    array: str
    """How the array was looked for, or why there is none."""
    bank: str
    """How the battery was looked for, or why there is none."""
    bank_parallel: int | None
    """The smallest battery, in whole strings of those of the build; `null` where their number is not
    given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherUsed(Record):
    """The weather that was used."""

    form: str
    """The form it was given in."""
    meaning: str
    """What that is, and what it means for the answer."""
    latitude_deg: float
    """Latitude the sun was reckoned for. [degree]"""
    longitude_deg: float
    """Longitude the sun was reckoned for. [degree]"""
    step_count: int
    """How many steps it has."""
    step_min: int
    """Length of a step. [min]"""
    station_away_mi: float | None
    """How far the station is from the site; `null` where they are one, or the site does not say where it is.
    [mi]"""
    filled_count: int
    """Figures of a file that were missing and have been filled in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadShare(Record):
    """What a part asks of the battery."""

    running_w: float
    """Power at the battery while all there are of it run, losses of its inverter included. [W]"""
    load_wh_per_day: float
    """What it takes in a mean day. [Wh/day]"""
    load_fraction: float
    """Its share of all. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BankUsed(Record):
    """The battery as it counts here."""

    capacity_wh: float
    """Energy it holds at its rated discharge. [Wh]"""
    usable_wh: float
    """The part of it that is used, warm. [Wh]"""
    each_ah: float | None
    """Capacity of each battery it is made of; `null` where their number is not given. [Ah]"""
    each_v: float | None
    """Voltage of each. [V]"""
    uneven_string_fraction: float | None
    """Share of the current that a string carries whose resistance is a fifth below that of the others. [1]"""
    max_charge_a: float
    """Greatest charging current that was reckoned with. [A]"""
    lowest_f: float
    """Its lowest temperature through the weather given. [°F]"""
    highest_f: float
    """Its highest. [°F]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Autonomies(Record):
    """How long the battery lasts without any sun or other source."""

    start: str
    """When the first figures begin: the start of the stay, or of the weather given."""
    start_soc: float
    """State of charge then. [1]"""
    autonomy_h: float | None
    """Hours from then on, the reserve left in it. [h]"""
    to_flat_h: float | None
    """Hours from then on with the reserve used up too. [h]"""
    worst_start: str
    """The hour from which a full battery is used up soonest."""
    worst_autonomy_h: float | None
    """Hours from that one on. [h]"""
    worst_to_flat_h: float | None
    """The same with the reserve used up too. [h]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class StayReport(Record):
    """What a stay comes to."""

    begins: str
    """When it begins, in local standard time."""
    days: float
    """How long it lasts."""
    grey_days: int
    """How many of its first days are grey."""
    harvest_wh: float
    """What the arrays could give. [Wh]"""
    load_wh: float
    """What is asked of the battery. [Wh]"""
    unmet_wh: float
    """What of it goes unmet. [Wh]"""
    lasts_h: float | None
    """Hours until something goes unmet; `null` where nothing does. [h]"""
    lowest_soc: float
    """Lowest state of charge. [1]"""
    lowest_at: str
    """When that is."""
    full_again: str | None
    """When the battery is full again; `null` where it is not by the end."""
    end_soc: float
    """State of charge at the end. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrayHarvest(Record):
    """What one array gives."""

    harvest_kwh: float
    """What it could give behind the controller, the controller's limit left out. [kWh]"""
    sun_hours_per_day: float
    """Light on its plane in a mean day, as hours of full sun. [h/day]"""
    faces_deg: float
    """Direction it faces, the trailer's heading counted in. [degree]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChargingReport(Record):
    """A source beside the sun."""

    output_w: float
    """Power it gives at the battery while it runs. [W]"""
    available_h: float
    """Hours in which it could run. [h]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorksheetReport(Record):
    """The budget worked out on one line for the hardest month: no series, no steps."""

    month: int
    """The month that asks for the largest array."""
    sun_hours_per_day: float
    """Hours of full sun in a mean day of it. [h/day]"""
    load_wh_per_day: float
    """Load of a mean day of it. [Wh/day]"""
    array_w: float
    """Array that covers such days. [W]"""
    days: float
    """Days without sun that the bank is for."""
    bank_ah: float
    """Bank that carries them. [Ah]"""
    autonomy_h: float
    """How long the battery there is carries that load. [h]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class LifeReport(Record):
    """How long the battery will last."""

    full_cycles_per_year: float
    """Energy drawn in a year, by its capacity."""
    years: float
    """Years until 80 percent of its capacity are left: by its cycles, each by its depth, or by its age."""
    bound_by: str
    """Which of the two ends it: `cycles` or `age`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayBalance(Record):
    """The energy of a day."""

    month: int
    """Its month, 1 to 12."""
    day: int
    """Its day of the month."""
    harvest_wh: float
    """What the arrays could give behind the controller. [Wh]"""
    load_wh: float
    """What was asked of the battery. [Wh]"""
    spilled_wh: float
    """What of the harvest nothing could take. [Wh]"""
    other_wh: float
    """What other sources gave. [Wh]"""
    unmet_wh: float
    """What was asked for in vain. [Wh]"""
    lowest_soc: float
    """Lowest state of charge. [1]"""
    end_soc: float
    """State of charge at its end. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepTrace(Record):
    """Every step of the weather given, in order."""

    start: str
    """When the first begins, in local standard time."""
    step_min: int
    """Length of a step. [min]"""
    end_soc: tuple[float, ...]
    """State of charge at the end of each. [1]"""
    harvest_w: tuple[float, ...]
    """What the arrays could give behind the controller, its limit left out. [W]"""
    load_w: tuple[float, ...]
    """What was asked of the battery. [W]"""
    unmet_wh: tuple[float, ...]
    """What was asked for in vain. [Wh]"""
    battery_f: tuple[float, ...]
    """Temperature of the battery at the end of each. [°F]"""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class CoolingLoadReport(Report):
    """The load hour by hour, what the given air conditioner makes of it, and the heat of a cold night."""

    summary: str
    """The hottest afternoon and the coldest night in two sentences, for whoever will camp in it."""
    peak: PeakLoad
    """The greatest load of the hot day with the box held at its set temperature and humidity."""
    hours: tuple[HourLoad, ...]
    """The hot day hour by hour, in local standard time."""
    held_f: float | None
    """The warmest that the box gets on the hot day with the given air conditioner; `null` where there is
    none. [°F]"""
    cooling_kwh_per_day: float | None
    """Electricity that the given air conditioner takes on the hot day; `null` where there is none.
    [kWh/day]"""
    heating: HeatingLoad
    """The cold night."""
    design: DesignUsed
    """The hot day and the cold night, and where they are from."""
    cooler: CoolerReport | None
    """The given air conditioner on the hot day; `null` where there is none."""
    smallest_btu_h: float | None
    """The smallest common size that holds the set temperature through the hot day, as efficient as the given
    one; `null` where none does. [BTU/h]"""
    uncooled_f: float
    """The warmest that the box gets on the hot day with nothing that cools it. [°F]"""
    steady_peak_btu_h: float
    """The greatest sensible load by U-values alone, nothing stored: an upper bound, as a check. A box whose
    faces are all warm passes less on to its air than a room does that U-values are stated for. [BTU/h]"""
    pull_down: PullDownReport | None
    """How long the given air conditioner takes to cool a box that stood closed in the sun; `null` where there
    is none."""
    airing: AiringReport | None
    """What fan and open windows do without it on the hot day; `null` where there is neither."""
    envelope: EnvelopeUsed
    """What roof, walls, floor and windows let through."""
    gains: Mapping[str, GainReport]
    """Heat set free inside in a mean hour of the hot day, by what gives it off: parts, and the losses of
    inverters and chargers."""
    mode: str | None
    """The supply mode that was looked at; `null` where the build has none."""
    changes: tuple[ChangeReport, ...]
    """What each of a few single changes would come to on the hot day, the one that lowers the peak most
    first."""
    condensation: Condensation
    """The insides of surfaces and windows on the cold night."""
    months: tuple[MonthReport, ...]
    """The weather given, month by month."""
    trace: TraceReport | None
    """Every step of the network through the weather given, where `climate.detail` asks for it."""
    findings: tuple[Finding, ...]
    """What the rules say, gravest first."""
    assumptions: tuple[Assumption, ...]
    """Every default that was used."""
    cautions: tuple[Caution, ...]
    """What goes with every cooling load."""
    engine: Engine
    """What worked this out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PeakLoad(Record):
    """The greatest load of a day, on the mean over an hour."""

    sensible_btu_h: float
    """Heat that warms the air. [BTU/h]"""
    latent_btu_h: float
    """Heat that comes as water. [BTU/h]"""
    total_btu_h: float
    """Both. [BTU/h]"""
    hour: int
    """The hour in which it falls, in local standard time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HourLoad(Record):
    """An hour of the hot day."""

    hour: int
    """The hour, in local standard time: it begins then."""
    outdoor_f: float
    """Air outside. [°F]"""
    indoor_f: float
    """Air inside with the given air conditioner, or with nothing where there is none. [°F]"""
    load_btu_h: float
    """The whole load with the box held at its set temperature. [BTU/h]"""
    run_fraction: float
    """Share of the hour in which the given air conditioner runs. [1]"""
    sensible_btu_h: float
    """Heat of the load that warms the air. [BTU/h]"""
    latent_btu_h: float
    """Heat of the load that comes as water. [BTU/h]"""
    electric_w: float
    """What the air conditioner draws on the mean. [W]"""
    humidity_fraction: float
    """Relative humidity inside. [1]"""
    uncooled_f: float
    """Air inside with nothing that cools. [°F]"""
    parts: LoadParts
    """Where the sensible load comes from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadParts(Record):
    """Where a sensible load comes from: what comes in less what is stored is the load. Below 0 it goes
    out."""

    roof_btu_h: float
    """Through the roof. [BTU/h]"""
    floor_btu_h: float
    """Through the floor. [BTU/h]"""
    front_btu_h: float
    """Through the front. [BTU/h]"""
    rear_btu_h: float
    """Through the rear. [BTU/h]"""
    left_btu_h: float
    """Through the left side. [BTU/h]"""
    right_btu_h: float
    """Through the right side. [BTU/h]"""
    windows_btu_h: float
    """Through windows by their warmth. [BTU/h]"""
    sun_btu_h: float
    """Sun through windows. [BTU/h]"""
    air_btu_h: float
    """With the air that comes in. [BTU/h]"""
    people_btu_h: float
    """From people. [BTU/h]"""
    equipment_btu_h: float
    """From what draws power. [BTU/h]"""
    cooking_btu_h: float
    """From a flame. [BTU/h]"""
    lost_btu_h: float
    """Radiated out through windows again, below 0. [BTU/h]"""
    stored_btu_h: float
    """Stored in air, lining and floor. [BTU/h]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatingLoad(Record):
    """The cold night, without sun and without anything else that heats."""

    load_btu_h: float
    """Heat that it takes. [BTU/h]"""
    outdoor_f: float
    """Air outside. [°F]"""
    indoor_f: float
    """What the box is held at. [°F]"""
    opaque_btu_h: float
    """Through roof, walls and floor. [BTU/h]"""
    windows_btu_h: float
    """Through windows. [BTU/h]"""
    air_btu_h: float
    """With the air that comes in. [BTU/h]"""
    with_warm_up_btu_h: float
    """The load and a quarter of it, to warm the box up. [BTU/h]"""
    capacity_btu_h: float | None
    """What the given heater gives in that cold; `null` where there is none. [BTU/h]"""
    holds_to_f: float | None
    """The coldest outside at which the given heater holds its temperature; `null` where there is none, or
    where it holds in any cold. [°F]"""
    night_h: float
    """Hours of the night that its energy is worked out for. [h]"""
    night_btu: float
    """Heat of the night. [BTU]"""
    night_kwh: float | None
    """Electricity of the night; `null` where the heater does not heat by it. [kWh]"""
    propane_lb: float | None
    """Propane of the night; `null` where the heater does not burn it. [lb]"""
    propane_gal: float | None
    """The same in gallons. [gal]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class DesignUsed(Record):
    """The hot day and the cold night."""

    month: int
    """Month of the hot day, 1 to 12."""
    day: int
    """Its day of the month."""
    max_f: float
    """Its warmest hour. [°F]"""
    min_f: float
    """Its coldest hour. [°F]"""
    dew_point_f: float
    """Its dew point in the warmest hour. [°F]"""
    wet_bulb_f: float
    """Its wet bulb in the warmest hour. [°F]"""
    night_f: float
    """Air of the cold night. [°F]"""
    hot_day: str
    """Where the hot day is from."""
    cold_night: str
    """Where the cold night is from."""
    pressure_psi: float
    """Air pressure at the place. [psi]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoolerReport(Record):
    """The given air conditioner on the hot day."""

    capacity_btu_h: float
    """Its rated capacity. [BTU/h]"""
    at_peak_btu_h: float
    """What it gives in the hour of the peak, moisture counted, while it runs. [BTU/h]"""
    sensible_at_peak_btu_h: float
    """What of that lowers the temperature. [BTU/h]"""
    power_at_peak_w: float
    """Power it takes in then while it runs. [W]"""
    margin_factor: float
    """What it gives that lowers the temperature, by the sensible load of that hour. [1]"""
    run_h: float
    """Hours of the day in which it runs. [h]"""
    busiest_run_fraction: float
    """Its greatest run fraction in an hour. [1]"""
    mean_f: float
    """Temperature inside on the mean over the day. [°F]"""
    warm_h: float
    """Hours of the day in which it is more than 1.8 °F above the set temperature. [h]"""
    humidity_fraction: float
    """Relative humidity inside on the mean over the day. [1]"""
    condensate_gal: float
    """Water that it takes out of the air in the day. [gal]"""
    by_room_area_btu_h: float | None
    """Size by the room-area table for houses, as a comparison; `null` for a floor beyond the table.
    [BTU/h]"""
    extrapolated: bool
    """Was it beyond the conditions that its curves were measured in?"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PullDownReport(Record):
    """Cooling a box that stood closed in the sun with nobody in it."""

    start_hour: int
    """The hour at which it is switched on."""
    soaked_f: float
    """Air inside before that. [°F]"""
    soaked_lining_f: float
    """Lining before that. [°F]"""
    air_h: float | None
    """How long until the air is at the set temperature; `null` where it takes more than a day. [h]"""
    lining_h: float | None
    """How long until the lining is within 5.4 °F of it; `null` where it takes more than a day. [h]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class AiringReport(Record):
    """What fan and open windows do alone on the hot day."""

    fan_cfm: float
    """Air that the fan draws through the box. [cfm]"""
    flow_cfm: float
    """Air that goes through the box when it is warmest. [cfm]"""
    warmest_f: float
    """The warmest that the box gets. [°F]"""
    above_outdoor_f: float
    """The greatest by which it is warmer than the air outside. [°F]"""
    limit_f: float
    """The warmest that the box may be. [°F]"""
    outdoor_limit_f: float
    """Outdoor air up to which it stays so in the sun of the hot day. [°F]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class EnvelopeUsed(Record):
    """What roof, walls, floor and windows let through."""

    opaque_btu_h_f: float
    """Roof, walls and floor together, by the degree. [BTU/(h·°F)]"""
    windows_btu_h_f: float
    """Windows together. [BTU/(h·°F)]"""
    air_btu_h_f: float
    """The air that comes in on the hot day. [BTU/(h·°F)]"""
    air_cfm: float
    """The air that comes in on the hot day. [cfm]"""
    volume_ft3: float
    """The room inside. [ft3]"""
    surfaces: Mapping[str, SurfaceUsed]
    """Each surface."""
    time_constant_h: float
    """Hours after which the box has followed a change outside to 63 percent. [h]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceUsed(Record):
    """A surface of the box as it counts here."""

    area_ft2: float
    """Its area without windows. [ft2]"""
    r_value: float
    """What it holds back from air to air, framing counted. [h·ft2·°F/BTU]"""
    sol_air_f: float
    """Its warmest outside on the hot day: sol-air temperature. [°F]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class GainReport(Record):
    """Heat that something sets free in the box."""

    mean_w: float
    """On the mean over the hot day. [W]"""
    at_peak_w: float
    """In the hour of the peak. [W]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeReport(Record):
    """What a single change would come to on the hot day."""

    change: str
    """Its stable name."""
    meaning: str
    """What it is."""
    peak_btu_h: float
    """Greatest load with it. [BTU/h]"""
    peak_saved_btu_h: float
    """By how much it lowers the greatest load. [BTU/h]"""
    warmest_f: float
    """The warmest that the box gets with the given air conditioner, or with nothing where there is none.
    [°F]"""
    warmest_lowered_f: float
    """By how much it lowers that. [°F]"""
    cooling_kwh_per_day: float | None
    """Electricity of the day; `null` where there is no air conditioner. [kWh/day]"""
    saved_kwh_per_day: float | None
    """By how much it lowers that. [kWh/day]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Condensation(Record):
    """How damp the box is on the cold night, and which insides drip."""

    dew_point_f: float
    """Dew point inside at rest, with the people, and a flame without a vent. [°F]"""
    humidity_fraction: float
    """Relative humidity inside. [1]"""
    insides: Mapping[str, InsideReport]
    """Surfaces and windows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InsideReport(Record):
    """The inside of a surface or a window on the cold night."""

    inside_f: float
    """Its temperature. [°F]"""
    coldest_f: float | None
    """The coldest place of it, over a post; `null` where its layers do not say. [°F]"""
    drips: bool
    """Does water condense on it?"""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthReport(Record):
    """A month of the weather given."""

    month: int
    """The month, 1 to 12."""
    year: int
    """Its year in the weather given; a typical year is laid in 2025."""
    cooling_kwh: float
    """Electricity for cooling. [kWh]"""
    run_h: float
    """Hours in which the air conditioner runs. [h]"""
    heat_kwh: float
    """Heat that the heater gives, whatever it takes in for that. [kWh]"""
    warmest_f: float
    """The warmest that it gets inside. [°F]"""
    coldest_f: float
    """The coldest that it gets inside. [°F]"""
    warm_h: float
    """Hours in which it is more than 1.8 °F above what the air conditioner is set to. [h]"""
    cold_h: float
    """Hours in which it is more than 1.8 °F below what the heater is set to. [h]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class TraceReport(Record):
    """Every step of the network through the weather given, in SI, for those who want to work it out again.
    Within a step all that drives it is constant."""

    start: str
    """When the first step begins, in local standard time."""
    step_min: int
    """Length of a step. [min]"""
    air_j_k: float
    """Heat capacity of the air and of what follows it at once. [J/K]"""
    mass_j_k: float
    """Heat capacity of lining, floor and furniture. [J/K]"""
    floor_load_j_k: float | None
    """Heat capacity of the load on the floor; `null` without one. [J/K]"""
    surface_to_air_w_k: float
    """Conductance from the surfaces to the air. [W/K]"""
    mass_to_surface_w_k: float
    """Conductance from the mass to the surfaces. [W/K]"""
    outside_to_mass_w_k: float
    """Conductance from outside to the mass. [W/K]"""
    windows_w_k: float
    """Conductance of windows, from outdoor air to the surfaces. [W/K]"""
    floor_load_to_surface_w_k: float | None
    """Conductance from the load on the floor to the surfaces; `null` without one. [W/K]"""
    air_before_c: float
    """Air before the first step. [°C]"""
    mass_before_c: float
    """Lining before the first step. [°C]"""
    floor_load_before_c: float
    """Load on the floor before the first step. [°C]"""
    ventilation_w_k: tuple[float, ...]
    """Conductance of the air that comes in, through each step. [W/K]"""
    outdoor_c: tuple[float, ...]
    """Air outside. [°C]"""
    equivalent_c: tuple[float, ...]
    """Sol-air temperature of roof, walls and floor together. [°C]"""
    air_w: tuple[float, ...]
    """Heat into the air, what cools and heats counted. [W]"""
    surface_w: tuple[float, ...]
    """Heat into the surfaces. [W]"""
    mass_w: tuple[float, ...]
    """Heat into the mass. [W]"""
    plant_w: tuple[float, ...]
    """Heat from what cools (below 0) and heats. [W]"""
    air_c: tuple[float, ...]
    """Air at the end of each step. [°C]"""
    mass_c: tuple[float, ...]
    """Lining at the end of each step. [°C]"""
    floor_load_c: tuple[float, ...]
    """Load on the floor at the end of each step. [°C]"""
    run_fraction: tuple[float, ...]
    """Share of each step in which the air conditioner runs. [1]"""
    electric_w: tuple[float, ...]
    """What it draws. [W]"""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class EvaluateReport(Report):
    """Every question's answer to one build, and what they come to together."""

    verdict: Verdict
    """What to read first."""
    margins: Margins
    """By how much the build keeps what matters most. Packages are compared by these."""
    payload: PayloadReport | None
    """Masses in every loading state; null where the build has too little for them, as with each question."""
    axle_load: AxleLoadReport | None
    """Tongue, axle, wheel and tow-vehicle loads."""
    circuit_load: CircuitLoadReport | None
    """Circuits in every supply mode."""
    energy_budget: EnergyBudgetReport | None
    """Battery and sun."""
    cooling_load: CoolingLoadReport | None
    """The heat of a hot day and of a cold night."""
    handed_over: HandedOver | None
    """What the questions told each other; null where there is no cooling load, and each was asked by
    itself."""
    findings: tuple[Finding, ...]
    """What the rules of all questions say of this build, gravest first; what two questions say is listed
    once."""
    assumptions: tuple[Assumption, ...]
    """Every default that was used, in the order of the document."""
    cautions: tuple[Caution, ...]
    """What goes with every evaluation."""
    engine: Engine
    """What worked it out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict(Record):
    """What a person reads first."""

    status: str
    """The gravest of the findings: `violation`, `caution`, or `clear` where there is neither."""
    sentence: str
    """The same in a sentence or two, with the gravest finding."""
    violation_count: int
    """Ratings, laws or standards that are broken."""
    caution_count: int
    """Cautions."""
    note_count: int
    """Notes."""
    not_worked_out: tuple[str, ...]
    """Questions that were not worked out, because the build has too little for them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Margins(Record):
    """By how much a build keeps what matters most: above 0 it does."""

    payload_left_lb: float | None
    """Payload left in the heaviest state; null without payload. [lb]"""
    tongue_margin_fraction: float | None
    """How far the tongue's share of the gross mass stays within 0.10 to 0.15 in the worst state that moves;
    below 0 outside. Null without axle load, or where no state moves. [1]"""
    autonomy_h: float | None
    """Hours the battery lasts without sun; null without energy budget, or where it never runs out. [h]"""
    cooling_margin_fraction: float | None
    """How much more the air conditioner gives at the peak than the sensible load, as a share of that; null
    without one, or without cooling load. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandedOver(Record):
    """What circuits, energy budget and cooling load told each other."""

    settled: bool
    """Did it settle: did the last round change the heat of what draws power by no more than the tolerance, in
    every hour and step?"""
    tolerance_w: float
    """The tolerance. [W]"""
    left_w: float
    """The most that the last rounds changed. [W]"""
    hot_day_rounds: int
    """Rounds of the hot day."""
    weather_rounds: int
    """Rounds through the weather given."""
    air_conditioner: str | None
    """The part whose hours are those of the air conditioner in the cooling load, in place of what it says
    itself; null without one."""
    air_conditioner_hot_day_wh: float | None
    """What the air conditioner takes on the hot day. [Wh]"""
    equipment_hot_day_wh: float
    """Heat that everything else that draws power sets free in the box on the hot day, with what inverters and
    chargers lose. [Wh]"""
    box_air: BoxAir | None
    """The box as the battery knows it; null without energy budget."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxAir(Record):
    """The air in the box through the weather, in the supply mode of the energy budget."""

    mode: str | None
    """The mode; null where the build has none."""
    cooled: bool
    """Does the air conditioner run in it?"""
    heated: bool
    """Does the heater?"""
    coldest_f: float
    """The coldest. [°F]"""
    mean_f: float
    """On the mean. [°F]"""
    warmest_f: float
    """The warmest. [°F]"""
    air_conditioner_wh_per_day: float | None
    """What the air conditioner takes on a mean day, before its inverter; null where it does not run on the
    battery. [Wh/day]"""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class SolveReport(Answer):
    """The value of one input at which something just holds."""

    summary: str
    """The answer in a sentence or two."""
    vary: str
    """The input that was varied."""
    pointer: str
    """JSON Pointer to it in the build."""
    unit: str | None
    """Unit of every value of the input here."""
    value: float | None
    """The value at which it just holds: it holds here, and a hair beyond it does not. Of several the one
    nearest to the present value; null where there is none, for which `reason` says why."""
    holds: str | None
    """On which side of `value` it holds: `at_most` up to it, `at_least` from it on, `equal` at it; null
    without one."""
    change: float | None
    """`value` less the present value; null where either is."""
    reason: str | None
    """Why there is no value."""
    figure_unit: str | None
    """Unit of every figure here."""
    present: SolvePoint
    """The build as it is. `value` is null where the build leaves the input out and nothing is assumed for
    it."""
    there: SolvePoint | None
    """What is found at `value`."""
    beyond: SolvePoint | None
    """What is found just beyond it, at the other end of the bracket."""
    brings: tuple[Finding, ...]
    """What the question finds at `value` and not in the build as it is, gravest first."""
    nearest: SolvePoint | None
    """The value at which it comes nearest to holding, where it holds nowhere."""
    method: str | None
    """How `value` was found: `linear` where the figure follows a line over the range, in closed form and held
    against further points; `bracketed` between two values that were tried, one on each side; null without
    one."""
    bracket_width: float | None
    """How far the two ends of the bracket are apart: `value` and the nearest value tried that does not
    hold."""
    evaluations: int
    """How many builds were worked out."""
    searched: SolveRange
    """Where it was looked, and how finely."""
    spans: tuple[SolveSpan, ...]
    """Every span of the range in which it holds, in ascending order; for `equal`, in which the figure is that
    or more. All but the ends that `value` is one of are known to a thousandth of `widest_gap`."""
    notes: tuple[str, ...]
    """What else there is to know: values that were refused, several spans."""
    assumptions: tuple[Assumption, ...]
    """The range, where the request does not give it."""
    engine: Engine
    """What worked it out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SolvePoint(Record):
    """What is found at one value of the input."""

    value: float | None
    """The value."""
    holds: bool
    """Does it hold there?"""
    figure: float | None
    """The figure there; that of the finding where the target is one."""
    finding: Finding | None
    """The finding, where the target is one and it is raised there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SolveRange(Record):
    """The range that was searched."""

    low: float
    """Its least value."""
    high: float
    """Its greatest value."""
    is_whole: bool
    """Whole numbers alone?"""
    points: int
    """Values that were looked at one after another, before anything was narrowed."""
    widest_gap: float
    """The widest gap between two of them. What begins and ends within a gap may have been missed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SolveSpan(Record):
    """A span of the input in which it holds, both ends within it."""

    low: float
    """Its least value."""
    high: float
    """Its greatest value."""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class CompareReport(Answer):
    """What changed between two builds, and what it did."""

    summary: str
    """The comparison in a few sentences."""
    verdict: VerdictChange
    """The verdict of each build: `violation`, `caution` or `clear`."""
    changes: tuple[DocumentChange, ...]
    """What changed in the document, in its order. Something added or removed is one entry."""
    figures: tuple[FigureChange, ...]
    """Every figure of the answers that differs, in their order: counts of the verdict and margins first, then
    question by question. Figures that differ by rounding alone (by 1e-12 of themselves) are the same."""
    words: tuple[WordChange, ...]
    """Every word of the answers that differs, sentences for people left out."""
    findings_gone: tuple[Finding, ...]
    """What was found before and is found no more, gravest first."""
    findings_new: tuple[Finding, ...]
    """What is found now and was not before, gravest first."""
    findings_changed: tuple[FindingChange, ...]
    """What is found in both, of the same rule and subject, with another value or limit."""
    engine: Engine
    """What worked it out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictChange(Record):
    """The verdict before and after."""

    before: str
    """That of the build as it was."""
    after: str
    """That of the build as it is to be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DocumentChange(Record):
    """A place of the document that changed."""

    pointer: str
    """JSON Pointer to it."""
    kind: str
    """`added`, `removed` or `changed`."""
    before: object
    """What stood there; null where nothing did. Of a list of more than 24 items it is the number of them, of
    text of more than 200 characters the start."""
    after: object
    """What stands there now, in the same way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureChange(Record):
    """A figure of the answers that differs."""

    path: str
    """The keys that lead to it in the answer of evaluate, joined by dots; an item of a list by its name or
    its index."""
    before: float | None
    """What it was; null where there was none."""
    after: float | None
    """What it is; null where there is none."""
    difference: float | None
    """`after` less `before`; null where either is."""
    unit: str | None
    """Its unit, where its name says one."""
    items: int | None
    """Of figures that stand in each item of a list, such as those of hours and months, only the one with the
    greatest difference is listed; this is how many differ. Null for a figure that stands alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WordChange(Record):
    """A word of the answers that differs."""

    path: str
    """The keys that lead to it in the answer of evaluate, joined by dots."""
    before: str | None
    """What it was; null where there was none."""
    after: str | None
    """What it is; null where there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingChange(Record):
    """A finding of both builds that differs."""

    before: Finding
    """As it was."""
    after: Finding
    """As it is."""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class OptionsReport(Answer):
    """The present choice evaluated, its price, and what becomes of every option."""

    report: EvaluateReport
    """The evaluation of the build that the present choice makes."""
    chosen: tuple[str, ...]
    """The chosen options, in the order of the catalogue: that in which their patches apply."""
    price_usd: float
    """Price of the chosen options together. [USD]"""
    findings: tuple[Finding, ...]
    """What the catalogue's own rules say of the present choice: what it requires and excludes."""
    options: Mapping[str, OptionReport]
    """Every option of the catalogue, in its order."""
    engine: Engine
    """What worked it out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionReport(Record):
    """What becomes of one option."""

    group: str
    """The group it is in."""
    label: str | None
    """What it is called; null where the catalogue does not say."""
    state: Literal["chosen", "available", "breaks"]
    """`chosen`; `available`: the present choice with it breaks nothing; `breaks`: it breaks what `because`
    lists. An option of a group of which one is chosen is tried in that one's place."""
    price_usd: float
    """What it costs. [USD]"""
    price_difference_usd: float
    """How much more the choice costs with it than now, what it replaces taken off; 0 for a chosen option.
    [USD]"""
    because: tuple[Finding, ...]
    """Of an option that breaks: every violation of the choice with it, those that the present choice does not
    have first. Of a chosen one: what it requires and excludes in vain. Pointers lead into the build of that
    choice."""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class SearchReport(Answer):
    """The best of all choices that break nothing."""

    choice_count: int
    """Choices there are: with every option of the groups that vary chosen or not."""
    workable_count: int
    """Those that keep what options require and exclude and make a build that can be worked with."""
    unbroken_count: int
    """Those of them that break nothing."""
    best: tuple[RankedChoice, ...]
    """The best of those that break nothing, best first: by score, then by price, then in the order of the
    catalogue."""
    tied_left_out: int
    """How many more have the score of the last of `best`, and are not listed."""
    pareto: tuple[RankedChoice, ...]
    """Those that no other beats, best first: better in price, payload left, tongue margin, autonomy or
    cooling margin only by being worse in another. At most 500."""
    pareto_left_out: int
    """How many more no other beats, and are not listed."""
    engine: Engine
    """What worked it out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RankedChoice(Record):
    """A choice that breaks nothing, and the figures that choices are compared by."""

    chosen: tuple[str, ...]
    """The chosen options, in the order of the catalogue."""
    price_usd: float
    """Price of the chosen options together. [USD]"""
    score: float
    """Points by the weights of the request: what differs by rounding alone is made equal before."""
    margins: Margins
    """By how much the build keeps what matters most."""
    never_empty: bool
    """The battery never runs out without sun: `margins.autonomy_h` is null, and better than any hours."""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class BatchReport(Answer):
    """The scores of every row."""

    rows: int
    """How many rows there are."""
    scores: Mapping[str, tuple[float | None, ...]]
    """Each score, a figure a row in the order of the rows; null where the row has no such figure, or an
    error."""
    errors: tuple[RowError, ...]
    """The rows that could not be worked out, in their order. No row is lost by another's error."""
    engine: Engine
    """What worked it out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowError(Record):
    """Why a row has no scores."""

    row: int
    """The row, from 0."""
    subject: str
    """JSON Pointer into the build to what is wrong; empty where that is in no one place."""
    message: str
    """What is wrong, and what would be right."""
