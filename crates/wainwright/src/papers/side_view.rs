//! The trailer from the side, with its loads at their places.

use super::drawing::{
    Anchor, BASE_PT, Drawing, LANE_PT, Label, Look, SIZE_PT, WIDTH_PT, lanes_taken, place, shortened,
    width_pt,
};
use super::model::{Column, Section, Table};
use super::words::{lb, name};
use crate::axle_load::{AxleLoadReport, StateLoads};
use crate::build::Build;
use crate::loading::Loading;
use crate::masses::Totals;
use crate::report::figure;
use crate::units;

/// So many loads may have their names in the drawing.
const LABELS: usize = 26;
/// Lanes for names above the trailer.
const LANES: usize = 9;
/// Greatest height of the trailer in the drawing [pt].
const TALLEST_PT: f64 = 190.0;
/// A wheel [in]. The drawing is a sketch: the build does not say how large they are.
const WHEEL_IN: f64 = 13.0;
/// Floor above the ground where the build does not say [in]. A sketch.
const DECK_IN: f64 = 20.0;
/// Height of the box above its floor at least [in]. A sketch.
const BOX_IN: f64 = 66.0;
/// So many loads are listed; the rest are summed up.
const LISTED: usize = 60;

/// What a load is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Part,
    Tank,
    Cargo,
}

impl Kind {
    fn word(self) -> &'static str {
        match self {
            Self::Part => "part",
            Self::Tank => "tank, full",
            Self::Cargo => "cargo",
        }
    }
}

/// A load at its place.
#[derive(Debug, Clone)]
struct Load {
    name: String,
    kind: Kind,
    mass_lb: f64,
    x_in: f64,
    y_in: f64,
    z_in: f64,
    /// Length and height of a toy.
    size_in: Option<(f64, f64)>,
}

/// Adds the drawing and the list of places.
pub fn add(sheet: &mut Section, build: &Build, loading: &Loading, axle_load: Option<&AxleLoadReport>) {
    let loads = loads(build, loading);
    let shown = axle_load.and_then(|report| heaviest_moving(report));
    let state = shown.map_or_else(String::new, |(id, _)| {
        format!(" Arrows: what ball and axles carry in state {}; the circle with a cross is its center of gravity.", name(id))
    });
    sheet.figure(
        drawing(build, &loads, shown),
        format!(
            "From the left side, places and heights to scale; box and wheels are a sketch. Gray circles are parts, white squares \
             full tanks, dark diamonds cargo: the larger, the heavier; the figure after a name is its pounds.{state} Inches are counted from the ball."
        ),
        None,
    );
    sheet.table(list(&loads));
    if loads.len() > LISTED {
        let rest = &loads[LISTED..];
        sheet.text(format!(
            "And {} lighter ones, {} lb together.",
            figure(rest.len() as f64, 0),
            lb(rest.iter().fold(0.0, |sum, load| sum + load.mass_lb))
        ));
    }
}

/// The heaviest state that moves.
pub fn heaviest_moving(report: &AxleLoadReport) -> Option<(&str, &StateLoads)> {
    let moving = report.states.iter().filter(|(_, state)| state.moving);
    let heaviest = moving.max_by(|a, b| a.1.gross_mass_lb.total_cmp(&b.1.gross_mass_lb))?;
    Some((heaviest.0.as_str(), heaviest.1))
}

/// All loads, heaviest first.
fn loads(build: &Build, loading: &Loading) -> Vec<Load> {
    let load = |id: &str, kind: Kind, totals: &Totals, size_in| {
        let (x_m, y_m, z_m) = (totals.center_x_m(), totals.center_y_m(), totals.center_z_m());
        Load {
            name: name(id),
            kind,
            mass_lb: units::lb(totals.mass_kg),
            x_in: units::inches(x_m),
            y_in: units::inches(y_m),
            z_in: units::inches(z_m),
            size_in,
        }
    };
    let parts = build.parts().zip(&loading.parts).map(|((id, _), totals)| load(id, Kind::Part, totals, None));
    let tanks = build.tanks().zip(&loading.tanks).map(|((id, _), totals)| load(id, Kind::Tank, totals, None));
    let cargo = build.cargo().zip(&loading.cargo).map(|((id, cargo), totals)| {
        load(id, Kind::Cargo, totals, cargo.toy.as_ref().map(|toy| (toy.length_in, toy.height_in)))
    });
    let mut all: Vec<Load> =
        parts.chain(tanks).chain(cargo).filter(|load| load.mass_lb > 0.0 && load.x_in.is_finite()).collect();
    all.sort_by(|a, b| b.mass_lb.total_cmp(&a.mass_lb));
    all
}

