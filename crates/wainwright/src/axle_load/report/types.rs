//! What the report of axle load holds.

use serde_json::json;

use crate::document::Keyed;
use crate::report::{Assumption, Caution, Engine, Finding, report};

report! {
    /// What tongue, axles, wheels and tow vehicle carry, and where heavy things may stand.
    pub struct AxleLoadReport {
        /// Each loading state.
        states: Keyed<StateLoads>,
        /// Exact worst cases over every fill of every tank and every choice of cargo, with the state that produces
        /// each.
        worst: Worst,
        /// The same where the waste tanks hold no more than came out of the fresh tanks. None where there are no
        /// fresh and waste tanks.
        normal_use: Option<NormalUse>,
        /// Every limit the build gives, at its worst, nearest to its bound first.
        checks: Vec<Check>,
        /// Where each part and each piece of cargo may stand in the states that move. None where nothing fits: see
        /// `no_place`.
        placement: Keyed<Option<Placement>>,
        /// For what has no place, the two limits that leave it none.
        no_place: Keyed<Vec<String>> = json!({"galley": ["tongue_fraction_max", "gawr.rear"]}),
        /// The greatest mass of each piece of cargo at its place, in the states that move and have it aboard. None
        /// where no mass there keeps every limit.
        largest_mass: Keyed<Option<LargestMass>>,
        /// Where the axles should be.
        axle_station: AxleStation,
        /// What the coupling must bear, and what governs it.
        coupling: Coupling,
        /// The unhitched trailer with somebody or something at its tail. None without a floor or a bay.
        unhitched: Option<Unhitched>,
        /// Each toy in its bay: fit, ramp, floor and tie-downs.
        toys: Keyed<ToyReport>,
        /// What the rules say, gravest first.
        findings: Vec<Finding>,
        /// Every default that was used.
        assumptions: Vec<Assumption>,
        /// What goes with every report on loads.
        cautions: &'static [Caution],
        /// What worked this out.
        engine: Engine,
    }
}

report! {
    /// The loads of one state, level and at rest unless said otherwise.
    pub struct StateLoads {
        /// Is it driven in this state?
        moving: bool = true,
        /// Everything aboard.
        gross_mass_lb: f64 = 5199.0,
        /// Centre of gravity.
        center: Center,
        /// Load of the coupler on the ball, without spring bars; below 0 it pulls up.
        tongue_lb: f64 = 555.2,
        /// Tongue load over gross mass.
        tongue_fraction: f64 = 0.1068,
        /// How sure the tongue is, from the tolerances given.
        tongue_band: TongueBand,
        /// Each axle, without spring bars.
        axles: Keyed<AxleState>,
        /// The tow vehicle, coupled, without spring bars. None without a tow vehicle.
        tow_vehicle: Option<TowState>,
        /// What the spring bars of a weight-distributing hitch make of it. None without bars.
        with_bars: Option<BarsState>,
        /// Load on the jack, unhitched and level. None without a jack.
        jack_lb: Option<f64> = 583.5,
        /// On the move.
        road: RoadState,
        /// Sideways.
        stability: Stability,
    }
}

report! {
    /// A center of gravity.
    #[derive(Copy)]
    pub struct Center {
        /// Behind the ball.
        x_in: f64 = 147.3,
        /// Right (+) or left (-) of the centerline.
        y_in: f64 = 0.8,
        /// Above the ground.
        z_in: f64 = 44.5,
    }
}

report! {
    /// How sure the tongue is, from the tolerances given. All 0 where none is given.
    #[derive(Copy)]
    pub struct TongueBand {
        /// Least tongue load, every mass and place off the worst way.
        min_lb: f64 = 503.6,
        /// Greatest tongue load, every mass and place off the worst way.
        max_lb: f64 = 601.2,
        /// Scatter to expect where errors are independent (root of the sum of squares).
        scatter_lb: f64 = 16.5,
        /// Least tongue fraction, every mass and place off the worst way.
        min_fraction: f64 = 0.0985,
        /// Greatest tongue fraction, every mass and place off the worst way.
        max_fraction: f64 = 0.1150,
        /// Scatter of the tongue fraction.
        scatter_fraction: f64 = 0.0033,
    }
}

