//! What circuit load answers with.

use crate::circuit_load::conductor::BoundBy;
use crate::document::Keyed;
use crate::report::{Assumption, Caution, Engine, Finding, report};

report! {
    /// What every circuit carries in every supply mode, what it needs, and what may run together.
    pub struct CircuitLoadReport {
        /// Each circuit in the mode in which it carries most.
        circuits: Keyed<CircuitSummary>,
        /// Each supply mode.
        modes: Keyed<ModeLoad>,
        /// The battery as a source of fault current; `null` where the build has no battery.
        battery: Option<BatteryFault>,
        /// The wiring of the solar arrays; `null` where the build has none.
        solar: Option<SolarWiring>,
        /// What the rules say, gravest first.
        findings: Vec<Finding>,
        /// Every default that was used.
        assumptions: Vec<Assumption>,
        /// What goes with every report on circuits.
        cautions: &'static [Caution],
        /// What worked this out.
        engine: Engine,
    }
}

report! {
    /// One circuit in the mode in which it carries most.
    pub struct CircuitSummary {
        /// That mode; `null` where no mode feeds the circuit.
        mode: Option<String> = "plugged_in",
        /// Rating of its breaker or fuse, as given.
        breaker_a: Option<f64> = 20.0,
        /// The smallest breaker or fuse that does.
        device_a: Option<f64> = 15.0,
        /// Size of its wire, as given.
        awg: Option<&'static str> = "12",
        /// What it carries with everything on.
        current_a: f64 = 10.0,
        /// What conductor and device must be made for.
        required_a: f64 = 10.0,
        /// What its wire may carry.
        ampacity_a: Option<f64> = 20.0,
        /// Share of the voltage lost on the way, cord and feeder not counted.
        drop_fraction: Option<f64> = 0.0053,
        /// The smallest wire that does in every mode.
        smallest_awg: Option<&'static str> = "12",
        /// What asks for that size: the current (`ampacity`), the voltage lost (`drop`), the breaker or fuse ahead
        /// (`device`), or the smallest size that is wanted or allowed (`minimum`).
        bound_by: Option<BoundBy> = "device",
    }
}

report! {
    /// One supply mode with every load on.
    pub struct ModeLoad {
        /// Each source that feeds a circuit in this mode.
        sources: Keyed<SourceLoad>,
        /// Each circuit that is fed.
        circuits: Keyed<CircuitInMode>,
        /// What may not run together: parts of which all but any one may, the fewest first. At most 100 are listed.
        conflicts: Vec<Vec<String>> = [["air_conditioner", "kettle"]],
        /// How many such conflicts there are.
        conflict_count: u32 = 1,
        /// What may run together: parts to which no other can be added, the most first. At most 100 are listed; none
        /// where they are not complete.
        largest_sets: Vec<Vec<String>> = [["air_conditioner", "refrigerator"]],
        /// How many such sets there are.
        largest_set_count: u32 = 2,
        /// Are conflicts and sets complete? Beyond 20 parts in conflicts only those of up to four parts are looked for.
        sets_exact: bool = true,
        /// Of all that may run together, the parts with the greatest sum of priorities.
        best_set: Vec<String> = ["air_conditioner", "refrigerator"],
        /// Parts that may run whatever else does.
        unrestricted: Vec<String> = ["lights"],
        /// Parts without power in this mode.
        unpowered: Vec<String> = ["roof_fan"],
    }
}

