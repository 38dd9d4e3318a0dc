//! From numbers to the report.

use super::findings::{self, Judged};
use super::masses::{Numbers, numbers};
use super::reconciliation::{Group, Readings, Unaccounted, unaccounted};
use super::{cargo_capacity, relabel_threshold, water_label};
use crate::build::{Axle, Build, Scale, Suspension, Tank, Trailer};
use crate::document::Keyed;
use crate::loading::{Loading, LoadingState, assume_masses, assume_stations, full_kg};
use crate::masses::Totals;
use crate::report::{Assumption, Assumptions, Caution, Engine, Finding, Findings, report};
use crate::units::{inches, kg, lb, lb_in, m};

/// Tolerance of a scale that the build does not state [lb]. Common practice: one division of a truck scale.
const SCALE_TOLERANCE_LB: f64 = 20.0;
/// So many of the heaviest parts are listed.
const HEAVIEST: usize = 10;

report! {
    /// What the trailer weighs, and what may still be loaded.
    pub struct PayloadReport {
        /// Gross vehicle weight rating, as given.
        gvwr_lb: f64 = 7700.0,
        /// Bare trailer, as given.
        bare_mass_lb: f64 = 2240.0,
        /// All parts together.
        parts_mass_lb: f64 = 1678.0,
        /// Unloaded: bare trailer, parts, and propane at its full fill; no water, no cargo.
        unloaded_mass_lb: f64 = 3937.9,
        /// Mass of the parts by category, heaviest first. Parts that name none are under `other`.
        categories: Vec<Category>,
        /// The heaviest parts, at most ten, heaviest first.
        heaviest: Vec<HeavyPart>,
        /// What each tank holds when full.
        fluids: Keyed<FluidMass>,
        /// Each loading state.
        states: Keyed<StateMass>,
        /// Figures for the cargo capacity label.
        label: Label,
        /// Whether the maker's label must be corrected.
        relabel: Relabel,
        /// What a scale showed beyond the listed masses, for every state that carries readings.
        reconciliation: Keyed<Reconciliation>,
        /// What the rules say, gravest first.
        findings: Vec<Finding>,
        /// Every default that was used.
        assumptions: Vec<Assumption>,
        /// What goes with every report on weights.
        cautions: &'static [Caution],
        /// What worked this out.
        engine: Engine,
    }
}

report! {
    /// The mass of one category of parts.
    pub struct Category {
        /// The category.
        category: String = "furniture",
        /// Its mass.
        mass_lb: f64 = 325.0,
        /// Its share of the GVWR.
        gvwr_fraction: f64 = 0.0422,
    }
}

report! {
    /// One of the heaviest parts.
    pub struct HeavyPart {
        /// The part's id.
        part: String = "wall_lining_insulation",
        /// Its mass, times its quantity.
        mass_lb: f64 = 325.0,
        /// Its share of the GVWR.
        gvwr_fraction: f64 = 0.0422,
    }
}

report! {
    /// What one tank holds when full.
    pub struct FluidMass {
        /// Density that loads are worked out with.
        density_lb_per_gal: f64 = 8.34,
        /// Mass of a full tank at that density.
        full_lb: f64 = 150.12,
        /// Mass as the label states it, at the label's own density; none for what is not water.
        label_lb: Option<f64> = 149.4,
        /// The same in kilograms, at the label's density in kilograms.
        label_kg: Option<f64> = 68.137,
    }
}

report! {
    /// The masses of one loading state.
    pub struct StateMass {
        /// Is it driven in this state?
        moving: bool = true,
        /// Liquids.
        fluids_lb: f64 = 170.0,
        /// Cargo.
        cargo_lb: f64 = 1111.0,
        /// Everything: what a scale would show, tongue and axles together.
        gross_mass_lb: f64 = 5199.0,
        /// What is left of the GVWR; below 0 the trailer is overweight.
        payload_left_lb: f64 = 2501.0,
        /// Gross mass as a share of the GVWR.
        gvwr_fraction: f64 = 0.675,
        /// How far the gross mass may be off, from the tolerances given.
        band: MassBand,
    }
}

report! {
    /// How far a mass may be off, from the tolerances given. What gives none is taken as exact.
    #[derive(Copy)]
    pub struct MassBand {
        /// All off the same way: for go or no-go.
        worst_lb: f64 = 96.0,
        /// Independent of one another (root of the sum of squares): the scatter to expect.
        scatter_lb: f64 = 44.2,
        /// How many masses aboard give no tolerance.
        without_tolerance_count: u32 = 4,
    }
}

