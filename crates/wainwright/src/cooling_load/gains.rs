//! Heat that is set free in the box through a day: by people, by what draws power, by a flame.

use crate::build::{Build, LoadKind, Mode, Occupancy, Part, SourceKind};
use crate::drawn_power::inverter::{idle_w, input_per_w};
use crate::drawn_power::refrigerator::{Keeps, usual_mean_w};
use crate::drawn_power::supply::{Supply, supply};
use crate::drawn_power::{CHARGER_EFFICIENCY, running_w, usual_kind};
use crate::standards::occupant::Activity;
use crate::units::J_PER_BTU;

use super::air_exchange::moisture::EVAPORATION_J_KG;
use super::equipment::propane;
use super::people::{Person, person_w};

/// Hours of a day.
pub const HOURS: usize = 24;
/// The hour at which people go to sleep where nothing is said.
pub const USUAL_ASLEEP_FROM: u32 = 22;
/// The hour at which they get up where nothing is said.
pub const USUAL_ASLEEP_TO: u32 = 6;
/// Share of an hour in which something runs that does not say how long: all of it.
const USUAL_SHARE: f64 = 1.0;

/// Heat of each hour of a day [W].
pub type ByHour = [f64; HOURS];

/// Heat that a part sets free in the box.
#[derive(Debug, Clone, PartialEq)]
pub struct PartHeat<'b> {
    /// Its id, or that of the source whose losses they are.
    pub id: &'b str,
    /// Its heat in each hour of the day.
    pub heat_w: ByHour,
}

/// Heat and water that are set free in the box through a day.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Gains<'b> {
    /// The supply mode that was looked at, where the build has modes.
    pub mode: Option<&'b str>,
    /// Parts that set heat free.
    pub parts: Vec<PartHeat<'b>>,
    /// What inverters and chargers lose.
    pub losses: Vec<PartHeat<'b>>,
    /// People, what warms the air.
    pub people_w: ByHour,
    /// People, what they breathe and sweat out.
    pub people_latent_w: ByHour,
    /// A flame, what warms the air.
    pub cooking_w: ByHour,
    /// A flame, its water.
    pub cooking_latent_w: ByHour,
}

impl Gains<'_> {
    /// Heat of parts and losses in an hour [W].
    pub fn equipment_w(&self, hour: usize) -> f64 {
        self.parts.iter().chain(&self.losses).map(|one| one.heat_w[hour]).sum()
    }

    /// All that warms the air in an hour [W].
    pub fn sensible_w(&self, hour: usize) -> f64 {
        self.people_w[hour] + self.cooking_w[hour] + self.equipment_w(hour)
    }

    /// All that comes as water in an hour [W].
    pub fn latent_w(&self, hour: usize) -> f64 {
        self.people_latent_w[hour] + self.cooking_latent_w[hour]
    }
}

/// The mode that is looked at: the first in which an air conditioner is fed, or the first.
fn mode(build: &Build) -> Option<(&str, &Mode)> {
    let modes = build.electrical.as_ref()?.modes.as_ref()?;
    let cools = |mode: &Mode| {
        let mut coolers = build.draws().filter(|(_, draw)| draw.kind == Some(LoadKind::RoomAirConditioner));
        coolers.any(|(_, draw)| supply(build, Some(mode), &draw.circuit).is_some())
    };
    let chosen = modes.iter().find(|(_, mode)| cools(mode)).or(modes.first())?;
    Some((chosen.0.as_str(), chosen.1))
}

/// Heat and water that are set free in the box through a day.
///
/// - `build`   the build
/// - `month`   the month that the day is in, 1 to 12
/// - `room_c`  temperature of the room [°C]: a refrigerator in it works against that, and people sweat by it
pub fn gains(build: &Build, month: u8, room_c: f64) -> Gains<'_> {
    let chosen = mode(build);
    let mut all = Gains { mode: chosen.map(|(id, _)| id), ..Gains::default() };
    if let Some(occupancy) = &build.occupancy {
        of_people(occupancy, room_c, &mut all);
        of_cooking(occupancy, &mut all);
    }
    of_parts(build, chosen.map(|(_, mode)| mode), month, room_c, &mut all);
    all
}

