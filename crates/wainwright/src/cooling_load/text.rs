//! The report for people.

use std::fmt::{self, Write};

use super::report::{ChangeReport, CoolingLoadReport};
use crate::question::Answer;
use crate::report::{Assumption, Caution, Finding, figure, fixed, percent, percent_fixed};
use crate::text::{Table, heading, month_name};

/// At most so many changes are told.
const MOST_CHANGES: usize = 5;

impl Answer for CoolingLoadReport {
    fn findings(&self) -> &[Finding] {
        &self.findings
    }

    fn assumptions(&self) -> &[Assumption] {
        &self.assumptions
    }

    fn cautions(&self) -> &[Caution] {
        self.cautions
    }

    fn write_figures(&self, out: &mut dyn Write) -> fmt::Result {
        writeln!(out, "COOLING LOAD")?;
        writeln!(out, "  {}", self.summary)?;
        let design = &self.design;
        writeln!(
            out,
            "  Hot day: {} {}, {} to {} °F, wet bulb {} °F ({})",
            month_name(design.month),
            design.day,
            figure(design.min_f, 0),
            figure(design.max_f, 0),
            figure(design.wet_bulb_f, 0),
            design.hot_day
        )?;
        writeln!(out, "  Cold night: {} °F ({})", figure(design.night_f, 0), design.cold_night)?;
        self.write_hours(out)?;
        self.write_parts(out)?;
        self.write_cooler(out)?;
        self.write_changes(out)?;
        self.write_night(out)?;
        self.write_months(out)?;
        Ok(())
    }
}

