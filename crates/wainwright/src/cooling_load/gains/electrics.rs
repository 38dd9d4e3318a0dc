//! What draws power in the box in a supply mode, as heat by the clock and by the air around it.

use crate::build::{Build, Draw, LoadKind, Mode, Part, PartLoad, Schedule, Source, SourceKind};
use crate::drawn_power::demand::{ColdBox, Demand, Followed, Idle, Load};
use crate::drawn_power::inverter::{idle_w, input_per_w};
use crate::drawn_power::refrigerator::Keeps;
use crate::drawn_power::supply::{Supply, supply};
use crate::drawn_power::{CHARGER_EFFICIENCY, running_w, usual_kind};

/// Share of an hour in which something runs that does not say how long: all of it.
const USUAL_SHARE: f64 = 1.0;

/// Heat of one part, or the losses of one source or charger.
#[derive(Debug, Clone, PartialEq)]
pub struct Heats<'b> {
    /// Its id.
    pub id: &'b str,
    /// Its heat.
    pub demand: Demand<'b>,
}

/// What draws power in the box in a supply mode, as heat.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Electrics<'b> {
    /// The mode, where the build has modes.
    pub mode: Option<&'b str>,
    /// Parts that set heat free.
    pub parts: Vec<Heats<'b>>,
    /// What inverters and chargers lose.
    pub losses: Vec<Heats<'b>>,
}

/// What a part takes in.
#[derive(Clone, Copy)]
struct Drawn<'b> {
    id: &'b str,
    draw: &'b Draw,
    /// Power of all of it while it runs [W].
    running_w: f64,
    /// How it keeps cold, where it is a refrigerator, all of it.
    keeps: Option<Keeps>,
    supply: Supply<'b>,
}

/// The mode that is looked at: the first in which an air conditioner is fed, or the first.
pub fn usual_mode(build: &Build) -> Option<&str> {
    let modes = build.electrical.as_ref()?.modes.as_ref()?;
    let cools = |mode: &Mode| {
        let mut coolers = build.draws().filter(|(_, draw)| draw.kind == Some(LoadKind::RoomAirConditioner));
        coolers.any(|(_, draw)| supply(build, Some(mode), &draw.circuit).is_some())
    };
    let chosen = modes.iter().find(|(_, mode)| cools(mode)).or(modes.first())?;
    Some(chosen.0.as_str())
}

impl<'b> Electrics<'b> {
    /// What draws power in a build.
    ///
    /// - `mode`      the supply mode, by its id
    /// - `followed`  id of the part whose course is worked out elsewhere: the air conditioner
    pub fn of(build: &'b Build, mode: Option<&'b str>, followed: Option<&str>) -> Self {
        let modes = build.electrical.as_ref().and_then(|electrical| electrical.modes.as_ref());
        let chosen = mode.and_then(|id| modes?.get(id));
        let nominal_v = build.battery.as_ref().map_or(12.0, |battery| battery.nominal_v);
        let mut all = Self { mode, ..Self::default() };
        let mut fed = Vec::new();
        for (id, part) in build.parts().filter(|(_, part)| part.quantity != Some(0)) {
            let quantity = f64::from(part.quantity.unwrap_or(1));
            let Some(draw) = &part.electrical else {
                let heat_w = quantity * part.heat_w.unwrap_or(0.0);
                all.add_part(id, constant(heat_w));
                continue;
            };
            if draw.thermostat == Some(true) && draw.kind == Some(LoadKind::Resistive) {
                continue;
            }
            let Some(supply) = supply(build, chosen, &draw.circuit) else { continue };
            let (supply_v, alternating) = match supply {
                Supply::Unsaid => (nominal_v, false),
                Supply::Source(_, source) => (source.voltage_v, source.kind.is_ac()),
            };
            let keeps = draw.refrigerator.as_ref().map(|refrigerator| {
                let keeps = Keeps::of(refrigerator);
                Keeps { leak_w_per_k: keeps.leak_w_per_k * quantity, ..keeps }
            });
            let running_w = quantity * running_w(draw, supply_v, alternating);
            let drawn = Drawn { id, draw, running_w, keeps, supply };
            if Some(id) != followed {
                all.add_part(id, drawn.heat(part, quantity));
            }
            fed.push(drawn);
        }
        all.add_inverters(build, chosen, &fed, followed);
        all.add_charger(build, chosen, &fed, followed);
        all
    }

