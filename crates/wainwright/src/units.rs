//! Conversions between the trade's units and the SI units used inside, and physical constants.
//!
//! A load is carried as the mass that would weigh it at standard gravity: kilograms inside, pounds at the
//! edge. A moment about the ball is then in kg·m. Only where time enters (yaw, sway) do newtons appear.

/// Kilograms in one avoirdupois pound, exact (international yard and pound agreement, 1959).
pub const KG_PER_LB: f64 = 0.453_592_37;
/// Metres in one inch, exact (international yard and pound agreement, 1959).
pub const M_PER_IN: f64 = 0.0254;
/// Litres in one US liquid gallon, exact (231 cubic inches).
pub const L_PER_GAL: f64 = 3.785_411_784;
/// Standard gravity [m/s²], exact (3rd CGPM, 1901).
pub const STANDARD_GRAVITY_M_S2: f64 = 9.806_65;
/// Metres per second in one mile per hour, exact (1609.344 m a mile).
pub const M_S_PER_MPH: f64 = 0.447_04;
/// Metres in one mile, exact (international yard and pound agreement, 1959).
pub const M_PER_MI: f64 = 1609.344;
/// Pascals in one pound-force per square inch (from the exact pound, inch and standard gravity).
pub const PA_PER_PSI: f64 = KG_PER_LB * STANDARD_GRAVITY_M_S2 / (M_PER_IN * M_PER_IN);
/// Watts in one mechanical horsepower (550 ft·lbf/s, from the exact pound, foot and standard gravity).
pub const W_PER_HP: f64 = 550.0 * 0.3048 * KG_PER_LB * STANDARD_GRAVITY_M_S2;

/// Pounds to kilograms.
pub fn kg(lb: f64) -> f64 {
    lb * KG_PER_LB
}

/// Kilograms to pounds.
pub fn lb(kg: f64) -> f64 {
    kg / KG_PER_LB
}

/// Inches to metres.
pub fn m(inches: f64) -> f64 {
    inches * M_PER_IN
}

/// Metres to inches.
pub fn inches(m: f64) -> f64 {
    m / M_PER_IN
}

/// Miles per hour to metres per second.
pub fn m_s(mph: f64) -> f64 {
    mph * M_S_PER_MPH
}

/// Metres per second to miles per hour.
pub fn mph(m_s: f64) -> f64 {
    m_s / M_S_PER_MPH
}

/// Metres to miles.
pub fn mi(m: f64) -> f64 {
    m / M_PER_MI
}

/// Pounds per gallon to kilograms per litre.
pub fn kg_per_l(lb_per_gal: f64) -> f64 {
    lb_per_gal * KG_PER_LB / L_PER_GAL
}

/// US gallons to litres.
pub fn l(gal: f64) -> f64 {
    gal * L_PER_GAL
}

/// Litres to US gallons.
pub fn gal(l: f64) -> f64 {
    l / L_PER_GAL
}

/// Pounds per inch (a spring rate) to kilograms per metre.
pub fn kg_per_m(lb_per_in: f64) -> f64 {
    lb_per_in * (KG_PER_LB / M_PER_IN)
}

/// Pound-inches to kilogram-metres.
pub fn kg_m(lb_in: f64) -> f64 {
    lb_in * (KG_PER_LB * M_PER_IN)
}

/// Kilogram-metres to pound-inches.
pub fn lb_in(kg_m: f64) -> f64 {
    kg_m / (KG_PER_LB * M_PER_IN)
}

/// Horsepower to watts.
pub fn w(hp: f64) -> f64 {
    hp * W_PER_HP
}

/// Kilogram square metres in one slug square foot (from the exact pound, foot and standard gravity).
pub const KG_M2_PER_SLUG_FT2: f64 = KG_PER_LB * STANDARD_GRAVITY_M_S2 * 0.3048;

/// Metres in one foot, exact (international yard and pound agreement, 1959).
pub const M_PER_FT: f64 = 0.3048;
/// Square millimetres in one circular mil: the area of a circle a thousandth of an inch, 0.0254 mm, across.
pub const MM2_PER_CMIL: f64 = std::f64::consts::FRAC_PI_4 * M_PER_IN * M_PER_IN;

/// Feet to metres.
pub fn m_from_ft(ft: f64) -> f64 {
    ft * M_PER_FT
}

/// Metres to feet.
pub fn ft(m: f64) -> f64 {
    m / M_PER_FT
}

/// Circular mils to square millimetres.
pub fn mm2(cmil: f64) -> f64 {
    cmil * MM2_PER_CMIL
}

/// Square millimetres to circular mils.
pub fn cmil(mm2: f64) -> f64 {
    mm2 / MM2_PER_CMIL
}

/// Ohms per thousand feet to ohms per metre.
pub fn ohm_per_m(ohm_per_kft: f64) -> f64 {
    ohm_per_kft / (1000.0 * M_PER_FT)
}

/// Ohms per metre to ohms per thousand feet.
pub fn ohm_per_kft(ohm_per_m: f64) -> f64 {
    ohm_per_m * (1000.0 * M_PER_FT)
}

/// Ohm circular mils per foot (a resistivity) to ohm square millimetres per metre.
pub fn ohm_mm2_per_m(ohm_cmil_per_ft: f64) -> f64 {
    ohm_cmil_per_ft * (MM2_PER_CMIL / M_PER_FT)
}

