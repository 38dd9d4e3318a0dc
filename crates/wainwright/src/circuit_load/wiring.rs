//! The electrical side of a build with names turned into positions and defaults filled in.

use crate::build::{Build, Circuit, Draw, Electrical, Leg, LoadKind, Mode, Source, SourceKind, Wire, blocks};
use crate::document::Keyed;
use crate::drawn_power::usual_kind;
use crate::standards::ampacity::Material;
use crate::standards::size::{Areas, Size};
use crate::units::{celsius, m_from_ft};

use super::defaults;
use super::fault::resistance_from_cold_cranking_ohm;

/// Position of a load, circuit or source in its list.
pub type Index = usize;

/// Sources, circuits, loads and modes.
#[derive(Debug)]
pub struct Wiring<'b> {
    /// Whatever draws power.
    pub loads: Vec<Load<'b>>,
    /// The circuits.
    pub circuits: Vec<Line<'b>>,
    /// The sources.
    pub sources: Vec<Supply<'b>>,
    /// The supply modes.
    pub modes: Vec<Switching<'b>>,
    /// The battery behind every battery source.
    pub battery: Option<Bank>,
    /// Does energy management hold the supply within its rating?
    pub energy_management: bool,
    /// Are neutral and ground joined in the trailer's panel?
    pub neutral_bonded: bool,
}

/// The hours of a day of a part whose course is worked out elsewhere: the air conditioner's, by the heat of the box.
#[derive(Debug, Clone, PartialEq)]
pub struct Hours {
    /// Share of each hour in which it runs.
    pub run_fraction: [f64; 24],
    /// What it takes in while it runs [W], of any value in hours in which it does not; none where it is what the build says.
    pub running_w: Option<[f64; 24]>,
}

/// One thing that draws power.
#[derive(Debug)]
pub struct Load<'b> {
    /// Its id among the parts.
    pub id: &'b str,
    /// The circuit it is on.
    pub circuit: Index,
    /// How many of it there are.
    pub quantity: f64,
    /// What the build says of it.
    pub draw: &'b Draw,
    /// What it is.
    pub kind: LoadKind,
    /// Does it run for three hours and more?
    pub continuous: bool,
    /// Is it fastened in place?
    pub fixed: bool,
    /// The battery it charges.
    pub charges: Option<Index>,
    /// Voltage that a charger which does not say gives for that battery [V].
    pub charger_v: f64,
    /// Its hours, where they were handed over.
    pub hours: Option<Hours>,
}

/// One circuit.
#[derive(Debug)]
pub struct Line<'b> {
    /// Its id.
    pub id: &'b str,
    /// What the build says of it.
    pub circuit: &'b Circuit,
    /// Its wire.
    pub wire: Option<Conductors>,
    /// The circuit it branches off.
    pub feeder: Option<Index>,
    /// The circuit it shares a neutral with.
    pub shares_neutral_with: Option<Index>,
    /// The sources that it feeds: inverters.
    pub feeds: Vec<Index>,
    /// The loads on it.
    pub loads: Vec<Index>,
    /// The circuits that branch off it.
    pub branches: Vec<Index>,
}

impl Line<'_> {
    /// Outlets it has: several where their rating is given and their number is not.
    pub fn outlets(&self) -> u32 {
        self.circuit.receptacle_a.map_or(0, |_| self.circuit.receptacles.unwrap_or(defaults::RECEPTACLES))
    }
}

/// The conductors of a circuit, out and back.
#[derive(Debug, Clone, Copy)]
pub struct Conductors {
    /// Size, where it is given.
    pub size: Option<Size>,
    /// One-way length [m].
    pub run_m: f64,
    /// Rating of the insulation [°C], where it is given.
    pub insulation_c: Option<f64>,
    /// Temperature of the air around it [°C].
    pub ambient_c: f64,
    /// Conductors that carry current in the bundle.
    pub bundled: u32,
    /// What it is made of.
    pub material: Material,
    /// Rating of the terminals [°C], where it is given.
    pub terminal_c: Option<f64>,
    /// The areas its sizes go by.
    pub areas: Areas,
    /// Is it a flexible cord?
    pub cord: bool,
    /// Is it sheathed or in conduit?
    pub sheathed: bool,
    /// Does it pass beside an engine?
    pub engine_space: bool,
    /// Does it run close above a sunlit roof?
    pub sunlit_roof: bool,
    /// Does the current return through the chassis?
    pub chassis_return: bool,
    /// No smaller size is wanted.
    pub minimum: Size,
}

