//! What all made weather keeps.

use std::sync::LazyLock;

use jiff::civil::date;
use proptest::prelude::*;

use super::{place, sun_of};
use wainwright::sky::air_temperature::{AirMeans, DailyRange};
use wainwright::sky::clear_year::{clear_sky, clear_year};
use wainwright::sky::clock::Clock;
use wainwright::sky::decomposition::BEAM_ZENITH_MOST_RAD;
use wainwright::sky::sun::{DELTA_T_S, Direction, Observer, SunTable};
use wainwright::sky::synthetic::{CLEAREST_TURBIDITY, Climate, DaysBy, Synthetic, USUAL_WIND_M_S, synthetic};
use wainwright::sky::turbidity::Turbidity;
use wainwright::sky::weather::{Place, Weather};

/// The sun of the typical year in hours on the clock of Greenwich.
static GREENWICH: LazyLock<SunTable> = LazyLock::new(|| {
    let clock = Clock::typical_hours();
    SunTable::new(clock.first_middle_unix_s(0.0), 3600.0, clock.count(), DELTA_T_S).unwrap()
});

fn greenwich_sun(place: &Place) -> Vec<Direction> {
    let observer = Observer::new(place.latitude_rad, place.longitude_rad, place.altitude_m);
    GREENWICH.seen_from(observer).collect()
}

/// A climate of the middle latitudes, brightest in June.
fn northern(ghi_of: impl Fn(f64) -> f64) -> Climate {
    let season = |month: usize| -((month as f64 + 0.5) / 12.0 * std::f64::consts::TAU).cos();
    Climate {
        ghi_kwh_m2_d: std::array::from_fn(|month| ghi_of(season(month))),
        air: AirMeans {
            mean_c: std::array::from_fn(|month| 10.0 + 12.0 * season(month)),
            range: DailyRange::Inland,
        },
        wind_m_s: None,
    }
}

/// Mean of each month of a year.
fn month_means(clock: &Clock, figures: &[f64]) -> [f64; 12] {
    let mut sums = [(0.0, 0.0); 12];
    for day in clock.days() {
        let (sum, count) = &mut sums[usize::from(day.month()) - 1];
        *sum += figures[day.steps.clone()].iter().sum::<f64>();
        *count += day.steps.len() as f64;
    }
    sums.map(|(sum, count)| sum / count)
}

/// Asserts the laws of a made year.
fn check(place: &Place, clock: &Clock, sun: &[Direction], climate: &Climate, made: &Synthetic) {
    let weather = &made.weather;
    check_light(clock, sun, weather);
    let most = clear_sky(place, &clock.days(), sun, |_| CLEAREST_TURBIDITY);
    for (ghi_w_m2, most) in weather.ghi_w_m2.iter().zip(&most) {
        assert!(*ghi_w_m2 <= most.ghi_w_m2 * (1.0 + 1e-12));
    }
    let most_w_m2: Vec<f64> = most.iter().map(|sky| sky.ghi_w_m2).collect();
    let (means_w_m2, most_w_m2) = (month_means(clock, &weather.ghi_w_m2), month_means(clock, &most_w_m2));
    for (month, mean_w_m2) in means_w_m2.iter().enumerate() {
        let (made_kwh, most_kwh) = (mean_w_m2 * 0.024, most_w_m2[month] * 0.024);
        let given_kwh = climate.ghi_kwh_m2_d[month];
        let expected_kwh = given_kwh.min(most_kwh);
        assert!(
            (made_kwh - expected_kwh).abs() <= 1e-9 * expected_kwh,
            "{month}: {made_kwh}, not {expected_kwh}"
        );
        let shortfall = made.shortfalls.iter().find(|short| usize::from(short.month) == month + 1);
        assert_eq!(shortfall.is_some(), given_kwh > most_kwh * (1.0 + 1e-12), "{month}");
        if let Some(short) = shortfall {
            assert_eq!(short.given_kwh_m2_d, given_kwh);
            assert!((short.made_kwh_m2_d - made_kwh).abs() <= 1e-9 * made_kwh);
        }
    }
    let air_c = month_means(clock, &weather.air_c);
    for (month, made_c) in air_c.iter().enumerate() {
        // Ranges that change from day to day move a month's mean a little.
        assert!((made_c - climate.air.mean_c[month]).abs() < 0.1, "{month}: {made_c}");
    }
}

