//! What a cooling load answers with.

use std::borrow::Cow;

use crate::document::Keyed;
use crate::report::{Assumption, Caution, Engine, Finding, report};

report! {
    /// The load hour by hour, what the given air conditioner makes of it, and the heat of a cold night.
    pub struct CoolingLoadReport {
        /// The hottest afternoon and the coldest night in two sentences, for whoever will camp in it.
        summary: String = "On the hottest afternoon, 91 °F outside on July 21, the air conditioner holds 76 °F and runs 9 hours of the day. On the coldest night, 4 °F outside, the box takes 6,290 BTU/h to stay at 64 °F; the heater gives 9,300 BTU/h.",
        /// The greatest load of the hot day with the box held at its set temperature and humidity.
        peak: PeakLoad,
        /// The hot day hour by hour, in local standard time.
        hours: Vec<HourLoad>,
        /// The warmest that the box gets on the hot day with the given air conditioner; `null` where there is none.
        held_f: Option<f64> = 76.1,
        /// Electricity that the given air conditioner takes on the hot day; `null` where there is none.
        cooling_kwh_per_day: Option<f64> = 3.4,
        /// The cold night.
        heating: HeatingLoad,
        /// The hot day and the cold night, and where they are from.
        design: DesignUsed,
        /// The given air conditioner on the hot day; `null` where there is none.
        cooler: Option<CoolerReport>,
        /// The smallest common size that holds the set temperature through the hot day, as efficient as the given one; `null`
        /// where none does.
        smallest_btu_h: Option<f64> = 5000.0,
        /// The warmest that the box gets on the hot day with nothing that cools it.
        uncooled_f: f64 = 104.2,
        /// The greatest sensible load by U-values alone, nothing stored: an upper bound, as a check. A box whose faces are all
        /// warm passes less on to its air than a room does that U-values are stated for.
        steady_peak_btu_h: f64 = 3460.0,
        /// How long the given air conditioner takes to cool a box that stood closed in the sun; `null` where there is none.
        pull_down: Option<PullDownReport>,
        /// What fan and open windows do without it on the hot day; `null` where there is neither.
        airing: Option<AiringReport>,
        /// What roof, walls, floor and windows let through.
        envelope: EnvelopeUsed,
        /// Heat set free inside in a mean hour of the hot day, by what gives it off: parts, and the losses of inverters and
        /// chargers.
        gains: Keyed<GainReport>,
        /// The supply mode that was looked at; `null` where the build has none.
        mode: Option<String> = "plugged_in",
        /// What each of a few single changes would come to on the hot day, the one that lowers the peak most first.
        changes: Vec<ChangeReport>,
        /// The insides of surfaces and windows on the cold night.
        condensation: Condensation,
        /// The weather given, month by month.
        months: Vec<MonthReport>,
        /// Every step of the network through the weather given, where `climate.detail` asks for it.
        trace: Option<TraceReport>,
        /// What the rules say, gravest first.
        findings: Vec<Finding>,
        /// Every default that was used.
        assumptions: Vec<Assumption>,
        /// What goes with every cooling load.
        cautions: &'static [Caution],
        /// What worked this out.
        engine: Engine,
    }
}

report! {
    /// The greatest load of a day, on the mean over an hour.
    #[derive(Copy)]
    pub struct PeakLoad {
        /// Heat that warms the air.
        sensible_btu_h: f64 = 3120.0,
        /// Heat that comes as water.
        latent_btu_h: f64 = 310.0,
        /// Both.
        total_btu_h: f64 = 3430.0,
        /// The hour in which it falls, in local standard time.
        hour: u32 = 15,
    }
}

report! {
    /// An hour of the hot day.
    #[derive(Copy)]
    pub struct HourLoad {
        /// The hour, in local standard time: it begins then.
        hour: u32 = 15,
        /// Air outside.
        outdoor_f: f64 = 91.0,
        /// Air inside with the given air conditioner, or with nothing where there is none.
        indoor_f: f64 = 76.0,
        /// The whole load with the box held at its set temperature.
        load_btu_h: f64 = 3430.0,
        /// Share of the hour in which the given air conditioner runs.
        run_fraction: f64 = 0.47,
        /// Heat of the load that warms the air.
        sensible_btu_h: f64 = 3120.0,
        /// Heat of the load that comes as water.
        latent_btu_h: f64 = 310.0,
        /// What the air conditioner draws on the mean.
        electric_w: f64 = 356.0,
        /// Relative humidity inside.
        humidity_fraction: f64 = 0.42,
        /// Air inside with nothing that cools.
        uncooled_f: f64 = 103.1,
        /// Where the sensible load comes from.
        parts: LoadParts,
    }
}