fn list(loads: &[Load]) -> Table {
    let mut table = Table::new(&[
        ("Load", Column::Words),
        ("", Column::Words),
        ("lb", Column::Figures),
        ("Behind the ball, in", Column::Figures),
        ("Off the middle, in", Column::Words),
        ("Above the ground, in", Column::Figures),
    ]);
    for load in loads.iter().take(LISTED) {
        let side = if load.y_in.abs() < 0.5 {
            "in the middle".to_owned()
        } else {
            format!("{} {}", figure(load.y_in.abs(), 0), if load.y_in < 0.0 { "left" } else { "right" })
        };
        table.row(vec![
            load.name.clone(),
            load.kind.word().to_owned(),
            lb(load.mass_lb),
            figure(load.x_in, 0),
            side,
            figure(load.z_in, 0),
        ]);
    }
    table
}

/// Inches of the trailer to points of the sheet.
struct Sheet {
    left_in: f64,
    scale: f64,
    ground_pt: f64,
}

impl Sheet {
    fn x(&self, x_in: f64) -> f64 {
        EDGE_PT + (x_in - self.left_in) * self.scale
    }

    fn at(&self, x_in: f64, z_in: f64) -> [f64; 2] {
        [self.x(x_in), self.ground_pt - z_in * self.scale]
    }
}

/// Room beside the trailer [pt].
const EDGE_PT: f64 = 14.0;

fn drawing(build: &Build, loads: &[Load], state: Option<(&str, &StateLoads)>) -> Drawing {
    let trailer = build.trailer.as_ref();
    let floor = trailer.and_then(|trailer| trailer.floor.as_ref());
    let deck_in = build.bay.as_ref().and_then(|bay| bay.deck_height_in).unwrap_or(DECK_IN);
    let ball_in = trailer
        .and_then(|trailer| trailer.coupler.as_ref())
        .map_or(DECK_IN, |coupler| coupler.ball_height_in);
    let half = |load: &Load| load.size_in.map_or(6.0, |(length_in, _)| length_in / 2.0);
    let edges = |of: fn(f64, f64) -> f64, from: f64, sign: f64| {
        loads.iter().fold(from, |edge, load| of(edge, load.x_in + sign * half(load)))
    };
    let axles_to = build.axles().fold(0.0, |edge: f64, (_, axle)| edge.max(axle.x_in + WHEEL_IN));
    let left_in = edges(f64::min, 0.0, -1.0);
    let right_in = edges(f64::max, floor.map_or(axles_to, |floor| floor.rear_x_in.max(axles_to)), 1.0)
        .max(left_in + 10.0);
    let top_in = loads.iter().fold(deck_in + BOX_IN, |top, load| {
        top.max(load.z_in + 6.0).max(load.size_in.map_or(0.0, |(_, height_in)| deck_in + height_in))
    });
    let scale = ((WIDTH_PT - 2.0 * EDGE_PT) / (right_in - left_in)).min(TALLEST_PT / top_in);
    let mut sheet = Sheet { left_in, scale, ground_pt: 0.0 };

    let (named, labels) = labels(loads, state, &sheet);
    let placed = place(&labels, 0.0, WIDTH_PT, LANES);
    let band = lanes_taken(&placed) as f64 * LANE_PT;
    sheet.ground_pt = band + 6.0 + top_in * scale;
    let below = loads_below(build, state, &sheet);
    let placed_below =
        place(&below.iter().map(|(label, _)| label.clone()).collect::<Vec<_>>(), 0.0, WIDTH_PT, 6);
    let ruler_pt = sheet.ground_pt + 18.0;
    let arrows_pt = ruler_pt + 10.0;
    let height = arrows_pt + lanes_taken(&placed_below) as f64 * LANE_PT + 4.0;
    let mut drawing = Drawing::new("The trailer from the side with its loads at their places", height);

    sketch(&mut drawing, build, &sheet, deck_in, ball_in, top_in);
    for (one, target) in placed.iter().zip(&named).filter_map(|(one, target)| Some((one.as_ref()?, target))) {
        let foot = band - (one.lane as f64 + 0.8) * LANE_PT;
        let [_, point] = sheet.at(target[0], target[1]);
        drawing.line(&[[one.x_pt, foot], [one.x_pt, point]], Look::Faint);
    }
    let greatest = loads.first().map_or(1.0, |load| load.mass_lb);
    loads.iter().for_each(|load| dot(&mut drawing, &sheet, load, greatest, deck_in));
    if let Some((_, state)) = state {
        let [x, z] = sheet.at(state.center.x_in, state.center.z_in);
        drawing.circle([x, z], 5.0, Look::Open);
        drawing.line(&[[x - 8.0, z], [x + 8.0, z]], Look::Thick);
        drawing.line(&[[x, z - 8.0], [x, z + 8.0]], Look::Thick);
    }
    for (one, label) in placed.iter().zip(&labels).filter_map(|(one, label)| Some((one.as_ref()?, label))) {
        let base = band - one.lane as f64 * LANE_PT - BASE_PT;
        drawing.words(one.left_pt, base, Anchor::Start, &label.text);
    }
    let arrows: Vec<f64> = below.iter().map(|(label, _)| label.x_pt).collect();
    ruler(&mut drawing, &sheet, right_in, ruler_pt, &arrows);
    for (one, (label, from_in)) in
        placed_below.iter().zip(&below).filter_map(|(one, label)| Some((one.as_ref()?, label)))
    {
        let head = arrows_pt + one.lane as f64 * LANE_PT;
        let [x, tip] = sheet.at(*from_in, if *from_in == 0.0 { ball_in - 3.0 } else { 0.0 });
        drawing.line(&[[x, tip], [x, head + 0.8 * LANE_PT]], Look::Faint);
        drawing.area(&[[x, tip], [x - 3.0, tip + 6.0], [x + 3.0, tip + 6.0]], Look::Dark);
        drawing.words(one.left_pt, head + LANE_PT - BASE_PT, Anchor::Start, &label.text);
    }
    drawing
}

