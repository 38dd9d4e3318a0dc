//! Section `trailer`: the bare trailer and its running gear.

use serde_json::Value;

use super::Build;
use crate::bounds;
use crate::document::{Choice, Faults, Keyed, List, Map, Options, Place, Section, record};
use crate::equalized::{equal_share, tandem_shares};
use crate::units::m;

record! {
    /// The trailer as bought, with the ratings of its labels and plates.
    pub struct Trailer: "the trailer" {
        /// Gross vehicle weight rating of the certification label.
        required gvwr_lb: f64 = bounds::RATING_LB, 7700.0;
        /// The bare trailer as bought, before any conversion work.
        required bare: Bare = Section::of();
        /// How the axles share their load: `equalized` leaf springs, or `independent` (torsion) axles.
        optional suspension: Suspension = Choice::of(), "equalized";
        /// The axles, one to three.
        optional axles: Keyed<Axle> = Map { of: Section::of(), most: 3, example_id: "front" };
        /// Coupler, and the ball it stands on.
        optional coupler: Coupler = Section::of();
        /// The tongue jack.
        optional jack: Jack = Section::of();
        /// The safety chains.
        optional chains: Chains = Section::of();
        /// Where the floor begins and ends.
        optional floor: Floor = Section::of();
        /// The balance beams between two equalized axles, where their arms are not equal.
        optional equalizer: Equalizer = Section::of(), Value::Null;
        /// How independent axles were set up: where the trailer stands level.
        optional level: Level = Section::of(), Value::Null;
    }
}

record! {
    /// The bare trailer as bought.
    pub struct Bare: "the bare trailer" {
        /// Mass as bought, best from a scale.
        required mass_lb: f64 = bounds::BARE_MASS_LB, 2240.0;
        /// Its center of gravity behind the ball.
        optional x_in: f64 = bounds::STATION_IN, 150.0;
        /// Its center of gravity right (+) or left (-) of the centerline.
        optional y_in: f64 = bounds::OFFSET_IN, 0.0;
        /// Height of its center of gravity above the ground.
        optional z_in: f64 = bounds::HEIGHT_IN, 42.0;
        /// How far the mass may be off, either way.
        optional mass_tolerance_lb: f64 = bounds::MASS_TOLERANCE_LB, 40.0;
        /// How far `x_in` may be off, either way.
        optional x_tolerance_in: f64 = bounds::PLACE_TOLERANCE_IN, 1.0;
        /// Length of the box, for its resistance to yaw.
        optional length_in: f64 = bounds::LENGTH_IN, 192.0;
        /// Width of the box, for its resistance to yaw.
        optional width_in: f64 = bounds::LENGTH_IN, 84.0;
    }
}

record! {
    /// One axle with its wheels and tires.
    pub struct Axle: "an axle" {
        /// Distance behind the ball.
        required x_in: f64 = bounds::AXLE_STATION_IN, 158.0;
        /// Gross axle weight rating of the certification label.
        required gawr_lb: f64 = bounds::RATING_LB, 3500.0;
        /// Distance between the centers of its left and right wheels.
        required track_in: f64 = bounds::TRACK_IN, 80.0;
        /// Tires on the axle, both sides together.
        optional tires: u32 = bounds::TIRES, 2;
        /// Greatest load of one tire, as molded on its sidewall.
        optional tire_max_load_lb: f64 = bounds::RATING_LB, 1820.0;
        /// What the tires are made for. A `passenger` tire on a trailer counts for its rating divided by 1.10.
        optional tire_type: TireType = Choice::of(), "trailer";
        /// Cold pressure that the tire's greatest load goes with, as molded on its sidewall.
        optional tire_max_load_psi: f64 = bounds::PRESSURE_PSI, 50.0;
        /// Cold pressure the tires are driven at.
        optional tire_psi: f64 = bounds::PRESSURE_PSI, 50.0;
        /// Loads of one tire at lower cold pressures, from its maker's table, with rising pressure.
        optional tire_loads: Vec<TireLoad> = List { of: Section::of(), most: 20 };
        /// Greatest load of one rim.
        optional rim_max_load_lb: f64 = bounds::RATING_LB, 1870.0;
        /// Load that presses the axle up by an inch, both wheels together, springs and tires in series.
        optional rate_lb_per_in: f64 = bounds::SPRING_RATE_LB_PER_IN, 1450.0;
        /// Height of the line through the ball and along the body, over the axle, at which the axle just
        /// carries nothing. Left out, it follows from `level`.
        optional unloaded_height_in: f64 = bounds::HEIGHT_IN, 21.8;
        /// The axle's own mass with hubs, wheels and tires, which bears on this axle alone. It is part of the
        /// bare trailer's mass.
        optional unsprung_lb: f64 = bounds::MASS_LB, 330.0;
        /// How far `x_in` may be off, either way.
        optional x_tolerance_in: f64 = bounds::PLACE_TOLERANCE_IN, 0.5;
    }
}