report! {
    /// One source in one mode.
    pub struct SourceLoad {
        /// What it gives with everything on; of two legs the more loaded. Of a battery with its inverters at what their
        /// own loads take.
        current_a: f64 = 27.6,
        /// The same with its inverters at their rated output, for which their cables are made.
        inverters_rated_a: f64 = 27.6,
        /// What it may give for hours; `null` where nothing limits it.
        limit_a: Option<f64> = 24.0,
        /// What sets that limit: `rating`, `mode`, `power`, or the name of a rating on its path.
        limited_by: Option<String> = "rating",
        /// The least rating on its path, which a short load may reach.
        rating_a: Option<f64> = 30.0,
        /// The part of the current that flows for three hours and more.
        continuous_a: f64 = 12.6,
        /// The power of everything on.
        power_w: f64 = 3150.0,
        /// Each leg of a 120/240 V supply, and their neutral; `null` for a supply of one leg.
        legs: Option<Legs>,
        /// The greatest demand while one load starts and all others run.
        start_va: f64 = 5200.0,
        /// The part that starts then.
        starter: Option<String> = "air_conditioner",
        /// What an inverter takes in with everything on; `null` for other sources.
        input_w: Option<f64> = 1350.0,
        /// That as current, at the voltage at which it shuts off.
        input_a: Option<f64> = 116.4,
        /// The voltage at its panel or bus bar with everything on, after cord or cable; `null` where the supply
        /// cannot hold the load.
        bus_v: Option<f64> = 117.6,
        /// Mean of the current over the day, from the hours of the loads.
        expected_a: f64 = 8.7,
        /// Chance, in the worst hour, that the loads on at one moment pass the rating, if they switch independently;
        /// `null` where a load does not say its hours, where there is no rating, and where there are too many loads.
        trip_risk: Option<f64> = 0.15,
        /// Hour by hour, where a load says in which hours it runs; empty elsewhere.
        hours: Vec<HourDemand>,
    }
}

report! {
    /// The legs of a 120/240 V supply.
    pub struct Legs {
        /// What the first leg carries.
        a_a: f64 = 31.5,
        /// What the second leg carries.
        b_a: f64 = 18.0,
        /// What the neutral carries.
        neutral_a: f64 = 13.5,
        /// Are the legs in phase, so that the neutral carries their sum?
        in_phase: bool = false,
        /// How far a leg is from their mean, as a share of it.
        imbalance_fraction: f64 = 0.2727,
        /// Voltage of the first leg at the panel.
        a_v: f64 = 118.9,
        /// Voltage of the second leg at the panel.
        b_v: f64 = 119.8,
    }
}

report! {
    /// The demand on a source in one hour of the day.
    pub struct HourDemand {
        /// The hour, from midnight.
        hour: u32 = 18,
        /// Mean of the current.
        expected_a: f64 = 11.2,
        /// The current of everything that may be on in this hour.
        peak_a: f64 = 27.6,
        /// Chance that the loads on at one moment pass the rating; `null` where there is no rating.
        trip_risk: Option<f64> = 0.15,
    }
}

report! {
    /// One circuit in one mode.
    pub struct CircuitInMode {
        /// The source that feeds it.
        source: String = "shore",
        /// The voltage it is fed with.
        voltage_v: f64 = 120.0,
        /// What it carries with everything on.
        current_a: f64 = 10.0,
        /// What conductor and device must be made for: all, and a quarter more of what is continuous and of the
        /// greatest motor.
        required_a: f64 = 10.0,
        /// Currents added up with regard to phase.
        phasor_a: f64 = 9.9,
        /// The power of everything on.
        power_w: f64 = 1200.0,
        /// The size that ampacity and drop are worked out for: its own, or the smallest that does where it names none.
        awg: Option<&'static str> = "12",
        /// What that wire may carry; `null` where the table has no such wire.
        ampacity_a: Option<f64> = 20.0,
        /// Voltage lost out and back, at 75 °C of the conductor; `null` where the length of the wire is not given.
        drop_v: Option<f64> = 0.63,
        /// That as a share of the voltage it is fed with.
        drop_fraction: Option<f64> = 0.0053,
        /// The same with cord, cable and feeder ahead of it.
        total_drop_fraction: Option<f64> = 0.021,
        /// Temperature that its conductor settles at; `null` where it is not known.
        conductor_f: Option<f64> = 88.4,
        /// Voltage lost at that temperature: what a meter would show, where `drop_v` is for the verdict.
        expected_drop_v: Option<f64> = 0.54,
        /// What arrives at its end while everything on the source runs, loads that keep their power drawing more;
        /// `null` where the supply cannot hold the load.
        arriving_v: Option<f64> = 116.9,
        /// The smallest wire that does.
        smallest_awg: Option<&'static str> = "12",
        /// What asks for that size: the current (`ampacity`), the voltage lost (`drop`), the breaker or fuse ahead
        /// (`device`), or the smallest size that is wanted or allowed (`minimum`).
        bound_by: Option<BoundBy> = "device",
        /// The smallest wire by ampacity alone.
        by_ampacity_awg: Option<&'static str> = "14",
        /// The smallest wire by voltage drop alone.
        by_drop_awg: Option<&'static str> = "14",
        /// The smallest breaker or fuse that does.
        device_a: Option<f64> = 15.0,
        /// The share of its breaker or fuse that is left.
        margin_fraction: Option<f64> = 0.5,
        /// The smallest equipment grounding conductor, copper; `null` for direct current.
        grounding_awg: Option<&'static str> = "12",
        /// Current of a short circuit at its device, for circuits of a battery.
        fault_a: Option<f64> = 1450.0,
        /// How long the wire bears that current, insulation rated for 75 °C and damaged at 150 °C, where it is under 2 s.
        withstand_s: Option<f64> = 0.157,
    }
}

