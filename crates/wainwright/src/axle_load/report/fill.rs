//! The report, filled from the numbers.

use super::super::findings::{self, Judged};
use super::super::hitch::{chain_strength_kg, coupler_class, coupling_strengths, governing};
use super::super::limits::{GREATEST_TONGUE_FRACTION, LEAST_TONGUE_FRACTION, Limit, LimitName, TIRES};
use super::super::normal_use::normal_use;
use super::super::numbers::{Numbers, StateNumbers, numbers, road_conditions};
use super::super::placement::Interval;
use super::super::stability::tip_slope_rad;
use super::super::tires::{DEFAULT_LOAD_EXPONENT, TireRating, load_on_trailer_kg, pressure_for_load_pa};
use super::super::worst::{self, Lift};
use super::types::*;
use super::{assumptions, toys};
use crate::build::{Axle, Build, TireType};
use crate::document::Keyed;
use crate::loading::Loading as Masses;
use crate::report::{Caution, Engine, Findings};
use crate::units::{KG_M2_PER_SLUG_FT2, PA_PER_PSI, inches, kg, lb, lb_in, m};

/// From this part of its bound on, a load is near it. Common practice.
pub(in super::super) const NEAR: f64 = 0.95;

/// A load this much above its bound is still at it [kg]: sums of converted figures round.
pub(in super::super) const TOUCHING_KG: f64 = 1e-6;

/// What goes with every report on loads.
const CAUTIONS: &[Caution] = &[
    Caution {
        code: "weigh_it",
        text: "This is an estimate, not a certification. Weigh tongue and each axle on a certified scale, level, at the \
               ball height in use, empty and fully loaded.",
    },
    Caution {
        code: "lowest_part_governs",
        text: "Ratings come from the label, the tire sidewalls and the component plates. The lowest governs, no \
               calculation raises one, and an owner's manual goes before general practice.",
    },
    Caution {
        code: "loads_at_rest",
        text: "Loads at rest leave out potholes, shifting cargo, slosh and wind. Cargo must be tied down; the towing \
               state's rules on brakes, chains, width and length apply.",
    },
    Caution {
        code: "no_safe_speed",
        text: "Damping, tipping and braking figures are for comparing builds. None of them is a safe speed.",
    },
    Caution {
        code: "never_load_unhitched",
        text: "Load a toy with the trailer hitched, the tow vehicle's parking brake set, wheels chocked and rear \
               stabilizers down.",
    },
];

/// The report of a build in which nothing is missing.
pub(in super::super) fn report(build: &Build) -> AxleLoadReport {
    let road = road_conditions(build);
    let worked = Masses::of(build).and_then(|masses| Some((numbers(build, &masses, &road)?, masses)));
    let Some((numbers, masses)) = worked else {
        unreachable!("asked only where trailer and axles are there")
    };
    let axles: Vec<&str> = build.axles().map(|(id, _)| id).collect();
    let filler = Filler { build, masses: &masses, numbers: &numbers, axles: &axles };
    let states = filler.states();
    let checks = filler.checks();
    let unhitched = toys::unhitched(build, &masses, &numbers);
    let toys = toys::toys(build, &masses, &numbers);
    let coupling = filler.coupling();
    let (placement, no_place) = filler.placement();
    let normal_use = filler.normal_use();
    let mut findings = Findings::default();
    findings::judge(
        &Judged {
            build,
            masses: &masses,
            numbers: &numbers,
            axles: &axles,
            states: &states,
            checks: &checks,
            normal_use: normal_use.as_ref(),
            unhitched: unhitched.as_ref(),
            toys: &toys,
        },
        &mut findings,
    );
    AxleLoadReport {
        states,
        worst: filler.worst(),
        normal_use,
        checks: checks.into_iter().map(|(_, check)| check).collect(),
        placement,
        no_place,
        largest_mass: filler.largest_mass(),
        axle_station: filler.axle_station(),
        coupling,
        unhitched,
        toys,
        findings: findings.in_order(),
        assumptions: assumptions::assumptions(build, &masses, &numbers),
        cautions: CAUTIONS,
        engine: Engine::THIS,
    }
}

