//! What an energy budget answers with.

use std::borrow::Cow;

use crate::document::Keyed;
use crate::report::{Assumption, Caution, Engine, Finding, report};

report! {
    /// Harvest, state of charge, days of autonomy and shortfall by month.
    pub struct EnergyBudgetReport {
        /// The answer in two sentences, for whoever will camp in it.
        summary: String = "In late October, arriving at 18:00 with a full battery and 3 grey days ahead, everything runs through the 5 days; the battery falls to 41 %.",
        /// What is asked of the battery in a mean day.
        load_wh_per_day: f64 = 640.0,
        /// Hours that the battery carries the loads without any sun, from the start of the stay on, its reserve left in it;
        /// `null` where it lasts longer than the weather given.
        autonomy_h: Option<f64> = 78.5,
        /// Month by month, in the order of the weather given; the battery is full at the start.
        months: Vec<MonthBalance>,
        /// The smallest rated power of arrays like those of the build that meets the target with this battery, the
        /// controller's limit lifted; `null` where no array can.
        smallest_array_w: Option<f64> = 262.4,
        /// The smallest battery of this kind that meets the target with these arrays, by its capacity; `null` where no
        /// battery for 30 days without sun or less can.
        smallest_bank_ah: Option<f64> = 143.0,
        /// How the two smallest sizes were looked for, and why there is none where there is none.
        sizing: Sizing,
        /// The weather that was used.
        weather: WeatherUsed,
        /// The supply mode that was looked at; `null` where the build has none.
        mode: Option<String> = "off_grid",
        /// What each part asks of the battery.
        loads: Keyed<LoadShare>,
        /// What the inverters take for themselves in a mean day.
        inverter_idle_wh_per_day: f64 = 432.0,
        /// The battery as it counts here.
        bank: BankUsed,
        /// How long it lasts without sun.
        autonomy: Autonomies,
        /// Days until the emptied battery is full again, from the start of the stay on; `null` where it takes more than 60.
        days_to_recover: Option<f64> = 6.2,
        /// The stay; `null` where the build says of none, or its day is not in the weather given.
        stay: Option<StayReport>,
        /// All of the weather given.
        total: MonthBalance,
        /// Each array.
        arrays: Keyed<ArrayHarvest>,
        /// Each source beside the sun.
        charging: Keyed<ChargingReport>,
        /// The budget worked out on one line, as a check; `null` where there is no array or no light.
        worksheet: Option<WorksheetReport>,
        /// How long the battery will last.
        life: LifeReport,
        /// Day by day, where `stay.detail` asks for it.
        days: Vec<DayBalance>,
        /// Step by step, where `stay.detail` asks for it.
        steps: Option<StepTrace>,
        /// What the rules say, gravest first.
        findings: Vec<Finding>,
        /// Every default that was used.
        assumptions: Vec<Assumption>,
        /// What goes with every energy budget.
        cautions: &'static [Caution],
        /// What worked this out.
        engine: Engine,
    }
}

report! {
    /// The energy of a month.
    #[derive(Copy)]
    pub struct MonthBalance {
        /// The month, 1 to 12.
        month: u32 = 10,
        /// Its year in the weather given; a typical year is laid in 2025.
        year: u32 = 2025,
        /// How many days of it the weather has.
        days: f64 = 31.0,
        /// What the arrays could give behind the controller.
        harvest_kwh: f64 = 38.2,
        /// What was asked of the battery.
        load_kwh: f64 = 19.9,
        /// What of the harvest nothing could take.
        spilled_kwh: f64 = 16.6,
        /// What other sources gave.
        other_kwh: f64 = 0.0,
        /// What was lost in the battery.
        lost_kwh: f64 = 0.9,
        /// What was asked for in vain.
        unmet_kwh: f64 = 0.0,
        /// Hours in which something was.
        unmet_h: f64 = 0.0,
        /// Lowest state of charge.
        lowest_soc: f64 = 0.62,
        /// Mean state of charge.
        mean_soc: f64 = 0.91,
        /// State of charge at its end.
        end_soc: f64 = 0.97,
        /// Light on the planes of the arrays in a mean day, as hours of full sun.
        sun_hours_per_day: f64 = 3.9,
        /// Hours that the first generator of the build would run to give what went unmet; `null` where there is none.
        generator_h: Option<f64> = 0.0,
    }
}