    /// All of it as one.
    pub fn sum(&self) -> Demand<'b> {
        let mut sum = Demand::default();
        for Heats { demand, .. } in self.parts.iter().chain(&self.losses) {
            if let Some(followed) = demand.followed {
                let idle = followed.idle.map(|index| index + sum.idles.len());
                sum.followed = Some(Followed { idle, ..followed });
            }
            sum.loads.extend_from_slice(&demand.loads);
            sum.cold_boxes.extend_from_slice(&demand.cold_boxes);
            sum.idles.extend_from_slice(&demand.idles);
        }
        sum
    }

    fn add_part(&mut self, id: &'b str, demand: Demand<'b>) {
        let loads = demand.loads.iter().map(|load| load.running_w);
        if loads
            .chain(demand.cold_boxes.iter().map(|one| one.running_w * one.per_w))
            .any(|watts| watts != 0.0)
        {
            self.parts.push(Heats { id, demand });
        }
    }

    /// What inverters lose, and what they take for themselves.
    fn add_inverters(
        &mut self,
        build: &'b Build,
        mode: Option<&Mode>,
        fed: &[Drawn<'b>],
        followed: Option<&str>,
    ) {
        for (index, (id, source)) in build.sources().enumerate() {
            let feeds = match mode {
                Some(mode) => mode.feeds.values().any(|name| name == id),
                None => index == 0,
            };
            if source.kind != SourceKind::Inverter || !feeds {
                continue;
            }
            let on_it = |one: &&Drawn| matches!(one.supply, Supply::Source(other, _) if other == index);
            let lost_per_w = |one: &Drawn| input_per_w(source, one.running_w) - 1.0;
            let mut demand = Demand::default();
            for one in fed.iter().filter(on_it) {
                if Some(one.id) == followed {
                    demand.followed = Some(Followed { per_w: lost_per_w(one), idle: Some(0) });
                } else {
                    one.add_to(&mut demand, lost_per_w(one));
                }
            }
            let others = fed.iter().filter(on_it).filter(|one| Some(one.id) != followed);
            demand.idles.push(idle(source, others.map(|one| (one.draw.schedule(), USUAL_SHARE)).collect()));
            self.losses.push(Heats { id, demand });
        }
    }

    /// What the charger loses that carries the loads at the battery while the box is plugged in.
    fn add_charger(
        &mut self,
        build: &'b Build,
        mode: Option<&Mode>,
        fed: &[Drawn<'b>],
        followed: Option<&str>,
    ) {
        let plugged_in = |circuit: &str| match supply(build, mode, circuit) {
            Some(Supply::Source(_, source)) => {
                matches!(source.kind, SourceKind::Shore | SourceKind::Generator)
            }
            _ => false,
        };
        let charger = build.parts().find_map(|(id, part)| {
            let draw =
                part.electrical.as_ref().filter(|draw| plugged_in(&draw.circuit) && part.heat_w.is_none())?;
            Some((id, draw.charger.as_ref()?.efficiency.unwrap_or(CHARGER_EFFICIENCY)))
        });
        let Some((id, efficiency)) = charger else { return };
        let lost_per_w = 1.0 / efficiency - 1.0;
        let mut demand = Demand::default();
        let direct = |one: &&Drawn| matches!(one.supply, Supply::Source(_, source) if source.kind == SourceKind::Battery);
        for one in fed.iter().filter(direct) {
            if Some(one.id) == followed {
                demand.followed = Some(Followed { per_w: lost_per_w, idle: None });
            } else {
                one.add_to(&mut demand, lost_per_w);
            }
        }
        self.losses.push(Heats { id, demand });
    }
}

impl<'b> Drawn<'b> {
    /// The heat that it sets free in the box.
    fn heat(&self, part: &Part, quantity: f64) -> Demand<'b> {
        let mut demand = Demand::default();
        let kind = self.draw.kind.unwrap_or(usual_kind(self.draw));
        let heats = kind != LoadKind::RoomAirConditioner && self.draw.charger.is_none();
        match part.heat_w {
            // Where it draws nothing its share of the time is still that of its schedule.
            Some(heat_w) if self.keeps.is_none() => {
                demand.loads.push(self.load(quantity * heat_w));
            }
            Some(heat_w) if self.running_w > 0.0 => {
                self.add_to(&mut demand, quantity * heat_w / self.running_w);
            }
            None if heats => self.add_to(&mut demand, 1.0),
            _ => {}
        }
        demand
    }

    /// Adds it, so much for each watt that it takes in.
    fn add_to(&self, demand: &mut Demand<'b>, per_w: f64) {
        match self.keeps {
            Some(keeps) => demand.cold_boxes.push(ColdBox {
                leak_w_per_k: keeps.leak_w_per_k,
                inside_c: keeps.inside_c,
                running_w: self.running_w,
                per_w,
                schedule: self.draw.schedule(),
            }),
            None => demand.loads.push(self.load(self.running_w * per_w)),
        }
    }

    fn load(&self, running_w: f64) -> Load<'b> {
        Load { running_w, schedule: self.draw.schedule(), usual_share: USUAL_SHARE }
    }
}

/// Heat that is there day and night.
fn constant<'b>(heat_w: f64) -> Demand<'b> {
    let load = Load { running_w: heat_w, schedule: Schedule::ALWAYS, usual_share: USUAL_SHARE };
    Demand { loads: vec![load], ..Demand::default() }
}

/// What an inverter takes for itself.
///
/// - `loads`  what runs on it by the clock
fn idle<'b>(source: &Source, loads: Vec<(Schedule<'b>, f64)>) -> Idle<'b> {
    Idle {
        idle_w: idle_w(source),
        off_when_unused: source.off_when_unused.unwrap_or(false),
        // The curve has the inverter's own draw in it while something runs.
        only_when_unused: source.part_load == Some(PartLoad::Curve),
        loads,
    }
}