impl CoolingLoadReport {
    fn write_hours(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "The hot day, hour by hour")?;
        let mut hours = Table::new(&[
            "",
            "outside °F",
            "uncooled °F",
            "inside °F",
            "load BTU/h",
            "of it moisture",
            "runs",
            "W",
        ]);
        for hour in &self.hours {
            hours.row(vec![
                format!("{:02}:00", hour.hour),
                fixed(hour.outdoor_f, 0),
                fixed(hour.uncooled_f, 0),
                fixed(hour.indoor_f, 0),
                fixed(hour.load_btu_h, 0),
                fixed(hour.latent_btu_h, 0),
                percent_fixed(hour.run_fraction),
                fixed(hour.electric_w, 0),
            ]);
        }
        hours.write(out)
    }

    fn write_parts(&self, out: &mut dyn Write) -> fmt::Result {
        let peak = &self.peak;
        heading(
            out,
            &format!(
                "Where the {} BTU/h of the peak at {}:00 come from",
                figure(peak.total_btu_h, 0),
                peak.hour
            ),
        )?;
        let Some(hour) = self.hours.get(peak.hour as usize) else { return Ok(()) };
        let parts = &hour.parts;
        let mut table = Table::new(&["", "BTU/h"]);
        for (name, btu_h) in [
            ("roof", parts.roof_btu_h),
            ("floor", parts.floor_btu_h),
            ("front", parts.front_btu_h),
            ("rear", parts.rear_btu_h),
            ("left side", parts.left_btu_h),
            ("right side", parts.right_btu_h),
            ("heat through the glass", parts.windows_btu_h),
            ("sun through windows", parts.sun_btu_h),
            ("air that comes in", parts.air_btu_h),
            ("people", parts.people_btu_h),
            ("what draws power", parts.equipment_btu_h),
            ("cooking", parts.cooking_btu_h),
            ("out through windows again", parts.lost_btu_h),
            ("stored in lining and floor", -parts.stored_btu_h),
            ("moisture", hour.latent_btu_h),
        ] {
            if btu_h.abs() >= 0.5 {
                table.row(vec![name.to_owned(), fixed(btu_h, 0)]);
            }
        }
        table.row(vec!["in all".to_owned(), fixed(hour.load_btu_h, 0)]);
        table.write(out)?;
        writeln!(
            out,
            "  by U-values alone the sensible peak would be {} BTU/h, an upper bound; the smallest common size that holds it {}",
            figure(self.steady_peak_btu_h, 0),
            self.smallest_btu_h
                .map_or("is none".to_owned(), |btu_h| format!("has {} BTU/h", figure(btu_h, 0)))
        )
    }

    fn write_cooler(&self, out: &mut dyn Write) -> fmt::Result {
        if let Some(cooler) = &self.cooler {
            heading(out, "Air conditioner")?;
            writeln!(
                out,
                "  rated {} BTU/h; in the hour of the peak it gives {} BTU/h, {} of them sensible, for {} W",
                figure(cooler.capacity_btu_h, 0),
                figure(cooler.at_peak_btu_h, 0),
                figure(cooler.sensible_at_peak_btu_h, 0),
                figure(cooler.power_at_peak_w, 0)
            )?;
            writeln!(
                out,
                "  runs {} h of the day, at most {} of an hour; {} kWh; {} gal of water; {} humidity inside",
                figure(cooler.run_h, 1),
                percent(cooler.busiest_run_fraction),
                figure(self.cooling_kwh_per_day.unwrap_or(0.0), 2),
                figure(cooler.condensate_gal, 1),
                percent(cooler.humidity_fraction)
            )?;
        }
        if let Some(found) = &self.pull_down {
            let after = |h: Option<f64>| {
                h.map_or("not within a day".to_owned(), |h| format!("after {} h", figure(h, 1)))
            };
            writeln!(
                out,
                "  switched on at {}:00 in a box that stood closed in the sun ({} °F): air cool {}, walls and furniture {}",
                found.start_hour,
                figure(found.soaked_f, 0),
                after(found.air_h),
                after(found.lining_h)
            )?;
        }
        if let Some(airing) = &self.airing {
            writeln!(
                out,
                "  fan and open windows alone: {} cfm, up to {} °F inside; below {} °F outside it stays under {} °F",
                figure(airing.flow_cfm, 0),
                figure(airing.warmest_f, 0),
                figure(airing.outdoor_limit_f, 0),
                figure(airing.limit_f, 0)
            )?;
        }
        Ok(())
    }

    fn write_changes(&self, out: &mut dyn Write) -> fmt::Result {
        let helps = |change: &&ChangeReport| change.peak_saved_btu_h >= 0.5;
        if !self.changes.iter().any(|change| helps(&change)) {
            return Ok(());
        }
        heading(out, "What a single change would help")?;
        let mut table = Table::new(&["", "peak BTU/h", "less", "inside °F", "kWh a day"]);
        for change in self.changes.iter().filter(helps).take(MOST_CHANGES) {
            table.row(vec![
                change.meaning.to_owned(),
                fixed(change.peak_btu_h, 0),
                fixed(change.peak_saved_btu_h, 0),
                fixed(change.warmest_f, 0),
                change.cooling_kwh_per_day.map_or(String::new(), |kwh| fixed(kwh, 2)),
            ]);
        }
        table.write(out)
    }

    fn write_night(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "The cold night")?;
        let heating = &self.heating;
        writeln!(
            out,
            "  {} BTU/h: roof, walls and floor {}, windows {}, air {}; with a quarter more to warm up {}",
            figure(heating.load_btu_h, 0),
            figure(heating.opaque_btu_h, 0),
            figure(heating.windows_btu_h, 0),
            figure(heating.air_btu_h, 0),
            figure(heating.with_warm_up_btu_h, 0)
        )?;
        let takes = match (heating.night_kwh, heating.propane_lb, heating.propane_gal) {
            (Some(kwh), ..) => Some(format!("{} kWh", figure(kwh, 1))),
            (None, Some(lb), Some(gal)) => {
                Some(format!("{} lb ({} gal) of propane", figure(lb, 1), figure(gal, 2)))
            }
            _ => None,
        };
        if let Some(takes) = takes {
            writeln!(out, "  {} h of it take {takes}", figure(heating.night_h, 0))?;
        }
        let drips: Vec<&str> = self
            .condensation
            .insides
            .iter()
            .filter(|(_, inside)| inside.drips)
            .map(|(id, _)| id.as_str())
            .collect();
        let where_it_drips = if drips.is_empty() {
            "no surface is that cold".to_owned()
        } else {
            format!("water condenses on {}", drips.join(", "))
        };
        writeln!(
            out,
            "  air inside {} humid, dew point {} °F: {where_it_drips}",
            percent(self.condensation.humidity_fraction),
            figure(self.condensation.dew_point_f, 0)
        )
    }

    fn write_months(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "Through the weather given")?;
        let mut months = Table::new(&[
            "",
            "cooling kWh",
            "runs h",
            "heat kWh",
            "warmest °F",
            "coldest °F",
            "too warm h",
            "too cold h",
        ]);
        for month in &self.months {
            months.row(vec![
                month_name(month.month).to_owned(),
                fixed(month.cooling_kwh, 1),
                fixed(month.run_h, 0),
                fixed(month.heat_kwh, 0),
                fixed(month.warmest_f, 0),
                fixed(month.coldest_f, 0),
                fixed(month.warm_h, 0),
                fixed(month.cold_h, 0),
            ]);
        }
        months.write(out)
    }
}
