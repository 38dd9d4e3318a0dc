//! The numeric core: everything that axle load works out, as numbers alone.

use super::limits::{GREATEST_TONGUE_FRACTION, LEAST_TONGUE_FRACTION, Limit, LimitName, limits};
use super::line::Line;
use super::placement::{Greatest, Interval};
use super::rig::{Loads, Rig, Tow, state_totals};
use super::road::{CorneringSides, Motion, RoadLoads, brake_force_kg, cornering_sides, road_loads};
use super::stability::{static_stability_factor, tip_lateral_g};
use super::sway;
use super::tow_vehicle::Coupled;
use super::uncertainty::{self, UncertainGroup, UncertainMass};
use super::worst::{Choices, Lift, Range, Source, Worst, worst};
use super::yaw;
use crate::build::Build;
use crate::loading::Loading;
use crate::masses::Totals;
use crate::units::{kg, m, m_s};

/// Everything that axle load works out.
#[derive(Debug, Clone, PartialEq)]
pub struct Numbers {
    /// The running gear.
    pub rig: Rig,
    /// The tow vehicle.
    pub tow: Option<Tow>,
    /// What the loads are held to.
    pub limits: Vec<Limit>,
    /// What may vary.
    pub choices: Choices,
    /// Each state.
    pub states: Vec<StateNumbers>,
    /// Over all fills and cargo choices.
    pub worst: Worst,
    /// Each limit at its worst.
    pub checks: Vec<Check>,
    /// Where each part may stand.
    pub parts: Vec<Places>,
    /// Where each piece of cargo may stand.
    pub cargo: Vec<Places>,
    /// How heavy each piece of cargo may be at its place.
    pub largest: Vec<Masses>,
    /// Where the axles should be.
    pub station: Station,
}

/// What the road is taken to ask.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoadConditions {
    /// Deceleration of a hard stop [g].
    pub stop_g: f64,
    /// Deceleration of an emergency stop [g].
    pub emergency_stop_g: f64,
    /// Part of its own braking that the trailer does.
    pub brake_share: f64,
    /// Grade, up and down [rad].
    pub grade_rad: f64,
    /// Sideways acceleration [g].
    pub side_g: f64,
    /// Speed that sway is compared at [m/s].
    pub sway_speed_m_s: f64,
}

/// One loading state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StateNumbers {
    /// Masses and moments.
    pub totals: Totals,
    /// Loads at rest.
    pub loads: Loads,
    /// Tow vehicle's front and rear axle, coupled, without bars [kg].
    pub tow_axles_kg: Option<[f64; 2]>,
    /// Changes that coupling with bars makes.
    pub bars: Option<Coupled>,
    /// Load on the jack, unhitched [kg].
    pub jack_kg: Option<f64>,
    /// A hard stop.
    pub stop: RoadLoads,
    /// An emergency stop.
    pub emergency: RoadLoads,
    /// Uphill at a steady speed.
    pub uphill: RoadLoads,
    /// Downhill at a steady speed.
    pub downhill: RoadLoads,
    /// In a bend.
    pub bend: CorneringSides,
    /// Static stability factor.
    pub stability_factor: f64,
    /// Lateral acceleration that tips it [g], toward its heavier side.
    pub tip_g: f64,
    /// Resistance to yaw about the centre of gravity [kg·m²].
    pub yaw_kg_m2: f64,
    /// Least damping ratio of the combination.
    pub sway_damping: Option<f64>,
    /// Tongue load over tolerances: lower, higher, scatter [kg].
    pub tongue_band_kg: [f64; 3],
    /// Tongue fraction over tolerances: lower, higher, scatter.
    pub fraction_band: [f64; 3],
}

/// A limit at its worst.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Check {
    /// The state that moves and comes nearest to it or farthest past it.
    pub state: usize,
    /// Load less bound in that state [kg].
    pub over_kg: f64,
    /// Load less bound over all fills and cargo choices [kg].
    pub over_any_kg: f64,
}

/// Where a thing may stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Places {
    /// In the states that move.
    pub states: Interval,
    /// With any fill and any other cargo.
    pub any: Interval,
}

/// How heavy a thing may be at its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Masses {
    /// In the states that move and have it aboard.
    pub states: Greatest,
    /// With any fill and any other cargo.
    pub any: Greatest,
}