/// Ohm square millimetres per metre to ohm circular mils per foot.
pub fn ohm_cmil_per_ft(ohm_mm2_per_m: f64) -> f64 {
    ohm_mm2_per_m / (MM2_PER_CMIL / M_PER_FT)
}

/// Degrees Fahrenheit to degrees Celsius.
pub fn celsius(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) / 1.8
}

/// Degrees Celsius to degrees Fahrenheit.
pub fn fahrenheit(celsius: f64) -> f64 {
    celsius * 1.8 + 32.0
}

/// A difference of temperatures in degrees Fahrenheit to kelvins.
pub fn kelvin(difference_f: f64) -> f64 {
    difference_f / 1.8
}

/// Joules in one British thermal unit (International Table), exact.
pub const J_PER_BTU: f64 = 1_055.055_852_62;
/// Watts in one British thermal unit an hour.
pub const W_PER_BTU_H: f64 = J_PER_BTU / 3600.0;
/// Cubic metres a second in one cubic foot a minute.
pub const M3_S_PER_CFM: f64 = M_PER_FT * M_PER_FT * M_PER_FT / 60.0;
/// Square metres in one square foot.
pub const M2_PER_FT2: f64 = M_PER_FT * M_PER_FT;
/// Cubic metres in one cubic foot.
pub const M3_PER_FT3: f64 = M_PER_FT * M_PER_FT * M_PER_FT;
/// Grains in one pound, exact.
pub const GRAINS_PER_LB: f64 = 7000.0;
/// (m²·K/W) in one h·ft²·°F/BTU.
pub const M2_K_W_PER_R: f64 = M2_PER_FT2 / (W_PER_BTU_H * 1.8);
/// J/K in one BTU/°F.
pub const J_K_PER_BTU_F: f64 = J_PER_BTU * 1.8;

/// British thermal units an hour to watts.
pub fn w_from_btu_h(btu_h: f64) -> f64 {
    btu_h * W_PER_BTU_H
}

/// Watts to British thermal units an hour.
pub fn btu_h(w: f64) -> f64 {
    w / W_PER_BTU_H
}

/// Watts by the kelvin to BTU/(h·°F).
pub fn btu_h_f(w_k: f64) -> f64 {
    btu_h(w_k) / 1.8
}

/// Cubic feet a minute to cubic metres a second.
pub fn m3_s(cfm: f64) -> f64 {
    cfm * M3_S_PER_CFM
}

/// Cubic metres a second to cubic feet a minute.
pub fn cfm(m3_s: f64) -> f64 {
    m3_s / M3_S_PER_CFM
}

/// Square feet to square metres.
pub fn m2(ft2: f64) -> f64 {
    ft2 * M2_PER_FT2
}

/// Square inches to square metres.
pub fn m2_from_in2(in2: f64) -> f64 {
    in2 * M_PER_IN * M_PER_IN
}

/// Square metres to square feet.
pub fn ft2(m2: f64) -> f64 {
    m2 / M2_PER_FT2
}

/// Cubic feet to cubic metres.
pub fn m3(ft3: f64) -> f64 {
    ft3 * M3_PER_FT3
}

/// Cubic metres to cubic feet.
pub fn ft3(m3: f64) -> f64 {
    m3 / M3_PER_FT3
}

/// Thermal resistance in h·ft²·°F/BTU, the trade's R, to m²·K/W.
pub fn m2_k_w(r_value: f64) -> f64 {
    r_value * M2_K_W_PER_R
}

/// Thermal resistance in m²·K/W to h·ft²·°F/BTU, the trade's R.
pub fn r_value(m2_k_w: f64) -> f64 {
    m2_k_w / M2_K_W_PER_R
}

/// A difference of temperatures in kelvins to degrees Fahrenheit.
pub fn difference_f(kelvin: f64) -> f64 {
    kelvin * 1.8
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_circular_mil_is_a_circle_a_thousandth_of_an_inch_across() {
        assert_eq!(format!("{MM2_PER_CMIL:.12e}"), "5.067074790975e-4");
    }

    #[test]
    fn units_of_heat_are_those_of_the_tables() {
        assert_eq!(format!("{:.8}", W_PER_BTU_H), "0.29307107");
        assert_eq!(format!("{:.6}", 1.0 / M2_K_W_PER_R), "5.678263");
        assert_eq!(format!("{:.6e}", M3_S_PER_CFM), "4.719474e-4");

        for (there, back) in [
            (w_from_btu_h as fn(f64) -> f64, btu_h as fn(f64) -> f64),
            (m3_s, cfm),
            (m2, ft2),
            (m3, ft3),
            (m2_k_w, r_value),
            (kelvin, difference_f),
        ] {
            assert!((back(there(12.9)) - 12.9).abs() < 1e-12);
        }
    }

    #[test]
    fn units_of_wire_convert_there_and_back() {
        for (there, back) in [
            (m_from_ft as fn(f64) -> f64, ft as fn(f64) -> f64),
            (mm2, cmil),
            (ohm_per_m, ohm_per_kft),
            (ohm_mm2_per_m, ohm_cmil_per_ft),
        ] {
            assert!((back(there(12.9)) - 12.9).abs() < 1e-12);
        }
        // Resistivity over area is resistance by length.
        assert!((ohm_per_kft(ohm_mm2_per_m(12.9) / mm2(6530.0)) - 12_900.0 / 6530.0).abs() < 1e-12);
    }
}