report! {
    /// Figures for the cargo capacity label. Rounded down, so that the label never promises too much.
    pub struct Label {
        /// Cargo carrying capacity in whole pounds, rounded down.
        cargo_capacity_lb: f64 = 3762.0,
        /// Cargo carrying capacity in whole kilograms, rounded down.
        cargo_capacity_kg: f64 = 1706.0,
        /// A full load of fresh water at the label's 8.3 lb/gal, not rounded; print it rounded up.
        water_lb: f64 = 149.4,
        /// A full load of fresh water at the label's 1 kg/L, not rounded; print it rounded up.
        water_kg: f64 = 68.137,
    }
}

report! {
    /// Whether the cargo capacity label that came with the trailer must be corrected before its first sale.
    #[derive(Copy)]
    pub struct Relabel {
        /// Mass that may be added before it must: the lesser of 1.5 % of the GVWR and 100 lb.
        threshold_lb: f64 = 100.0,
        /// Mass added: all parts.
        added_lb: f64 = 1678.0,
        /// Is more added than that?
        correction_due: bool = true,
    }
}

report! {
    /// What a scale showed in one state beyond the listed masses.
    pub struct Reconciliation {
        /// What it showed, tongue and axles together; none where the readings make up no total.
        measured_lb: Option<f64> = 4248.0,
        /// What is listed as aboard then.
        listed_lb: f64 = 3937.9,
        /// Measured less listed; below 0 the list is too heavy.
        unaccounted_lb: Option<f64> = 310.1,
        /// How far that may be off for the scale alone.
        tolerance_lb: f64 = 20.0,
        /// Measured less listed moment about the ball.
        moment_lb_in: Option<f64> = 41700.0,
        /// Where behind the ball the unaccounted mass must sit. None where it is within the scale's tolerance,
        /// or where readings or places do not tell.
        x_in: Option<f64> = 134.5,
        /// How far that place may be off for the scale alone.
        x_tolerance_in: Option<f64> = 28.0,
    }
}

const CAUTIONS: &[Caution] = &[
    Caution {
        code: "weigh_it",
        text: "This is an estimate, not a certification. Weigh the trailer on a certified scale, level, at the ball \
               height in use, empty and fully loaded, before it is driven and before a label is printed.",
    },
    Caution {
        code: "ratings_govern",
        text: "Ratings come from the certification label, the tire sidewalls and the component plates. No \
               calculation raises a rating, and the lowest part governs.",
    },
    Caution {
        code: "certifying_is_a_legal_act",
        text: "Stating or changing a GVWR, a GAWR or a label is a legal act of the responsible maker. Whether a \
               build makes the shop an alterer or a maker is for a person who knows the law to decide.",
    },
];

/// The report of a build that has a trailer.
pub(super) fn report(build: &Build) -> PayloadReport {
    let (Some(trailer), Some(loading)) = (&build.trailer, Loading::of(build)) else {
        unreachable!("asked only where the trailer is there")
    };
    let numbers = numbers(trailer, &loading);
    let mut assumptions = Assumptions::default();
    assume_masses(build, &loading, &mut assumptions);
    let reconciliations = reconcile(build, trailer, &loading, &mut assumptions);
    let gvwr_kg = kg(trailer.gvwr_lb);
    let (cargo_capacity_lb, cargo_capacity_kg) = cargo_capacity(gvwr_kg, numbers.unloaded_kg);
    let (water_lb, water_kg) = water_label(numbers.fresh_water_l);
    let threshold_kg = relabel_threshold(gvwr_kg);
    let states = states(build, trailer, &loading, &numbers);
    let mut findings = Findings::default();
    findings::judge(
        &Judged { build, trailer, numbers: &numbers, states: &states, reconciliations: &reconciliations },
        &mut findings,
    );
    PayloadReport {
        gvwr_lb: trailer.gvwr_lb,
        bare_mass_lb: trailer.bare.mass_lb,
        parts_mass_lb: lb(numbers.parts_kg),
        unloaded_mass_lb: lb(numbers.unloaded_kg),
        categories: categories(build, trailer),
        heaviest: heaviest(build, trailer),
        fluids: build.tanks().map(|(id, tank)| (id.to_owned(), fluid(tank))).collect(),
        states,
        label: Label { cargo_capacity_lb, cargo_capacity_kg, water_lb, water_kg },
        relabel: Relabel {
            threshold_lb: lb(threshold_kg),
            added_lb: lb(numbers.parts_kg),
            correction_due: numbers.parts_kg > threshold_kg,
        },
        reconciliation: reconciliations.into_iter().map(|r| (r.state, r.report)).collect(),
        findings: findings.in_order(),
        assumptions: assumptions.in_order(|pointer| build.position(pointer)),
        cautions: CAUTIONS,
        engine: Engine::THIS,
    }
}