/// Where the axle group should be [m].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// Where it is.
    pub now_m: f64,
    /// Foremost station that keeps the tongue at a tenth in every state that moves.
    pub min_m: f64,
    /// Rearmost station that keeps the tongue at 15 % in every state that moves.
    pub max_m: f64,
    /// Foremost and rearmost for any fill and any cargo.
    pub any_min_m: f64,
    /// As `any_min_m`.
    pub any_max_m: f64,
    /// Station that keeps the tongue fraction of the states that move nearest to 12.5 %.
    pub best_m: f64,
}

/// The numbers of a build with trailer and axles.
pub fn numbers(build: &Build, loading: &Loading, road: &RoadConditions) -> Option<Numbers> {
    let rig = Rig::of(build, loading)?;
    let tow = Tow::of(build, rig.group_x_m);
    let limits = limits(build, &rig, tow.as_ref());
    let choices = Choices::of(build, loading);
    let states = states(build, loading, &rig, tow.as_ref(), road);
    let judged = judged_states(loading);
    let standing = |index: usize| {
        let state: &StateNumbers = &states[index];
        state.loads.lifted.then(|| super::limits::limits(build, &rig.standing(&state.totals), tow.as_ref()))
    };
    let mut checks = checks(&limits, &choices, &states, &judged, standing);
    let (parts, cargo) = places(loading, &limits, &choices, &states, &judged);
    let largest = largest(loading, &limits, &choices, &states, &judged);
    let station = station(&rig, &choices, &states, &judged);
    let worst = worst(&choices, &rig);
    if worst.lift != Lift::No {
        over_where_axles_lift(&limits, &worst, &rig, tow.as_ref(), &mut checks);
    }
    Some(Numbers { rig, tow, limits, choices, states, worst, checks, parts, cargo, largest, station })
}

/// Corrects the worst of each limit over all choices where an axle can lift: from the worst loads, which know of it.
///
/// Where spring bars add to an axle what they take off the tongue, both are taken at their greatest: the safe side.
fn over_where_axles_lift(
    limits: &[Limit],
    worst: &Worst,
    rig: &Rig,
    tow: Option<&Tow>,
    checks: &mut [Check],
) {
    let bars = tow.and_then(|tow| tow.with_bars).map_or(0.0, |bars| bars.trailer_axles_kg);
    let barred = bars * worst.tongue.max.value.max(0.0);
    for (limit, check) in limits.iter().zip(checks) {
        let greatest = match limit.name {
            LimitName::Gawr(j) => worst.axle[j].max.value + barred,
            LimitName::Tires(j) | LimitName::Rims(j) => {
                worst.left[j].max.value.max(worst.right[j].max.value) + barred / 2.0
            }
            name if name.is_tongue() => worst.tongue.max.value,
            LimitName::TowFrontGawr | LimitName::TowRearGawr | LimitName::TowGvwr => {
                // So many times the tongue load, and what stands on the tow vehicle without it.
                let times = limit.load.mass / rig.tongue.mass;
                let alone = limit.load.constant - times * rig.tongue.constant;
                alone + (times * worst.tongue.max.value).max(times * worst.tongue.min.value)
            }
            _ => continue,
        };
        check.over_any_kg = greatest - limit.bound_kg;
    }
}

/// The states that limits of the road are applied to: those that move, or all where none does.
fn judged_states(loading: &Loading) -> Vec<usize> {
    let all = 0..loading.states.len();
    let moving: Vec<usize> = all.clone().filter(|i| loading.states[*i].moving).collect();
    if moving.is_empty() { all.collect() } else { moving }
}

