//! The parts of a build as the battery sees them: what of them it feeds, and what that takes at its bus.

use crate::build::{Build, Draw, Mode, PartLoad, Refrigerator, Source, SourceKind};
use crate::drawn_power::inverter::{INVERTER_EFFICIENCY, idle_w, input_per_w};
use crate::drawn_power::refrigerator::Keeps;
use crate::drawn_power::running_w;
use crate::drawn_power::supply::{Supply, has_supply, supply};

use crate::drawn_power::demand::{ColdBox, Demand, Followed, Idle, Load};

/// Share of the time that something runs which does not say how long: all of it.
pub const USUAL_SHARE: f64 = 1.0;

/// How the battery reaches something.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Straight from its bus.
    Direct,
    /// Through an inverter, by its position among the sources.
    Inverter(usize),
}

/// A part that the battery feeds.
#[derive(Debug, Clone, Copy)]
pub struct Consumer<'b> {
    /// Its id.
    pub id: &'b str,
    /// What it draws.
    pub draw: &'b Draw,
    /// How many there are.
    pub quantity: f64,
    /// How the battery reaches it.
    pub way: Way,
    /// Power that all of them take in while they run [W].
    pub running_w: f64,
    /// Power at the bus while all of them run [W].
    pub bus_w: f64,
    /// Power at the bus for each watt taken in.
    pub bus_per_w: f64,
}

/// Everything that the battery feeds in a mode, and what it does not.
#[derive(Debug, Clone, Default)]
pub struct Consumers<'b> {
    /// The mode, where the build has modes.
    pub mode: Option<&'b str>,
    /// Was the mode named in the build, or is there none to choose from?
    pub mode_was_given: bool,
    /// Does shore power or a generator feed a circuit in that mode?
    pub mode_has_supply: bool,
    /// What the battery feeds.
    pub fed: Vec<Consumer<'b>>,
    /// Parts that draw power and get none from the battery.
    pub left_out: Vec<&'b str>,
    /// The inverters that are on in the mode, by position among the sources.
    pub inverters: Vec<(usize, &'b str, &'b Source)>,
}

/// The mode that is looked at: the one asked for, or the first in which neither shore nor generator feeds a circuit, or the
/// first.
fn mode(build: &Build) -> Option<(&str, &Mode)> {
    let modes = build.electrical.as_ref()?.modes.as_ref()?;
    let named = build.stay.as_ref().and_then(|stay| stay.mode.as_ref());
    if let Some((id, mode)) = named.and_then(|name| modes.get_key_value(name)) {
        return Some((id, mode));
    }
    let stands_alone = |mode: &&Mode| !has_supply(build, mode);
    let mut all = modes.iter();
    let first = modes.first();
    all.find(|(_, mode)| stands_alone(mode)).or(first).map(|(id, mode)| (id.as_str(), mode))
}

/// The id of the mode that the budget looks at, where the build has modes.
pub fn mode_of(build: &Build) -> Option<&str> {
    mode(build).map(|(id, _)| id)
}

/// How the battery reaches a circuit in a mode.
fn way(build: &Build, mode: Option<&Mode>, circuit: &str) -> Option<Way> {
    match supply(build, mode, circuit)? {
        Supply::Unsaid => Some(Way::Direct),
        Supply::Source(index, source) => match source.kind {
            SourceKind::Battery => Some(Way::Direct),
            SourceKind::Inverter => Some(Way::Inverter(index)),
            SourceKind::Shore | SourceKind::Generator => None,
        },
    }
}