record! {
    /// A row of a tire's load table.
    pub struct TireLoad: "a tire load" {
        /// Cold pressure.
        required psi: f64 = bounds::PRESSURE_PSI, 40.0;
        /// Load one tire carries at it.
        required load_lb: f64 = bounds::RATING_LB, 1570.0;
    }
}

record! {
    /// Coupler, and the ball it stands on.
    pub struct Coupler: "the coupler" {
        /// Height of the ball's center above the ground, coupled and at rest.
        required ball_height_in: f64 = bounds::BALL_HEIGHT_IN, 19.5;
        /// Gross trailer weight the coupler is rated for.
        optional rating_lb: f64 = bounds::RATING_LB, 8000.0;
        /// Tongue load the coupler is rated for.
        optional max_tongue_lb: f64 = bounds::RATING_LB, 1000.0;
        /// Gross trailer weight the ball is rated for.
        optional ball_rating_lb: f64 = bounds::RATING_LB, 8000.0;
        /// Gross trailer weight the ball mount is rated for.
        optional ball_mount_rating_lb: f64 = bounds::RATING_LB, 8000.0;
        /// Tongue load the ball mount is rated for.
        optional ball_mount_max_tongue_lb: f64 = bounds::RATING_LB, 1000.0;
    }
}

record! {
    /// The tongue jack.
    pub struct Jack: "the jack" {
        /// Its foot behind the ball.
        required x_in: f64 = bounds::STATION_IN, 8.0;
        /// Static load it is rated for.
        required rating_lb: f64 = bounds::RATING_LB, 2500.0;
    }
}

record! {
    /// The safety chains.
    pub struct Chains: "the chains" {
        /// How many there are.
        required count: u32 = bounds::CHAINS, 2;
        /// Breaking strength of one chain with its hook and attachment. Not its working load limit, which is
        /// a third or a quarter of that.
        required breaking_strength_lb: f64 = bounds::RATING_LB, 7700.0;
    }
}

record! {
    /// Where the floor begins and ends.
    pub struct Floor: "the floor" {
        /// Its front edge behind the ball.
        required front_x_in: f64 = bounds::STATION_IN, 48.0;
        /// Its rear edge behind the ball, where the ramp door's hinge is.
        required rear_x_in: f64 = bounds::STATION_IN, 240.0;
    }
}

record! {
    /// The balance beam between two equalized axles.
    pub struct Equalizer: "the equalizer" {
        /// Arm from the pivot to the front spring.
        required front_arm_in: f64 = bounds::POSITIVE_LENGTH_IN, 6.0;
        /// Arm from the pivot to the rear spring.
        required rear_arm_in: f64 = bounds::POSITIVE_LENGTH_IN, 6.0;
    }
}

record! {
    /// The set-up of independent axles: in which state and at which ball height all axles carry the same.
    pub struct Level: "the level" {
        /// Height of the ball's center at which the axles carry the same.
        required ball_height_in: f64 = bounds::BALL_HEIGHT_IN, 19.0;
        /// The loading state in which they do. Left out, the heaviest state that moves.
        optional state: String = bounds::NAME, "outbound";
    }
}

/// How the axles share their load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Suspension {
    /// Leaf springs with balance beams between them: fixed shares.
    Equalized,
    /// Every axle on its own springs: shares follow the trailer's pitch.
    Independent,
}

impl Options for Suspension {
    const WORDS: &'static [(&'static str, Self)] =
        &[("equalized", Self::Equalized), ("independent", Self::Independent)];
}

/// What a tire is made for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TireType {
    /// Special trailer (ST) tire.
    Trailer,
    /// Light-truck (LT) tire.
    LightTruck,
    /// Passenger-car (P) tire.
    Passenger,
}

impl Options for TireType {
    const WORDS: &'static [(&'static str, Self)] =
        &[("trailer", Self::Trailer), ("light_truck", Self::LightTruck), ("passenger", Self::Passenger)];
}

