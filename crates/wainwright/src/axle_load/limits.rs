//! The limits that loads are held to, each a straight line that must not rise above zero.

use std::fmt;

use super::line::Line;
use super::rig::{Rig, Tow};
use super::tires::{
    DEFAULT_LOAD_EXPONENT, TireRating, axle_capacity_kg, load_at_pressure_kg, load_from_table_kg,
    load_on_trailer_kg,
};
use crate::build::{Axle, Build};
use crate::units::{PA_PER_PSI, kg, lb};

/// Least share of the gross mass on the tongue. Common practice.
pub const LEAST_TONGUE_FRACTION: f64 = 0.10;
/// Greatest share of the gross mass on the tongue. Common practice.
pub const GREATEST_TONGUE_FRACTION: f64 = 0.15;
/// Tires on an axle where the build does not say: one a side. Common practice.
pub(super) const TIRES: u32 = 2;

/// What a limit is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitName {
    /// Gross mass: the trailer's rating.
    Gvwr,
    /// Gross mass: the coupler's rating.
    CouplerRating,
    /// Gross mass: the ball's rating.
    BallRating,
    /// Gross mass: the ball mount's rating.
    BallMountRating,
    /// Gross mass: the receiver's rating.
    ReceiverRating,
    /// Gross mass: the tow vehicle's tow rating.
    TowRating,
    /// Gross mass: breaking strength of one safety chain.
    Chain,
    /// Gross mass with the tow vehicle: its combination rating.
    Gcwr,
    /// Load of an axle: its rating.
    Gawr(usize),
    /// Load of one side of an axle: its tires.
    Tires(usize),
    /// Load of one side of an axle: its rims.
    Rims(usize),
    /// An axle must carry something.
    AxleLift(usize),
    /// Tongue load: the coupler.
    CouplerTongue,
    /// Tongue load: the ball mount.
    BallMountTongue,
    /// Tongue load: the receiver.
    ReceiverTongue,
    /// Tow vehicle: its front axle's rating.
    TowFrontGawr,
    /// Tow vehicle: its rear axle's rating.
    TowRearGawr,
    /// Tow vehicle: its own rating.
    TowGvwr,
    /// Tongue load at least a tenth of the gross mass.
    TongueFractionMin,
    /// Tongue load at most 15 % of the gross mass.
    TongueFractionMax,
    /// The floor ends there.
    Floor,
}

impl LimitName {
    /// Its name in a report, with the id of the axle it is of.
    pub fn word(self, axles: &[&str]) -> String {
        match self {
            Self::Gawr(j) => format!("gawr.{}", axles[j]),
            Self::Tires(j) => format!("tires.{}", axles[j]),
            Self::Rims(j) => format!("rims.{}", axles[j]),
            Self::AxleLift(j) => format!("axle_lift.{}", axles[j]),
            other => other.to_string(),
        }
    }

    /// JSON Pointer to the rating it comes from; for a share of the gross mass, to the axles' place.
    pub fn subject(self, axles: &[&str]) -> String {
        let axle = |j: usize, field: &str| format!("/trailer/axles/{}/{field}", axles[j]);
        match self {
            Self::Gvwr => "/trailer/gvwr_lb".to_owned(),
            Self::CouplerRating => "/trailer/coupler/rating_lb".to_owned(),
            Self::BallRating => "/trailer/coupler/ball_rating_lb".to_owned(),
            Self::BallMountRating => "/trailer/coupler/ball_mount_rating_lb".to_owned(),
            Self::Chain => "/trailer/chains/breaking_strength_lb".to_owned(),
            Self::CouplerTongue => "/trailer/coupler/max_tongue_lb".to_owned(),
            Self::BallMountTongue => "/trailer/coupler/ball_mount_max_tongue_lb".to_owned(),
            Self::ReceiverRating => "/tow_vehicle/receiver_rating_lb".to_owned(),
            Self::ReceiverTongue => "/tow_vehicle/receiver_max_tongue_lb".to_owned(),
            Self::TowRating => "/tow_vehicle/tow_rating_lb".to_owned(),
            Self::Gcwr => "/tow_vehicle/gcwr_lb".to_owned(),
            Self::TowFrontGawr => "/tow_vehicle/front_gawr_lb".to_owned(),
            Self::TowRearGawr => "/tow_vehicle/rear_gawr_lb".to_owned(),
            Self::TowGvwr => "/tow_vehicle/gvwr_lb".to_owned(),
            Self::Gawr(j) => axle(j, "gawr_lb"),
            Self::Tires(j) => axle(j, "tire_max_load_lb"),
            Self::Rims(j) => axle(j, "rim_max_load_lb"),
            Self::AxleLift(j) => axle(j, "rate_lb_per_in"),
            Self::TongueFractionMin | Self::TongueFractionMax => "/trailer/axles".to_owned(),
            Self::Floor => "/trailer/floor".to_owned(),
        }
    }

