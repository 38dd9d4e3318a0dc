//! What is said of an evaluation itself.

use crate::build::{Build, LoadKind};
use crate::document::Refusal;
use crate::question::Question;
use crate::report::{Finding, Findings, figure, rules};

use super::coupled::HandedOver;
use super::rounds::{MOST_ROUNDS, TOLERANCE_W};

rules! {
    shared {}
    NOT_SETTLED: Caution Maximum "W", "evaluation_not_settled",
        "What circuits, energy budget and cooling load tell each other did not settle: their figures may not agree.",
        "common practice";
    COOLER_WITHOUT_PART: Note - -, "air_conditioner_without_part",
        "The air conditioner of the climate section is no part of the build: neither circuits nor battery carry it, nor does it weigh anything.",
        "common practice";
    STATED_HOURS_REPLACED: Note - "h", "stated_hours_replaced",
        "The air conditioner's part says how long it runs; the hours of the cooling load took their place.",
        "common practice";
    NO_PAYLOAD: Note - -, "payload_not_worked_out",
        "The build has too little for its payload.", "common practice";
    NO_AXLE_LOAD: Note - -, "axle_load_not_worked_out",
        "The build has too little for its axle loads.", "common practice";
    NO_CIRCUIT_LOAD: Note - -, "circuit_load_not_worked_out",
        "The build has too little for its circuits.", "common practice";
    NO_ENERGY_BUDGET: Note - -, "energy_budget_not_worked_out",
        "The build has too little for its energy budget.", "common practice";
    NO_COOLING_LOAD: Note - -, "cooling_load_not_worked_out",
        "The build has too little for its cooling load.", "common practice";
}

/// What is said of what the questions told each other.
pub fn judge(build: &Build, handed_over: &HandedOver, all: &mut Findings) {
    let left_w = handed_over.hot_day.left_w.max(handed_over.weather.left_w);
    if left_w > TOLERANCE_W {
        let message = format!(
            "After {MOST_ROUNDS} rounds the heat of what draws power still changes by {} W from one to the next.",
            figure(left_w, 1)
        );
        let remedy = "Look for something that warms the box more the warmer it is, such as a great many refrigerators.";
        let (value, limit) = (Some(left_w), Some(TOLERANCE_W));
        all.add(NOT_SETTLED.finding("", value, limit, message, remedy));
    }
    let cooling = build.climate.as_ref().and_then(|climate| climate.cooling.as_ref());
    let Some(id) = handed_over.cooler else {
        if cooling.is_some() && build.draws().all(|(_, draw)| draw.kind != Some(LoadKind::RoomAirConditioner))
        {
            let message = "The air conditioner stands in the climate section alone.".to_owned();
            let remedy =
                "Add it to the parts with its mass, its place and electrical.kind room_air_conditioner.";
            all.add(COOLER_WITHOUT_PART.finding("/climate/cooling", None, None, message, remedy));
        }
        return;
    };
    let draw = build.draws().find(|(other, _)| *other == id).map(|(_, draw)| draw);
    let Some(draw) = draw.filter(|draw| draw.hours_per_day.is_some() || draw.on_fraction.is_some()) else {
        return;
    };
    let stated_h = match &draw.on_fraction {
        Some(hours) => hours.iter().sum(),
        None => draw.hours_per_day.unwrap_or(0.0),
    };
    let run_h: f64 = handed_over.indoors.run_fraction.iter().sum();
    let message = format!(
        "Part {id} says that it runs {} h a day; by the heat of the box it runs {} h on the hot day, and that was taken.",
        figure(stated_h, 1),
        figure(run_h, 1)
    );
    let field = if draw.on_fraction.is_some() { "on_fraction" } else { "hours_per_day" };
    let at = format!("/parts/{id}/electrical/{field}");
    let remedy = "Leave its hours out, or ask the questions one by one to keep them.";
    all.add(STATED_HOURS_REPLACED.finding(at, Some(stated_h), None, message, remedy));
}

/// A question that was not worked out, and what it would need.
pub fn not_worked_out<Q: Question>(refusal: &Refusal) -> Finding {
    let rule = match Q::NAME {
        "payload" => &NO_PAYLOAD,
        "axle_load" => &NO_AXLE_LOAD,
        "circuit_load" => &NO_CIRCUIT_LOAD,
        "energy_budget" => &NO_ENERGY_BUDGET,
        _ => &NO_COOLING_LOAD,
    };
    let name = Q::NAME.replace('_', " ");
    let message = format!("There is no {name} here: the build has too little for it.");
    let needed: Vec<String> = refusal.to_string().lines().map(str::to_owned).collect();
    rule.finding("", None, None, message, needed.join("; "))
}
