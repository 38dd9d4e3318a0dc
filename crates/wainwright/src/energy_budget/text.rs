//! The report for people.

use std::fmt::{self, Write};

use super::report::EnergyBudgetReport;
use crate::question::Answer;
use crate::report::{Assumption, Caution, Finding, figure, fixed, percent, percent_fixed};
use crate::text::{Table, heading, month_name};

impl Answer for EnergyBudgetReport {
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
        writeln!(out, "ENERGY BUDGET")?;
        writeln!(out, "  {}", self.summary)?;
        writeln!(out, "  Weather: {}", self.weather.meaning)?;
        self.write_loads(out)?;
        self.write_battery(out)?;
        self.write_months(out)?;
        self.write_sizes(out)?;
        Ok(())
    }
}

impl EnergyBudgetReport {
    fn write_loads(&self, out: &mut dyn Write) -> fmt::Result {
        let mode = self.mode.as_ref().map_or(String::new(), |mode| format!(" in mode {mode}"));
        heading(out, &format!("What the battery feeds{mode}"))?;
        let mut loads = Table::new(&["", "running W", "Wh a day", "of all"]);
        for (id, load) in &self.loads {
            loads.row(vec![
                id.clone(),
                fixed(load.running_w, 0),
                fixed(load.load_wh_per_day, 0),
                percent_fixed(load.load_fraction),
            ]);
        }
        if self.inverter_idle_wh_per_day > 0.0 {
            let share = self.inverter_idle_wh_per_day / self.load_wh_per_day;
            let idle = fixed(self.inverter_idle_wh_per_day, 0);
            loads.row(vec![
                "inverters, for themselves".to_owned(),
                String::new(),
                idle,
                percent_fixed(share),
            ]);
        }
        loads.row(vec!["in all".to_owned(), String::new(), fixed(self.load_wh_per_day, 0), String::new()]);
        loads.write(out)
    }

    fn write_battery(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "Battery")?;
        let bank = &self.bank;
        writeln!(
            out,
            "  holds {} Wh, of which {} Wh are used; {} to {} °F through the weather given",
            figure(bank.capacity_wh, 0),
            figure(bank.usable_wh, 0),
            figure(bank.lowest_f, 0),
            figure(bank.highest_f, 0)
        )?;
        let lasts = |hours_h: Option<f64>| {
            hours_h.map_or("longer than the weather given".to_owned(), |h| format!("{} h", figure(h, 1)))
        };
        let autonomy = &self.autonomy;
        for (from, hours_h, to_flat_h) in [
            (&autonomy.start, autonomy.autonomy_h, autonomy.to_flat_h),
            (&autonomy.worst_start, autonomy.worst_autonomy_h, autonomy.worst_to_flat_h),
        ] {
            writeln!(
                out,
                "  without sun from {from}: {}; with its reserve used up {}",
                lasts(hours_h),
                lasts(to_flat_h)
            )?;
        }
        match self.days_to_recover {
            Some(days) => writeln!(out, "  from empty to full again: {} days", figure(days, 1))?,
            None => writeln!(out, "  from empty it is not full again in 60 days")?,
        }
        writeln!(
            out,
            "  lasts about {} years ({}), {} full cycles a year",
            figure(self.life.years, 0),
            self.life.bound_by,
            figure(self.life.full_cycles_per_year, 0)
        )
    }

    fn write_months(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, "Month by month")?;
        let mut months = Table::new(&[
            "",
            "sun h",
            "harvest kWh",
            "load kWh",
            "spilled kWh",
            "other kWh",
            "unmet kWh",
            "unmet h",
            "lowest",
        ]);
        for month in &self.months {
            months.row(vec![
                month_name(month.month).to_owned(),
                fixed(month.sun_hours_per_day, 1),
                fixed(month.harvest_kwh, 1),
                fixed(month.load_kwh, 1),
                fixed(month.spilled_kwh, 1),
                fixed(month.other_kwh, 1),
                fixed(month.unmet_kwh, 1),
                fixed(month.unmet_h, 0),
                percent_fixed(month.lowest_soc),
            ]);
        }
        months.write(out)?;
        for (id, array) in &self.arrays {
            writeln!(
                out,
                "  array {id}: {} kWh, {} h of full sun a day, faces {}°",
                figure(array.harvest_kwh, 0),
                figure(array.sun_hours_per_day, 1),
                figure(array.faces_deg, 0)
            )?;
        }
        for (id, source) in &self.charging {
            writeln!(
                out,
                "  {id}: {} W, for up to {} h",
                figure(source.output_w, 0),
                figure(source.available_h, 0)
            )?;
        }
        Ok(())
    }

    fn write_sizes(&self, out: &mut dyn Write) -> fmt::Result {
        heading(out, &format!("Smallest sizes, {} unmet", percent(self.sizing.max_unmet_fraction)))?;
        let size = |size: Option<f64>, unit: &str| {
            size.map_or("none".to_owned(), |size| format!("{} {unit}", figure(size, 0)))
        };
        writeln!(out, "  array {} ({})", size(self.smallest_array_w, "W"), self.sizing.array)?;
        writeln!(out, "  battery {} ({})", size(self.smallest_bank_ah, "Ah"), self.sizing.bank)?;
        if let Some(sheet) = &self.worksheet {
            writeln!(
                out,
                "  on one line, for {}: {} Wh over {} h of full sun ask for {} W; {} days without sun for {} Ah",
                month_name(sheet.month),
                figure(sheet.load_wh_per_day, 0),
                figure(sheet.sun_hours_per_day, 1),
                figure(sheet.array_w, 0),
                figure(sheet.days, 0),
                figure(sheet.bank_ah, 0)
            )?;
        }
        Ok(())
    }
}
