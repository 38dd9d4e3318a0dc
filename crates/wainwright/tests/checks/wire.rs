//! Wire: areas, resistance, ampacity, drop, the smallest that is enough; motors and air conditioners by their tables.

use wainwright::circuit_load::conductor::{
    AcWire, DcWire, WireKind, ac_by_ampacity, ac_by_device, by_area, dc_by_ampacity, made, smallest,
};
use wainwright::circuit_load::conductor_temperature::conductor_c;
use wainwright::circuit_load::drop::{
    BUILDING_OHM_MM2_PER_M, MARINE_OHM_MM2_PER_M, ac_approximate_v, ac_exact_v, area_for_drop_mm2, dc_v,
};
use wainwright::standards::ampacity::{
    Column, Material, ambient_factor, ambient_factor_equation, corrected_a, table_a,
};
use wainwright::standards::dc_ampacity::{self, Insulation};
use wainwright::standards::motor::{code_letter_a, locked_rotor_a};
use wainwright::standards::overcurrent::next_rating_a;
use wainwright::standards::resistance::{
    Conduit, ac_75c_ohm_per_m, at_ohm_per_m, dc_75c_ohm_per_m, reactance_ohm_per_m,
};
use wainwright::standards::room_air_conditioner::{Build, Made, least_ceer, running_w};
use wainwright::standards::size::{Areas, Size, awg_area_mm2, awg_diameter_m};
use wainwright::units::{M_PER_IN, cmil, m_from_ft, ohm_cmil_per_ft, ohm_per_kft};

use Material::{Aluminum, Copper};