report! {
    /// The battery as a source of fault current.
    pub struct BatteryFault {
        /// Voltage at rest and full.
        open_circuit_v: f64 = 13.3,
        /// Resistance between its terminals.
        resistance_mohm: f64 = 2.0,
        /// Current of a short circuit at its terminals.
        fault_a: f64 = 6650.0,
        /// Greatest voltage it is charged at.
        charge_v: f64 = 14.6,
        /// Least interrupting rating of a main device by its cold-cranking rating, where that is given.
        main_interrupting_a: Option<f64> = 1500.0,
        /// The same of a branch device.
        branch_interrupting_a: Option<f64> = 750.0,
    }
}

report! {
    /// The wiring of the solar arrays.
    pub struct SolarWiring {
        /// Each array whose modules' voltage and current are given.
        arrays: Keyed<ArrayWiring>,
        /// The side of the controller toward the battery; `null` where there is no controller.
        controller: Option<ControllerWiring>,
    }
}

report! {
    /// The wiring of one array.
    pub struct ArrayWiring {
        /// Open-circuit voltage of a string on the coldest day.
        cold_voltage_v: Option<f64> = 54.7,
        /// Voltage of a string at its greatest power on the hottest day.
        hot_voltage_v: Option<f64> = 32.6,
        /// Short-circuit current of all strings, and a quarter more for bright sky.
        most_current_a: Option<f64> = 13.0,
        /// What conductor and device must be made for.
        required_a: Option<f64> = 16.25,
        /// Current that the other strings can drive back into one.
        backfeed_a: Option<f64> = 0.0,
        /// Must each string have a fuse? `null` where the module's label is not given.
        string_fuse_needed: Option<bool> = false,
        /// The smallest fuse of a string.
        string_fuse_a: Option<f64> = 20.0,
        /// What its wire may carry.
        ampacity_a: Option<f64> = 30.0,
        /// Voltage lost on the way at the working current.
        drop_fraction: Option<f64> = 0.012,
        /// The smallest wire that does.
        smallest_awg: Option<&'static str> = "12",
        /// What asks for that size.
        bound_by: Option<BoundBy> = "ampacity",
    }
}

report! {
    /// The side of the controller toward the battery.
    pub struct ControllerWiring {
        /// Greatest open-circuit voltage of an array on the coldest day.
        cold_voltage_v: Option<f64> = 54.7,
        /// Short-circuit current of all arrays.
        short_circuit_a: Option<f64> = 10.4,
        /// What it gives to the battery from the rated power of all arrays, at most its own rating.
        output_a: f64 = 30.3,
        /// What conductor and device must be made for: its rating and a quarter more.
        required_a: f64 = 50.0,
        /// The smallest breaker or fuse that does.
        device_a: Option<f64> = 50.0,
        /// What its wire may carry.
        ampacity_a: Option<f64> = 60.0,
        /// Voltage lost on the way.
        drop_fraction: Option<f64> = 0.011,
        /// The smallest wire that does.
        smallest_awg: Option<&'static str> = "8",
        /// What asks for that size.
        bound_by: Option<BoundBy> = "ampacity",
    }
}
