//! Six design days against general-purpose libraries.

use jiff::civil::date;
use serde_json::{Value, json};
use wainwright::air::dew_point::dew_point_c;
use wainwright::air::humidity::vapor_pa;
use wainwright::air::pressure::standard_pa;
use wainwright::air::saturation::saturated_ratio;
use wainwright::air::wet_bulb::{ratio_of_wet_bulb, wet_bulb_c};
use wainwright::sky::air_mass::{self, extraterrestrial_w_m2};
use wainwright::sky::air_temperature::below_highest;
use wainwright::sky::almanac;
use wainwright::sky::clear_year::clear_sky;
use wainwright::sky::clock::Clock;
use wainwright::sky::irradiance::Irradiance;
use wainwright::sky::sun::{Direction, Observer, apparent_zenith_rad};
use wainwright::sky::weather::Place;
use wainwright::units::{fahrenheit, ft};

use super::builds::dark;
use crate::rows::{as_printed, close, numbers, rows};

/// A station's hottest day.
pub struct DesignDay {
    /// Its number with the weather service, by which the vectors name it.
    pub station: &'static str,
    /// Latitude and longitude [°], hours from universal time, height [m].
    place: (f64, f64, f64, f64),
    month: i8,
    /// Warmest hour [°C], its wet bulb [°C] and the range [K].
    air: (f64, f64, f64),
    linke: f64,
}

/// Source: headers of the stations' typical years ("Climate Design Data 2009 ASHRAE Handbook"), Phoenix from a published design
/// day; turbidities of the map of Remund and others 2003 (SoDa).
pub const DAYS: [DesignDay; 6] = [
    DesignDay {
        station: "722110",
        place: (27.97, -82.53, -5.0, 6.0),
        month: 8,
        air: (33.6, 25.2, 7.9),
        linke: 5.3,
    },
    DesignDay {
        station: "722780",
        place: (33.45, -111.98, -7.0, 337.0),
        month: 7,
        air: (43.4, 21.1, 12.0),
        linke: 3.25,
    },
    DesignDay {
        station: "725650",
        place: (39.83, -104.65, -7.0, 1650.0),
        month: 7,
        air: (34.6, 15.7, 15.2),
        linke: 4.0,
    },
    DesignDay {
        station: "725300",
        place: (41.98, -87.92, -6.0, 201.0),
        month: 7,
        air: (33.3, 23.7, 10.5),
        linke: 4.4,
    },
    DesignDay {
        station: "744860",
        place: (40.65, -73.80, -5.0, 5.0),
        month: 7,
        air: (32.1, 23.1, 7.4),
        linke: 3.8,
    },
    DesignDay {
        station: "722745",
        place: (32.17, -110.88, -7.0, 809.0),
        month: 7,
        air: (40.8, 18.5, 13.3),
        linke: 3.4,
    },
];

/// Sun and sky in the middle of steps.
pub struct Sky {
    pub suns: Vec<Direction>,
    pub light: Vec<Irradiance>,
    pub day_of_year: u16,
}

impl DesignDay {
    /// The same as a build's site with its design day, the tongue pointing so.
    pub fn site(&self, heading_deg: f64) -> Value {
        let (latitude_deg, longitude_deg, utc_offset_h, altitude_m) = self.place;
        let (max_c, wet_c, range_k) = self.air;
        let ratio = ratio_of_wet_bulb(max_c, wet_c, self.pressure_pa());
        let dew_c = dew_point_c(vapor_pa(ratio, self.pressure_pa()));
        let day_of_year = date(2025, self.month, 21).day_of_year();
        json!({
            "latitude_deg": latitude_deg, "longitude_deg": longitude_deg, "elevation_ft": ft(altitude_m),
            "utc_offset_h": utc_offset_h, "heading_deg": heading_deg, "weather": {"hourly": dark(2, 70.0)},
            "cooling_design": {"day_of_year": day_of_year, "max_f": fahrenheit(max_c), "min_f": fahrenheit(max_c - range_k),
                "dew_point_f": fahrenheit(dew_c), "linke_turbidity": self.linke},
        })
    }

    pub fn pressure_pa(&self) -> f64 {
        standard_pa(self.place.3)
    }

    /// Air [°C] and humidity ratio [kg/kg] at an hour.
    pub fn air(&self, hour: f64) -> (f64, f64) {
        let (max_c, wet_c, range_k) = self.air;
        let air_c = max_c - range_k * below_highest(hour);
        let ratio = ratio_of_wet_bulb(max_c, wet_c, self.pressure_pa());
        (air_c, ratio.min(saturated_ratio(air_c, self.pressure_pa())))
    }

