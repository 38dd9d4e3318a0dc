//! Solar wiring: voltage, current, fuses, and the side of the controller toward the battery.

use super::wire_sizes::WireSizes;
use super::*;
use crate::build::{Controller, ControllerKind, SolarArray};
use crate::circuit_load::solar_numbers::{ARRAY_DROP, ArrayNumbers, ControllerNumbers, lowest_c};
use crate::circuit_load::solar_wiring::least_string_fuse_a;
use crate::circuit_load::wiring::Conductors;
use crate::report::{exceeds, figure, percent};
use crate::standards::overcurrent;
use crate::units::fahrenheit;

/// What a tracking controller needs above the battery's charging voltage to work [V]. Common practice.
const HEADROOM_V: f64 = 1.0;

pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    let (Some(solar), Some(numbers)) = (&judged.build.solar, &judged.numbers.solar) else { return };
    let arrays = solar.arrays.iter().flatten().zip(&numbers.arrays);
    for ((id, array), numbers) in arrays {
        let one = Array { id, array, numbers };
        one.voltage(judged, solar.controller.as_ref(), lowest_c(solar), findings);
        one.current(findings);
        one.strings(findings);
    }
    if let (Some(controller), Some(of_controller)) = (&solar.controller, &numbers.controller) {
        input(controller, numbers.short_circuit_a, findings);
        output(controller, of_controller, numbers.battery_v, findings);
    }
}

struct Array<'a> {
    id: &'a str,
    array: &'a SolarArray,
    numbers: &'a ArrayNumbers,
}