    /// Does it bound the gross mass alone?
    pub fn is_gross(self) -> bool {
        matches!(
            self,
            Self::Gvwr
                | Self::CouplerRating
                | Self::BallRating
                | Self::BallMountRating
                | Self::ReceiverRating
                | Self::TowRating
                | Self::Chain
                | Self::Gcwr
        )
    }

    /// Does it bound the tongue load alone?
    pub fn is_tongue(self) -> bool {
        matches!(self, Self::CouplerTongue | Self::BallMountTongue | Self::ReceiverTongue)
    }
}

impl fmt::Display for LimitName {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            Self::Gvwr => "gvwr",
            Self::CouplerRating => "coupler_rating",
            Self::BallRating => "ball_rating",
            Self::BallMountRating => "ball_mount_rating",
            Self::ReceiverRating => "receiver_rating",
            Self::TowRating => "tow_rating",
            Self::Chain => "chain_breaking_strength",
            Self::Gcwr => "gcwr",
            Self::Gawr(_) => "gawr",
            Self::Tires(_) => "tires",
            Self::Rims(_) => "rims",
            Self::AxleLift(_) => "axle_lift",
            Self::CouplerTongue => "coupler_max_tongue",
            Self::BallMountTongue => "ball_mount_max_tongue",
            Self::ReceiverTongue => "receiver_max_tongue",
            Self::TowFrontGawr => "tow_vehicle_front_gawr",
            Self::TowRearGawr => "tow_vehicle_rear_gawr",
            Self::TowGvwr => "tow_vehicle_gvwr",
            Self::TongueFractionMin => "tongue_fraction_min",
            Self::TongueFractionMax => "tongue_fraction_max",
            Self::Floor => "floor",
        })
    }
}

/// One limit: `load - bound`, which must not be above zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// What it is of.
    pub name: LimitName,
    /// The load less its bound [kg].
    pub over: Line,
    /// The load itself [kg].
    pub load: Line,
    /// The bound [kg]; NaN for a share of the gross mass, which has no bound of its own.
    pub bound_kg: f64,
}

impl Limit {
    fn new(name: LimitName, load: Line, bound_kg: f64) -> Self {
        Self { name, over: load.plus(-bound_kg), load, bound_kg }
    }

    /// Is it of a share of the gross mass?
    pub fn is_share(&self) -> bool {
        self.bound_kg.is_nan()
    }
}

/// What the tires on one side of an axle may carry [kg], as they are inflated.
///
/// A passenger tire counts for less on a trailer; below the pressure of its greatest load a tire carries less.
pub fn side_tires_kg(axle: &Axle) -> Option<f64> {
    let max_kg = kg(axle.tire_max_load_lb?);
    let inflated = match (&axle.tire_loads, axle.tire_max_load_psi, axle.tire_psi) {
        (Some(rows), _, Some(used)) if !rows.is_empty() => {
            let table: Vec<_> = rows.iter().map(|row| rating(row.psi, row.load_lb)).collect();
            load_from_table_kg(&table, used * PA_PER_PSI).unwrap_or(0.0).min(max_kg)
        }
        (_, Some(rated), Some(used)) => {
            load_at_pressure_kg(rating(rated, lb(max_kg)), used * PA_PER_PSI, DEFAULT_LOAD_EXPONENT)
        }
        _ => max_kg,
    };
    let each = load_on_trailer_kg(inflated, axle.tire_type.unwrap_or(crate::build::TireType::Trailer));
    Some(axle_capacity_kg(axle.tires.unwrap_or(TIRES), each) / 2.0)
}