report! {
    /// Where a sensible load comes from: what comes in less what is stored is the load. Below 0 it goes out.
    #[derive(Copy)]
    pub struct LoadParts {
        /// Through the roof.
        roof_btu_h: f64 = 780.0,
        /// Through the floor.
        floor_btu_h: f64 = 320.0,
        /// Through the front.
        front_btu_h: f64 = 170.0,
        /// Through the rear.
        rear_btu_h: f64 = 330.0,
        /// Through the left side.
        left_btu_h: f64 = 480.0,
        /// Through the right side.
        right_btu_h: f64 = 410.0,
        /// Through windows by their warmth.
        windows_btu_h: f64 = 78.0,
        /// Sun through windows.
        sun_btu_h: f64 = 390.0,
        /// With the air that comes in.
        air_btu_h: f64 = 140.0,
        /// From people.
        people_btu_h: f64 = 440.0,
        /// From what draws power.
        equipment_btu_h: f64 = 150.0,
        /// From a flame.
        cooking_btu_h: f64 = 0.0,
        /// Radiated out through windows again, below 0.
        lost_btu_h: f64 = -8.0,
        /// Stored in air, lining and floor.
        stored_btu_h: f64 = 560.0,
    }
}

report! {
    /// The cold night, without sun and without anything else that heats.
    pub struct HeatingLoad {
        /// Heat that it takes.
        load_btu_h: f64 = 6290.0,
        /// Air outside.
        outdoor_f: f64 = 4.1,
        /// What the box is held at.
        indoor_f: f64 = 64.0,
        /// Through roof, walls and floor.
        opaque_btu_h: f64 = 5480.0,
        /// Through windows.
        windows_btu_h: f64 = 312.0,
        /// With the air that comes in.
        air_btu_h: f64 = 498.0,
        /// The load and a quarter of it, to warm the box up.
        with_warm_up_btu_h: f64 = 7860.0,
        /// What the given heater gives in that cold; `null` where there is none.
        capacity_btu_h: Option<f64> = 9300.0,
        /// The coldest outside at which the given heater holds its temperature; `null` where there is none, or where it holds in any
        /// cold.
        holds_to_f: Option<f64> = -24.6,
        /// Hours of the night that its energy is worked out for.
        night_h: f64 = 12.0,
        /// Heat of the night.
        night_btu: f64 = 75480.0,
        /// Electricity of the night; `null` where the heater does not heat by it.
        night_kwh: Option<f64> = 22.1,
        /// Propane of the night; `null` where the heater does not burn it.
        propane_lb: Option<f64> = 4.5,
        /// The same in gallons.
        propane_gal: Option<f64> = 1.06,
    }
}

report! {
    /// The hot day and the cold night.
    pub struct DesignUsed {
        /// Month of the hot day, 1 to 12.
        month: u32 = 7,
        /// Its day of the month.
        day: u32 = 21,
        /// Its warmest hour.
        max_f: f64 = 91.4,
        /// Its coldest hour.
        min_f: f64 = 64.0,
        /// Its dew point in the warmest hour.
        dew_point_f: f64 = 44.1,
        /// Its wet bulb in the warmest hour.
        wet_bulb_f: f64 = 60.3,
        /// Air of the cold night.
        night_f: f64 = 4.1,
        /// Where the hot day is from.
        hot_day: Cow<'static, str> = "design conditions of Golden, CO, 0 miles away: hotter in 0.4 percent of the hours of a year",
        /// Where the cold night is from.
        cold_night: Cow<'static, str> = "design conditions of Golden, CO, 0 miles away: colder in 1 percent of the hours of a year",
        /// Air pressure at the place.
        pressure_psi: f64 = 11.8,
    }
}