report! {
    /// The energy of a day.
    #[derive(Copy)]
    pub struct DayBalance {
        /// Its month, 1 to 12.
        month: u32 = 10,
        /// Its day of the month.
        day: u32 = 24,
        /// What the arrays could give behind the controller.
        harvest_wh: f64 = 1230.0,
        /// What was asked of the battery.
        load_wh: f64 = 640.0,
        /// What of the harvest nothing could take.
        spilled_wh: f64 = 520.0,
        /// What other sources gave.
        other_wh: f64 = 0.0,
        /// What was asked for in vain.
        unmet_wh: f64 = 0.0,
        /// Lowest state of charge.
        lowest_soc: f64 = 0.74,
        /// State of charge at its end.
        end_soc: f64 = 0.86,
    }
}

report! {
    /// Every step of the weather given, in order.
    pub struct StepTrace {
        /// When the first begins, in local standard time.
        start: String = "2025-01-01T00:00",
        /// Length of a step.
        step_min: u32 = 60,
        /// State of charge at the end of each.
        end_soc: Vec<f64> = [0.993, 0.986],
        /// What the arrays could give behind the controller, its limit left out.
        harvest_w: Vec<f64> = [0.0, 0.0],
        /// What was asked of the battery.
        load_w: Vec<f64> = [18.2, 18.2],
        /// What was asked for in vain.
        unmet_wh: Vec<f64> = [0.0, 0.0],
        /// Temperature of the battery at the end of each.
        battery_f: Vec<f64> = [48.0, 47.1],
    }
}

report! {
    /// How the smallest sizes were looked for.
    pub struct Sizing {
        /// Share of the load that may go unmet.
        max_unmet_fraction: f64 = 0.0,
        /// How the array was looked for, or why there is none.
        array: Cow<'static, str> = "halved to 0.1 W: with this battery more array never leaves more unmet",
        /// How the battery was looked for, or why there is none.
        bank: Cow<'static, str> = "tried from the largest down, to 3 percent: the cold takes part of it away, so that larger is not always better",
        /// The smallest battery, in whole strings of those of the build; `null` where their number is not given.
        bank_parallel: Option<u32> = 2,
    }
}

report! {
    /// The weather that was used.
    pub struct WeatherUsed {
        /// The form it was given in.
        form: &'static str = "place",
        /// What that is, and what it means for the answer.
        meaning: Cow<'static, str> = "A year made from the monthly means of Golden, CO (NREL typical year), with clear and grey days in a likely order.",
        /// Latitude the sun was reckoned for.
        latitude_deg: f64 = 39.74,
        /// Longitude the sun was reckoned for.
        longitude_deg: f64 = -105.18,
        /// How many steps it has.
        step_count: u32 = 8760,
        /// Length of a step.
        step_min: u32 = 60,
        /// How far the station is from the site; `null` where they are one, or the site does not say where it is.
        station_away_mi: Option<f64> = 12.0,
        /// Figures of a file that were missing and have been filled in.
        filled_count: u32 = 0,
    }
}

report! {
    /// What a part asks of the battery.
    #[derive(Copy)]
    pub struct LoadShare {
        /// Power at the battery while all there are of it run, losses of its inverter included.
        running_w: f64 = 50.0,
        /// What it takes in a mean day.
        load_wh_per_day: f64 = 286.0,
        /// Its share of all.
        load_fraction: f64 = 0.45,
    }
}