impl From<&Wire> for Conductors {
    fn from(wire: &Wire) -> Self {
        Self {
            size: wire.awg,
            run_m: m_from_ft(wire.run_ft),
            insulation_c: wire.insulation_c,
            ambient_c: wire.ambient_f.map_or(defaults::AMBIENT_C, celsius),
            bundled: wire.bundled.unwrap_or(defaults::BUNDLED),
            material: wire.material.unwrap_or(Material::Copper),
            terminal_c: wire.terminal_c,
            areas: wire.areas.unwrap_or(Areas::Nominal),
            cord: wire.cord.unwrap_or(false),
            sheathed: wire.sheathed.unwrap_or(false),
            engine_space: wire.engine_space.unwrap_or(false),
            sunlit_roof: wire.sunlit_roof.unwrap_or(false),
            chassis_return: wire.chassis_return.unwrap_or(false),
            minimum: wire.minimum_awg.unwrap_or(Size::ALL[0]),
        }
    }
}

/// One source.
#[derive(Debug)]
pub struct Supply<'b> {
    /// Its id.
    pub id: &'b str,
    /// What the build says of it.
    pub source: &'b Source,
    /// The circuit it takes its power from.
    pub circuit: Option<Index>,
    /// The battery it takes its power from where no circuit is named.
    pub battery: Option<Index>,
    /// Hot legs in opposite phase.
    pub split: bool,
    /// Both legs in phase, or both on one hot leg.
    pub in_phase: bool,
    /// Are neutral and ground joined at it?
    pub bonded: bool,
    /// Voltage at which an inverter shuts off [V].
    pub cutoff_v: f64,
    /// The cord or cable to the panel.
    pub lead: Option<Conductors>,
}

impl Supply<'_> {
    /// Does it give alternating current?
    pub fn is_ac(&self) -> bool {
        self.source.kind.is_ac()
    }
}

/// One supply mode.
#[derive(Debug)]
pub struct Switching<'b> {
    /// Its id; that of the only source where the build lists no modes.
    pub id: &'b str,
    /// The source of each circuit.
    pub feeds: Vec<Option<Index>>,
    /// What each source can give where that is less than its rating [A].
    pub limits_a: Vec<Option<f64>>,
}

/// The battery.
#[derive(Debug, Clone, Copy)]
pub struct Bank {
    /// Voltage at rest and full [V].
    pub open_v: f64,
    /// Resistance between its terminals [Ω].
    pub ohm: f64,
    /// Greatest charging voltage [V].
    pub charge_v: f64,
    /// Current of a short circuit at its terminals [A].
    pub fault_a: f64,
    /// Greatest current it may give [A].
    pub most_a: Option<f64>,
}

fn index<T>(map: Option<&Keyed<T>>, id: Option<&String>) -> Option<Index> {
    map?.get_index_of(id?)
}

/// The electrical sections of a build that has sources and circuits.
impl<'b> Wiring<'b> {
    /// Compiles them; `None` where sources or circuits are missing.
    pub fn of(build: &'b Build) -> Option<Self> {
        let electrical = build.electrical.as_ref()?;
        let (sources, circuits) = (electrical.sources.as_ref()?, electrical.circuits.as_ref()?);
        let mut wiring = Self {
            loads: loads(build, electrical),
            circuits: circuits.iter().map(|(id, circuit)| line(id, circuit, circuits)).collect(),
            sources: sources.iter().map(|(id, source)| supply(id, source, build, electrical)).collect(),
            modes: Vec::new(),
            battery: build.battery.as_ref().map(bank),
            energy_management: electrical.energy_management.unwrap_or(false),
            neutral_bonded: electrical.neutral_bonded.unwrap_or(false),
        };
        for i in 0..wiring.loads.len() {
            let circuit = wiring.loads[i].circuit;
            wiring.circuits[circuit].loads.push(i);
        }
        for i in 0..wiring.circuits.len() {
            if let Some(feeder) = wiring.circuits[i].feeder {
                wiring.circuits[feeder].branches.push(i);
            }
        }
        for i in 0..wiring.sources.len() {
            if let Some(circuit) = wiring.sources[i].circuit {
                wiring.circuits[circuit].feeds.push(i);
            }
        }
        wiring.modes = match &electrical.modes {
            Some(modes) => modes.iter().map(|(id, mode)| wiring.switching(id, mode, electrical)).collect(),
            None => vec![Switching {
                id: wiring.sources.first()?.id,
                feeds: vec![Some(0); wiring.circuits.len()],
                limits_a: vec![None; wiring.sources.len()],
            }],
        };
        Some(wiring)
    }

