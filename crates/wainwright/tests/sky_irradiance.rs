//! Air mass, clear sky, decomposition and transposition against cases of an independent implementation of the same
//! published equations.

#![allow(clippy::unwrap_used, reason = "what cannot be unwrapped here fails its test")]

use wainwright::sky::air_mass::{absolute, extraterrestrial_w_m2, pressure_pa, relative};
use wainwright::sky::clear_sky::{haurwitz_ghi_w_m2, ineichen_perez};
use wainwright::sky::decomposition::erbs;
use wainwright::sky::dirint::{Conditions, dirint, disc_dni_w_m2};
use wainwright::sky::incidence::{
    ANGULAR_LOSS, ASHRAE_B0, Plane, ashrae_modifier, cosine, martin_ruiz_ground_modifier,
    martin_ruiz_modifier, martin_ruiz_sky_modifier, physical_modifier,
};
use wainwright::sky::irradiance::Irradiance;
use wainwright::sky::transposition::{beam_w_m2, ground_w_m2, hay_davies_w_m2, isotropic_w_m2, perez_w_m2};

/// How near irradiance must come [W/m²].
const W_M2: f64 = 1e-4;
/// Half a unit of the last digit to which the cases give the zenith angle [rad].
const HALF_DIGIT_RAD: f64 = 0.5e-6_f64.to_radians();

/// One case: its row, and what the columns are called.
struct Case {
    header: &'static str,
    cells: &'static str,
}

impl Case {
    fn number(&self, column: &str) -> f64 {
        let place = self.header.split(',').position(|name| name == column).unwrap();
        self.cells.split(',').nth(place).unwrap().parse().unwrap()
    }

    fn rad(&self, column: &str) -> f64 {
        self.number(column).to_radians()
    }

    fn holds(&self, column: &str, value: f64, tolerance: f64) {
        let expected = self.number(column);
        assert!((value - expected).abs() <= tolerance, "{column}: {value}, not {expected}\n{}", self.cells);
    }

    /// As [`Case::holds`], to [`W_M2`] and what the rounding of the zenith angle leaves open: with the sun low, beam is
    /// that sensitive to it.
    fn holds_by_zenith(&self, column: &str, of_zenith: impl Fn(f64) -> f64) {
        let zenith_rad = self.rad("zenith_deg");
        let value = of_zenith(zenith_rad);
        let open = (of_zenith(zenith_rad + HALF_DIGIT_RAD) - value).abs();
        self.holds(column, value, W_M2 + open);
    }

    /// Global, beam and diffuse from which the case goes on to the plane.
    fn sky(&self) -> Irradiance {
        Irradiance {
            ghi_w_m2: self.number("ghi_used"),
            dni_w_m2: self.number("erbs_dni"),
            dhi_w_m2: self.number("erbs_dhi"),
        }
    }

    fn cos_incidence(&self) -> f64 {
        let plane = Plane { tilt_rad: self.rad("tilt_deg"), azimuth_rad: self.rad("panel_az_deg") };
        cosine(plane, self.rad("zenith_deg"), self.rad("azimuth_deg"))
    }
}

/// Every row of a file of cases.
fn cases(csv: &'static str, count: usize) -> impl Iterator<Item = Case> {
    let mut lines = csv.lines().filter(|line| !line.starts_with('#'));
    let header = lines.next().unwrap();
    assert_eq!(lines.clone().count(), count);
    lines.map(move |cells| Case { header, cells })
}

fn irradiance() -> impl Iterator<Item = Case> {
    cases(include_str!("sky_irradiance/irradiance.csv"), 400)
}

fn day_of_year(case: &Case) -> u16 {
    case.number("doy") as u16
}

#[test]
fn air_mass_and_what_arrives_outside_it() {
    for case in irradiance() {
        case.holds("dni_extra_wm2", extraterrestrial_w_m2(day_of_year(&case)), 1e-6);
        case.holds("pressure_pa", pressure_pa(case.number("alt_m")), 1e-6);
        let air_mass = relative(case.rad("app_zenith_deg"));
        case.holds("am_rel", air_mass, 2e-6);
        case.holds("am_abs", absolute(air_mass, case.number("pressure_pa")), 2e-6);
    }
}

#[test]
fn clear_sky() {
    for case in irradiance() {
        let (zenith_rad, altitude_m) = (case.rad("app_zenith_deg"), case.number("alt_m"));
        let air_mass = absolute(relative(zenith_rad), pressure_pa(altitude_m));
        let extraterrestrial_w_m2 = extraterrestrial_w_m2(day_of_year(&case));
        let linke_turbidity = case.number("linke");
        let sky = ineichen_perez(zenith_rad, air_mass, linke_turbidity, altitude_m, extraterrestrial_w_m2);
        case.holds("cs_ghi", sky.ghi_w_m2, W_M2);
        case.holds("cs_dni", sky.dni_w_m2, W_M2);
        case.holds("cs_dhi", sky.dhi_w_m2, W_M2);
        case.holds("haurwitz_ghi", haurwitz_ghi_w_m2(zenith_rad), W_M2);
    }
}