report! {
    /// One axle in one state.
    #[derive(Copy)]
    pub struct AxleState {
        /// On the ground under both wheels; 0 where it has lifted.
        load_lb: f64 = 2321.9,
        /// Under the left wheel or wheels.
        left_lb: f64 = 1140.0,
        /// Under the right wheel or wheels.
        right_lb: f64 = 1181.9,
        /// Load over the axle's rating.
        gawr_fraction: f64 = 0.663,
        /// Cold pressure at which the tires carry the heavier side, by the power law with exponent 0.7. None where
        /// the tires' rating or its pressure is not given, or no pressure carries it.
        needed_psi: Option<f64> = 27.5,
    }
}

report! {
    /// The tow vehicle in one state, coupled, without spring bars.
    #[derive(Copy)]
    pub struct TowState {
        /// Front axle.
        front_axle_lb: f64 = 3076.2,
        /// Rear axle.
        rear_axle_lb: f64 = 3279.0,
        /// Tow vehicle and trailer together.
        combination_lb: f64 = 10999.0,
        /// Front axle over its load before coupling. Below 0.8 the steering gets light.
        front_fraction: f64 = 0.944,
        /// What is left of the tow vehicle's own rating. None where it is not given.
        payload_left_lb: Option<f64> = 694.8,
    }
}

report! {
    /// One state with the spring bars of a weight-distributing hitch set as the build says.
    pub struct BarsState {
        /// Moment of the bars on the tow vehicle.
        moment_lb_in: f64 = 12936.9,
        /// Front axle of the tow vehicle.
        front_axle_lb: f64 = 3168.1,
        /// Rear axle of the tow vehicle.
        rear_axle_lb: f64 = 3120.5,
        /// What the hitch passes to the tow vehicle: the tongue load less what the bars put on the trailer's axles.
        net_tongue_lb: f64 = 617.6,
        /// Load of each trailer axle: bars add to them.
        axles: Keyed<f64> = json!({"front": 2020.7, "rear": 2020.7}),
    }
}

report! {
    /// One state on the move.
    #[derive(Copy)]
    pub struct RoadState {
        /// Tongue load in a hard stop.
        stop_tongue_lb: f64 = 1086.0,
        /// Push on the tow vehicle in a hard stop; 0 where the trailer brakes itself.
        stop_push_lb: f64 = 0.0,
        /// Tongue load in an emergency stop.
        emergency_tongue_lb: f64 = 1400.0,
        /// Push on the tow vehicle in an emergency stop.
        emergency_push_lb: f64 = 0.0,
        /// Tongue load uphill at a steady speed.
        uphill_tongue_lb: f64 = 492.0,
        /// Tongue load downhill at a steady speed, the trailer's brakes off.
        downhill_tongue_lb: f64 = 618.0,
        /// Load of the wheels on the outer side in a bend, all axles together, the mass leaning that way.
        bend_heavy_lb: f64 = 3100.0,
        /// Load of the wheels on the inner side.
        bend_light_lb: f64 = 1543.0,
        /// Damping ratio of the least damped swing of tow vehicle and trailer. For comparing packages with one
        /// another, never a safe speed. None without a tow vehicle, or in a parked state.
        sway_damping: Option<f64> = 0.41,
        /// Resistance to yaw about the trailer's own center of gravity.
        yaw_inertia_slug_ft2: f64 = 2100.0,
    }
}

report! {
    /// How far one state is from tipping sideways. Springs and tires make the real figures 10 to 20 % less.
    #[derive(Copy)]
    pub struct Stability {
        /// Static stability factor: half the track over the height of the center of gravity. None where that is 0.
        static_stability_factor: Option<f64> = 0.91,
        /// Sideways acceleration at which the trailer tips over ball and outer tires.
        tip_lateral_g: Option<f64> = 0.84,
        /// Side slope on which it tips.
        tip_slope_deg: Option<f64> = 40.0,
    }
}

