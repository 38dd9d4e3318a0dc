//! Circuits, energy budget and cooling load of one build, each with the numbers of the others.
//!
//! The cooling load gives the air conditioner's hours and the air in the box; circuits and battery take them; refrigerators,
//! inverters and chargers give their heat back to the box. The first two are asked in rounds, see [`rounds`](super::rounds).

use crate::air::pressure::SEA_LEVEL_PA;
use crate::build::{Build, HeaterKind, LoadKind, Mode};
use crate::circuit_load::wiring::{Hours, Wiring};
use crate::circuit_load::{self, CircuitLoad, CircuitLoadReport};
use crate::cooling_load::cooler::{Cooler, its_part};
use crate::cooling_load::gains::Indoors;
use crate::cooling_load::gains::electrics::Electrics;
use crate::cooling_load::heater::Heater;
use crate::cooling_load::numbers::numbers as cooling_numbers;
use crate::cooling_load::season::Comfort;
use crate::cooling_load::setup::Setup as CoolingSetup;
use crate::cooling_load::{self, CoolingLoad, CoolingLoadReport};
use crate::document::{Faults, Refusal};
use crate::drawn_power::refrigerator::{Keeps, usual_mean_w};
use crate::drawn_power::running_w;
use crate::drawn_power::supply::supply;
use crate::energy_budget::consumers::mode_of;
use crate::energy_budget::setup::{Handed, Setup as EnergySetup};
use crate::energy_budget::{self, EnergyBudget, EnergyBudgetReport};
use crate::question::{Question, ask};
use crate::site_weather::SiteWeather;

use super::rounds::{Rounds, Walk, cooler_hours, indoors, live_hot_day, live_weather};

/// What the three questions answer.
pub struct Coupled<'b> {
    /// Circuits.
    pub circuit_load: Result<CircuitLoadReport, Refusal>,
    /// Battery and sun.
    pub energy_budget: Result<EnergyBudgetReport, Refusal>,
    /// Heat.
    pub cooling_load: Result<CoolingLoadReport, Refusal>,
    /// What was handed over; none where there is no cooling load, and each was asked by itself.
    pub handed_over: Option<HandedOver<'b>>,
}

/// What was handed over between the questions.
pub struct HandedOver<'b> {
    /// Rounds of the hot day.
    pub hot_day: Rounds,
    /// Rounds through the weather, the more of those in the mode of the cooling load and in that of the energy budget.
    pub weather: Rounds,
    /// The part that is the air conditioner.
    pub cooler: Option<&'b str>,
    /// How it is in the box on the hot day.
    pub indoors: Indoors,
    /// Heat of everything that draws power on the hot day [Wh].
    pub equipment_wh: f64,
    /// The box as the battery knows it.
    pub box_air: Option<BoxAir<'b>>,
}

/// The box through the weather, in the mode in which the battery feeds it.
pub struct BoxAir<'b> {
    /// The mode, where the build has modes.
    pub mode: Option<&'b str>,
    /// Does the air conditioner run in it?
    pub is_cooled: bool,
    /// Does the heater?
    pub is_heated: bool,
    /// The coldest that its air gets [°C].
    pub coldest_c: f64,
    /// On the mean [°C].
    pub mean_c: f64,
    /// The warmest [°C].
    pub warmest_c: f64,
    /// What the air conditioner takes on a mean day [Wh], without what its inverter loses.
    pub cooler_wh_per_day: Option<f64>,
}

/// Asks circuits, energy budget and cooling load.
pub fn coupled(build: &Build) -> Coupled<'_> {
    let ready = if refusal::<CoolingLoad>(build).is_none() { made_ready(build) } else { None };
    let Some((mut setup, cooler)) = ready else {
        return Coupled {
            circuit_load: ask::<CircuitLoad>(build),
            energy_budget: ask::<EnergyBudget>(build),
            cooling_load: ask::<CoolingLoad>(build),
            handed_over: None,
        };
    };
    let hot_day = live_hot_day(build, &mut setup);
    let mut course = setup.weather_course();
    let walk = live_weather(&setup, &mut course, &setup.electrics, &setup.comfort());
    let mut handed_over = HandedOver {
        hot_day,
        weather: walk.rounds,
        cooler,
        indoors: Indoors::even(setup.around.cool_c),
        equipment_wh: (0..24).map(|hour| setup.around.gains.equipment_w(hour)).sum(),
        box_air: None,
    };
    let energy_budget = match refusal::<EnergyBudget>(build) {
        Some(refusal) => Err(refusal),
        None => {
            let (mode, is_on) =
                (mode_of(build), cooler_in(build, mode_of(build), cooler, setup.electrics.mode));
            let comfort = comfort_in(build, &setup, mode, is_on);
            let other;
            let walk = if mode == setup.electrics.mode && comfort == setup.comfort() {
                &walk
            } else {
                let electrics = Electrics::of(build, mode, cooler);
                other = live_weather(&setup, &mut course, &electrics, &comfort);
                &other
            };
            if walk.rounds.count > handed_over.weather.count || !walk.rounds.settled() {
                handed_over.weather = walk.rounds;
            }
            handed_over.box_air = Some(box_air(&setup, mode, &comfort, walk, cooler));
            let cooler = cooler.filter(|_| is_on).map(|id| (id, walk.course()));
            let handed = Handed { box_c: &walk.air_c, cooler };
            let ready = EnergySetup::with(build, setup.site.clone(), Some(&handed));
            ready.map_or_else(
                || ask::<EnergyBudget>(build),
                |ready| Ok(energy_budget::report_of(build, &ready)),
            )
        }
    };
    let numbers = cooling_numbers(build, &setup, walk.walked);
    handed_over.indoors = indoors(numbers.cooled.as_ref().unwrap_or(&numbers.free));
    Coupled {
        circuit_load: refusal::<CircuitLoad>(build)
            .map_or_else(|| Ok(circuits(build, cooler, &handed_over.indoors)), Err),
        energy_budget,
        cooling_load: Ok(cooling_load::report_of(build, &setup, &numbers)),
        handed_over: Some(handed_over),
    }
}