/// Is an hour within a span that may run over midnight?
fn within(hour: usize, from: u32, to: u32) -> bool {
    let (hour, from, to) = (hour as u32, from, to);
    if from <= to { (from..to).contains(&hour) } else { hour >= from || hour < to }
}

fn of_people(occupancy: &Occupancy, room_c: f64, all: &mut Gains) {
    let people = f64::from(occupancy.people);
    let asleep_from = occupancy.asleep_from.unwrap_or(USUAL_ASLEEP_FROM);
    let asleep_to = occupancy.asleep_to.unwrap_or(USUAL_ASLEEP_TO);
    for hour in 0..HOURS {
        let away = match (occupancy.away_from, occupancy.away_to) {
            (Some(from), Some(to)) => within(hour, from, to),
            _ => false,
        };
        if away {
            continue;
        }
        let asleep = within(hour, asleep_from, asleep_to);
        let activity =
            if asleep { Activity::Asleep } else { occupancy.activity.unwrap_or(Activity::LightWork) };
        let heat = person_w(activity, Person::Anyone, room_c);
        all.people_w[hour] = people * heat.sensible_w;
        all.people_latent_w[hour] = people * heat.latent_w;
    }
}

/// A flame burns propane: what its water carries does not warm the air.
fn of_cooking(occupancy: &Occupancy, all: &mut Gains) {
    let Some(cooking) = &occupancy.cooking else { return };
    let heat_w = cooking.btu_per_meal * J_PER_BTU / 3600.0;
    let latent_w = propane::water_kg_s(heat_w) * EVAPORATION_J_KG;
    for &hour in &cooking.hours {
        // Below 24: its bound says so.
        let hour = hour as usize % HOURS;
        all.cooking_w[hour] += heat_w - latent_w;
        all.cooking_latent_w[hour] += latent_w;
    }
}

fn of_parts<'b>(build: &'b Build, mode: Option<&Mode>, month: u8, room_c: f64, all: &mut Gains<'b>) {
    let nominal_v = build.battery.as_ref().map_or(12.0, |battery| battery.nominal_v);
    let mut through_inverters: Vec<(usize, ByHour)> = Vec::new();
    let mut direct_w = [0.0; HOURS];
    for (id, part) in build.parts() {
        let heater = part
            .electrical
            .as_ref()
            .is_some_and(|draw| draw.thermostat == Some(true) && draw.kind == Some(LoadKind::Resistive));
        if part.quantity == Some(0) || heater {
            continue;
        }
        let Some(drawn) = drawn(build, part, mode, month, room_c, nominal_v) else { continue };
        let quantity = f64::from(part.quantity.unwrap_or(1));
        let heat_w = match part.heat_w {
            Some(heat_w) => drawn.share.map(|share| quantity * heat_w * share),
            None if drawn.heats => drawn.power_w,
            None => [0.0; HOURS],
        };
        match drawn.supply {
            Some(Supply::Source(index, source)) if source.kind == SourceKind::Inverter => {
                match through_inverters.iter_mut().find(|(other, _)| *other == index) {
                    Some((_, sum_w)) => add(sum_w, &drawn.power_w),
                    None => through_inverters.push((index, drawn.power_w)),
                }
            }
            Some(Supply::Source(_, source)) if source.kind == SourceKind::Battery => {
                add(&mut direct_w, &drawn.power_w);
            }
            _ => {}
        }
        if heat_w.iter().any(|watts| *watts != 0.0) {
            all.parts.push(PartHeat { id, heat_w });
        }
    }
    of_inverters(build, mode, &through_inverters, all);
    of_charger(build, mode, &direct_w, all);
}

fn add(sum: &mut ByHour, more: &ByHour) {
    for (sum, more) in sum.iter_mut().zip(more) {
        *sum += more;
    }
}

