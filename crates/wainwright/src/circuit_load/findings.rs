//! The rules of circuit load, and a build held against them.
//!
//! The code is NFPA 70 (NEC). Where its text could not be read, only recalled, the citation says so.

mod ampacity;
mod circuit_in_mode;
mod conductors;
mod devices;
mod limits;
mod modes;
mod outlets;
mod solar;
mod source_in_mode;
mod sources;
mod starts;
mod wire_sizes;

use super::numbers::Numbers;
use super::wiring::{Load, Wiring};
use crate::build::Build;
use crate::report::{Finding, Findings, Rule, rules};

rules! {
    shared {}
    // Circuits: conductor and device
    CIRCUIT_UNPROTECTED: Violation - -, "circuit_unprotected",
        "A circuit that carries current has no breaker or fuse.",
        "NEC 2023, 240.4; 552.10(E) for low voltage (from memory)";
    BREAKER_OVERLOADED: Violation Maximum "A", "breaker_overloaded",
        "Everything on a circuit, with a quarter more for what runs for hours, is above its breaker.",
        "NEC 2023, 210.20(A) (at second hand)";
    CONDUCTOR_OVERLOADED: Violation Maximum "A", "conductor_overloaded",
        "Everything on a line-voltage circuit is more than its wire may carry where it runs.",
        "NEC 2023, 210.19(A)(1) and Table 310.16 (at second hand)";
    BREAKER_OVER_CONDUCTOR: Violation Maximum "A", "breaker_over_conductor",
        "A breaker lets more through than its wire may carry.",
        "NEC 2023, 240.4(B), (D) (text of (B) from memory)";
    BREAKER_OVER_APPLIANCE: Violation Maximum "A", "breaker_over_appliance",
        "The breaker of a circuit for one large appliance is above 150 % of that appliance's current and the standard rating for it.",
        "NEC 2023, 551.43, 422.11(E)(3) (from memory)";
    DC_CONDUCTOR_OVERLOADED: Violation Maximum "A", "dc_conductor_overloaded",
        "Everything on a low-voltage circuit is more than its wire may carry in open air.",
        "33 CFR 183.425 Table 5 (law for boats, a guide for trailers)";
    DC_CONDUCTOR_OVER_552_TABLE: Note Maximum "A", "dc_conductor_over_552_table",
        "A low-voltage circuit's fuse is above the park trailer table for its wire, which is stricter than the one used here.",
        "NEC 2023, Table 552.10(E)(1) (a guide; from memory)";
    DC_DEVICE_OVERLOADED: Violation Maximum "A", "dc_device_overloaded",
        "Everything on a low-voltage circuit is above its fuse.",
        "the maker's rating of the fuse";
    DC_DEVICE_NEAR_LIMIT: Caution Maximum "A", "dc_device_near_limit",
        "Everything on a low-voltage circuit, with a quarter more for what runs for hours and for the greatest motor, is above its fuse.",
        "common practice";
    DC_DEVICE_FAR_OVER_CONDUCTOR: Violation Maximum "A", "dc_device_far_over_conductor",
        "A fuse is above 150 % of what its wire may carry.",
        "ABYC E-11 (from memory)";
    DC_DEVICE_OVER_CONDUCTOR: Caution Maximum "A", "dc_device_over_conductor",
        "A fuse is above what its wire may carry, within the 150 % that is allowed where no size fits.",
        "ABYC E-11 (from memory)";
    LOW_VOLTAGE_ALUMINUM: Violation - -, "low_voltage_aluminum",
        "A low-voltage circuit is wired in aluminum.",
        "33 CFR 183.425; NEC 2023, 552.10(B) (a guide, at second hand)";
    CHASSIS_RETURN: Violation - -, "chassis_return_at_line_voltage",
        "The current of a line-voltage circuit returns through the chassis.",
        "NEC 2023, 551.54 (from memory)";
    MOTOR_DEVICE_LARGE: Violation Maximum "A", "motor_device_large",
        "The breaker of one motor is above 250 % of its current.",
        "NEC 2023, 430.52 (from memory)";
    DC_BUNDLE: Caution Maximum "conductors", "dc_bundle",
        "More than three loaded low-voltage conductors run in one bundle; the table used has no factor for that below 50 V.",
        "common practice; 33 CFR 183.435(b) from 50 V up";
    AC_DROP: Caution Maximum "fraction", "ac_drop",
        "A line-voltage circuit loses more of its voltage than it should.",
        "NEC 2023, 210.19(A) informational note (at second hand)";
    AC_TOTAL_DROP: Caution Maximum "fraction", "ac_total_drop",
        "Cord, feeder and circuit together lose more than 5 % of the voltage.",
        "NEC 2023, 215.2(A) informational note (at second hand)";
    DC_DROP: Caution Maximum "fraction", "dc_drop",
        "A low-voltage circuit loses more of its voltage than it should.",
        "ABYC E-11 (3 % and 10 %, at second hand)";
    MOTOR_VOLTAGE_LOW: Violation Minimum "V", "motor_voltage_low",
        "With everything on, a line-voltage motor gets less than 90 % of the 115 V it is made for.",
        "NEMA MG 1 (from memory)";
    LIMIT_TIGHT: Caution Minimum "fraction", "limit_tight",
        "Less than a tenth of a limit is left.",
        "common practice";
    // Devices
    DEVICE_FAR_FROM_SOURCE: Violation Maximum "in", "device_far_from_source",
        "The fuse of a circuit is too far from the battery or bus bar that it starts from.",
        "NEC 2023, 552.10(E)(4) (18 in; a guide, at second hand); ABYC E-11 for sheathed wire (72 in)";
    DEVICE_AWAY_FROM_SOURCE: Caution Maximum "in", "device_away_from_source",
        "The fuse of a circuit is farther from the battery or bus bar than is good practice.",
        "ABYC E-11 (7 in bare, 40 in sheathed; at second hand)";
    INTERRUPTING_BELOW_FAULT: Violation Minimum "A", "interrupting_below_fault",
        "A device cannot break the current that a short circuit behind it would draw from the battery.",
        "NEC 2023, 110.9 (at second hand)";
    INTERRUPTING_UNKNOWN: Note - "A", "interrupting_unknown",
        "It is not known whether a device can break the current that a short circuit behind it would draw from the battery.",
        "NEC 2023, 110.9 (at second hand)";
    DEVICE_VOLTAGE_LOW: Violation Minimum "V", "device_voltage_low",
        "A device is made for less than the voltage that its battery is charged at.",
        "NEC 2023, 110.9 (at second hand); the device's marked voltage";
    FUSE_OPENS_ON_START: Violation Maximum "s", "fuse_opens_on_start",
        "A start lasts longer than the fuse bears it.",
        "ISO 8820-3, SAE J1284 (from memory)";
    FUSE_MAY_OPEN_ON_START: Caution Maximum "s", "fuse_may_open_on_start",
        "A start lasts longer than the quickest fuse of its kind bears it.",
        "ISO 8820-3, SAE J1284 (from memory)";
    // Outlets and what is plugged in
    OUTLET_OVERLOADED: Violation Maximum "A", "outlet_overloaded",
        "One plugged-in load is above 80 % of its outlet.",
        "NEC 2023, 210.21(B)(2), 210.23(A)(1) (at second hand)";
    OUTLET_RATING: Violation - "A", "outlet_rating",
        "The outlets of a circuit are not of a rating that goes with its breaker.",
        "NEC 2023, 210.21(B)(1), (3) (20 and 40 A rows at second hand, rest from memory)";
    FIXED_LOADS_OVER_HALF: Violation Maximum "A", "fixed_loads_over_half",
        "Appliances fastened in place take more than half of a circuit that also feeds lights or plugged-in loads.",
        "NEC 2023, 210.23(A)(2) (at second hand)";
    AIR_CONDITIONER_OVER_SHARE: Violation Maximum "A", "air_conditioner_over_share",
        "A room air conditioner takes more than 80 % of a circuit of its own, or half of a shared one.",
        "NEC 2023, 440.62(B), (C) (percentages from memory)";
    GFCI_MISSING: Caution - -, "gfci_missing",
        "No ground-fault device is stated where one is asked for.",
        "NEC 2023, 551.40(C), 551.41(C) (from memory)";
    // Supplies
    TOO_MANY_CIRCUITS: Violation Maximum "circuits", "too_many_circuits",
        "A supply feeds more line-voltage circuits than its rating goes with.",
        "NEC 2023, 551.42 (from memory)";
    THERMOSTAT_LOADS: Violation Maximum "appliances", "thermostat_loads",
        "More than two line-voltage appliances with thermostats are on a 30 A supply without energy management.",
        "NEC 2023, 551.42(C) (from memory)";
    CONVERTER_BELOW_DEMAND: Violation Minimum "A", "converter_below_demand",
        "Converter and chargers give less than the demand of the low-voltage loads.",
        "NEC 2023, 551.20(B) (from memory)";
    SUPPLY_OVERLOADED: Violation Maximum "A", "supply_overloaded",
        "What runs for hours is more than a supply may give for hours, or one load alone is.",
        "NEC 2023, 215.2, 215.3 (at second hand)";
    SUPPLY_CANNOT_RUN_ALL: Caution Maximum "A", "supply_cannot_run_all",
        "Everything together is more than a supply may give for hours.",
        "NEC 2023, 215.2, 215.3 (at second hand)";
    TRIP_RISK: Caution Maximum "fraction", "trip_risk",
        "In some hour the loads on at one moment often pass the supply's rating.",
        "common practice";
    POWER_OVERLOADED: Violation Maximum "A", "power_overloaded",
        "What runs for hours is more than an inverter or generator gives for hours, or one load alone is.",
        "the maker's continuous rating";
    POWER_CANNOT_RUN_ALL: Caution Maximum "A", "power_cannot_run_all",
        "Everything together is more than an inverter or generator gives for hours.",
        "the maker's continuous rating";
    START_OVER_SURGE: Violation Maximum "VA", "start_over_surge",
        "A start, with what runs for hours beside it, is above what an inverter or generator can give.",
        "the maker's surge rating";
    START_MAY_EXCEED_SURGE: Caution Maximum "VA", "start_may_exceed_surge",
        "A start with everything else running is above what an inverter or generator can give.",
        "the maker's surge rating";
    START_OUTLASTS_SURGE: Violation Maximum "s", "start_outlasts_surge",
        "A start that needs more than the continuous power lasts longer than the surge does.",
        "the maker's surge rating";
    BATTERY_OVERLOADED: Violation Maximum "A", "battery_overloaded",
        "With everything on, the battery gives more than it may.",
        "the maker's greatest discharge current";
    BATTERY_BELOW_INVERTERS: Caution Maximum "A", "battery_below_inverters",
        "With its inverters at their rated output the battery would give more than it may.",
        "the maker's greatest discharge current";
    START_BELOW_CUTOFF: Caution Minimum "V", "start_below_cutoff",
        "While a load starts, an inverter gets less than the voltage at which it shuts off.",
        "the maker's cut-off voltage";
    INVERTER_BELOW_CUTOFF: Violation Minimum "V", "inverter_below_cutoff",
        "At its rated output an inverter gets less than the voltage at which it shuts off.",
        "the maker's cut-off voltage";
    SUPPLY_COLLAPSES: Violation - -, "supply_collapses",
        "A supply cannot hold its voltage with everything on: the loads ask for more than its wires can bring.",
        "Ohm's law: no more than the square of the voltage over four times the resistance";
    LEAD_BELOW_SUPPLY: Violation Minimum "A", "lead_below_supply",
        "The cord or cable of a supply may carry less than the supply is rated for; of a generator, less than 115 % of it.",
        "NEC 2023, 551.46(A), 445.13 (from memory)";
    BATTERY_VENT_SMALL: Violation Minimum "in2", "battery_vent_small",
        "The openings that vent a flooded battery's compartment are too small.",
        "NEC 2008, 552.10(D) (a guide)";
    // Modes
    ENERGY_LOOP: Violation Maximum "W", "energy_loop",
        "A charger is fed by the battery it charges: every watt that goes round is paid for by the battery.",
        "conservation of energy";
    TWO_SOURCES_ON_BUS: Violation - -, "two_sources_on_bus",
        "Circuits of one bus bar are fed by two sources at once.",
        "NEC 2023, 551.30(B), 702.5 (from memory)";
    TWO_NEUTRAL_BONDS: Violation - -, "two_neutral_bonds",
        "Neutral and ground are joined at the source and in the trailer as well: neutral current flows in the chassis.",
        "NEC 2023, 250.24, 250.30, 551.54 (from memory)";
    NEUTRAL_NOT_BONDED: Caution - -, "neutral_not_bonded",
        "Neutral and ground are joined nowhere: a fault to the chassis does not open the breaker.",
        "NEC 2023, 250.30 (from memory)";
    GFCI_BEFORE_BOND: Caution - -, "gfci_before_bond",
        "A ground-fault outlet feeds a trailer in which neutral and ground are joined: it trips as soon as a load runs.",
        "common practice";
    SHARED_NEUTRAL_IN_PHASE: Violation Maximum "A", "shared_neutral_in_phase",
        "Two circuits share a neutral while both legs are in phase: the neutral carries the sum of both and nothing guards it.",
        "NEC 2023, 710.15(C) (from memory)";
    LOADS_WITHOUT_SOURCE: Note - -, "loads_without_source",
        "In a supply mode some loads have no power.",
        "common practice";
    CIRCUIT_NEVER_FED: Caution - -, "circuit_never_fed",
        "No supply mode feeds a circuit that has loads.",
        "common practice";
    // Solar
    PV_VOLTAGE_OVER_CONTROLLER: Violation Maximum "V", "pv_voltage_over_controller",
        "On the coldest day an array's voltage is above what the controller bears.",
        "NEC 2023, 690.7(A) (from memory)";
    PV_CURRENT_OVER_CONTROLLER: Violation Maximum "A", "pv_current_over_controller",
        "The arrays' short-circuit current is above what the controller bears.",
        "the maker's input rating";
    PV_CONDUCTOR_SMALL: Violation Minimum "A", "pv_conductor_small",
        "An array's wire may carry less than 156 % of its short-circuit current.",
        "NEC 2023, 690.8(B) (at second hand)";
    PV_DEVICE_SMALL: Violation Minimum "A", "pv_device_small",
        "An array's breaker or fuse is below 156 % of its short-circuit current.",
        "NEC 2023, 690.9(B) (from memory)";
    STRINGS_UNFUSED: Violation Maximum "A", "strings_unfused",
        "Strings in parallel can drive more current back into one of them than its modules bear, and no string has a fuse.",
        "NEC 2023, 690.9(A) (from memory)";
    STRING_FUSE_ABOVE_MODULE: Violation Maximum "A", "string_fuse_above_module",
        "A string's fuse is above the greatest one that the modules allow.",
        "NEC 2023, 690.9(B) (from memory); the module's label";
    STRING_FUSE_SMALL: Violation Minimum "A", "string_fuse_small",
        "A string's fuse is below 156 % of its short-circuit current.",
        "NEC 2023, 690.9(B) (from memory)";
    PV_VOLTAGE_LOW_WHEN_HOT: Caution Minimum "V", "pv_voltage_low_when_hot",
        "On the hottest day an array's working voltage is too near the battery's charging voltage.",
        "common practice";
    PV_DROP: Caution Maximum "fraction", "pv_drop",
        "An array's wire loses more than 3 % of its working voltage.",
        "common practice";
    PV_POWER_OVER_CONTROLLER: Note Maximum "A", "pv_power_over_controller",
        "The arrays' rated power is more than the controller can give to the battery.",
        "the maker's output rating";
    CONTROLLER_UNPROTECTED: Caution - -, "controller_unprotected",
        "No breaker or fuse is stated between controller and battery: a fault there draws on the battery.",
        "NEC 2023, 690.9(A) (from memory)";
    CONTROLLER_DEVICE_SMALL: Violation Minimum "A", "controller_device_small",
        "The breaker or fuse between controller and battery is below 125 % of the controller's rating.",
        "NEC 2023, 690.8(A), 690.9(B) (from memory)";
    CONTROLLER_CONDUCTOR_SMALL: Violation Minimum "A", "controller_conductor_small",
        "The wire between controller and battery may carry less than 125 % of the controller's rating.",
        "NEC 2023, 690.8(B) (at second hand)";
}

/// What is judged.
pub(super) struct Judged<'a> {
    pub build: &'a Build,
    pub wiring: &'a Wiring<'a>,
    pub numbers: &'a Numbers<'a>,
}

/// Less than this share of a limit left is little.
const TIGHT: f64 = 0.10;

/// Where a finding stands: at a member that the build gives, at the object around it where it does not.
fn within(object: &str, member: &str, given: bool) -> String {
    if given { format!("{object}/{member}") } else { object.to_owned() }
}

/// A load by its id, with how many there are of it.
fn counted(load: &Load) -> String {
    if load.quantity > 1.0 { format!("{} × {}", load.quantity, load.id) } else { load.id.to_owned() }
}

/// Holds a build against the rules.
pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    conductors::judge(judged, findings);
    devices::judge(judged, findings);
    outlets::judge(judged, findings);
    sources::judge(judged, findings);
    modes::judge(judged, findings);
    solar::judge(judged, findings);
}
