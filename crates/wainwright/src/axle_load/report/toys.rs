//! The toys: whether they fit, what holds them, what they do to floor and hitch on the way in.

use super::super::numbers::Numbers;
use super::super::rig::state_totals;
use super::super::tail_tip::{
    RampSpan, ToyAxles, front_axle_on_hinge_moment, rear_axle_on_hinge_moment, standing_moment,
};
use super::super::toy_bay::floor::{CAUTIOUS_EXTRA_WIDTH_M, Strip, Support, USUAL_EXTRA_WIDTH_M, wheel_load};
use super::super::toy_bay::tie_downs::{self, AGAINST_BREAKING_STRENGTH, AGAINST_WLL, Motion};
use super::super::toy_bay::{fit, ramp};
use super::super::worst::Source;
use super::fill::finite;
use super::types::*;
use crate::build::{Attachment, Bay, Build, Cargo, TieDown, Toy};
use crate::document::Keyed;
use crate::loading::Loading as Masses;
use crate::masses::Totals;
use crate::units::{M_PER_IN, PA_PER_PSI, inches, kg, lb, lb_in, m};

/// Whoever rides a toy in, where the build does not say [lb]. Common practice.
pub(in super::super) const RIDER_LB: f64 = 190.0;
/// Modulus of elasticity of a softwood plywood panel, where the build does not say [psi]. Common practice.
pub(in super::super) const PANEL_MODULUS_PSI: f64 = 1_500_000.0;
/// Wheels on each axle of a toy, where the build does not say.
pub(in super::super) const WHEELS_PER_AXLE: u32 = 2;

/// Part of a toy's mass on its front axle: as given, else as is usual for its wheels. Common practice.
pub(in super::super) fn front_share(toy: &Toy) -> f64 {
    use super::super::toy_bay::floor::{MOTORCYCLE_FRONT_SHARE, UTILITY_ATV_FRONT_SHARE};
    let usual = if toy.wheels_per_axle == Some(1) { MOTORCYCLE_FRONT_SHARE } else { UTILITY_ATV_FRONT_SHARE };
    toy.front_fraction.unwrap_or(usual)
}

/// Where the ramp's hinge is [m]: the bay's rear end, else the floor's.
fn hinge_x_m(build: &Build) -> Option<f64> {
    let floor =
        build.trailer.as_ref().and_then(|trailer| trailer.floor.as_ref()).map(|floor| floor.rear_x_in);
    build.bay.as_ref().map(|bay| bay.rear_x_in).or(floor).map(m)
}

fn is_toy(build: &Build, source: Source) -> bool {
    match source {
        Source::Tank(_) => false,
        Source::Cargo(index) => build.cargo().nth(index).is_some_and(|(_, cargo)| cargo.toy.is_some()),
    }
}

/// A state's masses without its toys.
fn without_toys(build: &Build, masses: &Masses, index: usize) -> Totals {
    let aboard = masses.states[index].aboard.iter().enumerate();
    let toys = aboard.filter(|(cargo, aboard)| **aboard && is_toy(build, Source::Cargo(*cargo)));
    toys.fold(state_totals(masses, index), |rest, (cargo, _)| rest - masses.cargo[cargo])
}

/// Least moment that keeps the jack down, unhitched, over the listed states without toys [kg·m], and its state.
fn holding_moment(build: &Build, masses: &Masses, numbers: &Numbers) -> Option<(f64, usize)> {
    let rig = &numbers.rig;
    let moment = |index| rig.loads(&without_toys(build, masses, index)).tongue_kg * rig.group_x_m;
    (0..masses.states.len()).map(|index| (moment(index), index)).min_by(|a, b| a.0.total_cmp(&b.0))
}

/// What at the tail of the unhitched trailer lifts its jack.
pub(super) fn unhitched(build: &Build, masses: &Masses, numbers: &Numbers) -> Option<Unhitched> {
    let hinge = hinge_x_m(build)?;
    let rig = &numbers.rig;
    let lifts =
        |moment: f64, pivot: f64| (hinge > pivot && moment > 0.0).then(|| lb(moment / (hinge - pivot)));
    let least_without_toys = |line| -numbers.choices.greatest_among(&line, |source| !is_toy(build, source));
    let any_lift = least_without_toys(rig.tongue.times(-1.0)) * rig.group_x_m;
    let last = rig.last_axle_x_m();
    let about_last = super::super::line::Line { mass: -last, x: 1.0, ..Default::default() };
    let listed = holding_moment(build, masses, numbers);
    let jack_x_m = build.trailer.as_ref().and_then(|trailer| trailer.jack.as_ref()).map(|jack| m(jack.x_in));
    Some(Unhitched {
        hinge_x_in: inches(hinge),
        lift_mass_lb: listed.and_then(|(moment, _)| lifts(moment, rig.group_x_m)),
        lift_state: listed.map(|(_, index)| masses.states[index].id.to_string()),
        any_fill_lift_mass_lb: lifts(any_lift, rig.group_x_m),
        any_fill_tip_mass_lb: lifts(least_without_toys(about_last), last),
        jack_max_lb: jack_x_m.map(|x| lb(numbers.choices.greatest(&rig.jack(x)))),
    })
}