/// The value, or none where it is no number.
pub(super) fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}

struct Filler<'a> {
    build: &'a Build,
    masses: &'a Masses<'a>,
    numbers: &'a Numbers,
    axles: &'a [&'a str],
}

impl Filler<'_> {
    fn keyed<T>(&self, each: impl Fn(usize) -> T) -> Keyed<T> {
        self.axles.iter().enumerate().map(|(j, id)| ((*id).to_owned(), each(j))).collect()
    }

    fn states(&self) -> Keyed<StateLoads> {
        let states = self.masses.states.iter().zip(&self.numbers.states);
        states.map(|(state, numbers)| (state.id.to_string(), self.state(state.moving, numbers))).collect()
    }

    fn state(&self, moving: bool, n: &StateNumbers) -> StateLoads {
        let (totals, loads) = (&n.totals, &n.loads);
        let fraction = loads.tongue_kg / totals.mass_kg;
        let [lower, higher, scatter] = n.tongue_band_kg;
        let [fraction_lower, fraction_higher, fraction_scatter] = n.fraction_band;
        StateLoads {
            moving,
            gross_mass_lb: lb(totals.mass_kg),
            center: Center {
                x_in: inches(totals.center_x_m()),
                y_in: inches(totals.center_y_m()),
                z_in: inches(totals.center_z_m()),
            },
            tongue_lb: lb(loads.tongue_kg),
            tongue_fraction: fraction,
            tongue_band: TongueBand {
                min_lb: lb(loads.tongue_kg - lower),
                max_lb: lb(loads.tongue_kg + higher),
                scatter_lb: lb(scatter),
                min_fraction: fraction - fraction_lower,
                max_fraction: fraction + fraction_higher,
                scatter_fraction: fraction_scatter,
            },
            axles: self
                .build
                .axles()
                .enumerate()
                .map(|(j, (id, axle))| (id.to_owned(), axle_state(axle, n, j)))
                .collect(),
            tow_vehicle: self.tow(n),
            with_bars: self.bars(n),
            jack_lb: n.jack_kg.map(lb),
            road: road(n),
            stability: Stability {
                static_stability_factor: finite(n.stability_factor),
                tip_lateral_g: finite(n.tip_g),
                tip_slope_deg: finite(tip_slope_rad(n.tip_g).to_degrees()),
            },
        }
    }

    fn tow(&self, n: &StateNumbers) -> Option<TowState> {
        let (tow, [front, rear]) = (self.numbers.tow.as_ref()?, n.tow_axles_kg?);
        let rating = self.build.tow_vehicle.as_ref().and_then(|vehicle| vehicle.gvwr_lb);
        Some(TowState {
            front_axle_lb: lb(front),
            rear_axle_lb: lb(rear),
            combination_lb: lb(tow.mass_kg() + n.totals.mass_kg),
            front_fraction: front / tow.front_kg,
            payload_left_lb: rating.map(|rating| rating - lb(front + rear)),
        })
    }

    fn bars(&self, n: &StateNumbers) -> Option<BarsState> {
        let (tow, bars) = (self.numbers.tow.as_ref()?, n.bars?);
        let rig = self.numbers.rig.standing(&n.totals);
        let axle = |j: usize| lb(n.loads.axle_kg[j] + bars.trailer_axles_kg * rig.moment_share(j));
        Some(BarsState {
            moment_lb_in: lb_in(tow.bar_moment_m * n.loads.tongue_kg),
            front_axle_lb: lb(tow.front_kg + bars.front_kg),
            rear_axle_lb: lb(tow.rear_kg + bars.rear_kg),
            net_tongue_lb: lb(bars.net_tongue_kg()),
            axles: self.keyed(axle),
        })
    }

    fn worst(&self) -> Worst {
        let worst = &self.numbers.worst;
        let kg = |range: &worst::Range<worst::Extreme>| self.range(range, lb);
        Worst {
            gross_mass_lb: kg(&worst.gross),
            tongue_lb: kg(&worst.tongue),
            tongue_fraction: self.range(&worst.tongue_fraction, |share| share),
            axles: self.keyed(|j| {
                let Range { min, max } = kg(&worst.axle[j]);
                AxleRange { min, max, left: kg(&worst.left[j]), right: kg(&worst.right[j]) }
            }),
            exact: worst.lift != Lift::Bounded,
        }
    }

    fn range(&self, range: &worst::Range<worst::Extreme>, unit: impl Fn(f64) -> f64) -> Range {
        Range { min: self.extreme(&range.min, &unit), max: self.extreme(&range.max, &unit) }
    }

    fn extreme(&self, extreme: &worst::Extreme, unit: &impl Fn(f64) -> f64) -> Extreme {
        let mut fill = vec![0.0; self.masses.tanks.len()];
        let mut aboard = vec![false; self.masses.cargo.len()];
        self.numbers.choices.state(&extreme.witness, &mut fill, &mut aboard);
        let filled = self.build.tanks().zip(fill).filter(|(_, fill)| *fill > 0.0);
        let loaded = self.build.cargo().zip(aboard).filter(|(_, aboard)| *aboard);
        Extreme {
            value: unit(extreme.value),
            fill: filled.map(|((id, _), fill)| (id.to_owned(), fill)).collect(),
            aboard: loaded.map(|((id, _), _)| id.to_owned()).collect(),
        }
    }

    fn normal_use(&self) -> Option<NormalUse> {
        let used = normal_use(self.masses, &self.numbers.choices, &self.numbers.rig)?;
        Some(NormalUse {
            water_lb: lb(used.water_kg),
            gross_mass_max_lb: lb(used.gross_max_kg),
            tongue_min_lb: lb(used.tongue_min_kg),
            tongue_max_lb: lb(used.tongue_max_kg),
            tongue_fraction_min: used.fraction_min,
            tongue_fraction_max: used.fraction_max,
        })
    }

    /// Every limit, nearest to its bound first. Of the two sides of an axle the heavier stands, in the listed states and
    /// in the worst case each by itself.
    fn checks(&self) -> Vec<(LimitName, Check)> {
        let numbers = self.numbers;
        let mut checks: Vec<(LimitName, Check)> = Vec::with_capacity(numbers.limits.len());
        for (limit, check) in numbers.limits.iter().zip(&numbers.checks) {
            let Some(check) = self.check(limit, check) else { continue };
            match checks.iter_mut().find(|(name, _)| *name == limit.name) {
                Some((_, other)) => {
                    let worst_value = other.worst_value.max(check.worst_value);
                    if check.used_fraction > other.used_fraction {
                        *other = check;
                    }
                    other.worst_value = worst_value;
                }
                None => checks.push((limit.name, check)),
            }
        }
        checks.sort_by(|(_, a), (_, b)| b.used_fraction.total_cmp(&a.used_fraction));
        checks
    }

    fn check(&self, limit: &Limit, check: &super::super::numbers::Check) -> Option<Check> {
        let state = &self.masses.states[check.state];
        let numbers = &self.numbers.states[check.state];
        let fraction = numbers.loads.tongue_kg / numbers.totals.mass_kg;
        let worst = &self.numbers.worst.tongue_fraction;
        let (value, bound, used, worst_value, unit) = match limit.name {
            LimitName::AxleLift(_) => return None, // its load is in every state
            LimitName::TongueFractionMin => {
                let bound = LEAST_TONGUE_FRACTION;
                let used = if fraction > 0.0 { bound / fraction } else { f64::MAX };
                (fraction, bound, used, worst.min.value, "1")
            }
            LimitName::TongueFractionMax => {
                let bound = GREATEST_TONGUE_FRACTION;
                (fraction, bound, fraction / bound, worst.max.value, "1")
            }
            _ => {
                let (value, bound) = (lb(check.over_kg + limit.bound_kg), lb(limit.bound_kg));
                (value, bound, value / bound, lb(check.over_any_kg + limit.bound_kg), "lb")
            }
        };
        let status = if check.over_kg > TOUCHING_KG {
            "over"
        } else if used >= NEAR {
            "near"
        } else {
            "ok"
        };
        Some(Check {
            limit: limit.name.word(self.axles),
            subject: limit.name.subject(self.axles),
            value,
            bound,
            unit,
            used_fraction: used,
            state: state.id.to_string(),
            worst_value,
            status,
        })
    }

    fn placement(&self) -> (Keyed<Option<Placement>>, Keyed<Vec<String>>) {
        let mut placement = Keyed::default();
        let mut no_place = Keyed::default();
        let parts = self.build.parts().map(|(id, part)| (id, part.x_in)).zip(&self.numbers.parts);
        let cargo = self.build.cargo().map(|(id, cargo)| (id, cargo.x_in)).zip(&self.numbers.cargo);
        for ((id, x_in), places) in parts.chain(cargo) {
            let bounded = self.on_floor(places.states, x_in);
            let any = self.on_floor(places.any, x_in);
            // An id of a part may be an id of cargo too: the part, which cannot stay at home, goes before.
            if placement.contains_key(id) {
                continue;
            }
            if bounded.is_empty() {
                no_place.insert(id.to_owned(), self.bounds(&bounded));
            }
            let range = self.place_range(&bounded);
            let placed = range.map(|range| Placement {
                min_x_in: range.min_x_in,
                max_x_in: range.max_x_in,
                bound_by: range.bound_by,
                any_fill: self.place_range(&any),
            });
            placement.insert(id.to_owned(), placed);
        }
        (placement, no_place)
    }

    /// What stands on the floor stays on the floor.
    fn on_floor(&self, interval: Interval, x_in: Option<f64>) -> Interval {
        let floor = self.build.trailer.as_ref().and_then(|trailer| trailer.floor.as_ref());
        match (floor, x_in) {
            (Some(floor), Some(x)) if (floor.front_x_in..=floor.rear_x_in).contains(&x) => interval
                .not_ahead_of(m(floor.front_x_in), LimitName::Floor)
                .not_behind(m(floor.rear_x_in), LimitName::Floor),
            _ => interval,
        }
    }

    fn place_range(&self, interval: &Interval) -> Option<PlaceRange> {
        (!interval.is_empty()).then(|| PlaceRange {
            min_x_in: finite(inches(interval.min_x_m)),
            max_x_in: finite(inches(interval.max_x_m)),
            bound_by: self.bounds(interval),
        })
    }

    fn bounds(&self, interval: &Interval) -> Vec<String> {
        [interval.min_by, interval.max_by].into_iter().flatten().map(|name| name.word(self.axles)).collect()
    }

    fn largest_mass(&self) -> Keyed<Option<LargestMass>> {
        let cargo = self.build.cargo().zip(&self.numbers.largest);
        cargo
            .map(|((id, _), masses)| {
                let largest = masses.states.exists().then(|| LargestMass {
                    mass_lb: finite(lb(masses.states.mass_kg)),
                    bound_by: masses.states.by.map(|name| name.word(self.axles)),
                    least_lb: lb(masses.states.least_kg),
                    any_fill_lb: masses.any.exists().then(|| lb(masses.any.mass_kg)).and_then(finite),
                });
                (id.to_owned(), largest)
            })
            .collect()
    }

    fn axle_station(&self) -> AxleStation {
        let station = &self.numbers.station;
        let states = station.min_m <= station.max_m;
        let any = station.any_min_m <= station.any_max_m;
        AxleStation {
            now_in: inches(station.now_m),
            best_in: inches(station.best_m),
            min_in: states.then(|| inches(station.min_m)),
            max_in: states.then(|| inches(station.max_m)),
            any_fill_min_in: any.then(|| inches(station.any_min_m)),
            any_fill_max_in: any.then(|| inches(station.any_max_m)),
        }
    }

    fn coupling(&self) -> Coupling {
        let gvwr_kg = self.build.trailer.as_ref().map_or(f64::NAN, |trailer| kg(trailer.gvwr_lb));
        let class = coupler_class(gvwr_kg);
        let strengths = class.map(|class| coupling_strengths(class, gvwr_kg));
        let least = |wanted: fn(LimitName) -> bool| {
            let limits: Vec<_> = self.numbers.limits.iter().filter(|limit| wanted(limit.name)).collect();
            let bounds: Vec<_> = limits.iter().map(|limit| Some(gross_bound(limit))).collect();
            governing(&bounds).map(|least| (lb(least.limit_kg), limits[least.index].name.word(self.axles)))
        };
        let (gross_limit_lb, gross_limit_by) =
            least(|name| name.is_gross()).unwrap_or((lb(gvwr_kg), String::new()));
        let tongue = least(|name| name.is_tongue());
        Coupling {
            coupler_class: class.map(|class| class as u32 + 1),
            longitudinal_lb: strengths.map(|s| lb(s.longitudinal_kg)),
            transverse_lb: strengths.map(|s| lb(s.transverse_kg)),
            vertical_tension_lb: strengths.map(|s| lb(s.vertical_tension_kg())),
            vertical_compression_lb: strengths.map(|s| lb(s.vertical_compression_kg)),
            chain_lb: lb(chain_strength_kg(self.numbers.worst.gross.max.value, gvwr_kg)),
            gross_limit_lb,
            gross_limit_by,
            tongue_limit_lb: tongue.as_ref().map(|(limit, _)| *limit),
            tongue_limit_by: tongue.map(|(_, name)| name),
        }
    }
}