super::rows::rows! {
    awg_area_18 "awg_area_18" => awg_area(18);
    awg_area_12 "awg_area_12" => awg_area(12);
    awg_area_4 "awg_area_4" => awg_area(4);
    awg_area_1_0 "awg_area_1/0" => awg_area(0);
    awg_area_4_0 "awg_area_4/0" => awg_area(-3);

    k_cu_75 "k_cu_75" => k(Size::AWG_12, Copper);
    k_al_75 "k_al_75" => k(Size::AWG_4_0, Aluminum);
    k_cu_20 "k_cu_20" => format!("{:.4} ohm cmil/ft", ohm_cmil_per_ft(ANNEALED_20C_OHM_MM2_PER_M));
    k_1075_temp "k_1075_temp" => annealed_copper_at(MARINE_OHM_MM2_PER_M);
    k_129_temp "k_129_temp" => annealed_copper_at(BUILDING_OHM_MM2_PER_M);
    alpha_75 "alpha_75" => format!("{:.6} /C", ANNEALED_20C_PER_K / (1.0 + ANNEALED_20C_PER_K * 55.0));
    r12_20 "r12_20" => r12(20.0);
    r12_40 "r12_40" => r12(40.0);
    r12_60 "r12_60" => r12(60.0);
    r12_90 "r12_90" => r12(90.0);

    ambient_formula "ambient_formula" => format!("{} cells differ by more than 0.005", differing_ambient_cells());
    exact_factor "exact_factor" => format!(
        "{:.4} vs {}",
        ambient_factor_equation(90.0, 47.0).unwrap(),
        ambient_factor(Column::C90, 47.0).unwrap(),
    );
    engine_factor "engine_factor" => engine_factors();

    vd_dc "vd_dc" => {
        let drop_v = dc_v(20.0, m_from_ft(15.0), dc_75c_ohm_per_m(Size::AWG_12, Copper), false);
        format!("{drop_v:.4} V, {:.2} %", drop_v / 12.0 * 100.0)
    };
    vd_dc_40c "vd_dc_40c" => {
        let ohm_per_m = at_ohm_per_m(dc_75c_ohm_per_m(Size::AWG_12, Copper), Copper, 40.0);
        format!("{:.4} V", dc_v(20.0, m_from_ft(15.0), ohm_per_m, false))
    };
    vd_k "vd_k" => {
        let area_mm2 = area_for_drop_mm2(BUILDING_OHM_MM2_PER_M, 30.0, m_from_ft(2.0 * 180.0), 3.6);
        format!("CM = {:.0}", cmil(area_mm2))
    };
    vd_16awg "vd_16awg" => {
        let drop_v = dc_v(4.0, m_from_ft(100.0), dc_75c_ohm_per_m(Size::AWG_16, Copper), false);
        format!("{drop_v:.3} V, {:.2} %", drop_v / 24.0 * 100.0)
    };
    vd_ac "vd_ac" => {
        let [r, x] = impedance_ohm_per_m(Size::AWG_12).map(|ohm_per_m| 2.0 * m_from_ft(50.0) * ohm_per_m);
        let approximate_v = ac_approximate_v(16.0, r, x, 0.85);
        let exact_v = ac_exact_v(120.0, 16.0, r, x, 0.85).unwrap();
        format!("approx {approximate_v:.4} V, exact {exact_v:.4} V, {:.3} %", approximate_v / 120.0 * 100.0)
    };
    ze_10 "ze_10" => {
        let [r, x] = impedance_ohm_per_m(Size::AWG_10);
        format!("{:.4} ohm/kft", ohm_per_kft(ac_approximate_v(1.0, r, x, 0.85)))
    };
    cord_14_13_50 "cord_14_13_50" => cord(Size::AWG_14, 13.0, 50.0);
    cord_12_13_50 "cord_12_13_50" => cord(Size::AWG_12, 13.0, 50.0);
    cord_12_16_100 "cord_12_16_100" => cord(Size::AWG_12, 16.0, 100.0);
    cord_10_24_50 "cord_10_24_50" => cord(Size::AWG_10, 24.0, 50.0);

    op_temp "op_temp" => {
        let settled_c = conductor_c(16.0, 25.0, 75.0, 30.0, Copper).unwrap();
        let ohm_per_m = at_ohm_per_m(dc_75c_ohm_per_m(Size::AWG_12, Copper), Copper, settled_c);
        format!("{settled_c:.3} C, r {:.4} ohm/kft", ohm_per_kft(ohm_per_m))
    };

    derate_9x12 "derate_9x12" => format!("{:.1} A", derated_a(Size::AWG_12, 30.0, 9));
    derate_120f "derate_120F" => format!("{:.1} A", derated_a(Size::AWG_10, 49.0, 3));
    derate_both "derate_both" => format!("{:.2} A", derated_a(Size::AWG_10, 49.0, 4));
    derate_55 "derate_55" => format!("{:.1} A", derated_a(Size::AWG_12, 55.0, 3));
    derate_100f "derate_100F" => {
        let usable_a = AcWire { ambient_c: 38.0, bundled: 4, ..CABLE }.usable_a(Size::AWG_6).unwrap();
        format!("{:.1} A, usable {usable_a:.1} A", derated_a(Size::AWG_6, 38.0, 4))
    };

    pick_ac_16_0_30_2_60_90 "pick_ac_16_0_30_2_60_90" => pick_ac(16.0, 0.0, CABLE);
    pick_ac_20_4_45_6_60_90 "pick_ac_20_4_45_6_60_90" =>
        pick_ac(20.0, 4.0, AcWire { ambient_c: 45.0, bundled: 6, ..CABLE });
    pick_ac_24_0_50_3_60_90 "pick_ac_24_0_50_3_60_90" =>
        pick_ac(24.0, 0.0, AcWire { ambient_c: 50.0, bundled: 3, ..CABLE });
    pick_ac_40_0_40_9_75_90 "pick_ac_40_0_40_9_75_90" =>
        pick_ac(40.0, 0.0, AcWire { ambient_c: 40.0, bundled: 9, terminal: Column::C75, ..CABLE });
    pick_ac_12_0_30_2_60_60 "pick_ac_12_0_30_2_60_60" =>
        pick_ac(12.0, 0.0, AcWire { insulation_c: 60.0, ..CABLE });

    pick_dc_5_20_12_0_03 "pick_dc_5_20_12_0.03" => pick_dc(Areas::Nominal, 5.0, 20.0, 12.0, 0.03);
    pick_dc_10_21_12_0_03 "pick_dc_10_21_12_0.03" => pick_dc(Areas::Nominal, 10.0, 21.0, 12.0, 0.03);
    pick_dc_10_21_12_0_1 "pick_dc_10_21_12_0.1" => pick_dc(Areas::Nominal, 10.0, 21.0, 12.0, 0.1);
    pick_dc_80_50_12_0_1 "pick_dc_80_50_12_0.1" => pick_dc(Areas::Nominal, 80.0, 50.0, 12.0, 0.1);
    pick_dc_20_30_12_0_03 "pick_dc_20_30_12_0.03" => pick_dc(Areas::Nominal, 20.0, 30.0, 12.0, 0.03);
    pick_dc_0_833333_100_24_0_01 "pick_dc_0.833333_100_24_0.01" =>
        pick_dc(Areas::Nominal, 0.833_333_3, 100.0, 24.0, 0.01);
    pick_dc_115_3_8_12_0_03 "pick_dc_115.3_8_12_0.03" => pick_dc(Areas::Nominal, 115.3, 8.0, 12.0, 0.03);
    pick_dc_marine_10_21_12_0_03 "pick_dc_marine_10_21_12_0.03" =>
        pick_dc(Areas::Marine, 10.0, 21.0, 12.0, 0.03);
    pick_dc_marine_10_21_12_0_1 "pick_dc_marine_10_21_12_0.1" =>
        pick_dc(Areas::Marine, 10.0, 21.0, 12.0, 0.1);
    table_area_awg_cmil "table_area_awg_cmil" => chart(include_str!("drop_chart_awg.csv"), Areas::Nominal);
    table_area_abyc_cmil "table_area_abyc_cmil" => chart(include_str!("drop_chart_marine.csv"), Areas::Marine);

    next_std "next_std" => [27.4, 46.0, 101.0].map(|a| next_rating_a(a).unwrap().to_string()).join(", ");
    lra "lra" => {
        let (least_a, most_a) = code_letter_a('L', 0.5, 115.0).unwrap();
        format!("{:.1} A; {least_a:.1}..{most_a:.1} A", locked_rotor_a(0.5, 115.0).unwrap())
    };
    ac_5000 "ac_5000" => air_conditioner_w().map(|w| format!("{w:.1} W")).join(" / ");
    ac_5000_amp "ac_5000_amp" => {
        let [older_w, newer_w] = air_conditioner_w();
        [(older_w, 0.9), (older_w, 1.0), (newer_w, 0.9), (newer_w, 1.0)]
            .map(|(w, power_factor)| format!("{:.3} A", w / 120.0 / power_factor))
            .join(" / ")
    };
}

