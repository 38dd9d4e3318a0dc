//! The hot day that cooling is sized for and the cold night that heating is sized for.

use jiff::civil::{Date, date};

use super::{Origin, SiteWeather};
use crate::air::humidity::of_vapor;
use crate::air::pressure::standard_pa;
use crate::air::saturation::{saturated_ratio, saturation_pa};
use crate::air::wet_bulb::ratio_of_wet_bulb;
use crate::build::{Build, DesignDay};
use crate::sky::clock::TYPICAL_YEAR;
use crate::sky::design_conditions::{self, DesignConditions};
use crate::units::{celsius, kelvin, m_s};

/// A station this far away still speaks for a place [m]: 50 miles.
const NEAR_M: f64 = 80_467.2;
/// A station this much higher or lower still speaks for a place [m]: 1,000 ft.
const LEVEL_M: f64 = 304.8;
/// Share of the hours of a year that are hotter than the design day's warmest.
const HOT_SHARE: f64 = 0.004;
/// Share of the hours of a year that are colder than the design night.
const COLD_SHARE: f64 = 0.01;
/// Hours of a year: a shorter series says nothing of its extremes.
const YEAR_H: f64 = 8760.0;
/// Day of the month that a design day is laid on.
const DESIGN_DAY: i8 = 21;
/// How much hotter the design day's warmest hour is than the mean of the hottest month [K].
///
/// Source: the mean over twelve stations of `design_conditions_us.csv` is 9.9 K, from 5.7 (Tampa) to 11.9.
const HOTTER_THAN_MEAN_K: f64 = 10.0;
/// How much colder the design night is than the mean of the coldest month [K].
///
/// Source: the mean over twelve stations of `design_conditions_us.csv` is 10.0 K, from 4.7 (San Francisco) to 14.2.
const COLDER_THAN_MEAN_K: f64 = 10.0;
/// How much hotter the design day's warmest hour is than that of a mean day of the hottest month, where its range is known [K].
///
/// Source: the mean over twelve stations of `design_conditions_us.csv` is 4.3 K, from 1.8 (Tampa) to 7.3 (San Francisco).
const HOTTER_THAN_MEAN_DAY_K: f64 = 4.3;
/// A station whose hot day is further than this from that of the means given is another climate's [K].
const SAME_CLIMATE_K: f64 = 8.0;

/// Where design weather is from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DesignOrigin {
    /// It is given as such.
    Given,
    /// It is the day that the weather consists of.
    DesignDay,
    /// It is read off a series of a year or more.
    Series,
    /// It is that of a station this far away [m].
    Station(&'static DesignConditions, f64),
    /// It is the extreme of a year made from monthly means, and an allowance.
    Means,
    /// It is the extreme of a series of less than a year.
    ShortSeries,
}

/// The hot day that cooling is sized for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HotDay {
    /// Its date.
    pub date: Date,
    /// Temperature of its warmest hour [°C].
    pub max_c: f64,
    /// From its coldest to its warmest hour [K].
    pub range_k: f64,
    /// Its humidity ratio [kg/kg]; at night no more than saturation.
    pub ratio: f64,
    /// Is its humidity known? Otherwise its coldest air is taken to be saturated.
    pub ratio_is_known: bool,
    /// Its wind [m/s], where it is given.
    pub wind_m_s: Option<f64>,
    /// Its Linke turbidity, where it is given.
    pub linke_turbidity: Option<f64>,
    /// Where it is from.
    pub origin: DesignOrigin,
}

/// The cold night that heating is sized for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColdNight {
    /// Its air temperature [°C].
    pub air_c: f64,
    /// Its wind [m/s], where it is given.
    pub wind_m_s: Option<f64>,
    /// Where it is from.
    pub origin: DesignOrigin,
}

