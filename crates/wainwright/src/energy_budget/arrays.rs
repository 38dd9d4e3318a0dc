//! The solar section of a build in SI, and what is taken where it does not say.

use crate::build::{Build, Controller as BuildController, ControllerKind, Mount, Solar, SolarArray};
use crate::document::Faults;

use super::array::{Array, Shade};
use super::cell_temperature::{FREE_LOSS_W_PER_M2_K, INSULATED_LOSS_W_PER_M2_K, SEMI_LOSS_W_PER_M2_K};
use super::harvest::{Controller, Source, Strings};
use super::module_curve::{ModuleCoefficients, ModulePoints, RUNNING_HEAD_V};

/// Direction an array faces where nothing is said [degree]: south.
pub const USUAL_AZIMUTH_DEG: f64 = 180.0;
/// How an array is mounted where nothing is said: flat on the roof.
pub const USUAL_MOUNT: Mount = Mount::Insulated;
/// Change of power with temperature of silicon [1/°C]. Common practice.
pub const USUAL_GAMMA_PER_C: f64 = -0.0035;
/// Losses of a camper's array beside soiling and shade. Common practice: 0.06 to 0.09.
pub const USUAL_LOSS: f64 = 0.08;
/// Efficiency of a controller. Common practice: 0.94 to 0.98.
pub const USUAL_EFFICIENCY: f64 = 0.97;
/// Change of a silicon module's voltage at greatest power [1/°C]. Common practice.
pub const USUAL_VMP_PER_C: f64 = -0.004;
/// Change of a silicon module's open-circuit voltage [1/°C]. Common practice.
pub const USUAL_VOC_PER_C: f64 = -0.003;
/// Change of a silicon module's short-circuit current [1/°C]. Common practice.
const ISC_PER_C: f64 = 0.0005;
/// Open-circuit voltage of one silicon cell [V], from which the cells of a module are counted. Common practice.
const CELL_VOC_V: f64 = 0.65;
/// Ideality of a silicon cell. Common practice: 1.1 to 1.3.
const IDEALITY: f64 = 1.2;

/// Arrays and what they feed.
#[derive(Debug, Clone)]
pub struct Harvester<'b> {
    /// The arrays, with their ids.
    pub sources: Vec<(&'b str, Source)>,
    /// What they feed.
    pub controller: Controller,
    /// Greatest power the controller gives [W].
    pub most_w: f64,
    /// Power the controller takes for itself [W].
    pub standby_w: f64,
}

impl Harvester<'_> {
    /// Rated power of all arrays [W].
    pub fn rated_w(&self) -> f64 {
        self.sources.iter().map(|(_, source)| source.array.rated_w).sum()
    }
}

/// Notes what a PWM controller's current cannot be worked out without.
pub fn missing(solar: &Solar, faults: &mut Faults) {
    let is_pwm = solar.controller.as_ref().is_some_and(|controller| controller.kind == ControllerKind::Pwm);
    for (id, array) in solar.arrays.iter().flatten().filter(|_| is_pwm) {
        for (name, given) in
            [("voc_v", array.voc_v), ("isc_a", array.isc_a), ("vmp_v", array.vmp_v), ("imp_a", array.imp_a)]
        {
            if given.is_none() {
                let detail = "is missing; a pwm controller holds the module at the battery's voltage, and what it then gives follows from its datasheet";
                faults.missing_section(&format!("/solar/arrays/{id}/{name}"), detail);
            }
        }
    }
}

/// The arrays of a build.
///
/// - `charging_v`   voltage of the battery while it is charged [V]
/// - `nominal_v`    voltage at which its energy is counted [V]
/// - `heading_deg`  direction in which the tongue points [degree]
/// - `albedo`       share of its light that the ground throws back
pub fn harvester(
    build: &Build,
    charging_v: f64,
    nominal_v: f64,
    heading_deg: f64,
    albedo: f64,
) -> Harvester<'_> {
    let solar = build.solar.as_ref();
    let controller = solar.and_then(|solar| solar.controller.as_ref());
    let is_pwm = controller.is_some_and(|controller| controller.kind == ControllerKind::Pwm);
    let least_v = if is_pwm { 0.0 } else { charging_v + RUNNING_HEAD_V };
    let arrays = solar.into_iter().flat_map(|solar| solar.arrays.iter().flatten());
    Harvester {
        sources: arrays
            .map(|(id, array)| (id.as_str(), source(array, heading_deg, albedo, least_v)))
            .collect(),
        controller: kind(controller, charging_v, nominal_v),
        most_w: controller.map_or(f64::INFINITY, |controller| controller.max_output_a * nominal_v),
        standby_w: controller.and_then(|controller| controller.standby_w).unwrap_or(0.0),
    }
}

fn kind(controller: Option<&BuildController>, charging_v: f64, nominal_v: f64) -> Controller {
    match controller {
        Some(controller) if controller.kind == ControllerKind::Pwm => {
            Controller::Pwm { charging_v, nominal_v }
        }
        _ => Controller::Mppt {
            efficiency: controller.and_then(|controller| controller.efficiency).unwrap_or(USUAL_EFFICIENCY),
        },
    }
}