/// Bound on the gross mass [kg]: a combination's rating less the tow vehicle.
fn gross_bound(limit: &Limit) -> f64 {
    limit.bound_kg - limit.load.constant
}

fn axle_state(axle: &Axle, n: &StateNumbers, j: usize) -> AxleState {
    let (load, sides) = (n.loads.axle_kg[j], &n.loads.sides[j]);
    AxleState {
        load_lb: lb(load),
        left_lb: lb(sides.left_kg),
        right_lb: lb(sides.right_kg),
        gawr_fraction: lb(load) / axle.gawr_lb,
        needed_psi: needed_psi(axle, sides.left_kg.max(sides.right_kg)),
    }
}

/// Cold pressure at which the tires of one side carry a load [psi].
fn needed_psi(axle: &Axle, side_kg: f64) -> Option<f64> {
    let max_kg = kg(axle.tire_max_load_lb?);
    let on_trailer = load_on_trailer_kg(max_kg, axle.tire_type.unwrap_or(TireType::Trailer));
    let rated = TireRating { pressure_pa: axle.tire_max_load_psi? * PA_PER_PSI, load_kg: on_trailer };
    let each_kg = side_kg.max(0.0) / (f64::from(axle.tires.unwrap_or(TIRES)) / 2.0);
    pressure_for_load_pa(rated, each_kg, DEFAULT_LOAD_EXPONENT).map(|pa| pa / PA_PER_PSI)
}

fn road(n: &StateNumbers) -> RoadState {
    RoadState {
        stop_tongue_lb: lb(n.stop.tongue_kg),
        stop_push_lb: lb(n.stop.push_kg),
        emergency_tongue_lb: lb(n.emergency.tongue_kg),
        emergency_push_lb: lb(n.emergency.push_kg),
        uphill_tongue_lb: lb(n.uphill.tongue_kg),
        downhill_tongue_lb: lb(n.downhill.tongue_kg),
        bend_heavy_lb: lb(n.bend.heavy_kg),
        bend_light_lb: lb(n.bend.light_kg),
        sway_damping: n.sway_damping,
        yaw_inertia_slug_ft2: n.yaw_kg_m2 / KG_M2_PER_SLUG_FT2,
    }
}