report! {
    /// The given air conditioner on the hot day.
    pub struct CoolerReport {
        /// Its rated capacity.
        capacity_btu_h: f64 = 8000.0,
        /// What it gives in the hour of the peak, moisture counted, while it runs.
        at_peak_btu_h: f64 = 7350.0,
        /// What of that lowers the temperature.
        sensible_at_peak_btu_h: f64 = 6700.0,
        /// Power it takes in then while it runs.
        power_at_peak_w: f64 = 742.0,
        /// What it gives that lowers the temperature, by the sensible load of that hour.
        margin_factor: f64 = 2.1,
        /// Hours of the day in which it runs.
        run_h: f64 = 9.1,
        /// Its greatest run fraction in an hour.
        busiest_run_fraction: f64 = 0.48,
        /// Temperature inside on the mean over the day.
        mean_f: f64 = 75.2,
        /// Hours of the day in which it is more than 1.8 °F above the set temperature.
        warm_h: f64 = 0.0,
        /// Relative humidity inside on the mean over the day.
        humidity_fraction: f64 = 0.44,
        /// Water that it takes out of the air in the day.
        condensate_gal: f64 = 0.4,
        /// Size by the room-area table for houses, as a comparison; `null` for a floor beyond the table.
        by_room_area_btu_h: Option<f64> = 5000.0,
        /// Was it beyond the conditions that its curves were measured in?
        extrapolated: bool = false,
    }
}

report! {
    /// Cooling a box that stood closed in the sun with nobody in it.
    #[derive(Copy)]
    pub struct PullDownReport {
        /// The hour at which it is switched on.
        start_hour: u32 = 15,
        /// Air inside before that.
        soaked_f: f64 = 101.8,
        /// Lining before that.
        soaked_lining_f: f64 = 100.2,
        /// How long until the air is at the set temperature; `null` where it takes more than a day.
        air_h: Option<f64> = 0.75,
        /// How long until the lining is within 5.4 °F of it; `null` where it takes more than a day.
        lining_h: Option<f64> = 1.5,
    }
}

report! {
    /// What fan and open windows do alone on the hot day.
    #[derive(Copy)]
    pub struct AiringReport {
        /// Air that the fan draws through the box.
        fan_cfm: f64 = 585.0,
        /// Air that goes through the box when it is warmest.
        flow_cfm: f64 = 585.0,
        /// The warmest that the box gets.
        warmest_f: f64 = 93.9,
        /// The greatest by which it is warmer than the air outside.
        above_outdoor_f: f64 = 2.8,
        /// The warmest that the box may be.
        limit_f: f64 = 86.0,
        /// Outdoor air up to which it stays so in the sun of the hot day.
        outdoor_limit_f: f64 = 83.2,
    }
}

report! {
    /// What roof, walls, floor and windows let through.
    pub struct EnvelopeUsed {
        /// Roof, walls and floor together, by the degree.
        opaque_btu_h_f: f64 = 92.9,
        /// Windows together.
        windows_btu_h_f: f64 = 5.2,
        /// The air that comes in on the hot day.
        air_btu_h_f: f64 = 9.3,
        /// The air that comes in on the hot day.
        air_cfm: f64 = 9.7,
        /// The room inside.
        volume_ft3: f64 = 728.0,
        /// Each surface.
        surfaces: Keyed<SurfaceUsed>,
        /// Hours after which the box has followed a change outside to 63 percent.
        time_constant_h: f64 = 3.2,
    }
}

report! {
    /// A surface of the box as it counts here.
    #[derive(Copy)]
    pub struct SurfaceUsed {
        /// Its area without windows.
        area_ft2: f64 = 112.0,
        /// What it holds back from air to air, framing counted.
        r_value: f64 = 9.0,
        /// Its warmest outside on the hot day: sol-air temperature.
        sol_air_f: f64 = 112.4,
    }
}

report! {
    /// Heat that something sets free in the box.
    #[derive(Copy)]
    pub struct GainReport {
        /// On the mean over the hot day.
        mean_w: f64 = 17.0,
        /// In the hour of the peak.
        at_peak_w: f64 = 17.0,
    }
}

report! {
    /// What a single change would come to on the hot day.
    pub struct ChangeReport {
        /// Its stable name.
        change: &'static str = "shade",
        /// What it is.
        meaning: &'static str = "standing in full shade",
        /// Greatest load with it.
        peak_btu_h: f64 = 2760.0,
        /// By how much it lowers the greatest load.
        peak_saved_btu_h: f64 = 670.0,
        /// The warmest that the box gets with the given air conditioner, or with nothing where there is none.
        warmest_f: f64 = 76.0,
        /// By how much it lowers that.
        warmest_lowered_f: f64 = 0.1,
        /// Electricity of the day; `null` where there is no air conditioner.
        cooling_kwh_per_day: Option<f64> = 2.7,
        /// By how much it lowers that.
        saved_kwh_per_day: Option<f64> = 0.7,
    }
}