impl<'b> Consumers<'b> {
    /// What a build's battery feeds.
    pub fn of(build: &'b Build) -> Self {
        let chosen = mode(build);
        let named = build.stay.as_ref().and_then(|stay| stay.mode.as_deref());
        let mut all = Self {
            mode: chosen.map(|(id, _)| id),
            mode_was_given: chosen.is_none() || named == chosen.map(|(id, _)| id),
            mode_has_supply: chosen.is_some_and(|(_, mode)| has_supply(build, mode)),
            ..Self::default()
        };
        let nominal_v = build.battery.as_ref().map_or(12.0, |battery| battery.nominal_v);
        for (id, part) in build.parts() {
            let Some(draw) = part.electrical.as_ref().filter(|_| part.quantity != Some(0)) else { continue };
            // A charger fills the battery; it is no load on it.
            if draw.charger.is_some() && running_w(draw, nominal_v, false) == 0.0 {
                continue;
            }
            let Some(way) = way(build, chosen.map(|(_, mode)| mode), &draw.circuit) else {
                all.left_out.push(id);
                continue;
            };
            let quantity = f64::from(part.quantity.unwrap_or(1));
            let (each_w, bus_per_w) = match way {
                Way::Direct => (running_w(draw, nominal_v, false), 1.0),
                Way::Inverter(index) => {
                    let source = build.sources().nth(index).map(|(_, source)| source);
                    let each_w = running_w(draw, source.map_or(120.0, |source| source.voltage_v), true);
                    let per_w = source
                        .map_or(1.0 / INVERTER_EFFICIENCY, |source| input_per_w(source, each_w * quantity));
                    (each_w, per_w)
                }
            };
            all.fed.push(Consumer {
                id,
                draw,
                quantity,
                way,
                running_w: quantity * each_w,
                bus_w: quantity * each_w * bus_per_w,
                bus_per_w,
            });
        }
        all.find_inverters(build, chosen.map(|(_, mode)| mode));
        all
    }

    /// The inverters that feed a circuit in the mode.
    fn find_inverters(&mut self, build: &'b Build, mode: Option<&Mode>) {
        for (index, (id, source)) in build.sources().enumerate() {
            let feeds = match mode {
                Some(mode) => mode.feeds.values().any(|name| name == id),
                None => index == 0,
            };
            if source.kind == SourceKind::Inverter && feeds {
                self.inverters.push((index, id, source));
            }
        }
    }

    /// What they ask of the bus.
    ///
    /// - `constant_w`  what is on day and night beside them [W]
    /// - `followed`    id of the part whose course is worked out elsewhere
    pub fn demand(&self, constant_w: f64, followed: Option<&str>) -> Demand<'b> {
        let mut demand = Demand { constant_w, ..Demand::default() };
        let is_followed = |one: &&Consumer| Some(one.id) == followed;
        for one in self.fed.iter().filter(|one| !is_followed(one)) {
            one.add_to(&mut demand);
        }
        demand.followed = self.fed.iter().find(is_followed).map(|one| Followed {
            per_w: one.bus_per_w,
            idle: self.inverters.iter().position(|(index, ..)| one.way == Way::Inverter(*index)),
        });
        for &(index, _, source) in &self.inverters {
            let on_it = self.fed.iter().filter(|one| one.way == Way::Inverter(index) && !is_followed(one));
            demand.idles.push(Idle {
                idle_w: idle_w(source),
                off_when_unused: source.off_when_unused.unwrap_or(false),
                // The curve has the inverter's own draw in it while something runs.
                only_when_unused: source.part_load == Some(PartLoad::Curve),
                loads: on_it.map(|one| (one.draw.schedule(), USUAL_SHARE)).collect(),
            });
        }
        demand
    }
}

