//! Faults, converters, solar wiring and split phase.

use super::rows::rows;
use wainwright::circuit_load::converter::{demand_a, loop_net_w};
use wainwright::circuit_load::current::{Phasor, power_factor_a};
use wainwright::circuit_load::fault::*;
use wainwright::circuit_load::inverter::{Losses, input_w};
use wainwright::circuit_load::solar_wiring::*;
use wainwright::circuit_load::split_phase::{Legs, imbalance, neutral_a, solve};
use wainwright::units::mm2;

/// Loop of 6 ft of 2/0 copper at 20 °C [Ω] (NFPA 70 Chapter 9, Table 8).
const LOOP_2_0_OHM: f64 = 6.0 * 0.0967e-3 * (1.0 + 0.00323 * (20.0 - 75.0));

/// Amperes a circular mil of copper bears for one second up to 250 °C.
fn withstand_a_per_cmil(from_c: f64) -> f64 {
    withstand_a(mm2(1.0), 1.0, from_c, 250.0, Withstand::COPPER)
}

/// Loads of 7.5 and 12 Ω through 0.05 Ω a line.
fn legs(source_b_v: f64, neutral_ohm: Option<f64>) -> Legs {
    solve(120.0, source_b_v, Some(7.5), Some(12.0), 0.05, neutral_ohm)
}

fn legs_text(legs: Legs, neutral_decimals: usize) -> String {
    let Legs { a_v, b_v, a_a, b_a, neutral_a } = legs;
    format!("Va {a_v:.4} Vb {b_v:.4} Ia {a_a:.4} Ib {b_a:.4} In {neutral_a:.neutral_decimals$}")
}

fn solar_currents(isc_a: f64) -> (f64, f64) {
    (most_current_a(1, isc_a), conductor_a(most_current_a(1, isc_a)))
}

rows! {
    isc_batt "isc_batt" => format!("{:.0} A", battery_fault_a(13.3, 0.003, LOOP_2_0_OHM));
    isc_batt_term "isc_batt_term" => format!("{:.0} A", battery_fault_a(13.3, 0.003, 0.0));
    isc_cca "isc_cca" => format!(
        "{:.3} mohm, {:.0} A",
        resistance_from_cold_cranking_ohm(12.6, 650.0) * 1e3,
        fault_from_cold_cranking_a(12.6, 650.0),
    );
    icea "icea" => format!(
        "{:.1} A; {:.0} A",
        withstand_a(mm2(6530.0), 1.0, 75.0, 150.0, Withstand::COPPER),
        withstand_a(mm2(41_740.0), 0.1, 90.0, 250.0, Withstand::COPPER),
    );
    icea_k "icea_k" => format!("{:.5}, {:.5}", withstand_a_per_cmil(90.0), withstand_a_per_cmil(105.0));
    damage_time "damage_time" => format!(
        "{:.4} s",
        withstand_s(mm2(16_510.0), 3000.0, 90.0, 250.0, Withstand::COPPER),
    );
    converter "converter" => [15.0, 30.0, 60.0].map(|l| format!("{} A", demand_a(l))).join(", ");
    pv_current "pv_current" => {
        let (most_a, conductor_a) = solar_currents(5.46);
        format!("{most_a:.4} A, {conductor_a:.4} A")
    };
    pv_8_8 "pv_8_8" => {
        let (most_a, conductor_a) = solar_currents(8.8);
        format!("{most_a:.2} A, {conductor_a:.2} A")
    };
    pv_voc_coef "pv_voc_coef" => format!(
        "{:.3} V, {:.2} V",
        cold_voltage_v(1, 38.3, -0.0036, -7.0),
        cold_voltage_v(12, 38.3, -0.0036, -7.0),
    );
    pv_voc_volt "pv_voc_volt" => format!("{:.2} V", cold_voltage_by_volts_v(12, 38.3, -0.137, -7.0));
    pv_voc_table "pv_voc_table" => format!("{:.2} V", cold_voltage_by_factor_v(12, 38.3, 1.14));
    pv_trailer "pv_trailer" => format!("{:.3} V", cold_voltage_v(2, 22.6, -0.0028, -20.0));
    parallel_fuse "parallel_fuse" => {
        assert!(needs_string_fuse(3, 9.8, 20.0) && !needs_string_fuse(2, 9.8, 20.0));
        format!(
            "backfeed {:.2} A > 20 -> fuse each; 2 strings {:.2} A -> none needed",
            backfeed_a(3, 9.8),
            backfeed_a(2, 9.8),
        )
    };
    controller_out "controller_out" => format!(
        "{:.2} A, x1.25 = {:.1} A on rating",
        controller_output_a(600.0, 0.97, 12.0, 40.0),
        conductor_a(40.0),
    );
    loop_ "loop" => {
        let net_w = loop_net_w(600.0, 0.90, 0.88);
        let out_w = input_w(&Losses::from_efficiency(0.0, 0.88), 600.0);
        format!("battery in {:.1} W, out {out_w:.2} W, net {net_w:.2} W", net_w + out_w)
    };
    split_normal "split_normal" => legs_text(legs(-120.0, Some(0.05)), 4);
    split_adapter "split_adapter" => legs_text(legs(120.0, Some(0.05)), 4);
    split_open_neutral "split_open_neutral" => legs_text(legs(-120.0, None), 6);
    neutral_phasor "neutral_phasor" => format!(
        "{:.4} A",
        neutral_a(Phasor::of(16.0, 1.0), Phasor::of(10.0, 0.7), false),
    );
    annex_d1a "annex_d1a" => format!(
        "{:.2} A; {:.3} A",
        power_factor_a(18_600.0, 240.0, 1.0),
        power_factor_a(14_550.0, 240.0, 1.0),
    );
    leg_balance "leg_balance" => {
        let neutral_a = neutral_a(Phasor::of(31.5, 1.0), Phasor::of(18.0, 1.0), false);
        format!("neutral {neutral_a:.1} A, imbalance from mean {:.2} %", imbalance(31.5, 18.0) * 100.0)
    };
}