    /// Hands over the hours of a part.
    ///
    /// - `part`  its id; nothing happens where it draws nothing
    pub fn follow(&mut self, part: &str, hours: Hours) {
        if let Some(load) = self.loads.iter_mut().find(|load| load.id == part) {
            load.hours = Some(hours);
        }
    }

    /// The leg a circuit is on: its own, or where it names none the one leg of its feeder.
    pub fn leg(&self, circuit: Index) -> Option<Leg> {
        let line = &self.circuits[circuit];
        let of_feeder = || self.circuits[line.feeder?].circuit.leg.filter(|leg| *leg != Leg::Both);
        line.circuit.leg.or_else(of_feeder)
    }

    fn switching(&self, id: &'b str, mode: &Mode, electrical: &Electrical) -> Switching<'b> {
        let own =
            |circuit: Index| index(electrical.sources.as_ref(), mode.feeds.get(self.circuits[circuit].id));
        let feeds =
            (0..self.circuits.len()).map(|i| own(i).or_else(|| own(self.circuits[i].feeder?))).collect();
        let limit = |supply: &Supply| mode.limits_a.as_ref()?.get(supply.id).copied();
        Switching { id, feeds, limits_a: self.sources.iter().map(limit).collect() }
    }
}

fn loads<'b>(build: &'b Build, electrical: &'b Electrical) -> Vec<Load<'b>> {
    let only_battery = only_battery(electrical);
    let mut loads = Vec::new();
    for (id, part) in build.parts() {
        // Of a part of which there is none nothing is drawn.
        let Some(draw) = part.electrical.as_ref().filter(|_| part.quantity != Some(0)) else { continue };
        let Some(circuit) = index(electrical.circuits.as_ref(), Some(&draw.circuit)) else { continue };
        let kind = draw.kind.unwrap_or(usual_kind(draw));
        let has_outlets = electrical.circuits.as_ref().is_some_and(|c| c[circuit].receptacle_a.is_some());
        let charged = |charger: &crate::build::Charger| match &charger.source {
            Some(source) => index(electrical.sources.as_ref(), Some(source)),
            None => only_battery,
        };
        let charges = draw.charger.as_ref().and_then(charged);
        let battery = |index: Index| electrical.sources.as_ref().map(|sources| sources[index].voltage_v);
        let charged_v = charges.and_then(battery).unwrap_or(battery_v(electrical));
        loads.push(Load {
            id,
            circuit,
            quantity: f64::from(part.quantity.unwrap_or(1)),
            draw,
            kind,
            continuous: draw.continuous.unwrap_or(defaults::continuous(draw)),
            fixed: draw.fixed.unwrap_or(!has_outlets),
            charges,
            charger_v: defaults::charger_v(charged_v),
            hours: None,
        });
    }
    loads
}

fn line<'b>(id: &'b str, circuit: &'b Circuit, circuits: &Keyed<Circuit>) -> Line<'b> {
    Line {
        id,
        circuit,
        wire: circuit.wire.as_ref().map(Conductors::from),
        feeder: index(Some(circuits), circuit.feeder.as_ref()),
        shares_neutral_with: index(Some(circuits), circuit.shares_neutral_with.as_ref()),
        feeds: Vec::new(),
        loads: Vec::new(),
        branches: Vec::new(),
    }
}

/// The battery of a build that has one alone.
fn only_battery(electrical: &Electrical) -> Option<Index> {
    let is_battery = |source: &Source| source.kind == SourceKind::Battery;
    let mut batteries = electrical.sources.iter().flat_map(|sources| sources.values()).enumerate();
    let first = batteries.find(|(_, source)| is_battery(source))?.0;
    (!batteries.any(|(_, source)| is_battery(source))).then_some(first)
}

/// Voltage of the first battery; 12 V where there is none.
fn battery_v(electrical: &Electrical) -> f64 {
    let mut sources = electrical.sources.iter().flat_map(|sources| sources.values());
    sources.find(|source| source.kind == SourceKind::Battery).map_or(12.0, |source| source.voltage_v)
}

fn supply<'b>(id: &'b str, source: &'b Source, build: &Build, electrical: &Electrical) -> Supply<'b> {
    let two = source.legs == Some(2);
    let in_phase = source.in_phase.unwrap_or(false);
    let circuit = index(electrical.circuits.as_ref(), source.circuit.as_ref());
    let from_battery = source.kind == SourceKind::Inverter && circuit.is_none();
    Supply {
        id,
        source,
        circuit,
        battery: if from_battery { only_battery(electrical) } else { None },
        split: two && !in_phase,
        in_phase: !two || in_phase,
        bonded: source.neutral_bonded.unwrap_or(true),
        cutoff_v: source
            .cutoff_v
            .unwrap_or(defaults::cutoff_v(build.battery.as_ref(), battery_v(electrical))),
        lead: source.lead.as_ref().map(Conductors::from),
    }
}

fn bank(battery: &crate::build::Battery) -> Bank {
    let open_v = battery.open_circuit_v.unwrap_or(defaults::open_circuit_v(battery));
    let by_cranking = |cold_cranking_a| {
        let each_v = open_v / blocks(battery.nominal_v);
        resistance_from_cold_cranking_ohm(each_v, cold_cranking_a) * blocks(battery.nominal_v)
    };
    let ohm = match (battery.resistance_mohm, battery.short_circuit_a, battery.cold_cranking_a) {
        (Some(mohm), ..) => mohm / 1000.0,
        (None, Some(fault_a), _) => open_v / fault_a,
        (None, None, Some(cold_cranking_a)) => by_cranking(cold_cranking_a),
        (None, None, None) => defaults::battery_ohm(battery),
    };
    Bank {
        open_v,
        ohm,
        charge_v: battery.charge_v.unwrap_or(defaults::charge_v(battery)),
        fault_a: battery.short_circuit_a.unwrap_or(open_v / ohm),
        most_a: battery.max_discharge_a,
    }
}

/// Does this leg carry part of the load on `leg`?
pub fn is_on(circuit: Option<Leg>, leg: Leg) -> bool {
    matches!((circuit.unwrap_or(Leg::A), leg), (Leg::Both, _) | (Leg::A, Leg::A) | (Leg::B, Leg::B))
}

impl Load<'_> {
    /// Share of an hour of the day in which it runs; the hours of a day spread evenly where it does not say which.
    pub fn on(&self, hour: usize) -> f64 {
        match (&self.hours, &self.draw.on_fraction) {
            (Some(hours), _) => hours.run_fraction[hour],
            (None, Some(hours)) => hours.get(hour).copied().unwrap_or(0.0),
            (None, None) => self.draw.hours_per_day.unwrap_or(24.0) / 24.0,
        }
    }

    /// What it takes in an hour while it runs, by what the build says it takes.
    ///
    /// - `stated_w`  what the build says [W]
    pub fn share_of_stated(&self, hour: usize, stated_w: f64) -> f64 {
        let hours = self.hours.as_ref().filter(|hours| hours.run_fraction[hour] > 0.0 && stated_w > 0.0);
        hours.and_then(|hours| Some(hours.running_w?[hour] / stated_w)).unwrap_or(1.0)
    }

    /// Does it say when or how long it runs in a day?
    pub fn says_hours(&self) -> bool {
        self.hours.is_some() || self.draw.on_fraction.is_some() || self.draw.hours_per_day.is_some()
    }
}