fn states(
    build: &Build,
    loading: &Loading,
    rig: &Rig,
    tow: Option<&Tow>,
    road: &RoadConditions,
) -> Vec<StateNumbers> {
    let jack_x_m = build.trailer.as_ref().and_then(|t| t.jack.as_ref()).map(|jack| m(jack.x_in));
    let shell_kg_m2 = shell_inertia(build);
    let fixed_kg_m2 = loading
        .parts
        .iter()
        .fold(second_moment(&loading.bare) + shell_kg_m2, |sum, p| sum + second_moment(p));
    let mut bands = Bands::of(build, loading, rig);
    let each = 0..loading.states.len();
    each.map(|index| {
        let totals = state_totals(loading, index);
        let loads = rig.loads(&totals);
        let state = &loading.states[index];
        let fluids = loading
            .tanks
            .iter()
            .zip(&state.fill)
            .fold(0.0, |sum, (tank, fill)| sum + fill * second_moment(tank));
        let cargo = loading.cargo.iter().zip(&state.aboard).filter(|(_, aboard)| **aboard);
        let about_ball = fixed_kg_m2 + fluids + cargo.fold(0.0, |sum, (cargo, _)| sum + second_moment(cargo));
        let yaw_kg_m2 = yaw::about_center_kg_m2(about_ball, &totals);
        let tow_axles_kg = tow.map(|tow| {
            [
                tow.front_kg + loads.tongue_kg * tow.plain.front_kg,
                tow.rear_kg + loads.tongue_kg * tow.plain.rear_kg,
            ]
        });
        let fraction = loads.tongue_kg / totals.mass_kg;
        let track_m = mean_track_m(rig);
        let rest = road_loads(&totals, rig.group_x_m, rig.ball_height_m, Motion::default());
        let on = |deceleration_g: f64, grade_rad: f64, share: f64| {
            let brake_kg = brake_force_kg(totals.mass_kg, share, deceleration_g, grade_rad);
            let motion = Motion { deceleration_g, grade_rad, brake_kg, ..Motion::default() };
            let moved = road_loads(&totals, rig.group_x_m, rig.ball_height_m, motion);
            // The change that motion makes, on top of the loads at rest: those know of springs and unsprung masses.
            RoadLoads {
                tongue_kg: loads.tongue_kg + moved.tongue_kg - rest.tongue_kg,
                axles_kg: totals.mass_kg - loads.tongue_kg + moved.axles_kg - rest.axles_kg,
                push_kg: moved.push_kg,
            }
        };
        let (tongue_band_kg, fraction_band) = bands.of_state(loading, index);
        StateNumbers {
            totals,
            loads,
            tow_axles_kg,
            bars: tow.and_then(|tow| tow.with_bars).map(|unit| Coupled {
                front_kg: unit.front_kg * loads.tongue_kg,
                rear_kg: unit.rear_kg * loads.tongue_kg,
                trailer_axles_kg: unit.trailer_axles_kg * loads.tongue_kg,
            }),
            jack_kg: jack_x_m.map(|x| loads.tongue_kg * rig.group_x_m / (rig.group_x_m - x)),
            stop: on(road.stop_g, 0.0, road.brake_share),
            emergency: on(road.emergency_stop_g, 0.0, road.brake_share),
            uphill: on(0.0, road.grade_rad, 0.0),
            downhill: on(0.0, -road.grade_rad, 0.0),
            bend: cornering_sides(&totals, loads.tongue_kg, rig.ball_height_m, track_m, road.side_g),
            stability_factor: static_stability_factor(track_m, totals.center_z_m()),
            tip_g: tip_lateral_g(
                fraction,
                track_m,
                totals.center_y_m().abs(),
                totals.center_z_m(),
                rig.ball_height_m,
            ),
            yaw_kg_m2,
            sway_damping: tow.zip(tow_axles_kg).filter(|_| state.moving).and_then(|(tow, coupled)| {
                sway_damping(tow, coupled, &totals, yaw_kg_m2, rig, road.sway_speed_m_s)
            }),
            tongue_band_kg,
            fraction_band,
        }
    })
    .collect()
}

fn mean_track_m(rig: &Rig) -> f64 {
    rig.track_m.iter().take(rig.count).fold(0.0, |sum, track| sum + track) / rig.count as f64
}

/// Second moment of a mass about the vertical through the ball [kg·m²]: `m (x² + y²)`.
fn second_moment(totals: &Totals) -> f64 {
    if totals.mass_kg == 0.0 {
        return 0.0;
    }
    (totals.x_kg_m * totals.x_kg_m + totals.y_kg_m * totals.y_kg_m) / totals.mass_kg
}

/// Own inertia of the bare box, a uniform rectangle [kg·m²].
fn shell_inertia(build: &Build) -> f64 {
    let Some(trailer) = &build.trailer else { return 0.0 };
    let (length_in, width_in) = shell_size_in(build);
    yaw::rectangle_kg_m2(kg(trailer.bare.mass_lb), m(length_in), m(width_in))
}

/// Length and width of the bare box [in]: as given, else the floor's length and the widest track.
pub(super) fn shell_size_in(build: &Build) -> (f64, f64) {
    let trailer = build.trailer.as_ref();
    let bare = trailer.map(|t| &t.bare);
    let floor = trailer.and_then(|t| t.floor.as_ref());
    let length = bare.and_then(|b| b.length_in).or(floor.map(|f| f.rear_x_in - f.front_x_in));
    let track = build.axles().map(|(_, axle)| axle.track_in).fold(0.0, f64::max);
    (length.unwrap_or(0.0), bare.and_then(|b| b.width_in).unwrap_or(track))
}