report! {
    /// Exact worst cases over every fill of every tank and every choice of cargo.
    pub struct Worst {
        /// Everything aboard.
        gross_mass_lb: Range,
        /// Tongue load.
        tongue_lb: Range,
        /// Tongue load over gross mass.
        tongue_fraction: Range,
        /// Each axle.
        axles: Keyed<AxleRange>,
        /// False where an axle can lift off and there is so much that may vary that the figures enclose the truth
        /// on the safe side.
        exact: bool = true,
    }
}

report! {
    /// Least and greatest of one load, each with the state that produces it.
    pub struct Range {
        /// Least.
        min: Extreme,
        /// Greatest.
        max: Extreme,
    }
}

report! {
    /// One extreme, and the state that produces it.
    pub struct Extreme {
        /// The value.
        value: f64 = 434.5,
        /// How full each tank is then; a tank left out is empty.
        fill: Keyed<f64> = json!({"fresh": 1.0}),
        /// The cargo aboard then.
        aboard: Vec<String> = ["atv"],
    }
}

report! {
    /// Least and greatest loads of one axle.
    pub struct AxleRange {
        /// Least load.
        min: Extreme,
        /// Greatest load.
        max: Extreme,
        /// Wheel or wheels on the left.
        left: Range,
        /// Wheel or wheels on the right.
        right: Range,
    }
}

report! {
    /// Worst cases where fresh and waste tanks together hold no more than the fresh tanks do: water is used, not
    /// added. The figures above are the safe side of these.
    #[derive(Copy)]
    pub struct NormalUse {
        /// Water that goes round.
        water_lb: f64 = 150.1,
        /// Greatest gross mass.
        gross_mass_max_lb: f64 = 5199.0,
        /// Least tongue load.
        tongue_min_lb: f64 = 440.0,
        /// Greatest tongue load.
        tongue_max_lb: f64 = 690.0,
        /// Least tongue fraction.
        tongue_fraction_min: f64 = 0.095,
        /// Greatest tongue fraction.
        tongue_fraction_max: f64 = 0.157,
    }
}

report! {
    /// One limit at its worst.
    pub struct Check {
        /// What the limit is of; a limit of one axle has its id behind a dot. Later versions may add names.
        limit: String = "gawr.rear",
        /// JSON Pointer to the rating.
        subject: String = "/trailer/axles/rear/gawr_lb",
        /// The load in the worst of the states that move. Tongue fractions are shares.
        value: f64 = 2321.9,
        /// Its bound.
        bound: f64 = 3500.0,
        /// Unit of value and bound: `lb`, or `1` for a share.
        unit: &'static str = "lb",
        /// The load over its bound.
        used_fraction: f64 = 0.663,
        /// The state.
        state: String = "outbound",
        /// The load in the worst case over all fills and cargo. For a tongue fraction that of `worst`.
        worst_value: f64 = 2390.4,
        /// `ok` below 95 % of its bound, `near` up to it, `over` past it; judged in the states that move.
        status: &'static str = "ok",
    }
}

report! {
    /// Where one thing may stand, everything else where it is.
    pub struct Placement {
        /// Foremost place. None where nothing bounds it.
        min_x_in: Option<f64> = 162.6,
        /// Rearmost place. None where nothing bounds it.
        max_x_in: Option<f64> = 240.0,
        /// The limits that end it: forward first, then rearward.
        bound_by: Vec<String> = ["tongue_fraction_max", "floor"],
        /// The same with any fill of the tanks and any other cargo. None where nothing fits.
        any_fill: Option<PlaceRange>,
    }
}

report! {
    /// An interval of places.
    pub struct PlaceRange {
        /// Foremost place. None where nothing bounds it.
        min_x_in: Option<f64> = 181.2,
        /// Rearmost place. None where nothing bounds it.
        max_x_in: Option<f64> = 198.4,
        /// The limits that end it.
        bound_by: Vec<String> = ["tongue_fraction_max", "tongue_fraction_min"],
    }
}

