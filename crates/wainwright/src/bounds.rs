//! The bounds of every quantity in a build document, and why they are where they are.
//!
//! They are wide: a bound refuses what cannot be meant (a slip of units, a sign, a runaway script) and keeps
//! every sum finite. Whether a value is wise is for the findings to say.

use crate::document::{Bound, Text, Whole};

/// A mass [lb]. This law of trailers ends at 10,000 lb; ten times that leaves room for any slip to be seen.
pub const MASS_LB: Bound = Bound::new(0.0, 100_000.0);
/// A rating or breaking strength [lb]. A rating of nothing is no rating.
pub const RATING_LB: Bound = Bound::new(1.0, 1_000_000.0);
/// A place along the trailer [in]: 40 ft ahead of the ball to 100 ft behind it.
pub const STATION_IN: Bound = Bound::new(-480.0, 1_200.0);
/// A place behind the ball where an axle can stand [in].
pub const AXLE_STATION_IN: Bound = Bound::new(12.0, 1_200.0);
/// A place right (+) or left (-) of the centerline [in]. The law's width is 102 in.
pub const OFFSET_IN: Bound = Bound::new(-120.0, 120.0);
/// A height above the ground [in]. The law's height is 13 ft 6 in to 14 ft.
pub const HEIGHT_IN: Bound = Bound::new(0.0, 240.0);
/// Height of a coupler ball [in].
pub const BALL_HEIGHT_IN: Bound = Bound::new(4.0, 60.0);
/// Distance between the wheels of an axle [in].
pub const TRACK_IN: Bound = Bound::new(20.0, 120.0);
/// A length of something aboard [in].
pub const LENGTH_IN: Bound = Bound::new(0.0, 1_200.0);
/// A length that something must have [in].
pub const POSITIVE_LENGTH_IN: Bound = Bound::new(0.01, 1_200.0);
/// Uncertainty of a mass [lb].
pub const MASS_TOLERANCE_LB: Bound = Bound::new(0.0, 10_000.0);
/// Uncertainty of a place [in].
pub const PLACE_TOLERANCE_IN: Bound = Bound::new(0.0, 240.0);
/// Content of a tank [gal].
pub const CAPACITY_GAL: Bound = Bound::new(0.0, 2_000.0);
/// Density of a liquid [lb/gal]: petroleum gases to brine.
pub const DENSITY_LB_PER_GAL: Bound = Bound::new(1.0, 20.0);
/// A part of a whole.
pub const FRACTION: Bound = Bound::new(0.0, 1.0);
/// Share of a battery's capacity that is used. A battery of which nothing is used is none.
pub const USABLE_FRACTION: Bound = Bound::new(0.01, 1.0);
/// Rate of one axle's springs and tires together [lb/in].
pub const SPRING_RATE_LB_PER_IN: Bound = Bound::new(10.0, 100_000.0);
/// Cold pressure of a tire [psi].
pub const PRESSURE_PSI: Bound = Bound::new(1.0, 200.0);
/// A deceleration or sideways acceleration as a share of gravity. Tires hold little more than one.
pub const ACCELERATION_G: Bound = Bound::new(0.0, 1.5);
/// A grade: rise over run.
pub const GRADE_FRACTION: Bound = Bound::new(0.0, 0.5);
/// A road speed [mph].
pub const SPEED_MPH: Bound = Bound::new(1.0, 120.0);
/// An angle between 0 and a right angle [degree].
pub const ANGLE_DEG: Bound = Bound::new(0.0, 90.0);
/// Distance between axles of a tow vehicle [in].
pub const WHEELBASE_IN: Bound = Bound::new(40.0, 400.0);
/// Stiffness of a floor panel [psi]: foam board to steel.
pub const MODULUS_PSI: Bound = Bound::new(1_000.0, 30_000_000.0);
/// Stress a floor panel may carry [psi].
pub const STRESS_PSI: Bound = Bound::new(1.0, 100_000.0);
/// How many of the same part.
pub const QUANTITY: Whole = Whole { minimum: 0, maximum: 10_000 };
/// Tires on one axle: one or two each side.
pub const TIRES: Whole = Whole { minimum: 2, maximum: 8 };
/// Safety chains.
pub const CHAINS: Whole = Whole { minimum: 1, maximum: 4 };
/// A name for people.
pub const NAME: Text = Text { longest: 200 };
/// At most so many parts.
pub const MOST_PARTS: usize = 10_000;
/// At most so many sources or solar arrays. A trailer has a handful.
pub const MOST_SOURCES: usize = 20;
/// At most so many ratings along a source's path.
pub const MOST_PATH: usize = 20;
/// At most so many supply modes.
pub const MOST_MODES: usize = 20;
/// At most so many circuits.
pub const MOST_CIRCUITS: usize = 200;
/// At most so many parts that draw power.
pub const MOST_DRAWS: usize = 1_000;
/// At most so many entries in any other map, items in any list.
pub const MOST_ENTRIES: usize = 1_000;
/// Mass of the bare trailer [lb]. It weighs something, so that no share is a share of nothing.
pub const BARE_MASS_LB: Bound = Bound::new(1.0, 100_000.0);
/// Load on an axle of a tow vehicle [lb].
pub const AXLE_LOAD_LB: Bound = Bound::new(1.0, 100_000.0);
/// Front axle load restoration. Above 1 the bars are set too tight: a finding, not a fault.
pub const RESTORATION: Bound = Bound::new(0.0, 2.0);
/// Heat given off or removed by a part [W].
pub const HEAT_W: Bound = Bound::new(-100_000.0, 100_000.0);
/// Wheels on one axle of a toy.
pub const TOY_WHEELS: Whole = Whole { minimum: 1, maximum: 4 };
/// Voltage of a supply, or of something that a supply feeds [V]. A trailer has nothing above 240 V; a module's
/// label may say 600.
pub const VOLTAGE_V: Bound = Bound::new(1.0, 1_000.0);
/// A current that is drawn [A].
pub const CURRENT_A: Bound = Bound::new(0.0, 10_000.0);
/// The rating of a breaker, a fuse, an outlet or a supply [A]. A rating of nothing is no rating.
pub const RATING_A: Bound = Bound::new(0.1, 10_000.0);
/// A current that a device can break, or that a fault can reach [A].
pub const FAULT_A: Bound = Bound::new(1.0, 1_000_000.0);
/// A power that is drawn or given [W].
pub const POWER_W: Bound = Bound::new(0.0, 100_000.0);
/// A rated power [W].
pub const RATED_POWER_W: Bound = Bound::new(1.0, 100_000.0);
/// Power factor. Nothing that does work draws less than a twentieth of its volt-amperes as power.
pub const POWER_FACTOR: Bound = Bound::new(0.05, 1.0);
/// Efficiency of a converter, an inverter or a controller.
pub const EFFICIENCY: Bound = Bound::new(0.05, 1.0);
/// Shaft power of a motor [hp]: the motors that the code's single-phase table has up to 3 hp.
pub const HORSEPOWER: Bound = Bound::new(0.01, 3.0);
/// Starting current as a multiple of the running current.
pub const INRUSH_MULTIPLE: Bound = Bound::new(1.0, 20.0);
/// How long a start takes [s].
pub const START_S: Bound = Bound::new(0.0, 60.0);
/// Hours of a day.
pub const HOURS_PER_DAY: Bound = Bound::new(0.0, 24.0);
/// How much it matters that something may run beside the rest.
pub const PRIORITY: Bound = Bound::new(0.0, 1_000.0);
/// One-way length of a circuit [ft].
pub const RUN_FT: Bound = Bound::new(0.0, 1_000.0);
/// Temperature of the air around a conductor, or of a night [°F].
pub const AIR_F: Bound = Bound::new(-80.0, 200.0);
/// Conductors that carry current in one bundle.
pub const BUNDLED: Whole = Whole { minimum: 1, maximum: 100 };
/// Outlets of a circuit.
pub const RECEPTACLES: Whole = Whole { minimum: 1, maximum: 50 };
/// Hot legs of a supply.
pub const LEGS: Whole = Whole { minimum: 1, maximum: 2 };
/// Resistance of a battery [mΩ].
pub const RESISTANCE_MOHM: Bound = Bound::new(0.01, 10_000.0);
/// Capacity of a battery [Ah].
pub const CAPACITY_AH: Bound = Bound::new(0.1, 100_000.0);
/// Cold-cranking rating of a battery [A].
pub const COLD_CRANKING_A: Bound = Bound::new(1.0, 20_000.0);
/// Solar modules in series, or strings in parallel.
pub const MODULES: Whole = Whole { minimum: 1, maximum: 100 };
/// Tilt of a solar array from the horizontal [degree].
pub const TILT_DEG: Bound = Bound::new(0.0, 90.0);
/// A compass direction [degree], north 0, east 90.
pub const AZIMUTH_DEG: Bound = Bound::new(-360.0, 360.0);
/// Change of a module's voltage with temperature, as a share of it for each degree [1/°C]. Silicon loses voltage
/// when it warms.
pub const VOLTAGE_FRACTION_PER_C: Bound = Bound::new(-0.02, 0.0);
/// Hours of the day, one figure each.
pub const MOST_HOURS: usize = 24;
/// Area of an opening [in²].
pub const VENT_IN2: Bound = Bound::new(0.0, 1_000.0);
/// Cooling capacity of a room air conditioner [Btu/h].
pub const CAPACITY_BTU_H: Bound = Bound::new(500.0, 100_000.0);
/// Combined energy efficiency ratio [Btu/Wh].
pub const CEER: Bound = Bound::new(1.0, 50.0);
/// Latitude [degree].
pub const LATITUDE_DEG: Bound = Bound::new(-90.0, 90.0);
/// Longitude [degree].
pub const LONGITUDE_DEG: Bound = Bound::new(-180.0, 180.0);
/// Height above sea level [ft]: the shore of the Dead Sea to beyond the highest roads.
pub const ELEVATION_FT: Bound = Bound::new(-1_500.0, 20_000.0);
/// Local standard time less universal time [h]: from one side of the date line to the other.
pub const UTC_OFFSET_H: Bound = Bound::new(-12.0, 14.0);
/// Temperature of outdoor air [°F]: beyond the records of the earth.
pub const OUTDOOR_F: Bound = Bound::new(-130.0, 140.0);
/// From the coldest to the warmest hour of a day [°F]: deserts have 60 in the mean of a month. None is air that stays.
pub const RANGE_F: Bound = Bound::new(0.0, 90.0);
/// Wind [mph]: the strongest hours of a hurricane.
pub const WIND_MPH: Bound = Bound::new(0.0, 150.0);
/// Irradiance of one kind [W/m²]. Outside the atmosphere it is 1,410 at most; the edge of a cloud adds to it.
pub const IRRADIANCE_W_M2: Bound = Bound::new(0.0, 2_000.0);
/// Sunlight of a day on level ground [kWh/m²]. Outside the atmosphere a day has 13.5 at most.
pub const DAILY_KWH_M2: Bound = Bound::new(0.0, 14.0);
/// Linke turbidity: clean, dry air to a dust storm.
pub const LINKE_TURBIDITY: Bound = Bound::new(1.0, 10.0);
/// A day of the year.
pub const DAY_OF_YEAR: Whole = Whole { minimum: 1, maximum: 366 };
/// Length of a step [min]. Longer than an hour the sun moves too far in a step.
pub const STEP_MIN: Whole = Whole { minimum: 1, maximum: 60 };
/// Figures of a series: a leap year in steps of 10 minutes.
pub const MOST_STEPS: usize = 52_704;
/// Months of a year.
pub const MONTHS: usize = 12;
/// A month by its number.
pub const MONTH: Whole = Whole { minimum: 1, maximum: 12 };
/// State of charge at which loads come back. Toward its top a charge goes in ever more slowly: to wait for the last of it
/// is to wait forever.
pub const RECONNECT_SOC: Bound = Bound::new(0.0, 0.95);
/// Depth of a discharge.
pub const CYCLE_DEPTH: Bound = Bound::new(0.01, 1.0);
/// Days of a week.
pub const WEEKDAYS: usize = 7;
/// An hour of the day.
pub const HOUR: Whole = Whole { minimum: 0, maximum: 23 };
/// Days of a stay: a year at most, which is what is looked at.
pub const STAY_DAYS: Whole = Whole { minimum: 1, maximum: 366 };
/// Grey days of a stay.
pub const GREY_DAYS: Whole = Whole { minimum: 0, maximum: 366 };
/// A number that picks one of all possible years.
pub const SEED: Whole = Whole { minimum: 0, maximum: 4_294_967_295 };
/// A weather file as text: a year of hours with 71 columns has 1.8 million characters.
pub const FILE_TEXT: Text = Text { longest: 8_388_608 };
/// Batteries in series, or strings in parallel: cells of a bank of 300 V, too.
pub const BATTERIES: Whole = Whole { minimum: 1, maximum: 100 };
/// Peukert's exponent: 1 where the current does not matter, to worn lead-acid. The kinetic model ends at 1.4 too.
pub const PEUKERT_EXPONENT: Bound = Bound::new(1.0, 1.4);
/// Hours over which a capacity is rated [h]: lithium at one hour, lead-acid for the sun at 100, 120 or 240 hours.
pub const RATED_H: Bound = Bound::new(1.0, 240.0);
/// A time constant [h]. With 0 it follows at once.
pub const TIME_CONSTANT_H: Bound = Bound::new(0.0, 48.0);
/// Cycles of a battery: a starting battery to the best of lithium. So many until it has 80 percent of its capacity left.
pub const CYCLES: Bound = Bound::new(10.0, 100_000.0);
/// Change of a module's power with temperature, as a share of it for each degree [1/°C]: silicon has -0.005 to -0.0025.
/// Where it would leave a hot module less than nothing, the power is 0.
pub const POWER_FRACTION_PER_C: Bound = Bound::new(-0.02, 0.0);
/// Groups of cells of a module with a bypass diode each.
pub const BYPASS_GROUPS: Whole = Whole { minimum: 1, maximum: 12 };
/// A temperature inside a refrigerator or freezer [°F]: a deep freezer to a wine cooler.
pub const COLD_BOX_F: Bound = Bound::new(-40.0, 65.0);
/// Heat that leaks into a refrigerator for each degree [W/K]: a walk-in room has 20.
pub const HEAT_LEAK_W_PER_K: Bound = Bound::new(0.01, 20.0);
/// The room that a refrigerator's energy is stated for [°F]. Makers state 77, 90 or 110. Well above its evaporator, so that
/// the heat that leaks in follows from it.
pub const ROOM_F: Bound = Bound::new(50.0, 130.0);
/// Energy of a day that a refrigerator takes [kWh]. Its maker states one that is not nothing.
pub const KWH_PER_DAY: Bound = Bound::new(0.01, 100.0);
/// Resistance of a line [mΩ]. Some there is, or its current is without bound.
pub const LINE_MOHM: Bound = Bound::new(0.1, 10_000.0);
/// Area of a surface of the box or of a window [ft²].
pub const AREA_FT2: Bound = Bound::new(0.01, 5_000.0);
/// Room inside [ft³].
pub const VOLUME_FT3: Bound = Bound::new(1.0, 50_000.0);
/// Thermal resistance from air to air [h·ft²·°F/BTU]: two films in a storm have half a unit, the best panels some tens.
pub const R_VALUE: Bound = Bound::new(0.5, 100.0);
/// Thermal resistance of a layer [h·ft²·°F/BTU]. A sheet of metal has next to none.
pub const LAYER_R_VALUE: Bound = Bound::new(0.0, 100.0);
/// Thermal transmittance of a window [BTU/(h·ft²·°F)]: the best have 0.1, a bare pane in a storm 1.5.
pub const U_VALUE: Bound = Bound::new(0.05, 2.0);
/// Thickness of a layer [in].
pub const THICKNESS_IN: Bound = Bound::new(0.001, 24.0);
/// Depth of a post [in].
pub const POST_DEPTH_IN: Bound = Bound::new(0.5, 6.0);
/// Distance from post to post [in].
pub const SPACING_IN: Bound = Bound::new(4.0, 96.0);
/// Continuous foam on posts [in].
pub const FOAM_IN: Bound = Bound::new(0.0, 6.0);
/// At most so many layers.
pub const MOST_LAYERS: usize = 12;
/// At most so many surfaces or windows.
pub const MOST_SURFACES: usize = 100;
/// How often the air is changed in an hour.
pub const AIR_CHANGES_PER_H: Bound = Bound::new(0.0, 100.0);
/// Area of all leaks together [in²].
pub const LEAKAGE_IN2: Bound = Bound::new(0.0, 1_000.0);
/// Heat capacity of what is in the box [BTU/°F].
pub const HEAT_CAPACITY_BTU_F: Bound = Bound::new(1.0, 50_000.0);
/// Specific heat [BTU/(lb·°F)]: lead to water.
pub const SPECIFIC_HEAT: Bound = Bound::new(0.03, 1.0);
/// A flow of air [cfm].
pub const FLOW_CFM: Bound = Bound::new(0.0, 10_000.0);
/// A temperature that a thermostat is set to [°F].
pub const SETPOINT_F: Bound = Bound::new(35.0, 100.0);
/// Sensible share of a cooler's capacity: below half, its air would come out as mist.
pub const SENSIBLE_FRACTION: Bound = Bound::new(0.5, 1.0);
/// Share of its own exhaust that a condenser breathes. Near 1 its air would be without bound.
pub const RECIRCULATED_FRACTION: Bound = Bound::new(0.0, 0.8);
/// Heating capacity [BTU/h].
pub const HEATING_BTU_H: Bound = Bound::new(100.0, 200_000.0);
/// People in the box.
pub const PEOPLE: Whole = Whole { minimum: 0, maximum: 20 };
/// Heat of cooking [BTU].
pub const COOKING_BTU: Bound = Bound::new(0.0, 100_000.0);
/// Share of air or area that a screen leaves. One that leaves nothing is a wall.
pub const SCREEN_FRACTION: Bound = Bound::new(0.05, 1.0);
/// An opening through which air comes in [in²].
pub const OPENING_IN2: Bound = Bound::new(0.1, 10_000.0);
/// Relative humidity: no air of a room is quite dry, and none holds more than all it can.
pub const HUMIDITY_FRACTION: Bound = Bound::new(0.05, 1.0);
/// Heat of a heater by what it takes in: a heat pump moves several times what it draws.
pub const HEATING_EFFICIENCY: Bound = Bound::new(0.05, 8.0);
/// Price of an option [USD]; below 0 for what is left out of the base.
pub const PRICE_USD: Bound = Bound::new(-1_000_000.0, 1_000_000.0);
/// At most so many groups of options.
pub const MOST_GROUPS: usize = 100;
/// At most so many options in a catalogue: each is tried.
pub const MOST_OPTIONS: usize = 400;
/// At most so many choices are searched.
pub const MOST_CHOICES: u64 = 1 << 20;
/// At most so many whole builds are evaluated in a search; sixteen that are read and weighed alone count as one.
pub const MOST_EVALUATED: u64 = 2_048;
/// At most so many figures are wanted of every row of a table.
pub const MOST_SCORES: usize = 200;
/// At most so many rows has a table that is scored over HTTP.
pub const MOST_ROWS: usize = 100_000;
/// At most so many choices of a Pareto set are listed.
pub const MOST_PARETO: usize = 500;
/// A weight of one criterion in the score of a choice.
pub const WEIGHT: Bound = Bound::new(0.0, 1e9);
/// At most so many choices listed by score.
pub const MOST_LISTED: Whole = Whole { minimum: 0, maximum: 100 };
