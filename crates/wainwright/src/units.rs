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
/// Square millimetres in one circular mil: the area of a circle one thousandth of an inch across.
pub const MM2_PER_CMIL: f64 = std::f64::consts::FRAC_PI_4 * (M_PER_IN * M_PER_IN);

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

/// Circular mils to square millimetres.
pub fn mm2(cmil: f64) -> f64 {
    cmil * MM2_PER_CMIL
}

/// Kilogram square metres in one slug square foot (from the exact pound, foot and standard gravity).
pub const KG_M2_PER_SLUG_FT2: f64 = KG_PER_LB * STANDARD_GRAVITY_M_S2 * 0.3048;