report! {
    /// The greatest mass of one piece of cargo at its place, everything else as it is.
    pub struct LargestMass {
        /// The mass. None where nothing bounds it.
        mass_lb: Option<f64> = 807.2,
        /// The limit that ends it.
        bound_by: Option<String> = "tongue_fraction_min",
        /// Least mass that must stand there for the other limits to hold; 0 where nothing must.
        least_lb: f64 = 0.0,
        /// The greatest mass with any fill of the tanks and any other cargo. None where no mass keeps every limit.
        any_fill_lb: Option<f64> = 612.0,
    }
}

report! {
    /// Where the axle group should be for a tongue of 10 to 15 %.
    #[derive(Copy)]
    pub struct AxleStation {
        /// Where its load acts now.
        now_in: f64 = 164.5,
        /// Station that keeps the states that move nearest to 12.5 %.
        best_in: f64 = 165.0,
        /// Foremost station that keeps every state that moves at 10 % or more. None where no station can keep all.
        min_in: Option<f64> = 163.7,
        /// Rearmost station that keeps every state that moves at 15 % or less.
        max_in: Option<f64> = 164.6,
        /// Foremost station for any fill and any cargo. None where no station can keep all.
        any_fill_min_in: Option<f64> = 160.0,
        /// Rearmost station for any fill and any cargo.
        any_fill_max_in: Option<f64> = 166.0,
    }
}

report! {
    /// What the coupling must bear. Ratings marked on the parts govern; these figures raise none.
    pub struct Coupling {
        /// Class of the coupling by the trailer's rating: 1 to 4. None above 10,000 lb.
        coupler_class: Option<u32> = 4,
        /// Least breaking strength fore and aft.
        longitudinal_lb: Option<f64> = 23100.0,
        /// Least breaking strength sideways.
        transverse_lb: Option<f64> = 7700.0,
        /// Least breaking strength upward; the larger of two states' tables, which differ.
        vertical_tension_lb: Option<f64> = 10010.0,
        /// Least breaking strength downward.
        vertical_compression_lb: Option<f64> = 10780.0,
        /// Breaking strength that each safety chain must have: the greater of rating and greatest gross mass.
        chain_lb: f64 = 7700.0,
        /// Least of all ratings of the gross mass.
        gross_limit_lb: f64 = 7700.0,
        /// What it is of.
        gross_limit_by: String = "gvwr",
        /// Least of all ratings of the tongue load. None where none is given.
        tongue_limit_lb: Option<f64> = 1000.0,
        /// What it is of.
        tongue_limit_by: Option<String> = "coupler_max_tongue",
    }
}

report! {
    /// The unhitched trailer: what at its tail lifts the jack, whatever is in the tanks.
    pub struct Unhitched {
        /// The ramp's hinge, or the rear edge of the floor.
        hinge_x_in: f64 = 240.0,
        /// Least mass at the hinge that lifts the jack in the listed states, toys left out. None where the trailer
        /// stands on its tail anyway.
        lift_mass_lb: Option<f64> = 1261.5,
        /// The state in which that is.
        lift_state: Option<String> = "delivered",
        /// The same over every fill and every choice of other cargo.
        any_fill_lift_mass_lb: Option<f64> = 1100.0,
        /// Least mass at the hinge beyond which nothing holds it, over every fill and choice of other cargo.
        any_fill_tip_mass_lb: Option<f64> = 2900.0,
        /// Greatest load on the jack over every fill and choice of cargo. None without a jack.
        jack_max_lb: Option<f64> = 731.9,
    }
}

report! {
    /// One toy: what it and the trailer must be for it to ride there.
    pub struct ToyReport {
        /// What is left of the bay and the opening around it. None without a bay.
        fit: Option<Fit>,
        /// The ramp under it. None where deck height or ramp length is not given.
        ramp: Option<Ramp>,
        /// The floor under its heaviest wheel. None where panel or crossmembers are not given.
        floor: Option<FloorLoad>,
        /// What holds it. None without tie-downs.
        tie_downs: Option<TieDownCheck>,
        /// Driving or rolling it in.
        loading: Loading,
    }
}