/// One array before its controller.
fn source(array: &SolarArray, heading_deg: f64, albedo: f64, least_v: f64) -> Source {
    let turned_deg = if array.on_ground == Some(true) { 0.0 } else { heading_deg };
    let azimuth_deg = array.azimuth_deg.unwrap_or(USUAL_AZIMUTH_DEG) + turned_deg;
    let facing = (array.tilt_deg.unwrap_or(0.0).to_radians(), azimuth_deg.to_radians(), albedo);
    let gamma_per_c = array.power_fraction_per_c.unwrap_or(USUAL_GAMMA_PER_C);
    let mut made =
        Array::new(facing, array.power_w, gamma_per_c, heat_loss(array.mount.unwrap_or(USUAL_MOUNT)));
    made.soiling = array.soiling_fraction.unwrap_or(0.0);
    made.loss = array.loss_fraction.unwrap_or(USUAL_LOSS);
    made.shade = Shade {
        by_hour: array.shade_by_hour.as_ref().and_then(|hours| hours.as_slice().try_into().ok()),
        by_month: array.shade_by_month.as_ref().and_then(|months| months.as_slice().try_into().ok()),
        sky_view: array.sky_view.unwrap_or(1.0),
        bypass_groups: array.bypass_groups.map(f64::from),
    };
    Source { array: made, strings: strings(array), least_v }
}

/// Heat that modules of a mount lose [W/(m²·K)].
pub fn heat_loss(mount: Mount) -> f64 {
    match mount {
        Mount::Open => FREE_LOSS_W_PER_M2_K,
        Mount::Close => SEMI_LOSS_W_PER_M2_K,
        Mount::Insulated => INSULATED_LOSS_W_PER_M2_K,
    }
}

/// How its modules are joined, where their voltage is known. Currents that are not given stand at 0: only a PWM controller
/// asks for them.
fn strings(array: &SolarArray) -> Option<Strings> {
    let vmp_v = array.vmp_v?;
    let voc_v = array.voc_v.unwrap_or(0.0);
    let of_vmp = array.vmp_fraction_per_c.map(|fraction| fraction * vmp_v);
    let of_voc = || Some(array.voc_fraction_per_c? * array.voc_v?);
    Some(Strings {
        series: f64::from(array.series.unwrap_or(1)),
        parallel: f64::from(array.parallel.unwrap_or(1)),
        points: ModulePoints {
            isc_a: array.isc_a.unwrap_or(0.0),
            imp_a: array.imp_a.unwrap_or(0.0),
            vmp_v,
            voc_v,
        },
        coefficients: ModuleCoefficients {
            alpha_per_c: ISC_PER_C,
            beta_per_c: array.voc_fraction_per_c.unwrap_or(USUAL_VOC_PER_C),
            cells: (voc_v / CELL_VOC_V).round().max(1.0),
            ideality: IDEALITY,
        },
        vmp_v_per_c: of_vmp.or_else(of_voc).unwrap_or(USUAL_VMP_PER_C * vmp_v),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn build(solar: &str) -> Build {
        Build::from_json(format!(r#"{{"solar": {solar}}}"#).as_bytes())
            .unwrap_or_else(|refusal| panic!("{refusal}"))
    }

    #[test]
    fn an_array_says_its_power_and_the_rest_is_usual() {
        let build = build(r#"{"arrays": {"roof": {"power_w": 400}}}"#);
        let made = harvester(&build, 13.4, 12.8, 90.0, 0.2);
        assert_eq!((made.rated_w(), made.most_w, made.standby_w), (400.0, f64::INFINITY, 0.0));
        assert_eq!(made.controller, Controller::Mppt { efficiency: 0.97 });
        let (id, roof) = &made.sources[0];
        assert_eq!((*id, roof.array.loss, roof.array.heat_loss_w_per_m2_k), ("roof", 0.08, 15.0));
        assert!(roof.strings.is_none());
    }

    #[test]
    fn the_trailer_turns_what_stands_on_it_alone() {
        let arrays = r#"{"arrays": {"side": {"power_w": 100, "tilt_deg": 90, "azimuth_deg": 90},
            "lawn": {"power_w": 100, "tilt_deg": 90, "azimuth_deg": 90, "on_ground": true},
            "turned": {"power_w": 100, "tilt_deg": 90, "azimuth_deg": 180, "on_ground": true}}}"#;
        let build = build(arrays);
        let made = harvester(&build, 13.4, 12.8, 90.0, 0.2);
        let array = |index: usize| &made.sources[index].1.array;
        assert_eq!(array(0), array(2));
        assert_ne!(array(0), array(1));
    }

    #[test]
    fn a_pwm_controller_needs_the_datasheet() {
        let build = build(
            r#"{"arrays": {"roof": {"power_w": 100, "voc_v": 21.6, "vmp_v": 18}}, "controller": {"kind": "pwm", "max_output_a": 20}}"#,
        );
        let mut faults = Faults::default();
        missing(build.solar.as_ref().unwrap(), &mut faults);
        let pointers: Vec<_> = faults.list().iter().map(|fault| fault.pointer.as_str()).collect();
        assert_eq!(pointers, ["/solar/arrays/roof/isc_a", "/solar/arrays/roof/imp_a"]);
        assert_eq!(harvester(&build, 13.2, 12.0, 0.0, 0.2).most_w, 240.0);
    }
}
