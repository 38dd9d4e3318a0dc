//! An invented box, as the vectors of `trailer_*.csv` describe it, and its walk through a design day.

use wainwright::air::humidity::of_relative;
use wainwright::build::Facing;
use wainwright::cooling_load::body::{Body, BoxNetwork, Opaque, Pane};
use wainwright::cooling_load::cooler::Cooler;
use wainwright::cooling_load::course::Course;
use wainwright::cooling_load::envelope::heading::plane;
use wainwright::cooling_load::equipment::curves::ROOM_UNIT_MEASURED;
use wainwright::cooling_load::equipment::rating::FLOW_M3_S_PER_W;
use wainwright::cooling_load::equipment::unit::{CoolingUnit, Rating};
use wainwright::cooling_load::heater::Heater;
use wainwright::cooling_load::lap::{Plan, Room, Step, Walker};
use wainwright::cooling_load::network::thermostat::Setpoints;
use wainwright::cooling_load::outdoors::{Faces, Light};
use wainwright::sky::air_mass::extraterrestrial_w_m2;
use wainwright::sky::plane::Plane;
use wainwright::units::{m2, m3, m3_s, w_from_btu_h};

use super::design_days::{DAYS, DesignDay};

/// Film outside, as the vectors have it [W/(m²·K)].
const FILM_W_M2_K: f64 = 17.0;
/// What the box is held at [°C].
pub const SET_C: f64 = 25.0;
/// Steps of a day.
pub const STEPS: usize = 288;
/// Heat that turns a kilogram of water into vapor, as the vectors have it [J/kg].
const EVAPORATION_J_KG: f64 = 2.5e6;
/// Specific heat of moist air, as the vectors have it for every air [J/(kg·K)].
const AIR_J_KG_K: f64 = 1006.0 + 1860.0 * 0.009;
/// Transfer of the coil of the vectors' unit of 5,000 BTU/h [kg/s]. No coil has it: it follows from a share of 0.75 that is
/// sensible, which at 312 cfm a ton would leave mist.
const TRANSFER_KG_S: f64 = 0.181_876_977_153_723;

/// The box, one way or another.
#[derive(Debug, Clone, Copy)]
pub struct Trailer {
    /// Transmittances of walls, roof, floor and rear door [W/(m²·K)].
    pub walls_w_m2_k: f64,
    pub roof_w_m2_k: f64,
    pub floor_w_m2_k: f64,
    pub door_w_m2_k: f64,
    /// Area [m²] and solar heat gain coefficient of the window on each side.
    pub window_m2: f64,
    pub shgc: f64,
    /// Solar absorptances, and the share of the sun that is left.
    pub roof_absorptance: f64,
    pub walls_absorptance: f64,
    pub lit: f64,
    /// Air that comes in [cfm], people, and where the tongue points [°].
    pub air_cfm: f64,
    pub people: f64,
    pub heading_deg: f64,
}

pub const TRAILER: Trailer = Trailer {
    walls_w_m2_k: 1.107,
    roof_w_m2_k: 1.10,
    floor_w_m2_k: 0.75,
    door_w_m2_k: 3.0,
    window_m2: 0.28,
    shgc: 0.75,
    roof_absorptance: 0.30,
    walls_absorptance: 0.30,
    lit: 1.0,
    air_cfm: 10.0,
    people: 2.0,
    heading_deg: 30.0,
};

/// A trailer on its day, ready to be walked through.
pub struct OnDay {
    day: &'static DesignDay,
    network: BoxNetwork,
    pub course: Course,
    /// What air and cloth hold of water, as a mass of air [kg].
    air_kg: f64,
}

/// What a walk shows, step by step.
#[derive(Debug, Default)]
pub struct Walked {
    pub air_c: Vec<f64>,
    pub mass_c: Vec<f64>,
    pub ratio: Vec<f64>,
    /// Heat taken out [W].
    pub sensible_w: Vec<f64>,
    pub latent_w: Vec<f64>,
    /// Heat asked for by what the unit could give.
    pub part_load: Vec<f64>,
    pub electric_w: Vec<f64>,
}

impl Walked {
    fn see(&mut self, step: &Step) {
        self.air_c.push(step.after.air_c);
        self.mass_c.push(step.after.mass_c);
        self.ratio.push(step.ratio);
        self.sensible_w.push(-step.power_w);
        self.latent_w.push(step.latent_w);
        // RTF = PLR / (0.78 + 0.22 PLR), the other way round.
        self.part_load.push(0.78 * step.run_fraction / (1.0 - 0.22 * step.run_fraction));
        self.electric_w.push(step.electric_w);
    }
}

