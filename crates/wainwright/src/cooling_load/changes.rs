//! What a single change would help.

use crate::build::Facing;
use crate::standards::finish::{Finish, radiant};
use crate::standards::glazing::{Cover, share_past};
use crate::units::m;

use super::body::{Body, FOAM_W_M_K};
use super::case::{Case, Surroundings};
use super::cooler::Cooler;
use super::exchange::Exchange;
use super::hot_day::{HeldDay, RunDay};
use super::lap::Room;

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
            Self::WhiteRoof => "a roof painted fresh white",
            Self::WhiteAllOver => "roof and walls painted fresh white",
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
/// - `held`    does the air conditioner hold it?
pub fn effects(
    around: &Surroundings,
    body: &Body,
    exchange: Exchange,
    ratio: f64,
    cooler: Option<&Cooler>,
    room: &Room,
    held: bool,
) -> Vec<Effect> {
    let effect = |change: Change| {
        let (body, exchange) = change.apply(body, exchange)?;
        let case = Case::of(around, &body, &exchange);
        let load = HeldDay::of(&case, around.cool_c, ratio);
        // Where the air conditioner holds it, the box stands as with an ideal plant: the nearer the start, the fewer laps.
        let mut room = if held { Room { state: load.end, ..*room } } else { *room };
        let day = match cooler {
            Some(cooler) => RunDay::cooled(&case, cooler, around.cool_c, &mut room),
            None => RunDay::free(&case, around.cool_c, &mut room),
        };
        Some(Effect {
            change,
            peak_w: load.peak_w(),
            warmest_c: day.warmest_c,
            electric_wh: cooler.map(|_| day.electric_wh()),
        })
    };
    let mut all: Vec<Effect> = Change::ALL.into_iter().filter_map(effect).collect();
    all.sort_by(|one, other| one.peak_w.total_cmp(&other.peak_w));
    all
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;
    use crate::build::Build;
    use crate::cooling_load::body::Season;
    use crate::cooling_load::exchange::Gaps;
    use crate::cooling_load::fixture::{assert_same, plain, read, with};
    use crate::cooling_load::setup::Setup;

    const LEAKY: Exchange = Exchange { gaps: Gaps::Steady(0.01), fan_m3_s: 0.002 };

    fn windowed() -> Build {
        read(&with(
            plain(),
            "/envelope/windows",
            json!({"one": {"area_ft2": 10, "facing": "left", "shgc": 0.7}}),
        ))
    }

    /// The box with a change, beside the box without it.
    fn changed(change: Change, check: impl Fn(&Body, &Body)) {
        let build = windowed();
        let before = Body::of(&build, Season::Summer).unwrap();
        let (after, _) = change.apply(&before, LEAKY).unwrap();
        check(&before, &after);
    }

    #[test]
    fn each_has_a_name_of_its_own() {
        for (index, change) in Change::ALL.into_iter().enumerate() {
            assert!(Change::ALL[..index].iter().all(|other| other.code() != change.code()));
            assert!(change.code().bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_'));
            assert!(!change.words().ends_with('.'));
        }
    }

    #[test]
    fn paint_whitens_and_never_darkens() {
        let absorptances = |body: &Body| body.opaque.iter().map(|one| one.absorptance).collect::<Vec<_>>();
        changed(Change::WhiteRoof, |before, after| {
            assert_eq!(absorptances(before), [0.3, 0.6, 0.3, 0.3, 0.3, 0.3]);
            assert_eq!(absorptances(after), [0.22, 0.6, 0.3, 0.3, 0.3, 0.3]);
        });
        changed(Change::WhiteAllOver, |_, after| {
            assert_eq!(absorptances(after), [0.22, 0.6, 0.22, 0.22, 0.22, 0.22]);
        });
        let white = with(plain(), "/envelope/surfaces/roof/solar_absorptance", json!(0.1));
        let build = read(&white);
        let body = Body::of(&build, Season::Summer).unwrap();
        assert!(Change::WhiteRoof.apply(&body, LEAKY).is_none());
        assert_eq!(Change::WhiteAllOver.apply(&body, LEAKY).unwrap().0.opaque[0].absorptance, 0.1);
    }

    /// An inch of 0.026 W/(m·K): R 5.5.
    #[test]
    fn foam_goes_where_it_says() {
        for (change, where_to) in [
            (Change::FoamOnRoof, &["roof"][..]),
            (Change::FoamOnFloor, &["floor"]),
            (Change::FoamOnRear, &["rear"]),
            (Change::FoamOnWalls, &["front", "left", "right"]),
        ] {
            changed(change, |before, after| {
                for (before, after) in before.opaque.iter().zip(&after.opaque) {
                    let more = if where_to.contains(&before.id) { 0.0254 / 0.026 } else { 0.0 };
                    assert_same(after.inner_m2_k_w, before.inner_m2_k_w + more);
                }
            });
        }
        let lid = json!({"surfaces": {"roof": {"area_ft2": 98, "facing": "roof", "r_value": 5}}, "volume_ft3": 600});
        let build = read(&with(plain(), "/envelope", lid));
        let body = Body::of(&build, Season::Summer).unwrap();
        let none = [Change::FoamOnFloor, Change::FoamOnRear, Change::FoamOnWalls];
        assert!(none.iter().all(|change| change.apply(&body, LEAKY).is_none()));
    }

    #[test]
    fn shade_leaves_a_fifth_and_film_covers_the_windows() {
        changed(Change::Shade, |before, after| {
            assert!(after.opaque.iter().all(|one| one.lit == 0.2));
            assert_same(after.panes[0].shgc, 0.2 * before.panes[0].shgc);
        });
        changed(Change::Film, |before, after| {
            assert_eq!(after.opaque, before.opaque);
            assert_same(after.panes[0].shgc, before.panes[0].shgc * share_past(Cover::ReflectiveFilm));
        });
        let build = read(&plain());
        assert!(Change::Film.apply(&Body::of(&build, Season::Summer).unwrap(), LEAKY).is_none());
        let dark = read(&with(plain(), "/envelope/shade_fraction", json!(1)));
        assert!(Change::Shade.apply(&Body::of(&dark, Season::Summer).unwrap(), LEAKY).is_none());
    }

    #[test]
    fn half_the_gaps_leave_the_fan() {
        let build = windowed();
        let body = Body::of(&build, Season::Summer).unwrap();
        let (same, gaps) = Change::HalfTheGaps.apply(&body, LEAKY).unwrap();
        assert_eq!((same, gaps), (body.clone(), Exchange { gaps: Gaps::Steady(0.005), fan_m3_s: 0.002 }));
        let sealed = Exchange { gaps: Gaps::Steady(0.0), ..LEAKY };
        assert!(Change::HalfTheGaps.apply(&body, sealed).is_none());
    }

    fn all_effects(document: &Value) -> Vec<Effect> {
        let build = read(document);
        let setup = Setup::of(&build).unwrap();
        let room = Room::even(setup.around.cool_c, setup.ratio);
        effects(&setup.around, &setup.body, setup.exchange, setup.ratio, setup.cooler.as_ref(), &room, false)
    }

    #[test]
    fn they_come_with_the_most_helpful_first_and_with_electricity_where_there_is_a_cooler() {
        let document = with(plain(), "/envelope/windows", json!({"one": {"area_ft2": 10, "facing": "left"}}));
        let without = all_effects(&document);
        assert_eq!(without.len(), Change::ALL.len());
        assert!(without.is_sorted_by(|one, other| one.peak_w <= other.peak_w));
        assert!(without.iter().all(|effect| effect.electric_wh.is_none()));
        let with_cooler = all_effects(&with(document, "/climate/cooling/capacity_btu_h", json!(8000)));
        assert!(with_cooler.iter().all(|effect| effect.electric_wh.is_some_and(|wh| wh > 0.0)));
        for (effect, other) in without.iter().zip(&with_cooler) {
            assert_eq!((effect.change, effect.peak_w), (other.change, other.peak_w));
            assert!(effect.warmest_c > other.warmest_c);
        }
    }
}