report! {
    /// How damp the box is on the cold night, and which insides drip.
    pub struct Condensation {
        /// Dew point inside at rest, with the people, and a flame without a vent.
        dew_point_f: f64 = 45.0,
        /// Relative humidity inside.
        humidity_fraction: f64 = 0.5,
        /// Surfaces and windows.
        insides: Keyed<InsideReport>,
    }
}

report! {
    /// The inside of a surface or a window on the cold night.
    #[derive(Copy)]
    pub struct InsideReport {
        /// Its temperature.
        inside_f: f64 = 56.1,
        /// The coldest place of it, over a post; `null` where its layers do not say.
        coldest_f: Option<f64> = 33.4,
        /// Does water condense on it?
        drips: bool = false,
    }
}

report! {
    /// A month of the weather given.
    #[derive(Copy)]
    pub struct MonthReport {
        /// The month, 1 to 12.
        month: u32 = 7,
        /// Its year in the weather given; a typical year is laid in 2025.
        year: u32 = 2025,
        /// Electricity for cooling.
        cooling_kwh: f64 = 61.0,
        /// Hours in which the air conditioner runs.
        run_h: f64 = 150.0,
        /// Heat that the heater gives, whatever it takes in for that.
        heat_kwh: f64 = 3.0,
        /// The warmest that it gets inside.
        warmest_f: f64 = 76.3,
        /// The coldest that it gets inside.
        coldest_f: f64 = 64.0,
        /// Hours in which it is more than 1.8 °F above what the air conditioner is set to.
        warm_h: f64 = 0.0,
        /// Hours in which it is more than 1.8 °F below what the heater is set to.
        cold_h: f64 = 0.0,
    }
}

report! {
    /// Every step of the network through the weather given, in SI, for those who want to work it out again. Within a step all
    /// that drives it is constant.
    pub struct TraceReport {
        /// When the first step begins, in local standard time.
        start: String = "2025-07-01T00:00",
        /// Length of a step.
        step_min: u32 = 60,
        /// Heat capacity of the air and of what follows it at once.
        air_j_k: f64 = 62000.0,
        /// Heat capacity of lining, floor and furniture.
        mass_j_k: f64 = 550000.0,
        /// Heat capacity of the load on the floor; `null` without one.
        floor_load_j_k: Option<f64> = 131000.0,
        /// Conductance from the surfaces to the air.
        surface_to_air_w_k: f64 = 170.0,
        /// Conductance from the mass to the surfaces.
        mass_to_surface_w_k: f64 = 330.0,
        /// Conductance from outside to the mass.
        outside_to_mass_w_k: f64 = 57.0,
        /// Conductance of windows, from outdoor air to the surfaces.
        windows_w_k: f64 = 2.7,
        /// Conductance from the load on the floor to the surfaces; `null` without one.
        floor_load_to_surface_w_k: Option<f64> = 51.0,
        /// Air before the first step.
        air_before_c: f64 = 20.0,
        /// Lining before the first step.
        mass_before_c: f64 = 20.0,
        /// Load on the floor before the first step.
        floor_load_before_c: f64 = 20.0,
        /// Conductance of the air that comes in, through each step.
        ventilation_w_k: Vec<f64> = [4.4, 4.4],
        /// Air outside.
        outdoor_c: Vec<f64> = [18.0, 17.5],
        /// Sol-air temperature of roof, walls and floor together.
        equivalent_c: Vec<f64> = [17.1, 16.6],
        /// Heat into the air, what cools and heats counted.
        air_w: Vec<f64> = [85.0, 85.0],
        /// Heat into the surfaces.
        surface_w: Vec<f64> = [21.0, 21.0],
        /// Heat into the mass.
        mass_w: Vec<f64> = [63.0, 63.0],
        /// Heat from what cools (below 0) and heats.
        plant_w: Vec<f64> = [0.0, 0.0],
        /// Air at the end of each step.
        air_c: Vec<f64> = [21.0, 20.8],
        /// Lining at the end of each step.
        mass_c: Vec<f64> = [21.1, 20.9],
        /// Load on the floor at the end of each step.
        floor_load_c: Vec<f64> = [21.1, 20.9],
        /// Share of each step in which the air conditioner runs.
        run_fraction: Vec<f64> = [0.0, 0.0],
        /// What it draws.
        electric_w: Vec<f64> = [0.0, 0.0],
    }
}