impl<'b> Consumer<'b> {
    /// What it asks of the bus by itself.
    pub fn demand(&self) -> Demand<'b> {
        let mut demand = Demand::default();
        self.add_to(&mut demand);
        demand
    }

    fn add_to(&self, demand: &mut Demand<'b>) {
        match &self.draw.refrigerator {
            Some(refrigerator) => demand.cold_boxes.push(self.cold_box(refrigerator)),
            None => demand.loads.push(Load {
                running_w: self.bus_w,
                schedule: self.draw.schedule(),
                usual_share: USUAL_SHARE,
            }),
        }
    }

    /// The refrigerator that it is.
    fn cold_box(&self, refrigerator: &Refrigerator) -> ColdBox<'b> {
        let Keeps { leak_w_per_k, inside_c } = Keeps::of(refrigerator);
        ColdBox {
            leak_w_per_k: leak_w_per_k * self.quantity,
            inside_c,
            running_w: self.running_w,
            per_w: self.bus_per_w,
            schedule: self.draw.schedule(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::celsius;

    fn build(electrical: &str, stay: &str) -> Build {
        let json = format!(
            r#"{{"parts": {{
                "lamp": {{"mass_lb": 1, "quantity": 2, "electrical": {{"circuit": "dc", "power_w": 10, "hours_per_day": 6}}}},
                "kettle": {{"mass_lb": 1, "electrical": {{"circuit": "ac", "power_w": 1000, "hours_per_day": 0.5}}}},
                "fridge": {{"mass_lb": 1, "electrical": {{"circuit": "dc", "power_w": 50, "refrigerator": {{"kwh_per_day": 0.5}}}}}},
                "converter": {{"mass_lb": 1, "electrical": {{"circuit": "ac", "charger": {{"output_a": 45, "source": "bank"}}}}}}}},
            {electrical} "battery": {{"chemistry": "lifepo4", "capacity_ah": 100, "nominal_v": 12.8}}, "stay": {stay}}}"#
        );
        Build::from_json(json.as_bytes()).unwrap_or_else(|refusal| panic!("{refusal}"))
    }

    const TWO_MODES: &str = r#""electrical": {
        "sources": {"shore": {"kind": "shore", "voltage_v": 120}, "bank": {"kind": "battery", "voltage_v": 12.8},
                    "inverter": {"kind": "inverter", "voltage_v": 120, "continuous_w": 2000, "efficiency": 0.8}},
        "circuits": {"block": {}, "dc": {"feeder": "block"}, "ac": {}},
        "modes": {"plugged_in": {"feeds": {"ac": "shore", "block": "bank"}},
                  "off_grid": {"feeds": {"ac": "inverter", "block": "bank"}}}},"#;

    #[test]
    fn the_first_mode_that_stands_alone_is_looked_at() {
        let build = build(TWO_MODES, "{}");
        let all = Consumers::of(&build);
        assert_eq!((all.mode, all.mode_was_given, all.mode_has_supply), (Some("off_grid"), false, false));
        let fed: Vec<_> = all.fed.iter().map(|one| (one.id, one.way, one.bus_w)).collect();
        assert_eq!(
            fed,
            [
                ("lamp", Way::Direct, 20.0),
                ("kettle", Way::Inverter(2), 1250.0),
                ("fridge", Way::Direct, 50.0)
            ]
        );
        assert!(all.left_out.is_empty() && all.inverters.len() == 1);
        assert_eq!(idle_w(all.inverters[0].2), 20.0);
    }

    #[test]
    fn by_the_curve_a_small_load_costs_an_inverter_more() {
        let json = TWO_MODES.replace(r#""efficiency": 0.8"#, r#""efficiency": 0.96, "part_load": "curve""#);
        let build = build(&json, "{}");
        let source = build.sources().nth(2).unwrap().1;
        // The curve's own figures: 0.8637 at a twentieth of the rated input, 0.9622 at half.
        assert!((1.0 / input_per_w(source, 0.0431830 * 2000.0 / 0.96) - 0.86366).abs() < 1e-4);
        assert!(input_per_w(source, 1000.0) < input_per_w(source, 100.0));
        // Beyond its rating the nominal efficiency stands in.
        assert_eq!(input_per_w(source, 2500.0), 1.0 / 0.96);
        assert!(Consumers::of(&build).demand(0.0, None).idles[0].only_when_unused);
    }

    #[test]
    fn a_mode_that_is_named_goes_first() {
        let build = build(TWO_MODES, r#"{"mode": "plugged_in"}"#);
        let all = Consumers::of(&build);
        assert_eq!((all.mode, all.mode_has_supply), (Some("plugged_in"), true));
        assert_eq!(all.left_out, ["kettle"]);
        assert!(all.inverters.is_empty());
    }

    #[test]
    fn where_nothing_is_said_of_circuits_the_battery_feeds_all() {
        let build = build("", "{}");
        let all = Consumers::of(&build);
        assert_eq!((all.mode, all.fed.len(), all.left_out.len()), (None, 3, 0));
        let demand = all.demand(1.5, None);
        assert_eq!((demand.loads.len(), demand.cold_boxes.len(), demand.idles.len()), (2, 1, 0));
    }

    #[test]
    fn a_rated_refrigerator_takes_what_is_stated_in_its_room() {
        let build = build("", "{}");
        let demand = Consumers::of(&build).demand(0.0, None);
        let one = demand.cold_boxes[0];
        assert!((one.wanted_w(celsius(90.0)) * 24.0 - 500.0).abs() < 1e-9);
        assert!(one.wanted_w(celsius(70.0)) * 24.0 < 300.0);
    }
}