/// Resistivity of annealed copper at 20 °C: the international standard of 1913 (IEC 60028).
const ANNEALED_20C_OHM_MM2_PER_M: f64 = 1.0 / 58.0;
/// Its rise with temperature, as a fraction of that at 20 °C [1/K].
const ANNEALED_20C_PER_K: f64 = 0.003_93;

/// Copper, 90 °C insulation, 60 °C terminals, one circuit at 30 °C.
const CABLE: AcWire = AcWire {
    material: Copper,
    insulation_c: 90.0,
    terminal: Column::C60,
    ambient_c: 30.0,
    bundled: 2,
    kind: WireKind::Cable,
};

fn awg_area(number: i32) -> String {
    let mils = awg_diameter_m(number) / (1e-3 * M_PER_IN);
    let area_mm2 = awg_area_mm2(number);
    format!("d {mils:.4} mil, {:.1} cmil, {area_mm2:.4} mm2", cmil(area_mm2))
}

fn k(size: Size, material: Material) -> String {
    format!("{:.3} ohm cmil/ft", ohm_cmil_per_ft(dc_75c_ohm_per_m(size, material) * size.area_mm2()))
}

/// Temperature at which annealed copper has a resistivity.
fn annealed_copper_at(ohm_mm2_per_m: f64) -> String {
    format!("{:.2} C", 20.0 + (ohm_mm2_per_m / ANNEALED_20C_OHM_MM2_PER_M - 1.0) / ANNEALED_20C_PER_K)
}

fn r12(conductor_c: f64) -> String {
    let ohm_per_m = at_ohm_per_m(dc_75c_ohm_per_m(Size::AWG_12, Copper), Copper, conductor_c);
    format!("{:.4} ohm/kft", ohm_per_kft(ohm_per_m))
}

/// Cells that are not the equation at the upper edge of their band, rounded to two places.
fn differing_ambient_cells() -> usize {
    let cells = (10..=85).step_by(5).flat_map(|upper_edge_c| {
        [Column::C60, Column::C75, Column::C90].map(|column| (column, f64::from(upper_edge_c)))
    });
    let differ = |(column, ambient_c): (Column, f64)| {
        let printed = ambient_factor(column, ambient_c)?;
        let equation = ambient_factor_equation(column.rating_c(), ambient_c).unwrap();
        Some(((equation * 100.0).round() / 100.0 - printed).abs() > 0.0051)
    };
    let differing: Vec<bool> = cells.filter_map(differ).collect();
    assert_eq!(differing.len(), 10 + 13 + 16);
    differing.into_iter().filter(|differs| *differs).count()
}