report! {
    /// What is left around a toy, beyond the toy itself; below 0 it does not fit. None where the bay does not give
    /// the clear figure.
    #[derive(Copy)]
    pub struct Fit {
        /// Clear width less the toy's, both sides together.
        width_left_in: Option<f64> = 26.0,
        /// Bay length less the lengths of all toys that ride together.
        length_left_in: f64 = 10.0,
        /// How many toys ride together.
        together_count: u32 = 1,
        /// Clear height less the toy's.
        height_left_in: Option<f64> = 3.5,
        /// Width of the door opening less the toy's.
        opening_width_left_in: Option<f64> = 28.0,
        /// Height of the door opening less the toy's.
        opening_height_left_in: Option<f64> = 27.0,
    }
}

report! {
    /// The slope of the ramp, and what it asks of the toy.
    #[derive(Copy)]
    pub struct Ramp {
        /// Its angle on level ground.
        angle_deg: f64 = 18.11,
        /// Ground clearance that the toy needs at the hinge, tires taken as points (the safe side). None without a
        /// wheelbase.
        needed_clearance_in: Option<f64> = 3.98,
    }
}

report! {
    /// The floor panel under the heaviest wheel, midway between two crossmembers of the last span.
    #[derive(Copy)]
    pub struct FloorLoad {
        /// Load of the heaviest wheel, the rider's share included.
        wheel_lb: f64 = 242.0,
        /// Bending stress with a strip 12 in wider than the tire.
        stress_psi: f64 = 449.0,
        /// The same with a strip 4 in wider.
        narrow_stress_psi: f64 = 748.0,
        /// Deflection with the wider strip.
        deflection_in: f64 = 0.0155,
        /// Span over deflection, with the wider strip.
        span_over_deflection: f64 = 1032.0,
    }
}

report! {
    /// What the tie-downs of one toy hold, each direction alone.
    pub struct TieDownCheck {
        /// How many there are.
        count: u32 = 4,
        /// Sum of their working load limits as the rule counts them: half for a direct one.
        aggregate_lb: f64 = 800.0,
        /// What that sum must be: half the toy's mass.
        aggregate_needed_lb: f64 = 345.0,
        /// Each direction.
        directions: Vec<Hold>,
    }
}

report! {
    /// What holds a toy against moving in one direction.
    #[derive(Copy)]
    pub struct Hold {
        /// The way the toy would go: `forward`, `rearward`, `left`, `right`.
        direction: &'static str = "forward",
        /// Sum of the working load limits that pull against it.
        wll_lb: f64 = 489.9,
        /// What they must hold within their working load limits.
        wll_needed_lb: f64 = 300.2,
        /// Sum of the breaking strengths that pull against it. None where one is not given.
        breaking_lb: Option<f64> = 1469.7,
        /// What they must hold before they break.
        breaking_needed_lb: f64 = 552.0,
    }
}

report! {
    /// Driving or rolling a toy in: its mass goes over the hinge behind the axles first.
    #[derive(Copy)]
    pub struct Loading {
        /// The toy with its rider.
        mass_lb: f64 = 880.0,
        /// Least tongue load while it stands at the hinge, hitched, over every fill and choice of other cargo;
        /// below 0 the coupler pulls up on the ball. None without a floor or a bay.
        hitched_tongue_lb: Option<f64> = 120.0,
        /// Greatest moment behind the axles on the way in, front or rear axle on the hinge, the ramp's foot on the
        /// ground. None without a ramp and a wheelbase.
        ramp_moment_lb_in: Option<f64> = 38880.0,
        /// Moment of the whole toy standing at the hinge: what the verdict is on.
        standing_moment_lb_in: Option<f64> = 66440.0,
        /// Moment that keeps the jack down, unhitched, at its least over the listed states without toys.
        holding_moment_lb_in: Option<f64> = 104121.0,
    }
}
