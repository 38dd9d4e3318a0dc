//! Sizing in closed form: a quick answer, and a check on the simulation.
//!
//! Counts of modules, cells and strings come unrounded; round them up, or down where said.

/// Energy the bus must be given per day, what the night needs passing through the battery.
///
/// `D = D_day + D_night / η`
///
/// - `day_wh`, `night_wh`  loads while the sun shines and while it does not [Wh/d], 0 or more
/// - `efficiency`          of the battery, in and out η, above 0, to 1
///
/// Returns D [Wh/d].
///
/// Source: energy balance of a day.
pub fn daily_wh(day_wh: f64, night_wh: f64, efficiency: f64) -> f64 {
    day_wh + night_wh / efficiency
}

/// Rated array power that covers a day's loads.
///
/// `P = D / (H η)`
///
/// - `daily_wh`   loads of a day D [Wh/d], from [`daily_wh`]
/// - `sun_h`      irradiation on the array's plane in the worst month, in hours of 1000 W/m² H [h/d], above 0
/// - `efficiency` what is left of the rated power η, above 0: the product of the factors for temperature, losses, charge
///   and tracking
///
/// Returns P [W].
///
/// Source: energy balance of a day.
pub fn daily_array_w(daily_wh: f64, sun_h: f64, efficiency: f64) -> f64 {
    daily_wh / (sun_h * efficiency)
}

/// Battery that carries a day's loads for some days without sun.
///
/// `E = D n / (d η)`
///
/// - `daily_wh`    loads of a day D [Wh/d]
/// - `days`        days without sun n, 0 or more
/// - `most_depth`  greatest depth of discharge d, above 0, to 1
/// - `efficiency`  of discharge η, above 0, to 1
///
/// Returns E [Wh].
///
/// Source: energy balance.
pub fn daily_bank_wh(daily_wh: f64, days: f64, most_depth: f64, efficiency: f64) -> f64 {
    daily_wh * days / (most_depth * efficiency)
}

/// Hours a battery carries a constant load without sun.
///
/// `h = E (s − s_min) η / P`
///
/// - `capacity_wh`  E [Wh], 0 or more
/// - `charge`       state of charge at the start s, 0 to 1
/// - `least_charge` state of charge at which discharge ends s_min, 0 to 1
/// - `efficiency`   of discharge η, above 0, to 1
/// - `load_w`       mean load P with the inverter's idle draw and self-discharge [W], above 0
///
/// Returns h [h]; 0 where the battery starts below its least charge.
///
/// Source: energy balance.
pub fn autonomy_h(capacity_wh: f64, charge: f64, least_charge: f64, efficiency: f64, load_w: f64) -> f64 {
    capacity_wh * (charge - least_charge).max(0.0) * efficiency / load_w
}

/// Mean days until an emptied battery is full again.
///
/// `n = E (1 − s_min) / (η H − D)`
///
/// - `capacity_wh`, `least_charge`  as in [`autonomy_h`]
/// - `efficiency`                   of charge η, above 0, to 1
/// - `harvest_wh`                   mean harvest H [Wh/d], 0 or more
/// - `daily_wh`                     loads of a day D [Wh/d], 0 or more
///
/// Returns n; none where the harvest does not exceed the loads.
///
/// Source: energy balance of mean days.
pub fn recovery_days(
    capacity_wh: f64,
    least_charge: f64,
    efficiency: f64,
    harvest_wh: f64,
    daily_wh: f64,
) -> Option<f64> {
    let gained_wh = efficiency * harvest_wh - daily_wh;
    (gained_wh > 0.0).then(|| capacity_wh * (1.0 - least_charge) / gained_wh)
}

/// What a lead-acid battery is held to, for [`lead_acid_ah`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DepthLimits {
    /// Greatest depth of discharge over the days without sun, above 0, to 1.
    pub most: f64,
    /// Greatest depth of discharge of one day, above 0, to 1.
    pub most_daily: f64,
    /// Share of the capacity left at the end of life, above 0, to 1; 0.8 is usual.
    pub end_of_life: f64,
}

