//! Starts on an inverter or generator, and what an inverter gets meanwhile.

use super::source_in_mode::SourceInMode;
use super::*;
use crate::circuit_load::defaults;
use crate::circuit_load::drawn::inrush_multiple;
use crate::circuit_load::wiring::Index;
use crate::report::{exceeds, figure};

pub(super) fn judge(source: &SourceInMode, findings: &mut Findings) {
    let Some(surge_w) = source.supply.source.surge_w else { return };
    let starts = Starts::of(source, surge_w);
    starts.surge(findings);
    starts.duration(findings);
}

/// Does a load take more for a moment when it starts?
pub(super) fn has_inrush(source: &SourceInMode, load: Index) -> bool {
    multiple(source, load) > 1.0
}

fn multiple(source: &SourceInMode, load: Index) -> f64 {
    inrush_multiple(&source.judged.wiring.loads[load], source.supply.is_ac())
}

/// What the loads of a source that says its surge take as they run and start.
struct Starts<'a> {
    source: &'a SourceInMode<'a>,
    /// What it gives for a moment [W].
    surge_w: f64,
    /// What runs for hours [VA].
    continuous_va: f64,
}

impl<'a> Starts<'a> {
    fn of(source: &'a SourceInMode<'a>, surge_w: f64) -> Self {
        let mut starts = Self { source, surge_w, continuous_va: 0.0 };
        starts.continuous_va = source.loads().map(|load| starts.for_hours_va(load)).sum();
        starts
    }

    fn running_va(&self, load: Index) -> f64 {
        let flow = &self.source.mode.flow;
        let circuit = flow.circuits[self.source.judged.wiring.loads[load].circuit];
        flow.loads[load].current_a * circuit.map_or(0.0, |circuit| circuit.voltage_v)
    }

    fn for_hours_va(&self, load: Index) -> f64 {
        if self.source.judged.wiring.loads[load].continuous { self.running_va(load) } else { 0.0 }
    }

    /// A load starts while all others that run for hours do.
    fn start_va(&self, load: Index) -> f64 {
        let beside_va = self.continuous_va - self.for_hours_va(load);
        self.running_va(load) * multiple(self.source, load) + beside_va
    }

    fn start_s(&self, load: Index) -> f64 {
        self.source.judged.wiring.loads[load].draw.inrush_s.unwrap_or(defaults::start_s(true))
    }

    /// A load that only runs is for the continuous power to judge, where that is given.
    fn counts(&self, load: Index) -> bool {
        has_inrush(self.source, load) || self.source.supply.source.continuous_w.is_none()
    }

    fn remedy(&self, load: Index) -> &'static str {
        if has_inrush(self.source, load) {
            "Fit a soft starter, run less beside it, or take a larger one."
        } else {
            "Run less beside it, or take a larger one."
        }
    }

    fn message(&self, start_va: f64, load: Index, others: &str) -> String {
        format!(
            "In mode {} {} asks for {} VA of {} when it starts with {others}; it can give {} W for a moment.",
            self.source.switching.id,
            self.source.judged.wiring.loads[load].id,
            figure(start_va, 0),
            self.source.supply.id,
            figure(self.surge_w, 0)
        )
    }

    /// The worst start against what the source can give for a moment.
    fn surge(&self, findings: &mut Findings) {
        let source = self.source;
        let of_loads = source.loads().filter(|&load| self.counts(load));
        let worst = of_loads.map(|load| (self.start_va(load), load)).max_by(|a, b| a.0.total_cmp(&b.0));
        let with_hours = worst
            .filter(|(start_va, _)| exceeds(*start_va, self.surge_w))
            .map(|(start_va, load)| (&START_OVER_SURGE, start_va, load, "what runs for hours"));
        let with_all = source
            .gives
            .starter
            .filter(|&load| exceeds(source.gives.start_va, self.surge_w) && self.counts(load))
            .map(|load| (&START_MAY_EXCEED_SURGE, source.gives.start_va, load, "everything else running"));
        let Some((rule, start_va, load, others)) = with_hours.or(with_all) else { return };
        findings.add(rule.finding(
            source.at("surge_w"),
            Some(start_va),
            Some(self.surge_w),
            self.message(start_va, load, others),
            self.remedy(load),
        ));
    }

    /// The longest start that needs more than the continuous power against how long the surge lasts.
    fn duration(&self, findings: &mut Findings) {
        let source = self.source.supply.source;
        let (Some(surge_s), Some(continuous_w)) = (source.surge_s, source.continuous_w) else { return };
        let needs_surge =
            |load: &Index| has_inrush(self.source, *load) && exceeds(self.start_va(*load), continuous_w);
        let starts = self.source.loads().filter(needs_surge).map(|load| (self.start_s(load), load));
        let Some((start_s, load)) = starts.max_by(|a, b| a.0.total_cmp(&b.0)) else { return };
        if exceeds(start_s, surge_s) {
            findings.add(START_OUTLASTS_SURGE.finding(
                self.source.at("surge_s"),
                Some(start_s),
                Some(surge_s),
                format!(
                    "{} starts for {} s; {} gives its surge for {} s.",
                    self.source.judged.wiring.loads[load].id,
                    figure(start_s, 2),
                    self.source.supply.id,
                    figure(surge_s, 2)
                ),
                self.remedy(load),
            ));
        }
    }
}
