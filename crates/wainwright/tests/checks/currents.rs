//! Currents of loads, constant power, inverters, starting and margins.

use super::rows::rows;
use wainwright::circuit_load::constant_power::{behind, most_w};
use wainwright::circuit_load::current::*;
use wainwright::circuit_load::inverter::{Losses, efficiency, input_a, input_w};
use wainwright::circuit_load::starting::{starting_a, worst_start};
use wainwright::units::w;

/// An inverter of 88 % that takes 20 W with nothing plugged in.
fn inverter() -> Losses {
    Losses::from_efficiency(20.0, 0.88)
}

/// Running VA and starting multiple of refrigerator, charger, lamps and air conditioner.
const SURGE_VA: [(f64, f64); 4] = [(80.0, 1.0), (60.0, 1.0), (20.0, 1.0), (4.2 * 120.0, 5.0)];

fn surge_va() -> f64 {
    worst_start(SURGE_VA.into_iter()).0
}

rows! {
    i_resistive "i_resistive" => format!("{:.4} A", resistive_a(1500.0, 120.0, 120.0));
    i_resistive_low_v "i_resistive_low_v" => format!(
        "{:.1} W, {:.4} A",
        resistive_w(1500.0, 120.0, 108.0),
        resistive_a(1500.0, 120.0, 108.0),
    );
    i_pf "i_pf" => format!("{:.4} A", power_factor_a(455.0, 120.0, 0.95));
    i_motor "i_motor" => format!("{:.4} A", motor_a(w(0.5), 115.0, 0.62, 0.66));
    charger_ac "charger_ac" => format!(
        "{:.4} A / {:.4} A",
        charger_a(13.8, 40.0, 0.85, 0.98, 120.0),
        charger_a(13.8, 40.0, 0.85, 0.70, 120.0),
    );
    pf_thd "pf_thd" => format!("{:.4}", rectifier_power_factor(0.98, 0.80));
    const_power "const_power" => {
        let arrival = behind(12.8, 0.010, 1383.6).unwrap();
        format!("{:.4} V, {:.3} A", arrival.voltage_v, arrival.current_a)
    };
    const_power_limit "const_power_limit" => format!(
        "Pmax = Vs^2/4R = {:.0} W; 1801 W -> {:?}",
        most_w(12.0, 0.02),
        behind(12.0, 0.02, 1801.0),
    );
    inverter_dc "inverter_dc" => format!(
        "{:.2} W, {:.3} A",
        input_w(&inverter(), 1200.0),
        input_a(&inverter(), 1200.0, 12.0),
    );
    inverter_dc_low "inverter_dc_low" => format!("{:.3} A", input_a(&inverter(), 1200.0, 10.5));
    inverter_nec "inverter_nec" => {
        let current_a = input_a(&Losses::from_efficiency(0.0, 0.85), 2500.0, 22.0);
        let required_a = required_a(0.0, current_a);
        format!("{current_a:.2}; {required_a:.2}; {:.1} A", required_a / 0.71)
    };
    inverter_quad "inverter_quad" => {
        let losses = Losses { idle_w: 12.0, linear: 1.03, quadratic_per_w: 2.5e-5 };
        [100.0, 1000.0, 2000.0]
            .map(|p| format!("{:.1} W eff {:.4}", input_w(&losses, p), efficiency(&losses, p)))
            .join("; ")
    };
    microwave_on_15 "microwave_on_15" => {
        let current_a = resistive_a(1500.0, 120.0, 120.0);
        assert!(over(current_a, 12.0));
        format!("{current_a:.2} A, over by {:.2} A", current_a - 12.0)
    };
    margin_ "margin" => format!("{:.4}", margin(13.7, 15.0));
    surge "surge" => format!(
        "{:.0} VA start, {:.0} VA total, margin {:.4}",
        starting_a(4.2 * 120.0, 5.0),
        surge_va(),
        margin(surge_va(), 4000.0),
    );
    surge_dc "surge_dc" => {
        let input_w = input_w(&Losses::from_efficiency(0.0, 0.85), surge_va());
        let arrival = behind(12.8, 0.006, input_w).unwrap();
        format!("{:.4} V, {:.3} A", arrival.voltage_v, arrival.current_a)
    };
}