fn sway_damping(
    tow: &Tow,
    coupled_kg: [f64; 2],
    totals: &Totals,
    yaw_kg_m2: f64,
    rig: &Rig,
    speed_m_s: f64,
) -> Option<f64> {
    let geometry = tow.geometry;
    let alone = [tow.front_kg, tow.rear_kg];
    // Tires that carry nothing hold no course: the model has nothing to say.
    if coupled_kg.iter().any(|load| *load <= 0.0) || totals.x_kg_m <= 0.0 {
        return None;
    }
    let vehicle = sway::Tow::from_axle_loads(alone, coupled_kg, geometry.wheelbase_m, geometry.overhang_m);
    let trailer = sway::Trailer::from_totals(totals, yaw_kg_m2, rig.group_x_m);
    sway::damping_ratio(sway::eigenvalues(&vehicle, &trailer, speed_m_s)).filter(|ratio| ratio.is_finite())
}

/// Tolerances of everything aboard, state by state.
struct Bands {
    stated: bool,
    items: Vec<UncertainMass>,
    fixed_count: usize,
    tanks: Vec<[f64; 2]>,
    cargo: Vec<UncertainMass>,
    group: UncertainGroup,
}

impl Bands {
    fn of(build: &Build, loading: &Loading, rig: &Rig) -> Self {
        let uncertain = |totals: &Totals, mass_lb: Option<f64>, x_in: Option<f64>| UncertainMass {
            mass_kg: totals.mass_kg,
            mass_tolerance_kg: kg(mass_lb.unwrap_or(0.0)),
            x_m: if totals.mass_kg == 0.0 { 0.0 } else { totals.center_x_m() },
            x_tolerance_m: m(x_in.unwrap_or(0.0)),
        };
        let group_tolerance = build.axles().filter_map(|(_, axle)| axle.x_tolerance_in).fold(0.0, f64::max);
        let group = UncertainGroup { x_m: rig.group_x_m, x_tolerance_m: m(group_tolerance) };
        let mut bands = Self {
            stated: false,
            items: Vec::new(),
            fixed_count: 0,
            tanks: Vec::new(),
            cargo: Vec::new(),
            group,
        };
        let Some(bare) = build.trailer.as_ref().map(|trailer| &trailer.bare) else { return bands };
        let tolerances = std::iter::once((bare.mass_tolerance_lb, bare.x_tolerance_in))
            .chain(build.parts().map(|(_, part)| (part.mass_tolerance_lb, part.x_tolerance_in)))
            .chain(build.cargo().map(|(_, cargo)| (cargo.mass_tolerance_lb, cargo.x_tolerance_in)));
        bands.stated =
            group_tolerance > 0.0 || tolerances.clone().any(|(mass, x)| mass.is_some() || x.is_some());
        if !bands.stated {
            return bands;
        }
        bands.items.push(uncertain(&loading.bare, bare.mass_tolerance_lb, bare.x_tolerance_in));
        for (totals, (_, part)) in loading.parts.iter().zip(build.parts()) {
            let tolerance = part.mass_tolerance_lb.map(|each| each * f64::from(part.quantity.unwrap_or(1)));
            bands.items.push(uncertain(totals, tolerance, part.x_tolerance_in));
        }
        bands.fixed_count = bands.items.len();
        bands.tanks =
            loading.tanks.iter().map(|tank| [tank.mass_kg, uncertain(tank, None, None).x_m]).collect();
        let cargo = loading.cargo.iter().zip(build.cargo());
        bands.cargo = cargo.map(|(t, (_, c))| uncertain(t, c.mass_tolerance_lb, c.x_tolerance_in)).collect();
        bands
    }