impl Trailer {
    fn body(&self) -> Body<'static> {
        let side = |facing, area_ft2: f64, window_m2: f64, u_w_m2_k: f64, absorptance: f64| Opaque {
            id: "",
            facing,
            area_m2: m2(area_ft2) - window_m2,
            inner_m2_k_w: 1.0 / u_w_m2_k - 1.0 / FILM_W_M2_K,
            coldest_share: None,
            absorptance,
            emittance: 0.9,
            // What shades it leaves the sky's cold, and the underside: it stands in the absorptances.
            lit: 1.0,
        };
        let (wall, roof) = (self.lit * self.walls_absorptance, self.lit * self.roof_absorptance);
        let pane = |facing| Pane {
            id: "",
            facing,
            area_m2: self.window_m2,
            u_w_m2_k: 5.8,
            shgc: self.lit * self.shgc,
            double: false,
        };
        Body {
            opaque: vec![
                side(Facing::Roof, 98.0, 0.0, self.roof_w_m2_k, roof),
                side(Facing::Floor, 98.0, 0.0, self.floor_w_m2_k, 0.6),
                side(Facing::Front, 45.5, 0.0, self.walls_w_m2_k, wall),
                side(Facing::Rear, 45.5, 0.0, self.door_w_m2_k, wall),
                side(Facing::Left, 91.0, self.window_m2, self.walls_w_m2_k, wall),
                side(Facing::Right, 91.0, self.window_m2, self.walls_w_m2_k, wall),
            ],
            panes: vec![pane(Facing::Left), pane(Facing::Right)],
            volume_m3: m3(637.0),
            floor_m2: m2(98.0),
            mass_j_k: 60e3 * m2(98.0),
            floor_load: None,
        }
    }

    /// Light on its six faces in each step, the sky by Hay and Davies.
    fn light(&self, day: &DesignDay) -> Vec<[Light; 6]> {
        let sky = day.sky(1440 / STEPS as u32, 0.0);
        let per_outside = 1.0 / extraterrestrial_w_m2(sky.day_of_year);
        let planes = Facing::ALL.map(|facing| {
            let stands = plane(facing, self.heading_deg);
            Plane::new(stands.tilt_rad, stands.azimuth_rad, 0.2)
        });
        let on_faces = |(light, sun)| {
            let mut on = [Light::default(); 6];
            for (on, plane) in on.iter_mut().zip(&planes) {
                let falling = plane.falling(light, sun, per_outside);
                *on = Light {
                    beam_w_m2: falling.beam_w_m2,
                    diffuse_w_m2: falling.sky_w_m2 + falling.ground_w_m2,
                    cos_incidence: falling.cos_incidence,
                };
            }
            // An underside in its own shade.
            on[Facing::Floor as usize] = Light { diffuse_w_m2: 0.05 * light.ghi_w_m2, ..Light::default() };
            on
        };
        sky.as_the_vectors_have_it(day).into_iter().zip(&sky.suns).map(on_faces).collect()
    }

    /// The box on the design day of a station.
    ///
    /// - `by_heat`  shall the air bring as much heat as in the vectors, or as much water? Their specific heat is that of one air,
    ///   here it is each air's own
    pub fn on(&self, station: &str, by_heat: bool) -> OnDay {
        let day = day(station);
        self.under(day, &self.light(day), by_heat)
    }

    /// The box on the design day of a station, under the sky that the question has: by Perez, its parts adding up.
    pub fn under_perez(&self, station: &str) -> OnDay {
        let day = day(station);
        let sky = day.sky(1440 / STEPS as u32, 0.0);
        let per_outside = 1.0 / extraterrestrial_w_m2(sky.day_of_year);
        let faces = Faces::new(self.heading_deg, 0.2);
        let steps = sky.light.iter().zip(&sky.suns);
        let light: Vec<_> =
            steps.map(|(light, sun)| faces.light(*light, sun, per_outside, day.pressure_pa())).collect();
        self.under(day, &light, false)
    }

    /// The box on a day under some light.
    fn under(&self, day: &'static DesignDay, light: &[[Light; 6]], by_heat: bool) -> OnDay {
        let air_kg_m3 = day.pressure_pa() / 287.042 / 298.15;
        let body = self.body();
        let sums = body.sums(FILM_W_M2_K);
        let network = body.network(&sums, air_kg_m3);
        let hour = |step: usize| (step as f64 + 0.5) * 24.0 / STEPS as f64;
        let (outdoor_c, outdoor_ratio): (Vec<f64>, Vec<f64>) =
            (0..STEPS).map(|step| day.air(hour(step))).unzip();
        let own_j_kg_k = wainwright::air::properties::specific_heat_j_kg_k(outdoor_ratio[0]);
        let air_kg_s = m3_s(self.air_cfm) * air_kg_m3 * if by_heat { AIR_J_KG_K / own_j_kg_k } else { 1.0 };
        let course = Course {
            step_s: 86_400.0 / STEPS as f64,
            equivalent_c: outdoor_c
                .iter()
                .zip(light)
                .map(|(air_c, light)| sums.equivalent_c(*air_c, light))
                .collect(),
            sun_w: light.iter().map(|light| sums.window_sun_w(light)).collect(),
            hour: (0..STEPS).map(|step| hour(step) as u8).collect(),
            sensible_by_hour_w: [70.0 * self.people + 80.0; 24],
            water_by_hour_kg_s: [45.0 * self.people / EVAPORATION_J_KG; 24],
            air_kg_s: vec![air_kg_s; STEPS],
            outdoor_c,
            outdoor_ratio,
            ..Course::default()
        };
        OnDay { day, network, course, air_kg: 5.0 * body.volume_m3 * air_kg_m3 }
    }
}