/// Mass of a part times its quantity [lb].
fn part_lb(part: &crate::build::Part) -> f64 {
    part.mass_lb * f64::from(part.quantity.unwrap_or(1))
}

fn categories(build: &Build, trailer: &Trailer) -> Vec<Category> {
    let mut masses: Keyed<f64> = Keyed::default();
    for (_, part) in build.parts() {
        let category = part.category.as_deref().unwrap_or("other");
        match masses.get_mut(category) {
            Some(mass) => *mass += part_lb(part),
            None => _ = masses.insert(category.to_owned(), part_lb(part)),
        }
    }
    masses.sort_by(|_, a, _, b| b.total_cmp(a));
    let share = |mass_lb: f64| mass_lb / trailer.gvwr_lb;
    let listed = masses.into_iter();
    listed.map(|(category, mass_lb)| Category { category, mass_lb, gvwr_fraction: share(mass_lb) }).collect()
}

fn heaviest(build: &Build, trailer: &Trailer) -> Vec<HeavyPart> {
    let mut parts: Vec<(&str, f64)> = build.parts().map(|(id, part)| (id, part_lb(part))).collect();
    parts.sort_by(|a, b| b.1.total_cmp(&a.1));
    parts.truncate(HEAVIEST);
    let listed = parts.into_iter();
    listed
        .map(|(id, mass_lb)| HeavyPart {
            part: id.to_owned(),
            mass_lb,
            gvwr_fraction: mass_lb / trailer.gvwr_lb,
        })
        .collect()
}

fn fluid(tank: &Tank) -> FluidMass {
    let label = tank.fluid.is_water().then(|| water_label(crate::units::l(tank.capacity_gal)));
    FluidMass {
        density_lb_per_gal: tank.density_lb_per_gal.unwrap_or(tank.fluid.density_lb_per_gal().0),
        full_lb: lb(full_kg(tank)),
        label_lb: label.map(|(pounds, _)| pounds),
        label_kg: label.map(|(_, kilograms)| kilograms),
    }
}

fn states(build: &Build, trailer: &Trailer, loading: &Loading, numbers: &Numbers) -> Keyed<StateMass> {
    let fixed = Tolerances::of_fixed(build, trailer);
    let each = loading.states.iter().zip(&numbers.states);
    each.map(|(state, masses)| {
        let report = StateMass {
            moving: state.moving,
            fluids_lb: lb(masses.fluids_kg),
            cargo_lb: lb(masses.cargo_kg),
            gross_mass_lb: lb(masses.gross_kg),
            payload_left_lb: lb(masses.payload_left_kg),
            gvwr_fraction: masses.gvwr_fraction,
            band: fixed.with_cargo(build, state).band(),
        };
        (state.id.to_string(), report)
    })
    .collect()
}

/// Sums of tolerances [lb, lb²].
#[derive(Clone, Copy, Default)]
struct Tolerances {
    sum: f64,
    squares: f64,
    without: u32,
}

impl Tolerances {
    fn of_fixed(build: &Build, trailer: &Trailer) -> Self {
        let mut sums = Self::default();
        sums.add(trailer.bare.mass_tolerance_lb, 1);
        for (_, part) in build.parts() {
            sums.add(part.mass_tolerance_lb, part.quantity.unwrap_or(1));
        }
        sums
    }

    fn with_cargo(mut self, build: &Build, state: &LoadingState) -> Self {
        for ((_, cargo), _) in build.cargo().zip(&state.aboard).filter(|(_, aboard)| **aboard) {
            self.add(cargo.mass_tolerance_lb, 1);
        }
        self
    }

    /// Pieces of one part come from one estimate: their errors add.
    fn add(&mut self, tolerance_lb: Option<f64>, quantity: u32) {
        let all = tolerance_lb.unwrap_or(0.0) * f64::from(quantity);
        self.sum += all;
        self.squares += all * all;
        self.without += u32::from(tolerance_lb.is_none());
    }