/// Lead-acid capacity before temperature and margin.
///
/// `C = max(Q n / d, Q / d_1, Q n / e)`
///
/// - `daily_ah`  loads of a day Q [Ah/d], 0 or more
/// - `days`      days without sun n: 5 to 7 for loads that may fail, 7 to 14 for others or in poor sun; 1 to 3 where there
///   are other sources (`common practice`)
/// - `limits`    d, d_1 and e
///
/// Returns C [Ah].
///
/// Source: IEEE 1013, `from memory`.
pub fn lead_acid_ah(daily_ah: f64, days: f64, limits: DepthLimits) -> f64 {
    let needed_ah = daily_ah * days;
    (needed_ah / limits.most).max(daily_ah / limits.most_daily).max(needed_ah / limits.end_of_life)
}

/// Lead-acid capacity for the cold, with a margin.
///
/// `C' = C m g`
///
/// - `capacity_ah`  C [Ah], from [`lead_acid_ah`]
/// - `multiplier`   for the coldest temperature m, from
///   [`lead_acid_multiplier`](super::battery_temperature::lead_acid_multiplier)
/// - `margin`       for what is not known g, 1.10 to 1.25
///
/// Returns C' [Ah].
///
/// Source: as [`lead_acid_ah`].
pub fn corrected_lead_acid_ah(capacity_ah: f64, multiplier: f64, margin: f64) -> f64 {
    capacity_ah * multiplier * margin
}

/// Hours at whose rating a battery is chosen.
///
/// `H = C / I`
///
/// - `capacity_ah`  C [Ah]
/// - `current_a`    greatest steady current I [A], above 0
///
/// Returns H [h].
///
/// Source: as [`lead_acid_ah`].
pub fn functional_rate_h(capacity_ah: f64, current_a: f64) -> f64 {
    capacity_ah / current_a
}

/// Cells in series that the loads' greatest voltage allows.
///
/// `N = V / V_c`
///
/// - `most_v`           greatest voltage the loads bear V [V]
/// - `charging_cell_v`  voltage of a cell in charge V_c [V], above 0
///
/// Returns N; round it down. At the end of discharge each cell then stands at the loads' least voltage over N.
///
/// Source: as [`lead_acid_ah`].
pub fn cells_in_series(most_v: f64, charging_cell_v: f64) -> f64 {
    most_v / charging_cell_v
}

/// Batteries or strings of them in parallel.
///
/// `N = C / C_1`
///
/// - `capacity_ah`  C [Ah]
/// - `string_ah`    capacity of one C_1 at the same hours [Ah], above 0
///
/// Returns N; round it up.
///
/// Source: as [`lead_acid_ah`].
pub fn parallel_batteries(capacity_ah: f64, string_ah: f64) -> f64 {
    capacity_ah / string_ah
}

/// Modules in parallel, by charge per day.
///
/// `N = L A / [(1 − S) H I_mp]`
///
/// - `daily_ah`       loads of a day L [Ah/d], 0 or more
/// - `array_to_load`  what the array brings over what the loads take A: 1.1 to 1.2, for critical loads 1.3 to 1.4
/// - `losses`         share lost S, 0 or more and below 1: 0.1 to 0.2
/// - `sun_h`          as in [`daily_array_w`]
/// - `module_a`       current of a module at maximum power I_mp [A], above 0
///
/// Returns N; round it up.
///
/// Source: IEEE 1562, `from memory`.
pub fn parallel_modules(daily_ah: f64, array_to_load: f64, losses: f64, sun_h: f64, module_a: f64) -> f64 {
    daily_ah * array_to_load / ((1.0 - losses) * sun_h * module_a)
}

/// Modules behind a controller that tracks the maximum power point, by energy per day.
///
/// `N = L A / [(1 − S) H P_mp]`
///
/// - `daily_wh`  loads of a day L [Wh/d], 0 or more
/// - `array_to_load`, `losses`, `sun_h`  as in [`parallel_modules`]
/// - `module_w`  power of a module at maximum power when hot P_mp [W], above 0
///
/// Returns N; round it up.
///
/// Source: as [`parallel_modules`].
pub fn tracked_modules(daily_wh: f64, array_to_load: f64, losses: f64, sun_h: f64, module_w: f64) -> f64 {
    daily_wh * array_to_load / ((1.0 - losses) * sun_h * module_w)
}

