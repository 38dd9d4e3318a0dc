//! A chart with a scale at the left, names below, and bars or lines.

use super::{Anchor, Drawing, Look, SIZE_PT, WIDTH_PT, width_pt};
use crate::report::figure;

/// Height of the field in which lines and bars stand [pt].
const FIELD_PT: f64 = 130.0;
/// Height of the line that says what is what [pt].
const KEY_PT: f64 = 16.0;
/// Height of the names below [pt].
const NAMES_PT: f64 = 16.0;
/// Room between two names at least [pt].
const APART_PT: f64 = 4.0;

/// Values as bars, one for each name.
#[derive(Debug)]
pub struct Bars<'a> {
    /// What they are.
    pub what: &'a str,
    /// How they look.
    pub look: Look,
    /// The values.
    pub values: Vec<f64>,
}

/// Values as a line, one for each name.
#[derive(Debug)]
pub struct Trace<'a> {
    /// What they are.
    pub what: &'a str,
    /// How the line looks.
    pub look: Look,
    /// The values.
    pub values: Vec<f64>,
}

/// What a chart shows.
#[derive(Debug, Default)]
pub struct Chart<'a> {
    /// What it shows, for those who do not see it.
    pub title: &'a str,
    /// Unit of the scale.
    pub unit: &'a str,
    /// The names below, one for each value.
    pub names: Vec<String>,
    /// Bars side by side.
    pub bars: Vec<Bars<'a>>,
    /// Lines.
    pub traces: Vec<Trace<'a>>,
    /// A mark above these names, and what it means.
    pub marks: Option<(&'a str, Vec<bool>)>,
    /// Does the scale begin at 0?
    pub from_zero: bool,
}

/// A scale with round steps.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Scale {
    from: f64,
    to: f64,
    step: f64,
}

impl Scale {
    /// A scale of four to ten round steps around values.
    fn around(least: f64, greatest: f64) -> Self {
        let span = if greatest - least > 1e-6 { greatest - least } else { greatest.abs().max(1.0) };
        let decade = 10.0_f64.powf((span / 5.0).log10().floor());
        let step =
            [1.0, 2.0, 5.0, 10.0].map(|round| round * decade).into_iter().find(|step| span / step <= 5.0);
        let step = step.unwrap_or(span / 5.0);
        let (from, to) = ((least / step).floor() * step, (greatest / step).ceil() * step);
        Self { from, to: if to > from { to } else { from + step }, step }
    }

    fn ticks(self) -> impl Iterator<Item = f64> {
        let count = ((self.to - self.from) / self.step).round() as usize;
        (0..=count).map(move |i| self.from + i as f64 * self.step)
    }
}