/// Names for the heaviest loads and the center of gravity: where each points to, and the label.
fn labels(loads: &[Load], state: Option<(&str, &StateLoads)>, sheet: &Sheet) -> (Vec<[f64; 2]>, Vec<Label>) {
    let center =
        state.map(|(_, state)| ("center of gravity".to_owned(), [state.center.x_in, state.center.z_in]));
    let mut heavy: Vec<&Load> = loads.iter().take(LABELS).collect();
    heavy.sort_by_key(|load| load.kind == Kind::Part);
    let of_load = |load: &&Load| {
        (format!("{} {}", shortened(&load.name, 26), lb(load.mass_lb)), [load.x_in, load.z_in])
    };
    let all = center.into_iter().chain(heavy.iter().map(of_load));
    all.map(|(text, point)| (point, Label { text, x_pt: sheet.x(point[0]) })).unzip()
}

/// What ball and axles carry: its label, and its place.
fn loads_below(build: &Build, state: Option<(&str, &StateLoads)>, sheet: &Sheet) -> Vec<(Label, f64)> {
    let Some((_, state)) = state else { return Vec::new() };
    let label = |text: String, x_in: f64| (Label { text, x_pt: sheet.x(x_in) }, x_in);
    let mut all = vec![label(format!("tongue {} lb", lb(state.tongue_lb)), 0.0)];
    for (id, axle) in build.axles() {
        if let Some(loads) = state.axles.get(id) {
            all.push(label(format!("axle {} {} lb", shortened(&name(id), 20), lb(loads.load_lb)), axle.x_in));
        }
    }
    all
}

/// Ground, tongue, box and wheels.
fn sketch(drawing: &mut Drawing, build: &Build, sheet: &Sheet, deck_in: f64, ball_in: f64, top_in: f64) {
    drawing.line(&[[0.0, sheet.ground_pt], [WIDTH_PT, sheet.ground_pt]], Look::Thin);
    let floor = build.trailer.as_ref().and_then(|trailer| trailer.floor.as_ref());
    let foremost = build.axles().map(|(_, axle)| axle.x_in).reduce(f64::min);
    for (_, axle) in build.axles() {
        drawing.circle(sheet.at(axle.x_in, WHEEL_IN), WHEEL_IN * sheet.scale, Look::Pale);
        drawing.circle(sheet.at(axle.x_in, WHEEL_IN), 0.45 * WHEEL_IN * sheet.scale, Look::Open);
    }
    if let Some(floor) = floor {
        let corners = [
            sheet.at(floor.front_x_in, top_in),
            sheet.at(floor.rear_x_in, top_in),
            sheet.at(floor.rear_x_in, deck_in),
            sheet.at(floor.front_x_in, deck_in),
        ];
        drawing.line(&[corners[3], corners[0], corners[1], corners[2]], Look::Faint);
        drawing.line(&[corners[3], corners[2]], Look::Thick);
    }
    let tongue_to = floor.map(|floor| floor.front_x_in).or(foremost).unwrap_or(0.0);
    drawing.line(
        &[
            sheet.at(0.0, ball_in),
            sheet.at(tongue_to, deck_in.min(ball_in + 4.0)),
            sheet.at(tongue_to, deck_in),
        ],
        Look::Thick,
    );
    drawing.circle(sheet.at(0.0, ball_in), 2.6, Look::Dark);
    if let Some(jack) = build.trailer.as_ref().and_then(|trailer| trailer.jack.as_ref()) {
        drawing.line(&[sheet.at(jack.x_in, ball_in + 8.0), sheet.at(jack.x_in, 5.0)], Look::Thin);
    }
}

