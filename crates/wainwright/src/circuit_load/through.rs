//! What loads take from a source that feeds theirs, through the inverters between.

use super::defaults;
use super::drawn::Drawn;
use super::energized::{efficiency_from, entry};
use super::wiring::{Index, Switching, Wiring};
use crate::build::SourceKind;

/// The way from one source down to another that feeds on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Through {
    /// The source that feeds directly on the upper one.
    pub entry: Index,
    /// Share of the power that arrives.
    efficiency: f64,
    /// Voltage at which the entry takes its power [V]; nothing for a cord, which passes on the current.
    entry_v: Option<f64>,
    /// Current that the entry takes with nothing switched on [A].
    idle_a: f64,
}

/// The way from `above` down to `source`; none where `source` does not feed on it.
pub fn through(wiring: &Wiring, mode: &Switching, source: Index, above: Index) -> Option<Through> {
    let entry = entry(wiring, mode, source, above)?;
    let supply = &wiring.sources[entry];
    let entry_v = Some(supply.cutoff_v).filter(|_| supply.source.kind == SourceKind::Inverter);
    let (idle_w, _) = defaults::inverter_losses(supply.source);
    Some(Through {
        entry,
        efficiency: efficiency_from(wiring, mode, source, above),
        entry_v,
        idle_a: idle_w / supply.cutoff_v,
    })
}

impl Through {
    /// Current that a load takes at the upper end: its power and what is lost on the way, at the voltage at which the
    /// inverter there shuts off [A].
    pub fn current_a(&self, load: &Drawn) -> f64 {
        match self.entry_v {
            Some(entry_v) => load.power_w / self.efficiency / entry_v,
            None => load.current_a,
        }
    }

    /// Current that the entry takes with nothing switched on [A].
    pub fn idle_a(&self) -> f64 {
        self.idle_a
    }
}
