//! One circuit in one mode, and the wire and device that would put it right.

use super::Judged;
use super::wire_sizes::WireSizes;
use crate::circuit_load::drawn::CircuitFlow;
use crate::circuit_load::sizing::Sizing;
use crate::circuit_load::wiring::{Conductors, Index, Line};
use crate::report::{exceeds, figure};
use crate::standards::fuse::{self, Family};
use crate::standards::overcurrent;
use crate::standards::size::Size;

/// One circuit in one mode.
pub(super) struct CircuitInMode<'a> {
    pub id: &'a str,
    pub index: Index,
    pub mode: &'a str,
    pub line: &'a Line<'a>,
    pub carried: CircuitFlow,
    pub sizing: Sizing,
    pub alternating: bool,
    /// Rating of what guards its wire: its own device, or where it has none that of its feeder [A].
    pub guard_a: Option<f64>,
}

/// Every circuit in every mode that feeds it.
pub(super) fn in_modes<'a>(judged: &Judged<'a>) -> impl Iterator<Item = (usize, CircuitInMode<'a>)> {
    let (wiring, numbers) = (judged.wiring, judged.numbers);
    numbers.modes.iter().enumerate().flat_map(move |(m, mode)| {
        wiring.circuits.iter().enumerate().filter_map(move |(index, line)| {
            let carried = mode.flow.circuits[index]?;
            let of_feeder = || wiring.circuits[line.feeder?].circuit.breaker_a;
            let circuit = CircuitInMode {
                id: line.id,
                index,
                mode: wiring.modes[m].id,
                line,
                carried,
                sizing: mode.sizings[index]?,
                alternating: wiring.sources[carried.source].is_ac(),
                guard_a: line.circuit.breaker_a.or_else(of_feeder),
            };
            Some((m, circuit))
        })
    })
}

impl CircuitInMode<'_> {
    /// Where the circuit stands in the build.
    pub fn here(&self) -> String {
        format!("/electrical/circuits/{}", self.id)
    }

    /// Where a member of it stands that the build gives.
    pub fn at(&self, member: &str) -> String {
        format!("/electrical/circuits/{}/{member}", self.id)
    }

    /// What flows with everything on [A].
    pub fn current_a(&self) -> f64 {
        self.carried.drawn.current_a
    }

    /// What wire and device must be made for [A].
    pub fn required_a(&self) -> f64 {
        self.carried.drawn.required_a()
    }

    /// What its device is called.
    pub fn device_word(&self) -> &'static str {
        if self.alternating { "breaker" } else { "fuse" }
    }

    /// Does the device ahead keep from the wire what the wire may not carry?
    pub fn is_guarded(&self) -> bool {
        let guarded = || {
            let wire = self.line.wire.as_ref()?;
            Some(self.protects(self.guard_a?, wire, wire.size?, self.sizing.ampacity_a?))
        };
        guarded().unwrap_or(false)
    }

    /// Does a device protect a wire?
    fn protects(&self, device_a: f64, wire: &Conductors, size: Size, ampacity_a: f64) -> bool {
        if !self.alternating {
            return !exceeds(device_a, ampacity_a);
        }
        let cap_a = if wire.cord { None } else { overcurrent::small_conductor_cap_a(size, wire.material) };
        let may_round_up = !wire.cord && self.line.outlets() <= 1;
        cap_a.is_none_or(|cap_a| !exceeds(device_a, cap_a))
            && overcurrent::permits(device_a, ampacity_a, may_round_up)
    }

    /// The sizes that its wire should have, if it has one.
    pub fn wire_sizes(&self) -> Option<WireSizes<'_>> {
        let (voltage_v, by_code) = (self.carried.voltage_v, self.alternating);
        Some(WireSizes { wire: self.line.wire.as_ref()?, sizing: &self.sizing, voltage_v, by_code })
    }

    /// What to put in place of a wire that may not carry so much.
    pub fn wire_remedy(&self) -> String {
        let sizes = self.wire_sizes();
        if let Some(size) = sizes.as_ref().and_then(WireSizes::by_current) {
            format!("Pull {} AWG", size.name())
        } else if sizes.is_some_and(|sizes| sizes.device_is_too_large()) {
            format!("Fit a smaller {}, with wire to match", self.device_word())
        } else {
            "Split the circuit (no wire of the table does)".to_owned()
        }
    }

    /// What to do where the device lets more through than a wire is good for: another wire, or the largest device
    /// that the wire is good for, if what the circuit needs fits it.
    pub fn device_remedy(&self, limit_a: f64) -> String {
        let device_a =
            self.largest_device_a(limit_a).filter(|device_a| !exceeds(self.required_a(), *device_a));
        let wire_does = self.wire_sizes().is_some_and(|sizes| sizes.by_current().is_some());
        match device_a {
            Some(device_a) if wire_does => {
                format!("{}, or fit {} A or less.", self.wire_remedy(), figure(device_a, 1))
            }
            Some(device_a) => format!("Fit {} A or less.", figure(device_a, 1)),
            None => format!("{}.", self.wire_remedy()),
        }
    }

    /// The largest device up to what a wire is good for [A].
    fn largest_device_a(&self, limit_a: f64) -> Option<f64> {
        let family = self.line.circuit.device.unwrap_or(Family::Blade);
        let is_made =
            |rating_a: f64| self.alternating || fuse::next_rating_a(family, rating_a) == Some(rating_a);
        let ratings_a = overcurrent::RATINGS_A.iter().chain(&overcurrent::SMALL_RATINGS_A).copied();
        ratings_a.filter(|rating_a| !exceeds(*rating_a, limit_a) && is_made(*rating_a)).reduce(f64::max)
    }
}