impl SiteWeather<'_> {
    /// The hot day: the one given, the weather's own, or that of a station near by.
    pub fn hot_day(&self, build: &Build) -> HotDay {
        let site = build.site.as_ref();
        if let Some(day) = site.and_then(|site| site.cooling_design.as_ref()) {
            return self.given_day(day, DesignOrigin::Given);
        }
        let form = site.and_then(|site| site.weather.as_ref());
        if let Some(day) = form.and_then(|form| form.design_day.as_ref()) {
            return self.given_day(day, DesignOrigin::DesignDay);
        }
        if !self.is_made()
            && let Some(day) = self.day_of_series()
        {
            return day;
        }
        let of_means = self.day_of_means(build);
        if let Some((station, away_m)) = self.station_near(&of_means) {
            let pressure_pa = standard_pa(station.place.altitude_m);
            return HotDay {
                date: date(TYPICAL_YEAR, station.hot_month.cast_signed(), DESIGN_DAY),
                max_c: station.hot_c,
                range_k: station.hot_range_k,
                ratio: ratio_of_wet_bulb(station.hot_c, station.hot_wet_bulb_c, pressure_pa),
                ratio_is_known: true,
                wind_m_s: None,
                linke_turbidity: None,
                origin: DesignOrigin::Station(station, away_m),
            };
        }
        of_means
    }

    /// The cold night: the one given, that of the weather, or that of a station near by.
    pub fn cold_night(&self, build: &Build) -> ColdNight {
        if let Some(night) = build.site.as_ref().and_then(|site| site.heating_design.as_ref()) {
            return ColdNight {
                air_c: celsius(night.dry_bulb_f),
                wind_m_s: night.wind_mph.map(m_s),
                origin: DesignOrigin::Given,
            };
        }
        let night = |air_c, origin| ColdNight { air_c, wind_m_s: None, origin };
        let coldest_c = || lowest_c(&self.weather.air_c);
        if !self.is_made() && !matches!(self.origin, Origin::DesignDay) {
            if !self.is_year() {
                return night(coldest_c(), DesignOrigin::ShortSeries);
            }
            return night(quantile_c(&self.weather.air_c, COLD_SHARE), DesignOrigin::Series);
        }
        if let Some((station, away_m)) = self.station_near(&self.day_of_means(build))
            && let Some(cold_c) = station.cold_c
        {
            return night(cold_c, DesignOrigin::Station(station, away_m));
        }
        if matches!(self.origin, Origin::DesignDay) {
            return night(coldest_c(), DesignOrigin::ShortSeries);
        }
        let coldest_mean_c = self.months().iter().map(|(_, mean_c, _)| *mean_c).fold(f64::INFINITY, f64::min);
        night(coldest_mean_c - COLDER_THAN_MEAN_K, DesignOrigin::Means)
    }

    /// Is the weather made from means, so that it knows no heat wave and no cold spell?
    fn is_made(&self) -> bool {
        matches!(self.origin, Origin::Place(_) | Origin::Monthly | Origin::ClearSky)
    }

    fn is_year(&self) -> bool {
        self.weather.clock.step_h() * self.weather.clock.count() as f64 >= YEAR_H
    }

    /// The station that speaks for the place: near, about as high, and of about the same climate as the weather given.
    ///
    /// - `of_means`  the hot day by the means of the weather given
    fn station_near(&self, of_means: &HotDay) -> Option<(&'static DesignConditions, f64)> {
        let says_nothing = matches!(self.origin, Origin::DesignDay) || self.air_is_not_given();
        design_conditions::nearest(&self.place, LEVEL_M)
            .filter(|(_, away_m)| *away_m <= NEAR_M)
            .filter(|(station, _)| says_nothing || (station.hot_c - of_means.max_c).abs() <= SAME_CLIMATE_K)
    }

    /// Is the air of the weather the same all year, because nothing was said of it?
    fn air_is_not_given(&self) -> bool {
        let air_c = &self.weather.air_c;
        matches!(self.origin, Origin::ClearSky) && highest_c(air_c) == lowest_c(air_c)
    }

    fn given_day(&self, day: &DesignDay, origin: DesignOrigin) -> HotDay {
        let after = jiff::Span::new().days(i64::from(day.day_of_year) - 1);
        let (max_c, range_k) = (celsius(day.max_f), kelvin(day.max_f - day.min_f));
        let dew_c = day.dew_point_f.map_or(max_c - range_k, celsius);
        HotDay {
            date: date(TYPICAL_YEAR, 1, 1).saturating_add(after),
            max_c,
            range_k,
            ratio: self.ratio_of_dew(dew_c),
            ratio_is_known: day.dew_point_f.is_some(),
            wind_m_s: day.wind_mph.map(m_s),
            linke_turbidity: day.linke_turbidity,
            origin,
        }
    }

    /// The hot day of a measured series: the temperature that few of its hours pass, the range of the month it lies in and
    /// the humidity that comes with it.
    fn day_of_series(&self) -> Option<HotDay> {
        let weather = &self.weather;
        let is_year = self.is_year();
        let max_c =
            if is_year { quantile_c(&weather.air_c, 1.0 - HOT_SHARE) } else { highest_c(&weather.air_c) };
        let mut hours = [0_usize; 12];
        let (mut dew_pa, mut hot_steps) = (0.0, 0_usize);
        for day in &*self.days {
            for step in day.steps.clone().filter(|step| weather.air_c[*step] >= max_c) {
                hours[usize::from(day.month()) - 1] += 1;
                hot_steps += 1;
                if let Some(dew_point_c) = &weather.dew_point_c {
                    dew_pa += saturation_pa(dew_point_c[step]);
                }
            }
        }
        // Of months alike the sunniest.
        let month = (0..12).max_by(|one: &usize, other: &usize| {
            let sun = |month: usize| self.light_of(month);
            hours[*one].cmp(&hours[*other]).then(sun(*one).total_cmp(&sun(*other)))
        })?;
        let in_month = || self.days.iter().filter(|day| usize::from(day.month()) == month + 1);
        let range_of = |air_c: &[f64]| highest_c(air_c) - lowest_c(air_c);
        let ranges_k: f64 = in_month().map(|day| range_of(&weather.air_c[day.steps.clone()])).sum();
        let range_k = ranges_k / in_month().count().max(1) as f64;
        let known = weather.dew_point_c.is_some() && hot_steps > 0;
        let ratio = if known {
            of_vapor(dew_pa / hot_steps as f64, self.pressure_pa())
        } else {
            self.ratio_of_dew(max_c - range_k)
        };
        Some(HotDay {
            date: self.design_date(month),
            max_c,
            range_k,
            ratio,
            ratio_is_known: known,
            wind_m_s: None,
            linke_turbidity: None,
            origin: if is_year { DesignOrigin::Series } else { DesignOrigin::ShortSeries },
        })
    }

    /// Mean temperature of the air [°C] and mean daily range [K] of each month of the weather that has a day of it, with the
    /// month's number, 0 to 11.
    fn months(&self) -> Vec<(usize, f64, f64)> {
        let air_c = &self.weather.air_c;
        let mut months = Vec::with_capacity(12);
        for month in 0..12 {
            let (mut days, mut sum_c, mut sum_k) = (0_usize, 0.0, 0.0);
            for day in self.days.iter().filter(|day| usize::from(day.month()) == month + 1) {
                let of_day = &air_c[day.steps.clone()];
                days += 1;
                sum_c += of_day.iter().sum::<f64>() / of_day.len().max(1) as f64;
                sum_k += highest_c(of_day) - lowest_c(of_day);
            }
            if days > 0 {
                months.push((month, sum_c / days as f64, sum_k / days as f64));
            }
        }
        months
    }

    /// The hot day of a year made from means: its hottest month, and an allowance for heat waves.
    fn day_of_means(&self, build: &Build) -> HotDay {
        let months = self.months();
        // Of months alike the sunniest.
        let hottest = months.iter().copied().max_by(|one, other| {
            one.1.total_cmp(&other.1).then(self.light_of(one.0).total_cmp(&self.light_of(other.0)))
        });
        let (month, mean_c, range_k) = hottest.unwrap_or_default();
        let form = build.site.as_ref().and_then(|site| site.weather.as_ref());
        let has_range = form.is_some_and(|form| {
            form.monthly.as_ref().is_some_and(|monthly| monthly.range_f.is_some())
                || form.clear_sky.as_ref().is_some_and(|sky| sky.range_f.is_some())
        });
        let hotter_k = if has_range { range_k / 2.0 + HOTTER_THAN_MEAN_DAY_K } else { HOTTER_THAN_MEAN_K };
        HotDay {
            date: self.design_date(month),
            max_c: mean_c + hotter_k,
            range_k,
            // A mean night of the month is saturated before dawn.
            ratio: self.ratio_of_dew(mean_c - range_k / 2.0),
            ratio_is_known: false,
            wind_m_s: None,
            linke_turbidity: None,
            origin: DesignOrigin::Means,
        }
    }

    /// Light on level ground in a month, 0 to 11, on the mean over its steps [W/m²].
    fn light_of(&self, month: usize) -> f64 {
        let (mut sum_w_m2, mut steps) = (0.0, 0_usize);
        for day in self.days.iter().filter(|day| usize::from(day.month()) == month + 1) {
            sum_w_m2 += self.weather.ghi_w_m2[day.steps.clone()].iter().sum::<f64>();
            steps += day.steps.len();
        }
        sum_w_m2 / steps.max(1) as f64
    }

    /// The 21st of a month, 0 to 11, in the year of the weather.
    fn design_date(&self, month: usize) -> Date {
        let year = self.days.first().map_or(TYPICAL_YEAR, |day| day.date.year());
        // A month of the year is below 13, and each has a 21st.
        date(year, (month as i8) + 1, DESIGN_DAY)
    }

    /// Air pressure at the place [Pa].
    pub fn pressure_pa(&self) -> f64 {
        standard_pa(self.place.altitude_m)
    }

    fn ratio_of_dew(&self, dew_c: f64) -> f64 {
        saturated_ratio(dew_c, self.pressure_pa())
    }
}

fn highest_c(air_c: &[f64]) -> f64 {
    air_c.iter().copied().fold(f64::NEG_INFINITY, f64::max)
}

fn lowest_c(air_c: &[f64]) -> f64 {
    air_c.iter().copied().fold(f64::INFINITY, f64::min)
}

/// The temperature that a share of the steps is at or below [°C].
fn quantile_c(air_c: &[f64], share: f64) -> f64 {
    let mut sorted = air_c.to_vec();
    if sorted.is_empty() {
        return f64::NAN;
    }
    let index = ((share * sorted.len() as f64) as usize).min(sorted.len() - 1);
    *sorted.select_nth_unstable_by(index, f64::total_cmp).1
}

#[cfg(test)]
mod tests;