impl Chart<'_> {
    /// The drawing.
    pub fn drawing(&self) -> Drawing {
        let values = || {
            let bars = self.bars.iter().flat_map(|bars| &bars.values);
            bars.chain(self.traces.iter().flat_map(|trace| &trace.values))
                .copied()
                .filter(|value| value.is_finite())
        };
        let zero = if self.from_zero { 0.0 } else { f64::INFINITY };
        let least = values().fold(zero, f64::min);
        let greatest = values().fold(if self.from_zero { 0.0 } else { f64::NEG_INFINITY }, f64::max);
        let scale = if least.is_finite() { Scale::around(least, greatest) } else { Scale::around(0.0, 1.0) };
        let ticks: Vec<(f64, String)> = scale.ticks().map(|value| (value, figure(value, 2))).collect();
        let widest = ticks.iter().map(|(_, text)| width_pt(text)).fold(width_pt(self.unit), f64::max);
        let keys = self.keys();
        let key_rows = keys.iter().map(|(row, ..)| row + 1).max().unwrap_or(0) as f64;
        let (left, right) = (widest + 6.0, WIDTH_PT - 2.0);
        let top = key_rows * KEY_PT + KEY_PT;
        let bottom = top + FIELD_PT;
        let y = |value: f64| bottom - (value - scale.from) / (scale.to - scale.from) * FIELD_PT;
        let mut drawing = Drawing::new(self.title, bottom + NAMES_PT);
        for (row, x, look, what) in keys {
            let base = row as f64 * KEY_PT + 11.0;
            match look {
                Some(look @ (Look::Open | Look::Pale | Look::Dark)) => {
                    drawing.rectangle([x, base - 7.0], [x + 14.0, base], look);
                }
                Some(look) => drawing.line(&[[x, base - 3.0], [x + 20.0, base - 3.0]], look),
                None => cross(&mut drawing, [x + 7.0, base - 3.0]),
            }
            drawing.words(x + SWATCH_PT, base, Anchor::Start, what);
        }
        drawing.words(0.0, top - 8.0, Anchor::Start, self.unit);
        for (value, text) in ticks {
            drawing.line(
                &[[left, y(value)], [right, y(value)]],
                if value == 0.0 { Look::Thin } else { Look::Faint },
            );
            drawing.words(left - 4.0, y(value) + 0.35 * SIZE_PT, Anchor::End, text);
        }
        let each = (right - left) / self.names.len().max(1) as f64;
        self.draw_names(&mut drawing, left, each, bottom);
        for (place, bars) in self.bars.iter().enumerate() {
            let wide = 0.76 * each / self.bars.len() as f64;
            for (i, value) in bars.values.iter().enumerate().filter(|(_, value)| value.is_finite()) {
                let from = left + (i as f64 + 0.12) * each + place as f64 * wide;
                drawing.rectangle([from, y(*value)], [from + wide, y(0.0_f64.max(scale.from))], bars.look);
            }
        }
        for trace in &self.traces {
            let middle = |(i, value): (usize, &f64)| [left + (i as f64 + 0.5) * each, y(*value)];
            let points: Vec<[f64; 2]> = trace.values.iter().enumerate().map(middle).collect();
            drawing.line(&points, trace.look);
        }
        for i in self.marks.iter().flat_map(|(_, marks)| marks.iter().enumerate().filter(|(_, mark)| **mark))
        {
            cross(&mut drawing, [left + (i.0 as f64 + 0.5) * each, top - 6.0]);
        }
        drawing
    }

    /// What is what: row, place from the left, look (none for the mark) and words.
    fn keys(&self) -> Vec<(usize, f64, Option<Look>, String)> {
        let bars = self.bars.iter().map(|bars| (Some(bars.look), bars.what));
        let traces = self.traces.iter().map(|trace| (Some(trace.look), trace.what));
        let marks =
            self.marks.iter().filter(|(_, marks)| marks.contains(&true)).map(|(what, _)| (None, *what));
        let (mut row, mut x) = (0, 0.0);
        let mut keys = Vec::new();
        for (look, what) in bars.chain(traces).chain(marks) {
            let room = SWATCH_PT + width_pt(what);
            if x > 0.0 && x + room > WIDTH_PT {
                (row, x) = (row + 1, 0.0);
            }
            keys.push((row, x, look, what.to_owned()));
            x += room + 14.0;
        }
        keys
    }

    /// As many of the names as there is room for.
    fn draw_names(&self, drawing: &mut Drawing, left: f64, each: f64, bottom: f64) {
        let widest = self.names.iter().map(|name| width_pt(name)).fold(1.0, f64::max);
        let every = ((widest + APART_PT) / each).ceil().max(1.0) as usize;
        for (i, name) in self.names.iter().enumerate().step_by(every) {
            let middle = left + (i as f64 + 0.5) * each;
            // The last may have a column too narrow for it.
            if middle + width_pt(name) / 2.0 <= WIDTH_PT {
                drawing.words(middle, bottom + 12.0, Anchor::Middle, name);
            }
        }
    }
}

/// Room of a sample before its words [pt].
const SWATCH_PT: f64 = 25.0;

fn cross(drawing: &mut Drawing, [x, y]: [f64; 2]) {
    drawing.line(&[[x - 3.0, y - 3.0], [x + 3.0, y + 3.0]], Look::Thick);
    drawing.line(&[[x - 3.0, y + 3.0], [x + 3.0, y - 3.0]], Look::Thick);
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn scales_have_round_steps() {
        let scale = Scale::around(0.0, 47.5);
        assert_eq!((scale.from, scale.to, scale.step), (0.0, 50.0, 10.0));
        let scale = Scale::around(64.0, 106.6);
        assert_eq!((scale.from, scale.to, scale.step), (60.0, 110.0, 10.0));
        let scale = Scale::around(0.0, 0.0);
        assert!(scale.to > scale.from);
        assert_eq!(Scale::around(0.0, 1.0).ticks().count(), 6);
    }

    proptest! {
        #[test]
        fn charts_are_legible_whatever_their_values(
            values in prop::collection::vec((0.0..1e6_f64, -1e4..1e4_f64), 0..80),
            from_zero: bool,
        ) {
            let chart = Chart {
                title: "months",
                unit: "kWh",
                names: values.iter().map(|_| "Jan".to_owned()).collect(),
                bars: vec![Bars { what: "harvest", look: Look::Open, values: values.iter().map(|v| v.0).collect() }],
                traces: vec![Trace { what: "load", look: Look::Dashed, values: values.iter().map(|v| v.1).collect() }],
                marks: Some(("goes short", values.iter().map(|v| v.1 > 0.0).collect())),
                from_zero,
            };
            chart.drawing().assert_legible();
        }
    }
}
