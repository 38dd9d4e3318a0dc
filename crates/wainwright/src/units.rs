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

/// Pounds per gallon to kilograms per litre.
pub fn kg_per_l(lb_per_gal: f64) -> f64 {
    lb_per_gal * KG_PER_LB / L_PER_GAL
}

/// US gallons to litres.
pub fn l(gal: f64) -> f64 {
    gal * L_PER_GAL
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_circular_mil_is_a_circle_a_thousandth_of_an_inch_across() {
        assert_eq!(format!("{MM2_PER_CMIL:.12e}"), "5.067074790975e-4");
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