fn rating(psi: f64, load_lb: f64) -> TireRating {
    TireRating { pressure_pa: psi * PA_PER_PSI, load_kg: kg(load_lb) }
}

/// Every limit that the build gives a bound for.
pub fn limits(build: &Build, rig: &Rig, tow: Option<&Tow>) -> Vec<Limit> {
    let mut limits = Vec::with_capacity(24);
    let mut add = |name, load: Line, bound_lb: Option<f64>| {
        if let Some(bound_lb) = bound_lb {
            limits.push(Limit::new(name, load, kg(bound_lb)));
        }
    };
    let Some(trailer) = &build.trailer else { return limits };
    let vehicle = build.tow_vehicle.as_ref();
    add(LimitName::Gvwr, Line::GROSS, Some(trailer.gvwr_lb));
    if let Some(coupler) = &trailer.coupler {
        add(LimitName::CouplerRating, Line::GROSS, coupler.rating_lb);
        add(LimitName::BallRating, Line::GROSS, coupler.ball_rating_lb);
        add(LimitName::BallMountRating, Line::GROSS, coupler.ball_mount_rating_lb);
        add(LimitName::CouplerTongue, rig.tongue, coupler.max_tongue_lb);
        add(LimitName::BallMountTongue, rig.tongue, coupler.ball_mount_max_tongue_lb);
    }
    add(LimitName::Chain, Line::GROSS, trailer.chains.as_ref().map(|chains| chains.breaking_strength_lb));
    // Bars add to every axle what they take off the tongue.
    let bars = tow.and_then(|tow| tow.with_bars).map_or(0.0, |bars| bars.trailer_axles_kg);
    for (j, (_, axle)) in build.axles().enumerate() {
        let added = rig.tongue.times(bars * rig.moment_share(j));
        add(LimitName::Gawr(j), rig.axle[j] + added, Some(axle.gawr_lb));
        let tires_lb = side_tires_kg(axle).map(lb);
        let rims_lb = axle.rim_max_load_lb.map(|rim| rim * f64::from(axle.tires.unwrap_or(TIRES)) / 2.0);
        for right in [false, true] {
            let wheel = rig.wheel(j, right) + added.times(0.5);
            add(LimitName::Tires(j), wheel, tires_lb);
            add(LimitName::Rims(j), wheel, rims_lb);
        }
        if rig.springs.is_some() {
            add(LimitName::AxleLift(j), rig.axle[j].times(-1.0).plus(rig.unsprung_kg[j]), Some(0.0));
        }
    }
    if let (Some(tow), Some(vehicle)) = (tow, vehicle) {
        let driven = tow.driven();
        add(LimitName::ReceiverRating, Line::GROSS, vehicle.receiver_rating_lb);
        add(LimitName::ReceiverTongue, rig.tongue, vehicle.receiver_max_tongue_lb);
        add(LimitName::TowRating, Line::GROSS, vehicle.tow_rating_lb);
        add(LimitName::Gcwr, Line::GROSS.plus(tow.mass_kg()), vehicle.gcwr_lb);
        let front = rig.tongue.times(driven.front_kg).plus(tow.front_kg);
        add(LimitName::TowFrontGawr, front, vehicle.front_gawr_lb);
        let rear = rig.tongue.times(driven.rear_kg).plus(tow.rear_kg);
        add(LimitName::TowRearGawr, rear, vehicle.rear_gawr_lb);
        let own = rig.tongue.times(driven.net_tongue_kg()).plus(tow.mass_kg());
        add(LimitName::TowGvwr, own, vehicle.gvwr_lb);
    }
    let least = Line::GROSS.times(LEAST_TONGUE_FRACTION) - rig.tongue;
    limits.push(Limit {
        name: LimitName::TongueFractionMin,
        over: least,
        load: rig.tongue,
        bound_kg: f64::NAN,
    });
    let most = rig.tongue - Line::GROSS.times(GREATEST_TONGUE_FRACTION);
    limits.push(Limit {
        name: LimitName::TongueFractionMax,
        over: most,
        load: rig.tongue,
        bound_kg: f64::NAN,
    });
    limits
}
