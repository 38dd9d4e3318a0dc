//! Cautions that go with the reports of more than one question.

use super::Caution;

/// What a battery can do.
pub const BATTERY_HAZARDS: Caution = Caution {
    code: "battery_hazards",
    text: "Batteries burn, explode and give off gas. Keep to the maker's charge limits and lowest charging temperature; \
        vent lead-acid batteries to the outside.",
};

/// Where the first fuse belongs.
pub const FUSE_AT_BATTERY: Caution = Caution {
    code: "fuse_at_battery",
    text: "Fuse at the battery first. A short circuit on an unfused battery cable starts a fire in seconds.",
};

/// What an engine gives off.
pub const CARBON_MONOXIDE: Caution = Caution {
    code: "carbon_monoxide",
    text: "A generator's exhaust kills. Run it outside, away from openings, with a carbon monoxide alarm inside.",
};

/// What a flame in the box can do.
pub const BURNERS_INSIDE: Caution = Caution {
    code: "burners_inside",
    text: "A flame inside eats the air, gives off carbon monoxide and water, and burns what stands near. Never sleep with one; \
        have carbon monoxide, propane and smoke alarms, and fixed vents. The appliance's listing decides.",
};
