//! What the rules say of the hot day and the cold night that were looked at.

use super::{DAY_NOT_SETTLED, NO_DESIGN_DAY, NO_DESIGN_NIGHT, degrees};
use crate::cooling_load::numbers::Numbers;
use crate::cooling_load::setup::Setup;
use crate::report::Findings;
use crate::site_weather::DesignOrigin;

/// Holds hot day and cold night against their rules.
pub fn judge(setup: &Setup, numbers: &Numbers, all: &mut Findings) {
    if !numbers.cooled.as_ref().unwrap_or(&numbers.free).settled {
        let message =
            "A month of the same hot day does not bring the box to rest: it stores much heat or moisture."
                .to_owned();
        let remedy = "Check heat_capacity_btu_f, floor_load and the air that comes in; these figures are of the last day.";
        all.add(DAY_NOT_SETTLED.finding("/envelope", None, None, message, remedy));
    }
    if setup.cold_night.origin == DesignOrigin::ShortSeries {
        let message = format!(
            "The cold night was taken to be the coldest hour of the weather given, {}.",
            degrees(setup.cold_night.air_c)
        );
        let remedy = "Give site.heating_design with the temperature that heating is sized for.";
        all.add(NO_DESIGN_NIGHT.finding("/site/weather", None, None, message, remedy));
    }
    if setup.hot_day.origin == DesignOrigin::ShortSeries {
        let message = format!(
            "The hot day was taken to be the hottest of the weather given, {}.",
            degrees(setup.hot_day.max_c)
        );
        let remedy = "Give site.cooling_design with the day that cooling is sized for.";
        all.add(NO_DESIGN_DAY.finding("/site/weather", None, None, message, remedy));
    }
}