#[test]
fn beam_and_diffuse_by_clearness() {
    for case in irradiance() {
        let split =
            |zenith_rad| erbs(case.number("ghi_used"), zenith_rad, extraterrestrial_w_m2(day_of_year(&case)));
        case.holds_by_zenith("erbs_dni", |zenith_rad| split(zenith_rad).dni_w_m2);
        case.holds("erbs_dhi", split(case.rad("zenith_deg")).dhi_w_m2, W_M2);
    }
}

#[test]
fn beam_by_clearness_and_air_mass() {
    for case in irradiance() {
        let (ghi_w_m2, day) = (case.number("ghi_used"), day_of_year(&case));
        let pressure_pa = pressure_pa(case.number("alt_m"));
        case.holds_by_zenith("disc_dni", |zenith_rad| disc_dni_w_m2(ghi_w_m2, zenith_rad, day, pressure_pa));
        case.holds_by_zenith("dirint_dni", |zenith_rad| {
            dirint(ghi_w_m2, zenith_rad, day, pressure_pa, Conditions::default()).dni_w_m2
        });
    }
}

#[test]
fn angle_of_incidence() {
    for case in irradiance() {
        let cos_incidence = case.cos_incidence();
        case.holds("cos_aoi", cos_incidence, 1e-6);
        case.holds("aoi_deg", cos_incidence.acos().to_degrees(), 1e-5);
    }
}

#[test]
fn irradiance_of_the_plane() {
    for case in irradiance() {
        let (sky, cos_incidence) = (case.sky(), case.cos_incidence());
        let (zenith_rad, tilt_rad) = (case.rad("zenith_deg"), case.rad("tilt_deg"));
        let extraterrestrial_w_m2 = case.number("dni_extra_wm2");
        let beam_w_m2 = beam_w_m2(sky.dni_w_m2, cos_incidence);
        let ground_w_m2 = ground_w_m2(sky.ghi_w_m2, case.number("albedo"), tilt_rad.cos());
        case.holds("poa_beam", beam_w_m2, W_M2);
        case.holds("poa_ground", ground_w_m2, W_M2);

        let isotropic_w_m2 = isotropic_w_m2(sky.dhi_w_m2, tilt_rad.cos());
        let hay_davies_w_m2 =
            hay_davies_w_m2(sky, extraterrestrial_w_m2, zenith_rad.cos(), cos_incidence, tilt_rad.cos());
        let air_mass = case.number("am_rel");
        let perez_w_m2 =
            perez_w_m2(sky, extraterrestrial_w_m2, air_mass, zenith_rad, cos_incidence, tilt_rad);
        for (column, total, sky_w_m2) in [
            ("iso_sky", "poa_total_iso", isotropic_w_m2),
            ("hd_sky", "poa_total_hd", hay_davies_w_m2),
            ("perez_sky", "poa_total_perez", perez_w_m2),
        ] {
            case.holds(column, sky_w_m2, W_M2);
            case.holds(total, beam_w_m2 + ground_w_m2 + sky_w_m2, W_M2);
        }
    }
}

#[test]
fn modifiers_by_angle() {
    for case in cases(include_str!("sky_irradiance/modifiers.csv"), 22) {
        let cos = case.rad("aoi_deg").cos();
        case.holds("ashrae_b0.05", ashrae_modifier(cos, ASHRAE_B0), 1e-8);
        case.holds("physical_n1.526_K4_L2mm", physical_modifier(cos), 1e-8);
        case.holds("martin_ruiz_ar0.16", martin_ruiz_modifier(cos, ANGULAR_LOSS), 1e-8);
    }
}

#[test]
fn modifiers_of_diffuse_light_by_tilt() {
    for case in cases(include_str!("sky_irradiance/diffuse_modifiers.csv"), 8) {
        // The flat row stands for a tilt of 1e-6°.
        let tilt_rad = case.rad("tilt_deg").max(1e-6_f64.to_radians());
        case.holds("martin_ruiz_sky", martin_ruiz_sky_modifier(tilt_rad, ANGULAR_LOSS), 1e-8);
        // Its ground term is a quotient of two roundings there.
        let tolerance = if case.number("tilt_deg") == 0.0 { 2e-8 } else { 1e-8 };
        case.holds("martin_ruiz_ground", martin_ruiz_ground_modifier(tilt_rad, ANGULAR_LOSS), tolerance);
    }
}