    /// Sun and sky of the 21st in steps of so many minutes, the sun so much lower.
    pub fn sky(&self, step_min: u32, lower_deg: f64) -> Sky {
        let (latitude_deg, longitude_deg, utc_offset_h, altitude_m) = self.place;
        let place = Place {
            latitude_rad: latitude_deg.to_radians(),
            longitude_rad: longitude_deg.to_radians(),
            altitude_m,
            utc_offset_h,
        };
        let begins = date(2025, self.month, 21).at(0, 0, 0, 0);
        let clock = Clock::new(begins, step_min, 1440 / step_min as usize).unwrap();
        let observer = Observer::new(place.latitude_rad, place.longitude_rad, altitude_m);
        let lower =
            |sun: Direction| Direction::faced(sun.zenith_rad() + lower_deg.to_radians(), sun.azimuth_rad());
        let suns = almanac::suns(&clock, utc_offset_h).unwrap();
        let suns: Vec<Direction> = suns.seen_from(observer).map(lower).collect();
        let days = clock.days();
        Sky {
            light: clear_sky(&place, &days, &suns, |_| self.linke),
            suns,
            day_of_year: days[0].day_of_year(),
        }
    }
}

impl Sky {
    /// Light of each step as the vectors have it. Two things are otherwise there. They take the day of the year by universal time,
    /// which is a day ahead in the evening of the west, for the distance from the sun. And of the global irradiance they leave
    /// as diffuse what the beam at the zenith angle raised by refraction leaves; here the beam is at the true one, so that the
    /// parts add up.
    pub fn as_the_vectors_have_it(&self, day: &DesignDay) -> Vec<Irradiance> {
        let (_, _, utc_offset_h, altitude_m) = day.place;
        let count = self.light.len() as f64;
        let of_step = |(step, (light, sun)): (usize, (&Irradiance, &Direction))| {
            let hour = (step as f64 + 0.5) * 24.0 / count;
            let tomorrow = u16::from(hour - utc_offset_h >= 24.0);
            let farther =
                extraterrestrial_w_m2(self.day_of_year + tomorrow) / extraterrestrial_w_m2(self.day_of_year);
            let raised_rad = apparent_zenith_rad(sun.zenith_rad(), air_mass::pressure_pa(altitude_m), 12.0);
            let left_w_m2 = light.ghi_w_m2 - light.dni_w_m2 * raised_rad.cos();
            Irradiance {
                ghi_w_m2: farther * light.ghi_w_m2,
                dni_w_m2: farther * light.dni_w_m2,
                dhi_w_m2: farther * left_w_m2,
            }
        };
        self.light.iter().zip(&self.suns).enumerate().map(of_step).collect()
    }
}

/// How far the sun may be off, found between those of a table and printed to half of 0.00001 [°].
const SUN_DEG: f64 = 4e-5;
/// Half of the last digit of light [W/m²].
const HALF_DIGIT: f64 = 0.000_5;

#[test]
fn every_hour_of_six_days() {
    for day in &DAYS {
        let (sky, lower) = (day.sky(60, 0.0), day.sky(60, SUN_DEG));
        let [light, lower] = [&sky, &lower].map(|sky| sky.as_the_vectors_have_it(day));
        let pressure_pa = day.pressure_pa();
        let mut count = 0;
        for cells in rows(include_str!("design_days.csv")).filter(|cells| cells[0] == day.station) {
            let [
                _,
                _,
                _,
                hour,
                air_c,
                ratio,
                wet_c,
                expected_pa,
                linke,
                zenith_deg,
                azimuth_deg,
                ghi,
                dni,
                dhi,
            ] = numbers(&cells);
            let (found_c, found) = day.air(hour + 0.5);
            as_printed(&cells, found_c, cells[4]);
            close(&cells, found_c, air_c, 1e-9);
            close(&cells, found, ratio, 1e-8);
            // Their wet bulb is right to 0.001 K and printed to half of that.
            close(&cells, wet_bulb_c(found_c, found, pressure_pa), wet_c, 0.001);
            close(&cells, pressure_pa, expected_pa, 0.05);
            assert_eq!(day.linke, linke);

            let hour = hour as usize;
            let (sun, light, lower) = (&sky.suns[hour], &light[hour], &lower[hour]);
            close(&cells, sun.zenith_rad().to_degrees(), zenith_deg, SUN_DEG);
            close(&cells, sun.azimuth_rad().to_degrees(), azimuth_deg, SUN_DEG / sun.zenith_rad().sin());
            let by_sun = |of: fn(&Irradiance) -> f64| HALF_DIGIT + 1.01 * (of(light) - of(lower)).abs();
            let (ghi_within, dni_within) = (by_sun(|light| light.ghi_w_m2), by_sun(|light| light.dni_w_m2));
            close(&cells, light.ghi_w_m2, ghi, ghi_within);
            close(&cells, light.dni_w_m2, dni, dni_within);
            close(&cells, light.dhi_w_m2, dhi, ghi_within + dni_within);
            let ours = &sky.light[hour];
            assert!((ours.dhi_w_m2 + ours.dni_w_m2 * sun.up - ours.ghi_w_m2).abs() < 1e-9, "{cells:?}");
            count += 1;
        }
        assert_eq!(count, 24);
    }
}