impl Array<'_> {
    /// Where the array stands in the build.
    fn here(&self) -> String {
        format!("/solar/arrays/{}", self.id)
    }

    /// Where a member of it stands that the build gives.
    fn at(&self, member: &str) -> String {
        format!("/solar/arrays/{}/{member}", self.id)
    }

    fn voltage(
        &self,
        judged: &Judged,
        controller: Option<&Controller>,
        lowest_c: f64,
        findings: &mut Findings,
    ) {
        let Some(controller) = controller else { return };
        let series = self.array.series.unwrap_or(1);
        if let (Some(cold_v), Some(most_v)) = (self.numbers.cold_v, controller.max_pv_v)
            && exceeds(cold_v, most_v)
        {
            let most_series = (f64::from(series) * most_v / cold_v).floor();
            findings.add(PV_VOLTAGE_OVER_CONTROLLER.finding(
                within(&self.here(), "series", self.array.series.is_some()),
                Some(cold_v),
                Some(most_v),
                format!(
                    "At {} °F a string of {series} of array {} reaches {} V; the controller bears {} V.",
                    figure(fahrenheit(lowest_c), 0),
                    self.id,
                    figure(cold_v, 1),
                    figure(most_v, 1)
                ),
                if most_series >= 1.0 {
                    format!(
                        "Put {} in series, or take a controller for {} V or more.",
                        figure(most_series, 0),
                        figure(cold_v.ceil(), 0)
                    )
                } else {
                    format!("Take a controller for {} V or more.", figure(cold_v.ceil(), 0))
                },
            ));
        }
        let charge_v = judged.wiring.battery.map(|battery| battery.charge_v);
        let headroom_v = if controller.kind == ControllerKind::Mppt { HEADROOM_V } else { 0.0 };
        if let (Some(hot_v), Some(charge_v)) = (self.numbers.hot_v, charge_v)
            && exceeds(charge_v + headroom_v, hot_v)
        {
            findings.add(PV_VOLTAGE_LOW_WHEN_HOT.finding(
                self.at("vmp_v"),
                Some(hot_v),
                Some(charge_v + headroom_v),
                format!(
                    "With hot cells a string of array {} works at {} V; to charge the battery at {} V it needs {} V.",
                    self.id,
                    figure(hot_v, 1),
                    figure(charge_v, 1),
                    figure(charge_v + headroom_v, 1)
                ),
                "Put more modules in series, within the controller's voltage, or take modules of higher voltage.",
            ));
        }
    }

    fn current(&self, findings: &mut Findings) {
        let Some(required_a) = self.numbers.required_a else { return };
        if let Some(breaker_a) = self.array.breaker_a
            && exceeds(required_a, breaker_a)
        {
            findings.add(PV_DEVICE_SMALL.finding(
                self.at("breaker_a"),
                Some(breaker_a),
                Some(required_a),
                format!(
                    "The {} A device of array {} must be made for {} A.",
                    figure(breaker_a, 1),
                    self.id,
                    figure(required_a, 2)
                ),
                match overcurrent::next_rating_a(required_a) {
                    Some(rating_a) => format!("Fit {} A, with wire to match.", figure(rating_a, 0)),
                    None => "Split the array.".to_owned(),
                },
            ));
        }
        let (Some(sizing), Some(wire)) = (&self.numbers.sizing, &self.array.wire) else { return };
        let (Some(size), Some(most_a)) = (wire.awg, self.numbers.most_a) else { return };
        let conductors = Conductors::from(wire);
        let voltage_v = self.numbers.working_v.unwrap_or_default();
        let sizes = WireSizes { wire: &conductors, sizing, voltage_v, by_code: true };
        let carries_a = sizing.ampacity_a.unwrap_or(0.0);
        let before_a = sizing.uncorrected_a.unwrap_or(0.0);
        // 156 % before corrections, 125 % after them.
        let short = if exceeds(most_a, carries_a) {
            Some((carries_a, most_a))
        } else {
            Some((before_a, required_a)).filter(|(before_a, required_a)| exceeds(*required_a, *before_a))
        };
        if let Some((value_a, limit_a)) = short {
            findings.add(PV_CONDUCTOR_SMALL.finding(
                self.at("wire/awg"),
                Some(value_a),
                Some(limit_a),
                format!(
                    "The {} AWG of array {} may carry {} A where it runs and {} A by the table; {} A and {} A are asked of it.",
                    size.name(),
                    self.id,
                    figure(carries_a, 1),
                    figure(before_a, 1),
                    figure(most_a, 2),
                    figure(required_a, 2)
                ),
                wire_remedy(&sizes, "Split the array."),
            ));
        }
        if let (Some(drop_v), Some(working_v)) = (sizing.drop_v, self.numbers.working_v)
            && exceeds(drop_v / working_v, ARRAY_DROP)
        {
            findings.add(PV_DROP.finding(
                self.at("wire/run_ft"),
                Some(drop_v / working_v),
                Some(ARRAY_DROP),
                format!(
                    "The wire of array {} loses {} V, {} of its {} V.",
                    self.id,
                    figure(drop_v, 2),
                    percent(drop_v / working_v),
                    figure(working_v, 1)
                ),
                match sizes.by_drop() {
                    Some(size) => format!("Pull {} AWG.", size.name()),
                    None => "Split the array, or bring the controller nearer.".to_owned(),
                },
            ));
        }
    }

    fn strings(&self, findings: &mut Findings) {
        let (Some(isc_a), Some(most_a)) = (self.array.isc_a, self.array.max_series_fuse_a) else { return };
        let parallel = self.array.parallel.unwrap_or(1);
        let Some(fuse_a) = self.array.string_fuse_a else {
            if self.numbers.string_fuse_needed == Some(true) {
                let backfeed_a = self.numbers.backfeed_a.unwrap_or(0.0);
                findings.add(STRINGS_UNFUSED.finding(
                    within(&self.here(), "parallel", self.array.parallel.is_some()),
                    Some(backfeed_a),
                    Some(most_a),
                    format!(
                        "Of the {parallel} strings of array {} the others can drive {} A back into one; its modules bear {} A.",
                        self.id,
                        figure(backfeed_a, 1),
                        figure(most_a, 1)
                    ),
                    match self.numbers.string_fuse_a {
                        Some(least_a) if !exceeds(least_a, most_a) => format!(
                            "Put a fuse of {} to {} A in each string.",
                            figure(least_a, 0),
                            figure(most_a, 1)
                        ),
                        _ => "Put fewer strings in parallel: no standard fuse is both enough for one and within the module's label.".to_owned(),
                    },
                ));
            }
            return;
        };
        let least_a = least_string_fuse_a(isc_a);
        let words = format!(
            "The {} A fuse in each string of array {} must be from {} to {} A.",
            figure(fuse_a, 1),
            self.id,
            figure(least_a, 2),
            figure(most_a, 1)
        );
        if exceeds(fuse_a, most_a) {
            let finding = STRING_FUSE_ABOVE_MODULE.finding(
                self.at("string_fuse_a"),
                Some(fuse_a),
                Some(most_a),
                words,
                format!("Take {} A or less.", figure(most_a, 1)),
            );
            findings.add(finding);
        } else if exceeds(least_a, fuse_a) {
            let finding = STRING_FUSE_SMALL.finding(
                self.at("string_fuse_a"),
                Some(fuse_a),
                Some(least_a),
                words,
                format!("Take {} A or more.", figure(least_a, 2)),
            );
            findings.add(finding);
        }
    }
}