/// One load, as large as its mass asks.
fn dot(drawing: &mut Drawing, sheet: &Sheet, load: &Load, greatest_lb: f64, deck_in: f64) {
    let [x, y] = sheet.at(load.x_in, load.z_in);
    let half = 1.8 + 7.0 * (load.mass_lb / greatest_lb).sqrt();
    match load.kind {
        Kind::Part => drawing.circle([x, y], half, Look::Pale),
        Kind::Tank => drawing.rectangle([x - half, y - half], [x + half, y + half], Look::Open),
        Kind::Cargo => {
            if let Some((length_in, height_in)) = load.size_in {
                let (front_in, rear_in) = (load.x_in - length_in / 2.0, load.x_in + length_in / 2.0);
                let (low, high) = (deck_in, deck_in + height_in);
                let corners = [[front_in, low], [front_in, high], [rear_in, high], [rear_in, low]]
                    .map(|[x, z]| sheet.at(x, z));
                drawing.line(&[corners[0], corners[1], corners[2], corners[3], corners[0]], Look::Dashed);
            }
            drawing.area(&[[x, y - half], [x + half, y], [x, y + half], [x - half, y]], Look::Dark);
        }
    }
}

/// Inches behind the ball; where an arrow runs there is no figure.
fn ruler(drawing: &mut Drawing, sheet: &Sheet, right_in: f64, base: f64, arrows: &[f64]) {
    let rounds = [12.0, 24.0, 48.0, 96.0, 240.0, 480.0, 960.0];
    let step = rounds.into_iter().find(|step| step * sheet.scale >= 30.0).unwrap_or(2400.0);
    let mut x_in = 0.0;
    while x_in <= right_in {
        let (x, text) = (sheet.x(x_in), figure(x_in, 0));
        let half = width_pt(&text) / 2.0;
        drawing.line(&[[x, sheet.ground_pt], [x, sheet.ground_pt + 5.0]], Look::Thin);
        let free = arrows.iter().all(|arrow| (arrow - x).abs() > half + 2.0);
        if free && x - half >= 0.0 && x + half <= WIDTH_PT {
            drawing.words(x, base - 0.2 * SIZE_PT, Anchor::Middle, text);
        }
        x_in += step;
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn load((kind, mass_lb, x_in, z_in, name): (u8, f64, f64, f64, String)) -> Load {
        let kind = [Kind::Part, Kind::Tank, Kind::Cargo][usize::from(kind % 3)];
        Load {
            name,
            kind,
            mass_lb,
            x_in,
            y_in: 0.0,
            z_in,
            size_in: (kind == Kind::Cargo).then_some((80.0, 47.0)),
        }
    }

    fn legible(json: &str) {
        let build = Build::from_json(json.as_bytes()).unwrap();
        let report = crate::question::ask::<crate::axle_load::AxleLoad>(&build).unwrap();
        let loading = Loading::of(&build).unwrap();
        drawing(&build, &loads(&build, &loading), heaviest_moving(&report)).assert_legible();
    }

    #[test]
    fn the_demonstration_builds_are_legible() {
        legible(include_str!("../../../../tests/builds/heron.json"));
        legible(include_str!("../../../../tests/builds/pika.json"));
        legible(include_str!("../../../../tests/builds/bison.json"));
    }

    proptest! {
        #[test]
        fn no_name_overlaps_whatever_the_loads(
            all in prop::collection::vec((0..3_u8, 0.1..3000.0_f64, -20.0..400.0_f64, 0.0..120.0_f64, "[a-z0-9 -]{1,64}"), 0..70),
        ) {
            let mut loads: Vec<Load> = all.into_iter().map(load).collect();
            loads.sort_by(|a, b| b.mass_lb.total_cmp(&a.mass_lb));
            let json = r#"{"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2000, "x_in": 150}, "floor": {"front_x_in": 48, "rear_x_in": 240}}}"#;
            let build = Build::from_json(json.as_bytes()).unwrap();
            drawing(&build, &loads, None).assert_legible();
        }
    }
}