/// Each toy of the cargo.
pub(super) fn toys(build: &Build, masses: &Masses, numbers: &Numbers) -> Keyed<ToyReport> {
    let toys = build
        .cargo()
        .enumerate()
        .filter_map(|(index, (id, cargo))| Some((index, id, cargo, cargo.toy.as_ref()?)));
    toys.map(|(index, id, cargo, toy)| {
        let bay = build.bay.as_ref();
        let report = ToyReport {
            fit: bay.map(|bay| fit(bay, toy, lengths_together(build, masses, index))),
            ramp: bay.and_then(|bay| ramp(bay, toy)),
            floor: bay.and_then(|bay| floor(bay, cargo, toy)),
            tie_downs: cargo.tie_downs.as_ref().filter(|all| !all.is_empty()).map(|all| hold(cargo, all)),
            loading: loading(build, masses, numbers, index, cargo, toy),
        };
        (id.to_owned(), report)
    })
    .collect()
}

/// Lengths of the toys that ride together with one, itself among them [m]: in the state with most of them.
fn lengths_together(build: &Build, masses: &Masses, toy: usize) -> Vec<f64> {
    let lengths = |aboard: &[bool]| -> Vec<f64> {
        let cargo = build.cargo().zip(aboard).filter(|(_, aboard)| **aboard);
        cargo.filter_map(|((_, cargo), _)| Some(m(cargo.toy.as_ref()?.length_in))).collect()
    };
    let states = masses.states.iter().filter(|state| state.aboard[toy]).map(|state| lengths(&state.aboard));
    let longest = states.max_by(|a, b| a.iter().sum::<f64>().total_cmp(&b.iter().sum()));
    longest.unwrap_or_else(|| {
        let own: Vec<bool> = (0..masses.cargo.len()).map(|index| index == toy).collect();
        lengths(&own)
    })
}

fn fit(bay: &Bay, toy: &Toy, lengths_m: Vec<f64>) -> Fit {
    let clear = |inches: Option<f64>| inches.map_or(f64::NAN, m);
    let room = fit::Bay {
        width_m: clear(bay.clear_width_in),
        length_m: m(bay.rear_x_in - bay.front_x_in),
        height_m: clear(bay.clear_height_in),
        door_width_m: clear(bay.opening_width_in),
        door_height_m: clear(bay.opening_height_in),
    };
    let size = |length_m| fit::ToySize { length_m, width_m: m(toy.width_in), height_m: m(toy.height_in) };
    let sizes: Vec<_> = lengths_m.into_iter().map(size).collect();
    let left = fit::margins(room, &sizes, 0.0);
    Fit {
        width_left_in: finite(inches(left.width_m)),
        length_left_in: inches(left.length_m),
        together_count: sizes.len() as u32,
        height_left_in: finite(inches(left.height_m)),
        opening_width_left_in: finite(inches(left.door_width_m)),
        opening_height_left_in: finite(inches(left.door_height_m)),
    }
}

fn ramp(bay: &Bay, toy: &Toy) -> Option<Ramp> {
    let angle = ramp::angle(m(bay.ramp_length_in?), m(bay.deck_height_in?));
    let needed = toy.wheelbase_in.map(|wheelbase| ramp::breakover_clearance(m(wheelbase), angle, 0.0));
    Some(Ramp { angle_deg: angle.to_degrees(), needed_clearance_in: needed.map(inches) })
}

/// Mass of a toy with its rider [kg].
fn ridden_kg(cargo: &Cargo, toy: &Toy) -> f64 {
    kg(cargo.mass_lb + toy.rider_lb.unwrap_or(RIDER_LB))
}