impl Trailer {
    /// Share of each axle, in the order of the document, of what the springs of an equalized group carry; 0 for
    /// places beyond the last axle.
    pub fn equalized_shares(&self) -> [f64; 3] {
        let stations: Vec<f64> = self.axles.iter().flatten().map(|(_, axle)| axle.x_in).collect();
        match (&self.equalizer, stations.as_slice()) {
            (Some(arms), [first, second]) => {
                let [front, rear] = tandem_shares(m(arms.front_arm_in), m(arms.rear_arm_in));
                if first < second { [front, rear, 0.0] } else { [rear, front, 0.0] }
            }
            _ => std::array::from_fn(|j| if j < stations.len() { equal_share(stations.len()) } else { 0.0 }),
        }
    }

    pub(super) fn check(&self, build: &Build, at: &Place, faults: &mut Faults) {
        if let Some(axles) = &self.axles {
            self.check_axles(axles, at, faults);
        }
        if let Some(tolerance) = self.bare.mass_tolerance_lb
            && tolerance >= self.bare.mass_lb
        {
            let detail = format!("must be below mass_lb, {}; got {tolerance}", self.bare.mass_lb);
            faults.contradiction(&at.key("bare").key("mass_tolerance_lb"), detail);
        }
        if let Some(floor) = &self.floor
            && floor.rear_x_in <= floor.front_x_in
        {
            faults.contradiction(
                &at.key("floor").key("rear_x_in"),
                format!("must be behind front_x_in, {}; got {}", floor.front_x_in, floor.rear_x_in),
            );
        }
        let foremost = self.axles.iter().flat_map(|axles| axles.values()).map(|axle| axle.x_in);
        let foremost = foremost.fold(f64::INFINITY, f64::min);
        if let Some(jack) = &self.jack
            && jack.x_in >= foremost
        {
            let detail =
                format!("must be ahead of every axle, the foremost at {foremost}; got {}", jack.x_in);
            faults.contradiction(&at.key("jack").key("x_in"), detail);
        }
        if let Some(level) = &self.level {
            let level_at = at.key("level");
            if let Some(state) = &level.state {
                faults.check_reference(&level_at.key("state"), state, "/states", build.states.as_ref());
            }
            if self.suspension != Some(Suspension::Independent)
                && !faults.spoil(&at.key("suspension").pointer())
            {
                let detail = "is for independent axles; set suspension to independent, or leave level out";
                faults.contradiction(&level_at, detail.to_owned());
            }
        }
    }