fn day(station: &str) -> &'static DesignDay {
    DAYS.iter().find(|day| day.station == station).unwrap()
}

impl OnDay {
    fn walker(&self) -> Walker<'_> {
        Walker { of: &self.network, air_kg: self.air_kg, pressure_pa: self.day.pressure_pa() }
    }

    /// Where every walk begins: as warm and as humid as the first step outside.
    pub fn begin(&self) -> Room {
        Room::even(self.course.outdoor_c[0], self.course.outdoor_ratio[0])
    }

    /// Walks through steps, from the first day's midnight on.
    pub fn walk(&self, steps: std::ops::Range<usize>, room: &mut Room, plan: Plan) -> Walked {
        let mut walked = Walked::default();
        for step in steps {
            let step = step % STEPS;
            self.walker().walk_over(&self.course, step..step + 1, room, plan, |step| walked.see(step));
        }
        walked
    }

    /// The fourth of four such days.
    fn fourth_day(&self, plan: Plan) -> Walked {
        let mut room = self.begin();
        self.walk(0..3 * STEPS, &mut room, plan);
        self.walk(0..STEPS, &mut room, plan)
    }

    /// Held by an ideal plant, at half humidity.
    pub fn ideal(&self) -> Walked {
        let ratio = of_relative(0.5, SET_C, self.day.pressure_pa());
        self.fourth_day(Plan::Ideal { setpoints: cooling(), ratio })
    }

    /// Left to itself.
    pub fn free(&self) -> Walked {
        self.fourth_day(Plan::Free)
    }

    /// Cooled by a unit of so many BTU/h.
    pub fn cooled(&self, capacity_btu_h: f64) -> Walked {
        self.fourth_day(Plan::Unit {
            cooler: &self.unit(capacity_btu_h),
            setpoints: cooling(),
            heater: Heater::NONE,
        })
    }

    /// The vectors' unit of so many BTU/h, of 11 BTU/Wh.
    pub fn unit(&self, capacity_btu_h: f64) -> Cooler {
        let capacity_w = w_from_btu_h(capacity_btu_h);
        let flow_m3_s = FLOW_M3_S_PER_W * capacity_w;
        // Their fan moves dry air of 25 °C; ours is told for sea level.
        let flow_kg_s = flow_m3_s * 101_325.0 / 287.042 / 298.15;
        let power_w = capacity_btu_h / 11.0;
        Cooler {
            unit: CoolingUnit {
                capacity_w,
                power_w,
                flow_kg_s,
                transfer_kg_s: TRANSFER_KG_S * capacity_btu_h / 5000.0,
                curves: ROOM_UNIT_MEASURED,
            },
            rating: Rating { capacity_w, power_w, sensible_fraction: 0.75, flow_m3_s },
            delivered: 1.0,
            recirculated: 0.0,
            fan_always_on: false,
            drawn_in_m3_s: 0.0,
        }
    }
}

/// No heating, cooling above what the box is held at.
pub fn cooling() -> Setpoints {
    Setpoints { heat_c: f64::NEG_INFINITY, cool_c: SET_C }
}