report! {
    /// The battery as it counts here.
    pub struct BankUsed {
        /// Energy it holds at its rated discharge.
        capacity_wh: f64 = 2560.0,
        /// The part of it that is used, warm.
        usable_wh: f64 = 2304.0,
        /// Capacity of each battery it is made of; `null` where their number is not given.
        each_ah: Option<f64> = 100.0,
        /// Voltage of each.
        each_v: Option<f64> = 12.8,
        /// Share of the current that a string carries whose resistance is a fifth below that of the others.
        uneven_string_fraction: Option<f64> = 0.545,
        /// Greatest charging current that was reckoned with.
        max_charge_a: f64 = 100.0,
        /// Its lowest temperature through the weather given.
        lowest_f: f64 = 14.0,
        /// Its highest.
        highest_f: f64 = 96.0,
    }
}

report! {
    /// How long the battery lasts without any sun or other source.
    pub struct Autonomies {
        /// When the first figures begin: the start of the stay, or of the weather given.
        start: String = "2025-10-24T18:00",
        /// State of charge then.
        start_soc: f64 = 1.0,
        /// Hours from then on, the reserve left in it.
        autonomy_h: Option<f64> = 78.5,
        /// Hours from then on with the reserve used up too.
        to_flat_h: Option<f64> = 87.0,
        /// The hour from which a full battery is used up soonest.
        worst_start: String = "2025-07-19T14:00",
        /// Hours from that one on.
        worst_autonomy_h: Option<f64> = 61.0,
        /// The same with the reserve used up too.
        worst_to_flat_h: Option<f64> = 68.0,
    }
}

report! {
    /// What a stay comes to.
    pub struct StayReport {
        /// When it begins, in local standard time.
        begins: String = "2025-10-24T18:00",
        /// How long it lasts.
        days: f64 = 5.0,
        /// How many of its first days are grey.
        grey_days: u32 = 3,
        /// What the arrays could give.
        harvest_wh: f64 = 2410.0,
        /// What is asked of the battery.
        load_wh: f64 = 3200.0,
        /// What of it goes unmet.
        unmet_wh: f64 = 0.0,
        /// Hours until something goes unmet; `null` where nothing does.
        lasts_h: Option<f64> = 96.5,
        /// Lowest state of charge.
        lowest_soc: f64 = 0.41,
        /// When that is.
        lowest_at: String = "2025-10-28T07:00",
        /// When the battery is full again; `null` where it is not by the end.
        full_again: Option<String> = "2025-10-29T13:00",
        /// State of charge at the end.
        end_soc: f64 = 0.93,
    }
}

report! {
    /// What one array gives.
    #[derive(Copy)]
    pub struct ArrayHarvest {
        /// What it could give behind the controller, the controller's limit left out.
        harvest_kwh: f64 = 512.0,
        /// Light on its plane in a mean day, as hours of full sun.
        sun_hours_per_day: f64 = 4.8,
        /// Direction it faces, the trailer's heading counted in.
        faces_deg: f64 = 180.0,
    }
}

report! {
    /// A source beside the sun.
    #[derive(Copy)]
    pub struct ChargingReport {
        /// Power it gives at the battery while it runs.
        output_w: f64 = 576.0,
        /// Hours in which it could run.
        available_h: f64 = 730.0,
    }
}

report! {
    /// The budget worked out on one line for the hardest month: no series, no steps.
    #[derive(Copy)]
    pub struct WorksheetReport {
        /// The month that asks for the largest array.
        month: u32 = 12,
        /// Hours of full sun in a mean day of it.
        sun_hours_per_day: f64 = 2.1,
        /// Load of a mean day of it.
        load_wh_per_day: f64 = 640.0,
        /// Array that covers such days.
        array_w: f64 = 395.0,
        /// Days without sun that the bank is for.
        days: f64 = 3.0,
        /// Bank that carries them.
        bank_ah: f64 = 166.0,
        /// How long the battery there is carries that load.
        autonomy_h: f64 = 84.0,
    }
}

report! {
    /// How long the battery will last.
    #[derive(Copy)]
    pub struct LifeReport {
        /// Energy drawn in a year, by its capacity.
        full_cycles_per_year: f64 = 71.0,
        /// Years until 80 percent of its capacity are left: by its cycles, each by its depth, or by its age.
        years: f64 = 12.0,
        /// Which of the two ends it: `cycles` or `age`.
        bound_by: &'static str = "age",
    }
}