/// What a part takes in through a day.
struct Drawn<'b> {
    /// Power of each hour, of all of it.
    power_w: ByHour,
    /// Share of each hour in which it runs.
    share: ByHour,
    /// Does what it takes in become heat in the box?
    heats: bool,
    supply: Option<Supply<'b>>,
}

/// What a part takes in; none where nothing feeds it in the mode or it is off that month.
fn drawn<'b>(
    build: &'b Build,
    part: &Part,
    mode: Option<&Mode>,
    month: u8,
    room_c: f64,
    nominal_v: f64,
) -> Option<Drawn<'b>> {
    let Some(draw) = &part.electrical else {
        let share = [1.0; HOURS];
        return part.heat_w.map(|_| Drawn { power_w: [0.0; HOURS], share, heats: false, supply: None });
    };
    let in_month = draw.months.as_ref().is_none_or(|months| months.contains(&u32::from(month)));
    let supply = supply(build, mode, &draw.circuit)?;
    if !in_month {
        return None;
    }
    let quantity = f64::from(part.quantity.unwrap_or(1));
    let (supply_v, alternating) = match supply {
        Supply::Unsaid => (nominal_v, false),
        Supply::Source(_, source) => (source.voltage_v, source.kind.is_ac()),
    };
    let running_w = quantity * running_w(draw, supply_v, alternating);
    let schedule = draw.schedule();
    let mut share: ByHour = std::array::from_fn(|hour| schedule.share(hour, USUAL_SHARE));
    if let Some(refrigerator) = &draw.refrigerator {
        let Keeps { leak_w_per_k, inside_c } = Keeps::of(refrigerator);
        let mean_w = usual_mean_w(leak_w_per_k * quantity, inside_c, room_c).min(running_w);
        share = [if running_w > 0.0 { mean_w / running_w } else { 0.0 }; HOURS];
    }
    let kind = draw.kind.unwrap_or(usual_kind(draw));
    let heats = kind != LoadKind::RoomAirConditioner && draw.charger.is_none();
    Some(Drawn { power_w: share.map(|share| share * running_w), share, heats, supply: Some(supply) })
}

/// What inverters lose, and what they take for themselves.
fn of_inverters<'b>(build: &'b Build, mode: Option<&Mode>, through: &[(usize, ByHour)], all: &mut Gains<'b>) {
    for (index, (id, source)) in build.sources().enumerate() {
        let feeds = match mode {
            Some(mode) => mode.feeds.values().any(|name| name == id),
            None => index == 0,
        };
        if source.kind != SourceKind::Inverter || !feeds {
            continue;
        }
        let output_w =
            through.iter().find(|(other, _)| *other == index).map_or([0.0; HOURS], |(_, watts)| *watts);
        let own_w = idle_w(source);
        let heat_w = output_w.map(|watts| {
            let off = watts == 0.0 && source.off_when_unused == Some(true);
            watts * (input_per_w(source, watts) - 1.0) + if off { 0.0 } else { own_w }
        });
        all.losses.push(PartHeat { id, heat_w });
    }
}

/// What the charger loses that carries the loads at the battery while the box is plugged in.
fn of_charger<'b>(build: &'b Build, mode: Option<&Mode>, direct_w: &ByHour, all: &mut Gains<'b>) {
    let fed = |circuit: &str| match supply(build, mode, circuit) {
        Some(Supply::Source(_, source)) => matches!(source.kind, SourceKind::Shore | SourceKind::Generator),
        _ => false,
    };
    let charger = build.parts().find_map(|(id, part)| {
        let draw = part.electrical.as_ref().filter(|draw| fed(&draw.circuit) && part.heat_w.is_none())?;
        Some((id, draw.charger.as_ref()?.efficiency.unwrap_or(CHARGER_EFFICIENCY)))
    });
    if let Some((id, efficiency)) = charger {
        all.losses.push(PartHeat { id, heat_w: direct_w.map(|watts| watts * (1.0 / efficiency - 1.0)) });
    }
}

#[cfg(test)]
mod tests;