    /// Tongue load and tongue fraction of a state: how far lower, how far higher, and the scatter.
    fn of_state(&mut self, loading: &Loading, index: usize) -> ([f64; 3], [f64; 3]) {
        if !self.stated {
            return ([0.0; 3], [0.0; 3]);
        }
        let state = &loading.states[index];
        self.items.truncate(self.fixed_count);
        for ([full_kg, x_m], fill) in self.tanks.iter().zip(&state.fill) {
            self.items.push(UncertainMass {
                mass_kg: full_kg * fill,
                mass_tolerance_kg: 0.0,
                x_m: *x_m,
                x_tolerance_m: 0.0,
            });
        }
        let aboard = self.cargo.iter().zip(&state.aboard).filter(|(_, aboard)| **aboard);
        self.items.extend(aboard.map(|(cargo, _)| *cargo));
        let (mass, moment) = self
            .items
            .iter()
            .fold((0.0, 0.0), |(w, wx), item| (w + item.mass_kg, wx + item.mass_kg * item.x_m));
        let tongue = mass - moment / self.group.x_m;
        let loads = uncertainty::tongue_extremes_kg(&self.items, self.group);
        let fractions = uncertainty::fraction_extremes(&self.items, self.group);
        (
            [tongue - loads.min, loads.max - tongue, uncertainty::tongue_scatter_kg(&self.items, self.group)],
            [
                tongue / mass - fractions.min,
                fractions.max - tongue / mass,
                uncertainty::fraction_scatter(&self.items, self.group),
            ],
        )
    }
}

/// Each limit at its worst: among the judged states, and over all choices.
///
/// Where a state lifts an axle, `standing` gives the same limits as they are for the axles that carry.
fn checks(
    limits: &[Limit],
    choices: &Choices,
    states: &[StateNumbers],
    judged: &[usize],
    standing: impl Fn(usize) -> Option<Vec<Limit>>,
) -> Vec<Check> {
    let lifted: Vec<Option<Vec<Limit>>> = judged.iter().map(|index| standing(*index)).collect();
    let check = |(i, limit): (usize, &Limit)| {
        let mut check =
            Check { state: 0, over_kg: f64::NEG_INFINITY, over_any_kg: choices.greatest(&limit.over) };
        // A share of the gross mass is at its worst where it is farthest off as a share, not in kilograms.
        let badness =
            |over_kg: f64, gross_kg: f64| if limit.is_share() { over_kg / gross_kg } else { over_kg };
        let mut worst = f64::NEG_INFINITY;
        for (index, lifted) in judged.iter().zip(&lifted) {
            let totals = &states[*index].totals;
            let over_kg = lifted.as_ref().map_or(limit, |limits| &limits[i]).over.of(totals);
            let bad = badness(over_kg, totals.mass_kg);
            if bad > worst {
                worst = bad;
                check = Check { state: *index, over_kg, ..check };
            }
        }
        check
    };
    limits.iter().enumerate().map(check).collect()
}

/// Where each part and each piece of cargo may stand.
fn places(
    loading: &Loading,
    limits: &[Limit],
    choices: &Choices,
    states: &[StateNumbers],
    judged: &[usize],
) -> (Vec<Places>, Vec<Places>) {
    let mut parts = vec![Places { states: Interval::ANYWHERE, any: Interval::ANYWHERE }; loading.parts.len()];
    let mut cargo = vec![Places { states: Interval::ANYWHERE, any: Interval::ANYWHERE }; loading.cargo.len()];
    for limit in limits.iter().filter(|limit| limit.over.x != 0.0) {
        let worst = |judged: &mut dyn Iterator<Item = usize>| {
            judged.fold(f64::NEG_INFINITY, |worst, index| worst.max(limit.over.of(&states[index].totals)))
        };
        let in_states = worst(&mut judged.iter().copied());
        let in_any = choices.greatest(&limit.over);
        for (places, part) in parts.iter_mut().zip(&loading.parts) {
            let here = limit.over.x * part.x_kg_m;
            places.states = places.states.keeping(limit, part.mass_kg, in_states - here);
            places.any = places.any.keeping(limit, part.mass_kg, in_any - here);
        }
        for (index, (places, item)) in cargo.iter_mut().zip(&loading.cargo).enumerate() {
            let here = limit.over.x * item.x_kg_m;
            let aboard = judged.iter().copied().filter(|state| loading.states[*state].aboard[index]);
            let in_states = worst(&mut aboard.clone());
            if in_states.is_finite() {
                places.states = places.states.keeping(limit, item.mass_kg, in_states - here);
            }
            let rest = choices.greatest_with(Source::Cargo(index), &limit.over);
            places.any = places.any.keeping(limit, item.mass_kg, rest - here);
        }
    }
    (parts, cargo)
}