fn floor(bay: &Bay, cargo: &Cargo, toy: &Toy) -> Option<FloorLoad> {
    let span_m = m(bay.crossmember_spacing_in?);
    let thickness_m = m(bay.panel_thickness_in?);
    let tire_m = m(toy.tire_width_in?);
    let front = front_share(toy);
    let wheels = toy.wheels_per_axle.unwrap_or(WHEELS_PER_AXLE);
    let wheel_kg = wheel_load(ridden_kg(cargo, toy), front.max(1.0 - front), wheels);
    let strip = |extra_m: f64| Strip {
        span_m,
        width_m: tire_m + extra_m,
        thickness_m,
        modulus_pa: bay.panel_modulus_psi.unwrap_or(PANEL_MODULUS_PSI) * PA_PER_PSI,
        support: Support::EndSpan,
    };
    let (wide, narrow) = (strip(USUAL_EXTRA_WIDTH_M), strip(CAUTIOUS_EXTRA_WIDTH_M));
    let deflection_m = wide.deflection_m(wheel_kg);
    Some(FloorLoad {
        wheel_lb: lb(wheel_kg),
        stress_psi: wide.stress_pa(wheel_kg) / PA_PER_PSI,
        narrow_stress_psi: narrow.stress_pa(wheel_kg) / PA_PER_PSI,
        deflection_in: inches(deflection_m),
        span_over_deflection: if deflection_m > 0.0 { span_m / deflection_m } else { f64::MAX },
    })
}

fn hold(cargo: &Cargo, all: &Keyed<TieDown>) -> TieDownCheck {
    let straps: Vec<tie_downs::TieDown> = all
        .values()
        .map(|strap| tie_downs::TieDown {
            wll_kg: kg(strap.wll_lb),
            breaking_strength_kg: strap.breaking_strength_lb.map(kg),
            floor_angle_rad: strap.floor_angle_deg.to_radians(),
            axis_angle_rad: strap.axis_angle_deg.to_radians(),
            pulls: strap.pulls,
            side: strap.side,
            attachment: strap.attachment.unwrap_or(Attachment::Direct),
        })
        .collect();
    let mass_kg = kg(cargo.mass_lb);
    let motions = [
        ("forward", Motion::Forward),
        ("rearward", Motion::Rearward),
        ("left", Motion::Left),
        ("right", Motion::Right),
    ];
    let directions = motions.map(|(direction, motion)| Hold {
        direction,
        wll_lb: lb(tie_downs::wll_capacity(&straps, motion)),
        wll_needed_lb: lb(tie_downs::demand(mass_kg, AGAINST_WLL, motion)),
        breaking_lb: tie_downs::breaking_capacity(&straps, motion).map(lb),
        breaking_needed_lb: lb(tie_downs::demand(mass_kg, AGAINST_BREAKING_STRENGTH, motion)),
    });
    TieDownCheck {
        count: straps.len() as u32,
        aggregate_lb: lb(tie_downs::aggregate_wll(&straps)),
        aggregate_needed_lb: lb(tie_downs::required_aggregate_wll(mass_kg)),
        directions: directions.to_vec(),
    }
}

fn loading(
    build: &Build,
    masses: &Masses,
    numbers: &Numbers,
    index: usize,
    cargo: &Cargo,
    toy: &Toy,
) -> Loading {
    let rig = &numbers.rig;
    let mass_kg = ridden_kg(cargo, toy);
    let hinge = hinge_x_m(build);
    let least_tongue =
        -numbers.choices.greatest_among(&rig.tongue.times(-1.0), |source| source != Source::Cargo(index));
    let arm = hinge.map(|hinge| hinge - rig.group_x_m).filter(|arm| *arm > 0.0);
    let ramp_moment = arm.and_then(|hinge_arm_m| {
        let bay = build.bay.as_ref()?;
        let reach_m = ramp::reach(m(bay.ramp_length_in?), m(bay.deck_height_in?));
        let front = front_share(toy);
        let axles = ToyAxles {
            front_kg: front * mass_kg,
            rear_kg: (1.0 - front) * mass_kg,
            wheelbase_m: m(toy.wheelbase_in?),
        };
        let span = RampSpan { reach_m, hinge_arm_m };
        Some(front_axle_on_hinge_moment(axles, span).max(rear_axle_on_hinge_moment(axles, span)))
    });
    Loading {
        mass_lb: lb(mass_kg),
        hitched_tongue_lb: hinge.map(|hinge| lb(least_tongue + mass_kg * (1.0 - hinge / rig.group_x_m))),
        ramp_moment_lb_in: ramp_moment.map(lb_in),
        standing_moment_lb_in: arm.map(|arm| lb_in(standing_moment(mass_kg, arm))),
        holding_moment_lb_in: holding_moment(build, masses, numbers).map(|(moment, _)| lb_in(moment)),
    }
}

/// The clear width beside a toy that a rider needs to climb off, one side [in].
pub(in super::super) const CLIMB_OFF_IN: f64 = fit::CLIMB_OFF_WIDTH_M / M_PER_IN;