fn engine_factors() -> String {
    Insulation::ALL
        .into_iter()
        .filter(|insulation| *insulation != Insulation::T200)
        .map(|insulation| format!("{:.4}", dc_ampacity::ambient_factor(insulation, 50.0).unwrap()))
        .collect::<Vec<_>>()
        .join(" ")
}

/// Resistance and reactance of copper in plastic conduit.
fn impedance_ohm_per_m(size: Size) -> [f64; 2] {
    let r = ac_75c_ohm_per_m(size, Copper, Conduit::NonMagnetic).unwrap();
    [r, reactance_ohm_per_m(size, Conduit::NonMagnetic).unwrap()]
}

fn cord(size: Size, current_a: f64, run_ft: f64) -> String {
    let drop_v = dc_v(current_a, m_from_ft(run_ft), dc_75c_ohm_per_m(size, Copper), false);
    format!("{drop_v:.3} V, {:.2} %", drop_v / 120.0 * 100.0)
}

fn derated_a(size: Size, ambient_c: f64, conductors: u32) -> f64 {
    corrected_a(size, Copper, Column::C90, ambient_c, conductors).unwrap()
}

fn pick_ac(continuous_a: f64, other_a: f64, wire: AcWire) -> String {
    let (required_a, load_a) = (other_a + 1.25 * continuous_a, other_a + continuous_a);
    let device_a = next_rating_a(required_a).unwrap();
    let by_ampacity = ac_by_ampacity(&wire, required_a, load_a);
    let by_device = ac_by_device(&wire, device_a, true, 1);
    let (size, _) = smallest(by_ampacity, Some(Size::AWG_18), by_device, None).unwrap();
    format!(
        "AWG {}, OCPD {device_a} A, terminal-column {:?} A, corrected {:?} A",
        size.name(),
        table_a(size, Copper, wire.terminal).unwrap(),
        to_hundredths(wire.corrected_a(size).unwrap()),
    )
}

/// As printed with two places.
fn to_hundredths(value: f64) -> f64 {
    format!("{value:.2}").parse().unwrap()
}

/// Power of a unit of 5000 Btu/h under both standards.
fn air_conditioner_w() -> [f64; 2] {
    [Made::From2014, Made::From2026]
        .map(|made| running_w(5000.0, least_ceer(5000.0, Build::Louvered, made).unwrap()))
}

/// Smallest 105 °C wire by ampacity in open air and by the circular-mil method.
fn pick_dc(areas: Areas, current_a: f64, loop_ft: f64, volts: f64, fraction: f64) -> String {
    let wire = DcWire { insulation_c: 105.0, ambient_c: 30.0, engine_space: false, bundled: 2, volts };
    let needed_mm2 = area_for_drop_mm2(MARINE_OHM_MM2_PER_M, current_a, m_from_ft(loop_ft), volts * fraction);
    let by_drop = by_area(areas, needed_mm2);
    let (size, _) = smallest(dc_by_ampacity(&wire, current_a), by_drop, Some(Size::AWG_18), None).unwrap();
    let size = made(size, |size| areas.area_mm2(size).is_some()).unwrap();
    format!("CM {:.0}, AWG {}", cmil(needed_mm2), size.name())
}

/// A published chart of the smallest wire for 3 % at 12 V, against the circular-mil method. Neither chart has 3 AWG.
fn chart(csv: &str, areas: Areas) -> String {
    let mut lines = csv.lines().skip(1).map(|line| line.split(','));
    let currents_a: Vec<f64> = lines.next().unwrap().skip(1).map(|cell| cell.parse().unwrap()).collect();
    let (mut cells, mut equal, mut smaller) = (0, 0, 0);
    for mut row in lines {
        let loop_m = m_from_ft(row.next().unwrap().parse().unwrap());
        for (current_a, cell) in currents_a.iter().zip(row).filter(|(_, cell)| !cell.is_empty()) {
            let needed_mm2 = area_for_drop_mm2(MARINE_OHM_MM2_PER_M, *current_a, loop_m, 0.36);
            let ours = by_area(areas, needed_mm2).unwrap();
            let ours = if ours == Size::AWG_3 { Size::AWG_2 } else { ours };
            let theirs = Size::of(cell).unwrap();
            cells += 1;
            equal += usize::from(ours == theirs);
            smaller += usize::from(ours < theirs);
        }
    }
    format!("{equal} of {cells} cells equal; ours smaller wire in {smaller}")
}
