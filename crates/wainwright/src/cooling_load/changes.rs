//! What a single change would help.

use crate::build::Facing;
use crate::standards::finish::{Finish, radiant};
use crate::standards::glazing::{Cover, share_past};
use crate::units::m;

use super::body::Body;
use super::case::{Case, Surroundings};
use super::cooler::Cooler;
use super::exchange::Exchange;
use super::hot_day::{LoadDay, RunDay};
use super::lap::Room;

/// Conductivity of an inch of foam that is added [W/(m·K)]: foil-faced board.
const FOAM_W_M_K: f64 = 0.026;
/// Share of sun and sky that full shade leaves.
const SHADE: f64 = 0.2;

/// A single change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// The roof painted white.
    WhiteRoof,
    /// Roof and walls painted white.
    WhiteAllOver,
    /// An inch of foam more on the roof.
    FoamOnRoof,
    /// An inch of foam more on the walls, doors left as they are.
    FoamOnWalls,
    /// An inch of foam more on the rear with its ramp or doors.
    FoamOnRear,
    /// An inch of foam more under the floor.
    FoamOnFloor,
    /// The whole box in the shade.
    Shade,
    /// Reflective film on the windows.
    Film,
    /// Half the gaps closed.
    HalfTheGaps,
}

impl Change {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::WhiteRoof,
        Self::WhiteAllOver,
        Self::FoamOnRoof,
        Self::FoamOnWalls,
        Self::FoamOnRear,
        Self::FoamOnFloor,
        Self::Shade,
        Self::Film,
        Self::HalfTheGaps,
    ];

    /// Its stable name.
    pub fn code(self) -> &'static str {
        match self {
            Self::WhiteRoof => "white_roof",
            Self::WhiteAllOver => "white_all_over",
            Self::FoamOnRoof => "foam_on_roof",
            Self::FoamOnWalls => "foam_on_walls",
            Self::FoamOnRear => "foam_on_rear",
            Self::FoamOnFloor => "foam_on_floor",
            Self::Shade => "shade",
            Self::Film => "window_film",
            Self::HalfTheGaps => "half_the_gaps",
        }
    }

    /// What it is, for people.
    pub fn words(self) -> &'static str {
        match self {
            Self::WhiteRoof => "a roof of new white",
            Self::WhiteAllOver => "roof and walls of new white",
            Self::FoamOnRoof => "an inch of foam more on the roof",
            Self::FoamOnWalls => "an inch of foam more on front and side walls",
            Self::FoamOnRear => "an inch of foam more on the rear, its door or ramp",
            Self::FoamOnFloor => "an inch of foam more under the floor",
            Self::Shade => "standing in full shade",
            Self::Film => "reflective film on the windows",
            Self::HalfTheGaps => "half the gaps sealed",
        }
    }

    /// The box and its gaps with the change; none where it changes nothing.
    fn apply<'b>(self, body: &Body<'b>, exchange: Exchange) -> Option<(Body<'b>, Exchange)> {
        let mut changed = body.clone();
        let white = radiant(Finish::WhiteNew).absorptance;
        let paint = |body: &mut Body, on: fn(Facing) -> bool| {
            for one in body.opaque.iter_mut().filter(|one| on(one.facing)) {
                one.absorptance = one.absorptance.min(white);
            }
        };
        let foam = |body: &mut Body, on: fn(Facing) -> bool| {
            for one in body.opaque.iter_mut().filter(|one| on(one.facing)) {
                one.inner_m2_k_w += m(1.0) / FOAM_W_M_K;
            }
        };
        let mut gaps = exchange;
        match self {
            Self::WhiteRoof => paint(&mut changed, |facing| facing == Facing::Roof),
            Self::WhiteAllOver => paint(&mut changed, |facing| facing != Facing::Floor),
            Self::FoamOnRoof => foam(&mut changed, |facing| facing == Facing::Roof),
            Self::FoamOnWalls => {
                foam(&mut changed, |facing| matches!(facing, Facing::Front | Facing::Left | Facing::Right));
            }
            Self::FoamOnRear => foam(&mut changed, |facing| facing == Facing::Rear),
            Self::FoamOnFloor => foam(&mut changed, |facing| facing == Facing::Floor),
            Self::Shade => {
                for one in &mut changed.opaque {
                    one.lit *= SHADE;
                }
                for pane in &mut changed.panes {
                    pane.shgc *= SHADE;
                }
            }
            Self::Film => {
                for pane in &mut changed.panes {
                    pane.shgc *= share_past(Cover::ReflectiveFilm);
                }
            }
            Self::HalfTheGaps => gaps = exchange.half(),
        }
        (changed != *body || gaps != exchange).then_some((changed, gaps))
    }
}

/// What a change comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effect {
    /// The change.
    pub change: Change,
    /// Greatest load with it, sensible and latent together [W].
    pub peak_w: f64,
    /// The warmest that the given air conditioner lets it get [°C], or that it gets by itself where there is none.
    pub warmest_c: f64,
    /// Electricity of the day [Wh], where there is an air conditioner.
    pub electric_wh: Option<f64>,
}

/// What each change that changes something comes to, the one that lowers the peak most first.
///
/// - `ratio`   humidity ratio that the box is held at [kg/kg]
/// - `cooler`  the air conditioner, where there is one
/// - `room`    where the box stands with it, or without one
pub fn effects(
    around: &Surroundings,
    body: &Body,
    exchange: Exchange,
    ratio: f64,
    cooler: Option<&Cooler>,
    room: &Room,
) -> Vec<Effect> {
    let effect = |change: Change| {
        let (body, exchange) = change.apply(body, exchange)?;
        let case = Case::of(around, &body, &exchange);
        let load = LoadDay::of(&case, &around.outdoors, &around.gains, around.cool_c, ratio);
        let (_, peak) = load.peak();
        let mut room = *room;
        let day = match cooler {
            Some(cooler) => RunDay::cooled(&case, cooler, around.cool_c, &mut room),
            None => RunDay::free(&case, around.cool_c, &mut room),
        };
        Some(Effect {
            change,
            peak_w: peak.sensible_w + peak.latent_w,
            warmest_c: day.warmest_c,
            electric_wh: cooler.map(|_| day.electric_wh()),
        })
    };
    let mut all: Vec<Effect> = Change::ALL.into_iter().filter_map(effect).collect();
    all.sort_by(|one, other| one.peak_w.total_cmp(&other.peak_w));
    all
}