    fn band(self) -> MassBand {
        MassBand {
            worst_lb: self.sum,
            scatter_lb: self.squares.sqrt(),
            without_tolerance_count: self.without,
        }
    }
}

/// One state's reconciliation, with the numbers that the findings judge.
pub(super) struct Reconciled {
    pub state: String,
    pub numbers: Option<Unaccounted>,
    pub report: Reconciliation,
}

fn reconcile(
    build: &Build,
    trailer: &Trailer,
    loading: &Loading,
    assumptions: &mut Assumptions,
) -> Vec<Reconciled> {
    let weighed =
        build.states().enumerate().filter_map(|(i, (id, state))| Some((i, id, state.scale.as_ref()?)));
    let mut reconciled = Vec::new();
    let mut by_tongue = false;
    for (index, id, scale) in weighed {
        if reconciled.is_empty() {
            assume_stations(build, assumptions);
        }
        let tolerance_lb = assumptions.or(
            scale.tolerance_lb,
            SCALE_TOLERANCE_LB,
            || format!("/states/{id}/scale/tolerance_lb"),
            Some("lb"),
            "truck scales read in steps of 20 lb",
            "common practice",
        );
        let listed = listed(build, loading, &loading.states[index], scale);
        let readings = readings(trailer, scale, tolerance_lb);
        by_tongue |= readings.axles.is_empty() && readings.tongue_kg.is_some() && readings.total_kg.is_some();
        let numbers = unaccounted(listed, &readings);
        let report = Reconciliation {
            measured_lb: numbers.map(|n| lb(listed.mass_kg + n.mass_kg)),
            listed_lb: lb(listed.mass_kg),
            unaccounted_lb: numbers.map(|n| lb(n.mass_kg)),
            tolerance_lb: numbers.map_or(tolerance_lb, |n| lb(n.tolerance_kg)),
            moment_lb_in: numbers.and_then(|n| n.moment_kg_m).map(lb_in),
            x_in: numbers.and_then(|n| n.x_m).map(inches),
            x_tolerance_in: numbers.and_then(|n| n.x_tolerance_m).map(inches),
        };
        reconciled.push(Reconciled { state: id.to_owned(), numbers, report });
    }
    if by_tongue && build.axles().len() > 1 {
        assume_shares(trailer, assumptions);
    }
    reconciled
}

/// What is listed as aboard when a state was weighed: without the parts not yet installed then.
fn listed(build: &Build, loading: &Loading, state: &LoadingState, scale: &Scale) -> Totals {
    let all = loading.fixed() + loading.fluids_in(state) + loading.cargo_in(state);
    let missing = scale.not_installed.iter().flatten();
    let index_of = |id: &String| build.parts.as_ref().and_then(|parts| parts.get_index_of(id));
    missing.filter_map(index_of).fold(all, |rest, index| rest - loading.parts[index])
}

/// Notes what is taken of several axles where the tongue's reading tells the moment.
fn assume_shares(trailer: &Trailer, assumptions: &mut Assumptions) {
    if trailer.suspension.is_none() {
        let reason = "most such trailers have leaf springs with an equalizer between their axles";
        assumptions.add("/trailer/suspension".to_owned(), "equalized", None, reason, "common practice");
    }
    if trailer.suspension != Some(Suspension::Independent) && trailer.equalizer.is_none() {
        let reason = "every axle takes the same share";
        assumptions.add("/trailer/equalizer".to_owned(), "equal arms", None, reason, "common practice");
    }
}

fn readings(trailer: &Trailer, scale: &Scale, tolerance_lb: f64) -> Readings {
    let axles = trailer.axles.as_ref();
    let read = |id: &str| scale.axles.as_ref().and_then(|readings| readings.get(id)).copied();
    let each: Option<Vec<(f64, f64)>> = axles
        .filter(|axles| !axles.is_empty())
        .and_then(|axles| axles.iter().map(|(id, axle)| Some((m(axle.x_in), kg(read(id)?)))).collect());
    let fixed_shares = trailer.suspension != Some(Suspension::Independent);
    Readings {
        total_kg: scale.total_lb.map(kg),
        tongue_kg: scale.tongue_lb.map(kg),
        axles: each.unwrap_or_default(),
        group: axles
            .filter(|axles| fixed_shares && !axles.is_empty())
            .map(|axles| group(axles, trailer.equalized_shares())),
        tolerance_kg: kg(tolerance_lb),
    }
}