/// What a question cannot do without and the build does not have.
fn refusal<Q: Question>(build: &Build) -> Option<Refusal> {
    let mut faults = Faults::default();
    Q::missing(build, &mut faults);
    faults.into_result().err()
}

/// The build made ready for its cooling load, and the part that is its air conditioner.
fn made_ready(build: &Build) -> Option<(CoolingSetup<'_>, Option<&str>)> {
    let cooling = build.climate.as_ref().and_then(|climate| climate.cooling.as_ref());
    // One that no coil can be does not run in the cooling load: circuits and battery keep to what its part says.
    let can_be = cooling.filter(|cooling| Cooler::of(cooling, SEA_LEVEL_PA).is_some());
    let cooler = can_be.and_then(|cooling| Some(its_part(build, cooling)?.0));
    Some((CoolingSetup::with(build, SiteWeather::of(build)?, cooler)?, cooler))
}

/// Circuits with the hours of the air conditioner.
fn circuits(build: &Build, cooler: Option<&str>, indoors: &Indoors) -> CircuitLoadReport {
    let Some(mut wiring) = Wiring::of(build) else {
        unreachable!("asked only where sources and circuits are there")
    };
    if let Some(cooler) = cooler {
        let (run_fraction, running_w) = cooler_hours(indoors);
        wiring.follow(cooler, Hours { run_fraction, running_w: Some(running_w) });
    }
    for (id, hours) in refrigerators(build, indoors) {
        wiring.follow(id, hours);
    }
    circuit_load::report_of(build, &wiring)
}

/// The hours of refrigerators on the hot day, by the air in the box.
fn refrigerators<'b>(build: &'b Build, indoors: &Indoors) -> impl Iterator<Item = (&'b str, Hours)> {
    let nominal_v = build.battery.as_ref().map_or(12.0, |battery| battery.nominal_v);
    build.draws().filter_map(move |(id, draw)| {
        let Keeps { leak_w_per_k, inside_c } = Keeps::of(draw.refrigerator.as_ref()?);
        let running_w = running_w(draw, nominal_v, false);
        let share = |air_c: f64| (usual_mean_w(leak_w_per_k, inside_c, air_c) / running_w).min(1.0);
        let run_fraction = indoors.air_c.map(share);
        (running_w > 0.0).then_some((id, Hours { run_fraction, running_w: None }))
    })
}

fn mode_named<'b>(build: &'b Build, id: Option<&str>) -> Option<&'b Mode> {
    build.electrical.as_ref()?.modes.as_ref()?.get(id?)
}

/// Does the air conditioner run in a mode?
///
/// - `cooler`     its part
/// - `cooled_in`  the mode of the cooling load, in which it runs where it is no part
fn cooler_in(build: &Build, mode: Option<&str>, cooler: Option<&str>, cooled_in: Option<&str>) -> bool {
    match cooler.and_then(|id| build.draws().find(|(other, _)| *other == id)) {
        Some((_, draw)) => supply(build, mode_named(build, mode), &draw.circuit).is_some(),
        None => mode == cooled_in,
    }
}

/// What cools and heats the box in a mode: what needs power only where it is fed.
///
/// - `is_cooled`  does the air conditioner run in it?
fn comfort_in<'s>(
    build: &Build,
    setup: &'s CoolingSetup,
    mode: Option<&str>,
    is_cooled: bool,
) -> Comfort<'s> {
    let heating = build.climate.as_ref().and_then(|climate| climate.heating.as_ref());
    let by_power = match heating.and_then(|heating| heating.kind) {
        Some(HeaterKind::Electric) => Some(LoadKind::Resistive),
        Some(HeaterKind::HeatPump) => Some(LoadKind::RoomAirConditioner),
        _ => None,
    };
    let is_it = |kind: LoadKind| {
        build.draws().filter(move |(_, draw)| {
            draw.kind == Some(kind) && (kind != LoadKind::Resistive || draw.thermostat == Some(true))
        })
    };
    let mode = mode_named(build, mode);
    // A heater that is no part of the build is taken to be fed.
    let is_fed = by_power.is_none_or(|kind| {
        is_it(kind).next().is_none()
            || is_it(kind).any(|(_, draw)| supply(build, mode, &draw.circuit).is_some())
    });
    let comfort = setup.comfort();
    Comfort {
        cooler: comfort.cooler.filter(|_| is_cooled),
        heater: if is_fed { comfort.heater } else { Heater::NONE },
        ..comfort
    }
}

/// The box as the battery knows it.
fn box_air<'b>(
    setup: &CoolingSetup,
    mode: Option<&'b str>,
    comfort: &Comfort,
    walk: &Walk,
    cooler: Option<&str>,
) -> BoxAir<'b> {
    let count = walk.air_c.len().max(1) as f64;
    let days = count * setup.site.weather.clock.step_h() / 24.0;
    let taken_wh = || walk.cooler_w.iter().sum::<f64>() * setup.site.weather.clock.step_h();
    BoxAir {
        mode,
        is_cooled: comfort.cooler.is_some(),
        is_heated: comfort.heater.rated_w > 0.0,
        coldest_c: walk.air_c.iter().copied().fold(f64::INFINITY, f64::min),
        mean_c: walk.air_c.iter().sum::<f64>() / count,
        warmest_c: walk.air_c.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        cooler_wh_per_day: cooler.and(comfort.cooler).map(|_| taken_wh() / days),
    }
}