/// Modules in series that reach the battery's voltage in charge.
///
/// `N = V / V_mp`
///
/// - `charging_v`  greatest voltage of the battery in charge V [V]
/// - `hot_mp_v`    voltage of a module at maximum power when hot V_mp [V], above 0
///
/// Returns N; round it up.
///
/// Source: as [`parallel_modules`].
pub fn series_modules(charging_v: f64, hot_mp_v: f64) -> f64 {
    charging_v / hot_mp_v
}

/// Efficiency of the wires on the Sandia worksheets, where none is known.
///
/// Source: Stand-Alone Photovoltaic Systems, SAND87-7023.
pub const WIRE_EFFICIENCY: f64 = 0.98;
/// Charge a battery gives back over that put in, on the same worksheets.
///
/// Source: as [`WIRE_EFFICIENCY`].
pub const BATTERY_EFFICIENCY: f64 = 0.90;

/// Loads of a day with what wires and battery lose.
///
/// `Q = W / V / (η_w η_b)`
///
/// - `daily_wh`            loads of a day W [Wh/d], 0 or more
/// - `bus_v`               voltage of the bus V [V], above 0
/// - `wire_efficiency`     η_w, above 0, to 1, for instance [`WIRE_EFFICIENCY`]
/// - `battery_efficiency`  η_b, above 0, to 1, for instance [`BATTERY_EFFICIENCY`]
///
/// Returns Q [Ah/d].
///
/// Source: as [`WIRE_EFFICIENCY`].
pub fn corrected_daily_ah(daily_wh: f64, bus_v: f64, wire_efficiency: f64, battery_efficiency: f64) -> f64 {
    daily_wh / bus_v / (wire_efficiency * battery_efficiency)
}

/// Current the array must bring, of the worst month.
///
/// `I = max(Q / H)`
///
/// - `months`  loads of a day Q [Ah/d] from [`corrected_daily_ah`], and sun H [h/d] as in [`daily_array_w`], of each month
///
/// Returns I [A]; 0 of no months. Of several tilts (latitude − 15°, latitude, latitude + 15°) that with the least I is
/// chosen.
///
/// Source: as [`WIRE_EFFICIENCY`].
pub fn design_a(months: &[(f64, f64)]) -> f64 {
    months.iter().map(|(daily_ah, sun_h)| daily_ah / sun_h).fold(0.0, f64::max)
}

/// Battery that carries the corrected loads for some days.
///
/// `C = Q n / (d t)`
///
/// - `corrected_ah`  loads of a day Q [Ah/d], from [`corrected_daily_ah`]
/// - `days`          days without sun n, 0 or more
/// - `most_depth`    greatest depth of discharge d, above 0, to 1
/// - `cold_share`    share of the capacity left in the cold t, above 0, to 1
///
/// Returns C [Ah].
///
/// Source: as [`WIRE_EFFICIENCY`].
pub fn storage_ah(corrected_ah: f64, days: f64, most_depth: f64, cold_share: f64) -> f64 {
    corrected_ah * days / most_depth / cold_share
}