/// How heavy each piece of cargo may be at its place.
fn largest(
    loading: &Loading,
    limits: &[Limit],
    choices: &Choices,
    states: &[StateNumbers],
    judged: &[usize],
) -> Vec<Masses> {
    let each = loading.cargo.iter().enumerate();
    each.map(|(index, item)| {
        let one = loading.cargo_kilogram[index];
        let mut masses = Masses { states: Greatest::ANY, any: Greatest::ANY };
        let aboard = |state: &usize| loading.states[*state].aboard[index];
        let somewhere = judged.iter().any(aboard);
        for limit in limits {
            let own = limit.over.part_of(item);
            let with = judged.iter().filter(|state| aboard(state) || !somewhere);
            let rest = with.fold(f64::NEG_INFINITY, |worst, state| {
                let own = if aboard(state) { own } else { 0.0 };
                worst.max(limit.over.of(&states[*state].totals) - own)
            });
            if rest.is_finite() {
                masses.states = masses.states.keeping(limit, &one, rest);
            }
            let rest = choices.greatest_with(Source::Cargo(index), &limit.over) - own;
            masses.any = masses.any.keeping(limit, &one, rest);
        }
        masses
    })
    .collect()
}

/// Where the axle group should be, its own unsprung masses moving with it.
///
/// `f` is within its limits in a state where `S / (W (1 - f_lo) - u) <= L <= S / (W (1 - f_hi) - u)`, with S the moment
/// of all but the axles' unsprung masses u.
///
/// Source: equilibrium of moments about the ball.
fn station(rig: &Rig, choices: &Choices, states: &[StateNumbers], judged: &[usize]) -> Station {
    let unsprung = rig.unsprung_kg.iter().fold(0.0, |sum, u| sum + u);
    let unsprung_moment = rig.x_m.iter().zip(rig.unsprung_kg).fold(0.0, |sum, (x, u)| sum + x * u);
    let moment = Line { constant: -unsprung_moment, ..Line::MOMENT };
    let carried = |fraction: f64| Line::GROSS.times(1.0 - fraction).plus(-unsprung);
    let over_states = |fraction: f64| {
        let carried = carried(fraction);
        let stations =
            judged.iter().map(move |i| moment.of(&states[*i].totals) / carried.of(&states[*i].totals));
        stations.fold(Range { min: f64::INFINITY, max: f64::NEG_INFINITY }, |range, x| Range {
            min: range.min.min(x),
            max: range.max.max(x),
        })
    };
    let middle = over_states((LEAST_TONGUE_FRACTION + GREATEST_TONGUE_FRACTION) / 2.0);
    Station {
        now_m: rig.group_x_m,
        min_m: over_states(LEAST_TONGUE_FRACTION).max,
        max_m: over_states(GREATEST_TONGUE_FRACTION).min,
        any_min_m: choices.quotient(moment, carried(LEAST_TONGUE_FRACTION)).max.value,
        any_max_m: choices.quotient(moment, carried(GREATEST_TONGUE_FRACTION)).min.value,
        best_m: (middle.min + middle.max) / 2.0,
    }
}

impl Numbers {
    /// Everything that bounds a thing between two limits that leave it no place.
    pub fn conflict(interval: &Interval) -> Option<[LimitName; 2]> {
        if !interval.is_empty() {
            return None;
        }
        Some([interval.min_by?, interval.max_by?])
    }
}

/// The road of a build, where it does not say as is usual.
pub fn road_conditions(build: &Build) -> RoadConditions {
    let road = build.road.as_ref();
    let or = |stated: Option<f64>, usual: f64| stated.unwrap_or(usual);
    RoadConditions {
        stop_g: or(road.and_then(|r| r.stop_g), super::road::LEGAL_STOP_G),
        emergency_stop_g: or(road.and_then(|r| r.emergency_stop_g), super::road::EMERGENCY_STOP_G),
        brake_share: or(road.and_then(|r| r.brake_share_fraction), BRAKE_SHARE),
        grade_rad: or(road.and_then(|r| r.grade_fraction), GRADE_FRACTION).atan(),
        side_g: or(road.and_then(|r| r.side_g), SIDE_G),
        sway_speed_m_s: m_s(or(road.and_then(|r| r.sway_speed_mph), SWAY_SPEED_MPH)),
    }
}

/// Part of its own braking that a trailer with brakes does. Common practice.
pub(super) const BRAKE_SHARE: f64 = 1.0;
/// Steep grade of a main road. Common practice.
pub(super) const GRADE_FRACTION: f64 = 0.08;
/// Sideways acceleration of a brisk bend [g]. Common practice.
pub(super) const SIDE_G: f64 = 0.3;
/// Speed that trailer tires without a speed mark are made for [mph]. Source: tire-maker information.
pub(super) const SWAY_SPEED_MPH: f64 = 65.0;