/// Beam and diffuse make up the whole, nothing is below 0, and at night there is nothing.
fn check_light(clock: &Clock, sun: &[Direction], weather: &Weather) {
    for list in [&weather.ghi_w_m2, &weather.dni_w_m2, &weather.dhi_w_m2, &weather.wind_m_s] {
        assert_eq!(list.len(), clock.count());
        assert!(list.iter().all(|figure| figure.is_finite() && *figure >= 0.0));
    }
    assert_eq!((weather.air_c.len(), weather.clock), (clock.count(), *clock));
    assert!(weather.air_c.iter().all(|c| c.is_finite()));
    for (step, sun) in sun.iter().enumerate() {
        let [ghi, dni, dhi] =
            [&weather.ghi_w_m2, &weather.dni_w_m2, &weather.dhi_w_m2].map(|list| list[step]);
        assert!((dni * sun.up.max(0.0) + dhi - ghi).abs() < 1e-9, "{step}: {ghi} {dni} {dhi}");
        if sun.zenith_rad() < BEAM_ZENITH_MOST_RAD {
            assert!(dni < 1420.0);
        }
        if sun.up <= 0.0 {
            assert_eq!([ghi, dni, dhi], [0.0; 3]);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn months_keep_their_means_wherever_the_sun_can_give_them(
        latitude_deg in -90.0..90.0_f64,
        longitude_deg in -7.5..7.5_f64,
        altitude_m in 0.0..3500.0_f64,
        ghi_kwh_m2_d in prop::array::uniform12(prop_oneof![9 => 0.0..9.0_f64, 1 => Just(0.0)]),
        mean_c in prop::array::uniform12(-25.0..35.0_f64),
        chain in any::<bool>(),
        seed in any::<u64>(),
    ) {
        let clock = Clock::typical_hours();
        let place = place(latitude_deg, longitude_deg, altitude_m);
        let sun = greenwich_sun(&place);
        let climate = Climate { ghi_kwh_m2_d, air: AirMeans { mean_c, range: DailyRange::Inland }, wind_m_s: None };
        let days_by = if chain { DaysBy::Chain } else { DaysBy::Distribution };
        let made = synthetic(&place, &clock, &sun, &climate, days_by, seed).unwrap();
        check(&place, &clock, &sun, &climate, &made);
        prop_assert_eq!(&synthetic(&place, &clock, &sun, &climate, days_by, seed).unwrap(), &made);
    }
}

#[test]
fn every_step_of_every_year_in_both_hemispheres_and_at_the_poles() {
    for (latitude_deg, longitude_deg, climate) in [
        (36.1, -79.95, northern(|season| 4.2 + 2.0 * season)),
        (-33.9, 18.4, northern(|season| 5.2 - 2.5 * season)),
        (78.2, 15.6, northern(|season| (2.3 + 3.0 * season).max(0.0))),
        (-77.8, 166.7, northern(|season| (2.5 - 4.0 * season).max(0.0))),
        (0.0, -78.5, northern(|_| 5.0)),
    ] {
        for (year, step_min) in [(2024, 60), (2025, 30), (2025, 15), (2023, 120)] {
            let place = place(latitude_deg, longitude_deg, 200.0);
            let clock = Clock::year(year, step_min).unwrap();
            let sun = sun_of(&place, &clock);
            let made = synthetic(&place, &clock, &sun, &climate, DaysBy::default(), 5).unwrap();
            check(&place, &clock, &sun, &climate, &made);
        }
    }
}

#[test]
fn other_seeds_make_other_weather_and_other_steps_the_same_days() {
    let (place, climate) = (place(40.0, 0.0, 0.0), northern(|season| 4.2 + 2.0 * season));
    let year = |step_min, seed| {
        let clock = Clock::year(2025, step_min).unwrap();
        let made =
            synthetic(&place, &clock, &sun_of(&place, &clock), &climate, DaysBy::default(), seed).unwrap();
        let per_day = clock.count() / 365;
        let sums: Vec<f64> = made
            .weather
            .ghi_w_m2
            .chunks(per_day)
            .map(|day| day.iter().sum::<f64>() / per_day as f64)
            .collect();
        sums
    };
    let (hours, other, quarters) = (year(60, 1), year(60, 2), year(15, 1));
    let apart = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| (a - b).abs()).sum::<f64>() / 365.0;
    assert!(apart(&hours, &other) > 30.0, "{}", apart(&hours, &other));
    assert!(apart(&hours, &quarters) < 1.0, "{}", apart(&hours, &quarters));
}

#[test]
fn wind_is_what_was_given_or_the_usual() {
    let (place, clock) = (place(40.0, 0.0, 0.0), Clock::typical_hours());
    let (sun, mut climate) = (greenwich_sun(&place), northern(|_| 2.0));
    let wind = |climate: &Climate| {
        synthetic(&place, &clock, &sun, climate, DaysBy::default(), 1).unwrap().weather.wind_m_s
    };
    assert!(wind(&climate).iter().all(|v| *v == USUAL_WIND_M_S));
    let given = std::array::from_fn(|month| 1.0 + month as f64);
    climate.wind_m_s = Some(given);
    let wind = wind(&climate);
    assert_eq!((wind[0], wind[8759]), (1.0, 12.0));
}

#[test]
fn a_few_days_are_made_too_but_no_part_of_one() {
    let (place, climate) = (place(40.0, 0.0, 0.0), northern(|season| 4.2 + 2.0 * season));
    let at = |first, count| {
        let clock = Clock::new(first, 60, count).unwrap();
        synthetic(&place, &clock, &sun_of(&place, &clock), &climate, DaysBy::default(), 1)
    };
    let midnight = date(2025, 7, 10).at(0, 0, 0, 0);
    let made = at(midnight, 240).unwrap();
    let mean_kwh = made.weather.ghi_w_m2.iter().sum::<f64>() / 240.0 * 0.024;
    assert!((mean_kwh / climate.ghi_kwh_m2_d[6] - 1.0).abs() < 1e-9);
    assert!(at(midnight, 0).unwrap().weather.ghi_w_m2.is_empty());
    assert_eq!(at(midnight, 239), None);
    assert_eq!(at(date(2025, 7, 10).at(5, 0, 0, 0), 240), None);
}

#[test]
fn what_makes_no_sense_makes_no_weather() {
    let (place, clock, climate) = (place(40.0, 0.0, 0.0), Clock::typical_hours(), northern(|_| 2.0));
    let sun = greenwich_sun(&place);
    let is_made = |place: &Place, sun: &[Direction], climate: &Climate| {
        synthetic(place, &clock, sun, climate, DaysBy::default(), 1).is_some()
    };
    assert!(is_made(&place, &sun, &climate));
    assert!(!is_made(&place, &sun[1..], &climate));
    for altitude_m in [f64::NAN, f64::INFINITY, 50_000.0] {
        assert!(!is_made(&Place { altitude_m, ..place }, &sun, &climate));
    }
    for wrong in [f64::NAN, f64::INFINITY, -0.1] {
        let mut broken = climate;
        broken.ghi_kwh_m2_d[3] = wrong;
        assert!(!is_made(&place, &sun, &broken));
        let broken = Climate { wind_m_s: Some([wrong; 12]), ..climate };
        assert!(!is_made(&place, &sun, &broken));
        let broken =
            Climate { air: AirMeans { range: DailyRange::Given([wrong; 12]), ..climate.air }, ..climate };
        assert!(!is_made(&place, &sun, &broken));
    }
    let broken = Climate { air: AirMeans { mean_c: [f64::NAN; 12], range: DailyRange::Inland }, ..climate };
    assert!(!is_made(&place, &sun, &broken));
}

#[test]
fn a_clear_year_is_clear_at_any_step() {
    for (latitude_deg, step_min) in [(36.1, 60), (36.1, 15), (-45.0, 60), (75.0, 30), (-90.0, 60)] {
        let place = place(latitude_deg, -80.0, 300.0);
        let clock = Clock::year(2024, step_min).unwrap();
        let sun = sun_of(&place, &clock);
        let turbidity = Turbidity::of(place.latitude_rad, place.longitude_rad);
        let air = AirMeans { mean_c: [12.0; 12], range: DailyRange::Inland };
        let weather = clear_year(&place, &clock, &sun, |day| turbidity.on(day.date), &air, 1.5).unwrap();
        check_light(&clock, &sun, &weather);
        // Haze takes from every hour, and from beam first.
        let hazy = clear_year(&place, &clock, &sun, |_| 6.0, &AirMeans::constant(25.0), 1.5).unwrap();
        let sum = |list: &[f64]| list.iter().sum::<f64>();
        assert!(sum(&hazy.ghi_w_m2) < sum(&weather.ghi_w_m2));
        assert!(sum(&hazy.dni_w_m2) < 0.8 * sum(&weather.dni_w_m2));
        assert!(hazy.air_c.iter().all(|c| (c - 25.0).abs() < 1e-9));
        for made_c in month_means(&clock, &weather.air_c) {
            assert!((made_c - 12.0).abs() < 0.1, "{made_c}");
        }
        assert_eq!(clear_year(&place, &clock, &sun[1..], |_| 3.0, &air, 1.5), None);
        assert_eq!(clear_year(&place, &clock, &sun, |_| f64::NAN, &air, 1.5), None);
        assert_eq!(clear_year(&place, &clock, &sun, |_| 3.0, &air, -1.0), None);
        let beyond_air = Place { altitude_m: 50_000.0, ..place };
        assert_eq!(clear_year(&beyond_air, &clock, &sun, |_| 3.0, &air, 1.5), None);
    }
}