    fn check_axles(&self, axles: &Keyed<Axle>, at: &Place, faults: &mut Faults) {
        let axles_at = at.key("axles");
        for (i, (id, axle)) in axles.iter().enumerate() {
            if let Some((other, _)) = axles.iter().take(i).find(|(_, other)| other.x_in == axle.x_in) {
                let detail = format!("is the place of {other} too; two axles cannot stand at {}", axle.x_in);
                faults.contradiction(&axles_at.key(id).key("x_in"), detail);
            }
            if let Some(tolerance) = axle.x_tolerance_in
                && tolerance >= axle.x_in
            {
                let detail = format!("must be below x_in, {}; got {tolerance}", axle.x_in);
                faults.contradiction(&axles_at.key(id).key("x_tolerance_in"), detail);
            }
            for (row, pair) in axle.tire_loads.iter().flat_map(|rows| rows.windows(2).enumerate()) {
                if pair[1].psi <= pair[0].psi {
                    let at = axles_at.key(id);
                    let at = at.key("tire_loads");
                    let detail =
                        format!("must be above the row before it, {}; got {}", pair[0].psi, pair[1].psi);
                    faults.contradiction(&at.index(row + 1).key("psi"), detail);
                }
            }
            if let Some(tires) = axle.tires
                && tires % 2 == 1
            {
                let detail = format!("must be even, the same number left and right; got {tires}");
                faults.contradiction(&axles_at.key(id).key("tires"), detail);
            }
        }
        let unsprung = axles.values().filter_map(|axle| axle.unsprung_lb).fold(0.0, |sum, each| sum + each);
        if unsprung > 0.8 * self.bare.mass_lb {
            let detail = format!(
                "have unsprung_lb of {unsprung} together, which is more than four fifths of the bare trailer's {}",
                self.bare.mass_lb
            );
            faults.contradiction(&axles_at, detail);
        }
        let is_pair = axles.len() == 2 || faults.spoil(&axles_at.pointer());
        if self.equalizer.is_some() && (!is_pair || self.suspension == Some(Suspension::Independent)) {
            let detail = "is for two equalized axles; leave it out for any other running gear".to_owned();
            faults.contradiction(&at.key("equalizer"), detail);
        }
        let rated = axles.values().filter(|axle| axle.rate_lb_per_in.is_some()).count();
        if self.suspension == Some(Suspension::Independent) && rated != 0 && rated != axles.len() {
            for (id, _) in axles.iter().filter(|(_, axle)| axle.rate_lb_per_in.is_none()) {
                let detail = "is missing; give it for every independent axle or for none".to_owned();
                faults.contradiction(&axles_at.key(id).key("rate_lb_per_in"), detail);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::FaultCode;
    use crate::build::fixture::{assert_contradiction, fault_with, faults_with};

    #[test]
    fn a_tolerance_is_below_what_it_is_of() {
        let at = "/trailer/bare/mass_tolerance_lb";
        assert_contradiction(at, json!(2180), at, "must be below mass_lb, 2180; got 2180");
        let at = "/trailer/axles/front/x_tolerance_in";
        assert_contradiction(at, json!(150), at, "must be below x_in, 150; got 150");
    }

    #[test]
    fn the_floor_ends_behind_its_beginning() {
        let at = "/trailer/floor/rear_x_in";
        assert_contradiction(at, json!(48), at, "must be behind front_x_in, 48; got 48");
    }

    #[test]
    fn the_jack_stands_ahead_of_every_axle() {
        let at = "/trailer/jack/x_in";
        assert_contradiction(at, json!(150), at, "must be ahead of every axle, the foremost at 150; got 150");
    }

    #[test]
    fn two_axles_do_not_stand_at_one_place() {
        let at = "/trailer/axles/rear/x_in";
        assert_contradiction(at, json!(150), at, "is the place of front too; two axles cannot stand at 150");
    }

    #[test]
    fn tires_are_the_same_number_left_and_right() {
        let at = "/trailer/axles/rear/tires";
        assert_contradiction(at, json!(3), at, "must be even, the same number left and right; got 3");
    }

    #[test]
    fn a_table_of_tire_loads_rises() {
        assert_contradiction(
            "/trailer/axles/rear/tire_loads",
            json!([{"psi": 35, "load_lb": 1400}, {"psi": 35, "load_lb": 1500}]),
            "/trailer/axles/rear/tire_loads/1/psi",
            "must be above the row before it, 35; got 35",
        );
    }

    #[test]
    fn axles_are_no_more_than_four_fifths_of_the_bare_trailer() {
        assert_contradiction(
            "/trailer/axles/rear/unsprung_lb",
            json!(1445),
            "/trailer/axles",
            "have unsprung_lb of 1745 together, which is more than four fifths of the bare trailer's 2180",
        );
    }

    #[test]
    fn spring_rates_are_given_for_all_axles_or_for_none() {
        let at = "/trailer/axles/rear/rate_lb_per_in";
        assert_contradiction(
            at,
            json!(null),
            at,
            "is missing; give it for every independent axle or for none",
        );
        assert_eq!(
            faults_with(&[(at, json!(null)), ("/trailer/axles/front/rate_lb_per_in", json!(null))]),
            []
        );
    }

    #[test]
    fn the_level_is_for_independent_axles_alone() {
        assert_contradiction(
            "/trailer/suspension",
            json!("equalized"),
            "/trailer/level",
            "is for independent axles; set suspension to independent, or leave level out",
        );
        let fault = fault_with(&[("/trailer/level/state", json!("laden"))]);
        assert_eq!((fault.code, fault.pointer.as_str()), (FaultCode::UnknownId, "/trailer/level/state"));
        assert_eq!(fault.suggestion.as_deref(), Some("loaded"));
    }

    #[test]
    fn the_equalizer_is_for_two_equalized_axles_alone() {
        let (at, arms) = ("/trailer/equalizer", json!({"front_arm_in": 6, "rear_arm_in": 5}));
        let detail = "is for two equalized axles; leave it out for any other running gear";
        assert_contradiction(at, arms.clone(), at, detail);
        let equalized =
            [("/trailer/suspension", json!("equalized")), ("/trailer/level", json!(null)), (at, arms)];
        assert_eq!(faults_with(&equalized), []);
    }

    #[test]
    fn at_most_three_axles() {
        let axle = |x: f64| json!({"x_in": x, "gawr_lb": 3500, "track_in": 80, "rate_lb_per_in": 1450});
        let axles = json!({"front": axle(150.0), "b": axle(184.0), "c": axle(218.0), "d": axle(252.0)});
        let fault = fault_with(&[("/trailer/axles", axles)]);
        assert_eq!(
            (fault.code, fault.pointer.as_str(), fault.maximum),
            (FaultCode::TooMany, "/trailer/axles", Some(3.0))
        );
    }
}