/// The side of the controller toward the arrays.
fn input(controller: &Controller, short_circuit_a: Option<f64>, findings: &mut Findings) {
    if let (Some(short_a), Some(most_a)) = (short_circuit_a, controller.max_pv_a)
        && exceeds(short_a, most_a)
    {
        findings.add(PV_CURRENT_OVER_CONTROLLER.finding(
            "/solar/controller/max_pv_a",
            Some(short_a),
            Some(most_a),
            format!("The arrays' short-circuit currents add up to {} A; the controller bears {} A.", figure(short_a, 1), figure(most_a, 1)),
            "Put modules in series rather than in parallel, within the controller's voltage, or take a larger controller.",
        ));
    }
}

/// The side of the controller toward the battery.
fn output(controller: &Controller, numbers: &ControllerNumbers, battery_v: f64, findings: &mut Findings) {
    let most_a = controller.max_output_a;
    if exceeds(numbers.offered_a, most_a) {
        findings.add(PV_POWER_OVER_CONTROLLER.finding(
            "/solar/controller/max_output_a",
            Some(numbers.offered_a),
            Some(most_a),
            format!(
                "The arrays could give {} A to the {} V battery; the controller gives {} A at most. The rest is not harvested.",
                figure(numbers.offered_a, 1),
                figure(battery_v, 1),
                figure(most_a, 1)
            ),
            "Nothing is broken; a larger controller harvests the rest.",
        ));
    }
    if controller.breaker_a.is_none() {
        findings.add(CONTROLLER_UNPROTECTED.finding(
            "/solar/controller",
            None,
            None,
            "No breaker or fuse is stated between controller and battery; a short circuit there draws on the battery.".to_owned(),
            format!("Fit {} A at the battery.", figure(numbers.device_a.unwrap_or(numbers.required_a), 0)),
        ));
    }
    if let Some(breaker_a) = controller.breaker_a
        && exceeds(numbers.required_a, breaker_a)
    {
        findings.add(CONTROLLER_DEVICE_SMALL.finding(
            "/solar/controller/breaker_a",
            Some(breaker_a),
            Some(numbers.required_a),
            format!(
                "The {} A device between controller and battery must be made for {} A.",
                figure(breaker_a, 1),
                figure(numbers.required_a, 1)
            ),
            format!("Fit {} A.", figure(numbers.device_a.unwrap_or(numbers.required_a), 0)),
        ));
    }
    let Some((wire, size)) = controller.wire.as_ref().and_then(|wire| Some((wire, wire.awg?))) else {
        return;
    };
    let carries_a = numbers.sizing.ampacity_a.unwrap_or(0.0);
    if exceeds(numbers.required_a, carries_a) {
        let wire = Conductors::from(wire);
        let sizes = WireSizes { wire: &wire, sizing: &numbers.sizing, voltage_v: battery_v, by_code: false };
        findings.add(CONTROLLER_CONDUCTOR_SMALL.finding(
            "/solar/controller/wire/awg",
            Some(carries_a),
            Some(numbers.required_a),
            format!(
                "The {} AWG between controller and battery may carry {} A; it must be made for {} A.",
                size.name(),
                figure(carries_a, 1),
                figure(numbers.required_a, 1)
            ),
            wire_remedy(&sizes, "Take a smaller controller."),
        ));
    }
}

/// What to put in place of a wire that may not carry so much; `otherwise` where no wire of the table does.
fn wire_remedy(sizes: &WireSizes, otherwise: &str) -> String {
    match sizes.by_current() {
        Some(size) => format!("Pull {} AWG.", size.name()),
        None if sizes.device_is_too_large() => {
            "Fit a smaller breaker or fuse, with wire to match.".to_owned()
        }
        None => otherwise.to_owned(),
    }
}
