//! The rules of the cooling load, and a build held against them.

mod air;
mod cooler;
mod design;
mod night;

pub(super) use cooler::margin;
pub(super) use night::unvented_burner;

use super::numbers::Numbers;
use super::setup::Setup;
use crate::build::Build;
use crate::report::{Finding, Findings, figure, rules};
use crate::units::fahrenheit;

rules! {
    shared {}
    COOLER_TOO_SMALL: Caution Maximum "°F", "cooler_too_small",
        "On the hot day the given air conditioner does not hold the temperature it is set to.",
        "common practice";
    COOLER_WITHOUT_MARGIN: Note Maximum "fraction", "cooler_without_margin",
        "In its busiest hour the air conditioner hardly stops.",
        "common practice";
    COOLER_OVERSIZED: Note Minimum "fraction", "cooler_oversized",
        "Even in its busiest hour the air conditioner runs little: in short runs it hardly dries the air.",
        "common practice";
    COOLER_RATING_IMPOSSIBLE: Caution - -, "cooler_rating_impossible",
        "No coil can have the rating given: its air would come out as mist, or ice.",
        "line from the rating point to saturation, ASHRAE Handbook Fundamentals, chapter 1";
    COOLER_BEYOND_CURVES: Note - -, "cooler_beyond_curves",
        "The air conditioner runs in conditions beyond those its curves were measured in.",
        "NREL/TP-5500-57617 (at second hand)";
    COOLER_BREATHES_ITS_EXHAUST: Caution Maximum "fraction", "cooler_breathes_its_exhaust",
        "The condenser breathes a part of its own exhaust, cools less and draws more.",
        "common practice";
    COOLER_POWER_DIFFERS: Note - -, "cooler_power_differs",
        "The air conditioner among the parts draws another power than the one in the climate section.",
        "the same appliance, described twice";
    SINGLE_HOSE: Caution - -, "single_hose",
        "A unit with one hose blows out air of the box and draws in as much from outside.",
        "common practice: half of its label or less is left";
    DEADLY_WITHOUT_COOLING: Caution Maximum "°F", "deadly_without_cooling",
        "Closed and with nothing that cools, the box grows dangerously hot.",
        "common practice: above the temperature of the skin";
    HEATER_TOO_SMALL: Caution Minimum "BTU/h", "heater_too_small",
        "The given heater gives less than the cold night takes.",
        "common practice";
    HEATER_WITHOUT_WARM_UP: Note Minimum "BTU/h", "heater_without_warm_up",
        "The given heater holds the temperature of the cold night, and has too little beyond that to warm the box up.",
        "common practice: a quarter more than the load";
    UNVENTED_BURNER: Violation - -, "unvented_burner",
        "The heater gives its exhaust into the box.",
        "common practice: never sleep with an unvented burner; NFPA 1192 (from memory)";
    CONDENSATION: Note Maximum "°F", "condensation",
        "On the cold night water condenses on the inside of a surface or a window.",
        "dew point against the inside surface, ISO 6946";
    TOO_LITTLE_FRESH_AIR: Caution Minimum "cfm", "too_little_fresh_air",
        "Too little air comes in for those who sleep in the box.",
        "common practice: 7.5 cfm for each sleeper; below 4 carbon dioxide rises by more than 2,000 ppm";
    DAY_NOT_SETTLED: Note - -, "day_not_settled",
        "After a month of the same hot day the box is not yet the same every day.",
        "heat balance of a day that comes round";
    NO_DESIGN_NIGHT: Note - -, "no_design_night",
        "The weather given is no whole year: how cold the coldest night is does not follow from it.",
        "common practice";
    NO_DESIGN_DAY: Note - -, "no_design_day",
        "The weather given is no whole year: how hot the hottest day is does not follow from it.",
        "common practice";
    BATTERY_TOO_HOT: Caution Maximum "°F", "battery_too_hot",
        "Closed and with nothing that cools, the box grows hotter than a lithium battery may be charged at.",
        "common practice: no charge above 45 °C (113 °F)";
    FACES_MISSING: Caution - -, "faces_missing",
        "The envelope has no surface on one side or more: nothing passes there in any figure.",
        "heat balance";
    INLET_TOO_SMALL: Caution Minimum "fraction", "inlet_too_small",
        "Through the inlet given the fan moves little of what its label says.",
        "common practice: an inlet of one and a half times the fan's own opening";
    COOLER_BELOW_STEADY_PEAK: Caution Minimum "BTU/h", "cooler_below_steady_peak",
        "The air conditioner covers the peak that was worked out, and not the one by U-values alone, which is an upper bound.",
        "steady heat balance by U-values, as a check";
}

/// What the rules say of a build.
pub(super) fn findings(build: &Build, setup: &Setup, numbers: &Numbers) -> Vec<Finding> {
    let mut all = Findings::default();
    cooler::judge(build, setup, numbers, &mut all);
    air::judge(build, setup, numbers, &mut all);
    night::judge(build, setup, numbers, &mut all);
    design::judge(setup, numbers, &mut all);
    all.in_order()
}

/// A temperature for people.
fn degrees(celsius: f64) -> String {
    format!("{} °F", figure(fahrenheit(celsius), 0))
}

/// To a tenth, where two temperatures stand close together.
fn tenths(celsius: f64) -> String {
    format!("{} °F", figure(fahrenheit(celsius), 1))
}
