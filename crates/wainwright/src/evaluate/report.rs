//! The report of the whole build.

use crate::axle_load::AxleLoadReport;
use crate::circuit_load::CircuitLoadReport;
use crate::cooling_load::CoolingLoadReport;
use crate::energy_budget::EnergyBudgetReport;
use crate::payload::PayloadReport;
use crate::report::{Assumption, Caution, Engine, Finding, report};
use crate::units::fahrenheit;

use super::coupled;
use super::rounds::TOLERANCE_W;

report! {
    /// Every question's answer to one build, and what they come to together.
    pub struct EvaluateReport {
        /// What to read first.
        verdict: Verdict,
        /// By how much the build keeps what matters most. Packages are compared by these.
        margins: Margins,
        /// Masses in every loading state; null where the build has too little for them, as with each question.
        payload: Option<PayloadReport>,
        /// Tongue, axle, wheel and tow-vehicle loads.
        axle_load: Option<AxleLoadReport>,
        /// Circuits in every supply mode.
        circuit_load: Option<CircuitLoadReport>,
        /// Battery and sun.
        energy_budget: Option<EnergyBudgetReport>,
        /// The heat of a hot day and of a cold night.
        cooling_load: Option<CoolingLoadReport>,
        /// What the questions told each other; null where there is no cooling load, and each was asked by itself.
        handed_over: Option<HandedOver>,
        /// What the rules of all questions say of this build, gravest first; what two questions say is listed once.
        findings: Vec<Finding>,
        /// Every default that was used, in the order of the document.
        assumptions: Vec<Assumption>,
        /// What goes with every evaluation.
        cautions: Vec<Caution>,
        /// What worked it out.
        engine: Engine,
    }
}

report! {
    /// What a person reads first.
    pub struct Verdict {
        /// The gravest of the findings: `violation`, `caution`, or `clear` where there is neither.
        status: &'static str = "caution",
        /// The same in a sentence or two, with the gravest finding.
        sentence: String = "Within every rating that was checked, with 3 cautions. The first: the tongue carries 9.8 % of the gross mass in state homebound.",
        /// Ratings, laws or standards that are broken.
        violation_count: u32 = 0,
        /// Cautions.
        caution_count: u32 = 3,
        /// Notes.
        note_count: u32 = 5,
        /// Questions that were not worked out, because the build has too little for them.
        not_worked_out: Vec<&'static str> = ["cooling_load"],
    }
}

report! {
    /// By how much a build keeps what matters most: above 0 it does.
    #[derive(Copy)]
    pub struct Margins {
        /// Payload left in the heaviest state; null without payload.
        payload_left_lb: Option<f64> = 312.0,
        /// How far the tongue's share of the gross mass stays within 0.10 to 0.15 in the worst state that moves; below 0
        /// outside. Null without axle load, or where no state moves.
        tongue_margin_fraction: Option<f64> = 0.012,
        /// Hours the battery lasts without sun; null without energy budget, or where it never runs out.
        autonomy_h: Option<f64> = 41.5,
        /// How much more the air conditioner gives at the peak than the sensible load, as a share of that; null without
        /// one, or without cooling load.
        cooling_margin_fraction: Option<f64> = 0.35,
    }
}

report! {
    /// What circuits, energy budget and cooling load told each other.
    pub struct HandedOver {
        /// Did it settle: did the last round change the heat of what draws power by no more than the tolerance, in every hour
        /// and step?
        settled: bool = true,
        /// The tolerance.
        tolerance_w: f64 = 0.1,
        /// The most that the last rounds changed.
        left_w: f64 = 0.02,
        /// Rounds of the hot day.
        hot_day_rounds: u32 = 4,
        /// Rounds through the weather given.
        weather_rounds: u32 = 3,
        /// The part whose hours are those of the air conditioner in the cooling load, in place of what it says itself; null
        /// without one.
        air_conditioner: Option<String> = "air_conditioner",
        /// What the air conditioner takes on the hot day.
        air_conditioner_hot_day_wh: Option<f64> = 4120.0,
        /// Heat that everything else that draws power sets free in the box on the hot day, with what inverters and chargers
        /// lose.
        equipment_hot_day_wh: f64 = 1380.0,
        /// The box as the battery knows it; null without energy budget.
        box_air: Option<BoxAir>,
    }
}

report! {
    /// The air in the box through the weather, in the supply mode of the energy budget.
    pub struct BoxAir {
        /// The mode; null where the build has none.
        mode: Option<String> = "off_grid",
        /// Does the air conditioner run in it?
        cooled: bool = false,
        /// Does the heater?
        heated: bool = true,
        /// The coldest.
        coldest_f: f64 = 64.0,
        /// On the mean.
        mean_f: f64 = 70.3,
        /// The warmest.
        warmest_f: f64 = 108.1,
        /// What the air conditioner takes on a mean day, before its inverter; null where it does not run on the battery.
        air_conditioner_wh_per_day: Option<f64> = 1150.0,
    }
}

/// What was handed over, for the report.
pub fn handed_over(from: &coupled::HandedOver) -> HandedOver {
    HandedOver {
        settled: from.hot_day.settled() && from.weather.settled(),
        tolerance_w: TOLERANCE_W,
        left_w: from.hot_day.left_w.max(from.weather.left_w),
        hot_day_rounds: from.hot_day.count,
        weather_rounds: from.weather.count,
        air_conditioner: from.cooler.map(str::to_owned),
        air_conditioner_hot_day_wh: from.cooler.map(|_| from.indoors.cooler_w.iter().sum()),
        equipment_hot_day_wh: from.equipment_wh,
        box_air: from.box_air.as_ref().map(|air| BoxAir {
            mode: air.mode.map(str::to_owned),
            cooled: air.is_cooled,
            heated: air.is_heated,
            coldest_f: fahrenheit(air.coldest_c),
            mean_f: fahrenheit(air.mean_c),
            warmest_f: fahrenheit(air.warmest_c),
            air_conditioner_wh_per_day: air.cooler_wh_per_day,
        }),
    }
}