/// Modules in parallel for a design current.
///
/// `N = I / (f I_mp)`
///
/// - `design_a`      I [A], from [`design_a`]
/// - `module_share`  share of its rated current that a module brings f, above 0, to 1
/// - `module_a`      current of a module at maximum power I_mp [A], above 0
///
/// Returns N; round it up.
///
/// Source: as [`WIRE_EFFICIENCY`].
pub fn design_modules(design_a: f64, module_share: f64, module_a: f64) -> f64 {
    design_a / (module_share * module_a)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::energy_budget::battery_temperature::lead_acid_multiplier;

    fn fahrenheit(f: f64) -> f64 {
        (f - 32.0) / 1.8
    }

    #[test]
    fn a_day_in_balance() {
        assert_eq!(daily_wh(600.0, 360.0, 0.9), 1000.0);
        assert!((daily_array_w(1000.0, 4.0, 0.8) - 312.5).abs() < 1e-12);
        assert_eq!(daily_bank_wh(1000.0, 2.0, 0.8, 1.0), 2500.0);
    }

    /// Public worksheet of the simplified IEEE method: 1000 Wh a day, 2.5 days, half discharged, 40 °F.
    #[test]
    fn a_public_worksheet() {
        let bank_wh = daily_bank_wh(1000.0, 2.5, 0.5, 1.0) * lead_acid_multiplier(fahrenheit(40.0));
        assert_eq!(format!("{bank_wh:.0} {:.1}", bank_wh / 12.0), "6500 541.7");
    }

    /// An example of our own: 100 Ah a day, 3 days, 50 °F.
    #[test]
    fn lead_acid_step_by_step() {
        let limits = DepthLimits { most: 0.8, most_daily: 0.2, end_of_life: 0.8 };
        let depth_ah = lead_acid_ah(100.0, 3.0, limits);
        assert_eq!(depth_ah, 500.0);
        assert!((lead_acid_ah(100.0, 3.0, DepthLimits { most_daily: 0.5, ..limits }) - 375.0).abs() < 1e-12);
        let most = DepthLimits { most: 0.5, most_daily: 1.0, end_of_life: 0.8 };
        assert_eq!(lead_acid_ah(100.0, 3.0, most), 600.0);
        let end_of_life = DepthLimits { most: 1.0, most_daily: 1.0, end_of_life: 0.8 };
        assert!((lead_acid_ah(100.0, 3.0, end_of_life) - 375.0).abs() < 1e-12);
        let capacity_ah = corrected_lead_acid_ah(depth_ah, lead_acid_multiplier(fahrenheit(50.0)), 1.10);
        assert_eq!(format!("{capacity_ah:.1}"), "654.5");
        assert_eq!(functional_rate_h(capacity_ah, 10.0).floor(), 65.0);
        assert_eq!(cells_in_series(14.7, 2.4).floor(), 6.0);
        assert_eq!(parallel_batteries(capacity_ah, 220.0).ceil(), 3.0);
    }

    /// An example of our own: modules of 100 W.
    #[test]
    fn modules_by_the_hours_of_sun() {
        let parallel = parallel_modules(100.0, 1.2, 0.15, 4.2, 5.56);
        assert_eq!(format!("{parallel:.3} {}", parallel.ceil()), "6.046 7");
        let tracked = tracked_modules(1200.0, 1.2, 0.15, 4.2, 90.0);
        assert_eq!(format!("{tracked:.3}"), "4.482");
        assert_eq!(series_modules(14.4, 15.4).ceil(), 1.0);
        assert_eq!(series_modules(28.8, 15.4).ceil(), 2.0);
    }

    /// An example of our own: 40 Ah a day at 12 V.
    #[test]
    fn the_sandia_worksheet() {
        let corrected_ah = corrected_daily_ah(480.0, 12.0, WIRE_EFFICIENCY, BATTERY_EFFICIENCY);
        assert_eq!(format!("{corrected_ah:.3}"), "45.351");
        let current_a = design_a(&[(corrected_ah, 5.5), (corrected_ah, 4.2), (0.5 * corrected_ah, 3.0)]);
        assert_eq!(format!("{current_a:.3}"), "10.798");
        assert_eq!(format!("{:.2}", storage_ah(corrected_ah, 3.0, 0.8, 0.9)), "188.96");
        assert_eq!(design_modules(current_a, 0.9, 5.56).ceil(), 3.0);
        assert_eq!(design_a(&[]), 0.0);
        assert_eq!(design_a(&[(40.0, 0.0)]), f64::INFINITY);
    }

    #[test]
    fn without_sun_a_battery_lasts_as_long_as_it_holds() {
        assert!((autonomy_h(1280.0, 1.0, 0.1, 0.98, 50.0) - 22.5792).abs() < 1e-12);
        assert_eq!(autonomy_h(1280.0, 0.05, 0.1, 0.98, 50.0), 0.0);
        assert_eq!(autonomy_h(1280.0, 1.0, 0.1, 0.98, 0.0), f64::INFINITY);
    }

    #[test]
    fn a_battery_recovers_only_where_the_sun_brings_more_than_the_loads_take() {
        let days = recovery_days(1280.0, 0.1, 0.98, 1500.0, 894.0).unwrap();
        assert!((days - 2.0).abs() < 1e-12);
        assert_eq!(recovery_days(1280.0, 0.1, 1.0, 900.0, 900.0), None);
    }
}