/// An equalized group as a tongue reading sees it.
fn group(axles: &Keyed<Axle>, shares: [f64; 3]) -> Group {
    let mut group = Group::default();
    for (axle, share) in axles.values().zip(shares) {
        let (x_m, unsprung_kg) = (m(axle.x_in), kg(axle.unsprung_lb.unwrap_or(0.0)));
        group.x_m += share * x_m;
        group.unsprung_kg += unsprung_kg;
        group.unsprung_kg_m += unsprung_kg * x_m;
    }
    group
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;
    use crate::document::Record;
    use crate::payload::Payload;
    use crate::question::ask;

    fn answer(build: Value) -> PayloadReport {
        let build =
            Build::from_json(build.to_string().as_bytes()).unwrap_or_else(|refusal| panic!("{refusal}"));
        ask::<Payload>(&build).unwrap()
    }

    fn trailer() -> Value {
        json!({"gvwr_lb": 7000, "bare": {"mass_lb": 2000}})
    }

    #[track_caller]
    fn assert_close(value: f64, expected: f64) {
        assert!((value - expected).abs() <= 1e-9 * expected.abs().max(1.0), "{value} is not {expected}");
    }

    fn assumed(report: &PayloadReport) -> Vec<&str> {
        report.assumptions.iter().map(|assumption| assumption.pointer.as_str()).collect()
    }

    #[test]
    fn a_gvwr_and_a_bare_mass_are_enough() {
        let report = answer(json!({"trailer": trailer()}));
        assert_close(report.unloaded_mass_lb, 2000.0);
        assert_close(report.states["delivered"].payload_left_lb, 5000.0);
        assert_eq!((report.label.cargo_capacity_lb, report.label.cargo_capacity_kg), (5000.0, 2267.0));
        assert_eq!((report.label.water_lb, report.label.water_kg), (0.0, 0.0));
        assert!(report.categories.is_empty() && report.heaviest.is_empty() && report.findings.is_empty());
        assert_eq!(assumed(&report), ["/states"]);
    }

    #[test]
    fn a_parts_mass_counts_as_often_as_it_is_there() {
        let parts = json!({"bunk": {"mass_lb": 60, "quantity": 3}, "spare": {"mass_lb": 40, "quantity": 0}});
        let report = answer(json!({"trailer": trailer(), "parts": parts}));
        assert_close(report.parts_mass_lb, 180.0);
        assert_close(report.states["delivered"].gross_mass_lb, 2180.0);
        assert_eq!(report.heaviest[0].part, "bunk");
        assert_close(report.heaviest[0].mass_lb, 180.0);
        assert_close(report.heaviest[1].mass_lb, 0.0);
        assert_close(report.heaviest[0].gvwr_fraction, 180.0 / 7000.0);
    }

    #[test]
    fn categories_stand_heaviest_first_and_unnamed_parts_under_other() {
        let report = answer(json!({"trailer": trailer(), "parts": {
            "a": {"mass_lb": 10, "category": "water"},
            "b": {"mass_lb": 20},
            "c": {"mass_lb": 30, "quantity": 2, "category": "shell"},
            "d": {"mass_lb": 25, "category": "water"},
        }}));
        let listed: Vec<(&str, f64)> =
            report.categories.iter().map(|category| (category.category.as_str(), category.mass_lb)).collect();
        assert_eq!(listed, [("shell", 60.0), ("water", 35.0), ("other", 20.0)]);
    }

    #[test]
    fn the_ten_heaviest_parts_are_listed_and_equals_in_the_order_of_the_document() {
        let parts: serde_json::Map<String, Value> =
            (0..12).map(|i| (format!("p{i}"), json!({"mass_lb": 100 - i / 2}))).collect();
        let report = answer(json!({"trailer": trailer(), "parts": parts}));
        let listed: Vec<&str> = report.heaviest.iter().map(|part| part.part.as_str()).collect();
        assert_eq!(listed, ["p0", "p1", "p2", "p3", "p4", "p5", "p6", "p7", "p8", "p9"]);
    }

    #[test]
    fn loads_use_the_handbooks_density_and_the_label_its_own() {
        let report = answer(json!({"trailer": trailer(), "tanks": {
            "fresh": {"fluid": "fresh_water", "capacity_gal": 18},
            "brine": {"fluid": "grey_water", "capacity_gal": 10, "density_lb_per_gal": 9},
            "gas": {"fluid": "propane", "capacity_gal": 5},
        }}));
        let [fresh, brine, gas] = ["fresh", "brine", "gas"].map(|id| &report.fluids[id]);
        assert_close(fresh.full_lb, 18.0 * 8.34);
        assert_close(fresh.label_lb.unwrap(), 18.0 * 8.3);
        assert_close(fresh.label_kg.unwrap(), 18.0 * 3.785_411_784);
        assert_close(brine.full_lb, 90.0);
        assert_close(brine.label_lb.unwrap(), 83.0);
        assert_eq!((gas.density_lb_per_gal, gas.label_lb, gas.label_kg), (4.24, None, None));
        assert_close(report.label.water_lb, 149.4);
        assert_close(report.unloaded_mass_lb, 2000.0 + 5.0 * 4.24);
        let wet = &report.states["wet"];
        assert_close(wet.fluids_lb, 18.0 * 8.34 + 5.0 * 4.24);
    }

    #[test]
    fn the_label_counts_fresh_water_alone_and_is_not_below_nothing() {
        let report = answer(json!({
            "trailer": {"gvwr_lb": 2000, "bare": {"mass_lb": 2100}},
            "tanks": {"grey": {"fluid": "grey_water", "capacity_gal": 18}},
        }));
        assert_eq!((report.label.cargo_capacity_lb, report.label.water_lb), (0.0, 0.0));
        assert_eq!(report.findings[0].code, "gross_over_gvwr");
    }

    #[test]
    fn a_band_sums_tolerances_and_pieces_of_one_part_go_together() {
        let report = answer(json!({
            "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2000, "mass_tolerance_lb": 12}},
            "parts": {
                "bunk": {"mass_lb": 60, "quantity": 3, "mass_tolerance_lb": 3},
                "bench": {"mass_lb": 40},
            },
            "cargo": {"gear": {"mass_lb": 90, "mass_tolerance_lb": 20}, "food": {"mass_lb": 30}},
            "states": {"empty": {}, "full": {"aboard": ["gear", "food"]}},
        }));
        let (empty, full) = (report.states["empty"].band, report.states["full"].band);
        assert_eq!((empty.worst_lb, empty.scatter_lb, empty.without_tolerance_count), (21.0, 15.0, 1));
        assert_eq!((full.worst_lb, full.scatter_lb, full.without_tolerance_count), (41.0, 25.0, 2));
    }

    #[test]
    fn every_default_is_listed_in_the_order_of_the_document() {
        let report = answer(json!({
            "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2000, "x_in": 150},
                "axles": {"a": {"x_in": 150, "gawr_lb": 3500, "track_in": 80},
                          "b": {"x_in": 184, "gawr_lb": 3500, "track_in": 80}}},
            "parts": {"bench": {"mass_lb": 60}, "bunk": {"mass_lb": 60, "quantity": 2, "x_in": 90}},
            "tanks": {"fresh": {"fluid": "fresh_water", "capacity_gal": 18}},
            "cargo": {"gear": {"mass_lb": 9}},
            "states": {"empty": {"scale": {"total_lb": 2200, "tongue_lb": 300}}, "full": {"fill": {"fresh": 1}}},
        }));
        assert_eq!(
            assumed(&report),
            [
                "/trailer/suspension",
                "/trailer/equalizer",
                "/parts/bench/quantity",
                "/parts/bench/x_in",
                "/tanks/fresh/density_lb_per_gal",
                "/tanks/fresh/x_in",
                "/cargo/gear/x_in",
                "/states/empty/moving",
                "/states/empty/fill",
                "/states/empty/aboard",
                "/states/empty/scale/tolerance_lb",
                "/states/full/moving",
                "/states/full/aboard",
            ]
        );
        for assumption in &report.assumptions {
            let sentence = assumption.reason;
            assert!(sentence.len() > 10 && !sentence.ends_with('.'), "{sentence}");
        }
    }

    /// The example gives every field that payload reads.
    #[test]
    fn where_everything_is_given_nothing_is_assumed() {
        assert_eq!(assumed(&answer(Build::example())), Vec::<&str>::new());
    }

    #[test]
    fn without_the_bare_trailers_place_a_scale_tells_mass_alone() {
        let report = answer(json!({
            "trailer": trailer(),
            "parts": {"bench": {"mass_lb": 60}},
            "states": {"empty": {"scale": {"total_lb": 2300, "tongue_lb": 300}}},
        }));
        let found = &report.reconciliation["empty"];
        assert_close(found.unaccounted_lb.unwrap(), 240.0);
        assert_eq!((found.moment_lb_in, found.x_in, found.x_tolerance_in), (None, None, None));
        assert!(!assumed(&report).iter().any(|pointer| pointer.ends_with("x_in")));
    }

    /// Weighed with something unlisted aboard at a place of its own, the bench not yet installed.
    fn weighed(suspension: &str, equalizer: Value, by: &str) -> Reconciliation {
        let [bare, galley, unlisted] = [(2000.0, 150.0), (120.0, 80.0), (310.0, 134.0)];
        let mass = bare.0 + galley.0 + unlisted.0;
        let moment = bare.0 * bare.1 + galley.0 * galley.1 + unlisted.0 * unlisted.1;
        // With arms of 6 and 4 in the rear axle takes 6 parts of 10: equal arms put the load midway.
        let group = if equalizer.is_null() { 167.0 } else { 150.0 + 34.0 * 0.6 };
        let axles = moment / group;
        // Independent axles share by their pitch: any shares with the same moment do.
        let rear = if suspension == "independent" { 0.5 * axles } else { axles * (group - 150.0) / 34.0 };
        let (tongue, each) = (mass - axles, json!({"front": axles - rear, "rear": rear}));
        let scale = match by {
            "axles" => json!({"tongue_lb": tongue, "axles": each}),
            "total" => json!({"total_lb": mass, "axles": each}),
            _ => json!({"total_lb": mass, "tongue_lb": tongue}),
        };
        let mut scale = scale;
        scale["not_installed"] = json!(["bench"]);
        let axle = |x: f64| json!({"x_in": x, "gawr_lb": 3500, "track_in": 80});
        let mut report = answer(json!({
            "trailer": {
                "gvwr_lb": 7000, "bare": {"mass_lb": 2000, "x_in": 150}, "suspension": suspension,
                "axles": {"front": axle(150.0), "rear": axle(184.0)}, "equalizer": equalizer,
            },
            "parts": {"bench": {"mass_lb": 500, "x_in": 10}, "galley": {"mass_lb": 120, "x_in": 80}},
            "states": {"shop": {"scale": scale}},
        }));
        report.reconciliation.shift_remove("shop").unwrap()
    }

    #[test]
    fn a_scale_finds_what_is_not_listed_and_where_it_sits() {
        let arms = json!({"front_arm_in": 6, "rear_arm_in": 4});
        for (suspension, equalizer, by) in [
            ("equalized", Value::Null, "axles"),
            ("equalized", Value::Null, "total"),
            ("equalized", Value::Null, "tongue"),
            ("equalized", arms.clone(), "axles"),
            ("equalized", arms, "tongue"),
            ("independent", Value::Null, "axles"),
            ("independent", Value::Null, "total"),
        ] {
            let found = weighed(suspension, equalizer, by);
            assert_close(found.listed_lb, 2120.0);
            assert_close(found.measured_lb.unwrap(), 2430.0);
            assert!((found.unaccounted_lb.unwrap() - 310.0).abs() < 1e-6, "{suspension}, {by}");
            assert!((found.x_in.unwrap() - 134.0).abs() < 1e-6, "{suspension}, {by}: {:?}", found.x_in);
        }
    }

    #[test]
    fn the_tongue_of_independent_axles_tells_no_place() {
        let found = weighed("independent", Value::Null, "tongue");
        assert!((found.unaccounted_lb.unwrap() - 310.0).abs() < 1e-6);
        assert_eq!((found.moment_lb_in, found.x_in), (None, None));
    }

    #[test]
    fn readings_that_make_up_no_total_are_noted() {
        let report = answer(json!({
            "trailer": trailer(),
            "states": {"empty": {"scale": {"tongue_lb": 300, "tolerance_lb": 5}}},
        }));
        let found = &report.reconciliation["empty"];
        assert_eq!((found.measured_lb, found.unaccounted_lb, found.tolerance_lb), (None, None, 5.0));
        assert_eq!(report.findings[0].code, "scale_readings_incomplete");
    }
}
