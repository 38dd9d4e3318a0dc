//! The build as masses at places, in SI, and the loading states it is looked at in.
//!
//! Made once from the document; questions compute from it without looking anything up by name.

use std::borrow::Cow;

use crate::build::{Bare, Build, Cargo, Fluid, Part, State, Tank};
use crate::masses::{PointMass, Totals};
use crate::report::Assumptions;
use crate::units::{kg, kg_per_l, l, lb, m};

/// Height of the bare trailer's center of gravity where the build does not say [in]. Common practice.
const BARE_HEIGHT_IN: f64 = 42.0;

/// Everything that has mass, and the states.
#[derive(Debug, Clone, PartialEq)]
pub struct Loading<'b> {
    /// The bare trailer.
    pub bare: Totals,
    /// Each part, times its quantity.
    pub parts: Vec<Totals>,
    /// Each tank, full.
    pub tanks: Vec<Totals>,
    /// What each tank holds.
    pub fluids: Vec<Fluid>,
    /// All fresh-water tanks, full [L].
    pub fresh_water_l: f64,
    /// Each piece of cargo.
    pub cargo: Vec<Totals>,
    /// One kilogram at the place of each piece of cargo.
    pub cargo_kilogram: Vec<Totals>,
    /// The states, in order.
    pub states: Vec<LoadingState<'b>>,
}

/// One loading state, by index of tank and cargo.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadingState<'b> {
    /// Its id.
    pub id: Cow<'b, str>,
    /// The state as the document gives it; none for a usual one that was supplied.
    pub given: Option<&'b State>,
    /// Is it driven so?
    pub moving: bool,
    /// How full each tank is, 0 to 1.
    pub fill: Vec<f64>,
    /// Which cargo is aboard.
    pub aboard: Vec<bool>,
}

/// Where something stands that the build gives no place for.
#[derive(Debug, Clone, Copy)]
struct DefaultPlace {
    x_in: f64,
    z_in: f64,
}

impl DefaultPlace {
    /// At the bare trailer's center of gravity: such a mass shifts nothing. NaN where that is not given
    /// either, for questions that look at masses alone.
    fn of(bare: &Bare) -> Self {
        Self { x_in: bare.x_in.unwrap_or(f64::NAN), z_in: bare.z_in.unwrap_or(BARE_HEIGHT_IN) }
    }

    fn load(self, mass_lb: f64, x_in: Option<f64>, y_in: Option<f64>, z_in: Option<f64>) -> Totals {
        PointMass {
            mass_kg: kg(mass_lb),
            x_m: m(x_in.unwrap_or(self.x_in)),
            y_m: m(y_in.unwrap_or(0.0)),
            z_m: m(z_in.unwrap_or(self.z_in)),
        }
        .into()
    }

    fn load_part(self, p: &Part) -> Totals {
        self.load(p.mass_lb, p.x_in, p.y_in, p.z_in).times(f64::from(p.quantity.unwrap_or(1)))
    }
}

impl<'b> Loading<'b> {
    /// The masses and states of a build; none where it has no trailer.
    pub fn of(build: &'b Build) -> Option<Self> {
        let bare = &build.trailer.as_ref()?.bare;
        let place = DefaultPlace::of(bare);
        let part = |p: &Part| place.load_part(p);
        Some(Self {
            bare: place.load(bare.mass_lb, bare.x_in, bare.y_in, bare.z_in),
            parts: build.parts().map(|(_, p)| part(p)).collect(),
            tanks: build.tanks().map(|(_, t)| place.load(lb(full_kg(t)), t.x_in, t.y_in, t.z_in)).collect(),
            fluids: build.tanks().map(|(_, t)| t.fluid).collect(),
            fresh_water_l: build.tanks().fold(0.0, |sum, (_, tank)| match tank.fluid {
                Fluid::FreshWater => sum + l(tank.capacity_gal),
                _ => sum,
            }),
            cargo: build.cargo().map(|(_, c)| place.load(c.mass_lb, c.x_in, c.y_in, c.z_in)).collect(),
            cargo_kilogram: build.cargo().map(|(_, c)| place.load(lb(1.0), c.x_in, c.y_in, c.z_in)).collect(),
            states: states(build),
        })
    }

    /// A part in a bare trailer, times its quantity.
    pub fn of_part(bare: &Bare, part: &Part) -> Totals {
        DefaultPlace::of(bare).load_part(part)
    }

    /// A piece of cargo in a bare trailer.
    pub fn of_cargo(bare: &Bare, cargo: &Cargo) -> Totals {
        DefaultPlace::of(bare).load(cargo.mass_lb, cargo.x_in, cargo.y_in, cargo.z_in)
    }

    /// Propane at its full fill [kg]: it counts in the unloaded mass.
    pub fn propane_kg(&self) -> f64 {
        let propane = self.tanks.iter().zip(&self.fluids).filter(|(_, fluid)| fluid.counts_as_unloaded());
        propane.fold(0.0, |sum, (tank, _)| sum + tank.mass_kg)
    }

    /// Bare trailer and parts: what is always aboard.
    pub fn fixed(&self) -> Totals {
        self.parts.iter().fold(self.bare, |sum, part| sum + *part)
    }

    /// The liquids of a state.
    pub fn fluids_in(&self, state: &LoadingState) -> Totals {
        self.tanks.iter().zip(&state.fill).map(|(full, fill)| full.times(*fill)).sum()
    }

    /// The cargo of a state.
    pub fn cargo_in(&self, state: &LoadingState) -> Totals {
        self.cargo.iter().zip(&state.aboard).filter(|(_, aboard)| **aboard).map(|(cargo, _)| *cargo).sum()
    }
}

/// Mass of a full tank [kg].
pub fn full_kg(tank: &Tank) -> f64 {
    let density = tank.density_lb_per_gal.unwrap_or(tank.fluid.density_lb_per_gal().0);
    kg_per_l(density) * l(tank.capacity_gal)
}

/// The states of the build, or the usual ones where it gives none.
fn states(build: &Build) -> Vec<LoadingState<'_>> {
    if build.states().len() == 0 {
        return usual_states(build);
    }
    build.states().map(|(id, state)| given_state(build, id, state)).collect()
}

fn given_state<'b>(build: &'b Build, id: &'b str, state: &'b State) -> LoadingState<'b> {
    let fill =
        build.tanks().map(|(tank, _)| state.fill.as_ref().and_then(|f| f.get(tank)).copied().unwrap_or(0.0));
    let mut aboard = vec![false; build.cargo().len()];
    for id in state.aboard.iter().flatten() {
        if let Some(index) = build.cargo.as_ref().and_then(|cargo| cargo.get_index_of(id.as_str())) {
            aboard[index] = true;
        }
    }
    LoadingState {
        id: id.into(),
        given: Some(state),
        moving: state.moving.unwrap_or(true),
        fill: fill.collect(),
        aboard,
    }
}

/// The states a trailer usually goes through. Common practice.
///
/// - `delivered`: propane full, all else empty
/// - `wet`: the same with fresh water
/// - `outbound`: fresh water, propane and fuel full, all cargo aboard
/// - `homebound`: waste tanks full, propane and fuel half, all cargo aboard
/// - `toy_only`: propane full, the toys alone aboard
/// - `relocation`: fresh and waste tanks full, propane and fuel full, everything but the toys aboard
fn usual_states(build: &Build) -> Vec<LoadingState<'_>> {
    let has = |wanted: fn(Fluid) -> bool| build.tanks().any(|(_, tank)| wanted(tank.fluid));
    let fresh = has(|f| f == Fluid::FreshWater);
    let waste = has(Fluid::is_waste);
    let toys = toys(build);
    let cargo = build.cargo().len() > 0;
    let gear = toys.iter().any(|toy| !toy);
    // Fill of propane, of other fuel, of fresh water, of waste; then which cargo.
    let state =
        |id: &'static str, propane: f64, fuel: f64, fresh: f64, waste: f64, wanted: fn(bool) -> bool| {
            LoadingState {
                id: id.into(),
                given: None,
                moving: true,
                fill: build
                    .tanks()
                    .map(|(_, tank)| match tank.fluid {
                        Fluid::FreshWater => fresh,
                        Fluid::GreyWater | Fluid::BlackWater => waste,
                        Fluid::Propane => propane,
                        Fluid::Gasoline | Fluid::Diesel => fuel,
                    })
                    .collect(),
                aboard: one_a_stand(build, toys.iter().map(|toy| wanted(*toy)).collect()),
            }
        };
    let mut states = vec![state("delivered", 1.0, 0.0, 0.0, 0.0, |_| false)];
    if fresh {
        states.push(state("wet", 1.0, 0.0, 1.0, 0.0, |_| false));
    }
    if cargo {
        states.push(state("outbound", 1.0, 1.0, 1.0, 0.0, |_| true));
    }
    if cargo && waste {
        states.push(state("homebound", 0.5, 0.5, 0.0, 1.0, |_| true));
    }
    if cargo {
        states.push(state("toy_only", 1.0, 0.0, 0.0, 0.0, |toy| toy));
    }
    if gear || (cargo && (fresh || waste)) {
        states.push(state("relocation", 1.0, 1.0, 1.0, 1.0, |toy| !toy));
    }
    states
}

/// Which cargo is a toy: what gives a toy's size; where none does, the heaviest.
fn toys(build: &Build) -> Vec<bool> {
    let mut toys: Vec<bool> = build.cargo().map(|(_, cargo)| cargo.toy.is_some()).collect();
    if !toys.contains(&true)
        && let Some(heaviest) = heaviest(build.cargo())
    {
        toys[heaviest] = true;
    }
    toys
}

fn heaviest<'b>(cargo: impl Iterator<Item = (&'b str, &'b Cargo)>) -> Option<usize> {
    let masses = cargo.map(|(_, cargo)| cargo.mass_lb).enumerate();
    masses.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(index, _)| index)
}

/// Of all cargo that shares a stand only the heaviest stays aboard.
fn one_a_stand(build: &Build, mut aboard: Vec<bool>) -> Vec<bool> {
    for (i, (_, cargo)) in build.cargo().enumerate() {
        let Some(stand) = &cargo.stand else { continue };
        let heavier = build.cargo().enumerate().any(|(j, (_, other))| {
            j != i
                && aboard[j]
                && other.stand.as_ref() == Some(stand)
                && (other.mass_lb, i) > (cargo.mass_lb, j)
        });
        if heavier {
            aboard[i] = false;
        }
    }
    aboard
}

/// Notes every default that [`Loading::of`] used for states, tanks and quantities.
pub fn assume_masses(build: &Build, loading: &Loading, assumptions: &mut Assumptions) {
    for (id, _) in build.parts().filter(|(_, part)| part.quantity.is_none()) {
        assumptions.add(
            format!("/parts/{id}/quantity"),
            1.0,
            None,
            "a part is there once unless its quantity is given",
            "common practice",
        );
    }
    for (id, tank) in build.tanks().filter(|(_, tank)| tank.density_lb_per_gal.is_none()) {
        let (density, reason) = tank.fluid.density_lb_per_gal();
        let pointer = format!("/tanks/{id}/density_lb_per_gal");
        assumptions.add(pointer, density, Some("lb/gal"), reason, "handbook densities (from memory)");
    }
    if build.states().len() == 0 {
        let names: Vec<&str> = loading.states.iter().map(|state| &*state.id).collect();
        assumptions.add_words(
            "/states".to_owned(),
            names.join(", "),
            "the states such a trailer usually goes through; where no cargo gives a toy's size the heaviest is the toy",
            "common practice",
        );
    }
    for (id, state) in build.states() {
        if state.moving.is_none() {
            let pointer = format!("/states/{id}/moving");
            assumptions.add(
                pointer,
                true,
                None,
                "a state is taken as driven, so that driving limits apply",
                "common practice",
            );
        }
        let unlisted = |tank: &str| state.fill.as_ref().is_none_or(|fill| !fill.contains_key(tank));
        if build.tanks().any(|(tank, _)| unlisted(tank)) {
            let reason = "a tank that a state does not list is empty in it";
            assumptions.add(format!("/states/{id}/fill"), 0.0, Some("fraction"), reason, "common practice");
        }
        if state.aboard.is_none() && build.cargo().len() > 0 {
            let reason = "cargo that a state does not list stays at home";
            assumptions.add(format!("/states/{id}/aboard"), "none", None, reason, "common practice");
        }
    }
}

/// Notes every default that [`Loading::of`] used for places along the trailer.
///
/// The bare trailer's own place is asked for where it is needed; it is never assumed. Without it nothing has a
/// place.
pub fn assume_stations(build: &Build, assumptions: &mut Assumptions) {
    let Some(x_in) = build.trailer.as_ref().and_then(|trailer| trailer.bare.x_in) else { return };
    let reason = "taken at the bare trailer's center of gravity, where it shifts nothing";
    for (at, _) in placed(build).filter(|(_, place)| place.x_in.is_none()) {
        assumptions.add(format!("{at}/x_in"), x_in, Some("in"), reason, "common practice");
    }
}

/// Notes every default that [`Loading::of`] used for places.
pub fn assume_places(build: &Build, assumptions: &mut Assumptions) {
    assume_stations(build, assumptions);
    let Some(bare) = build.trailer.as_ref().map(|trailer| &trailer.bare) else { return };
    let height_in = DefaultPlace::of(bare).z_in;
    let bare = ("/trailer/bare".to_owned(), GivenPlace { x_in: bare.x_in, y_in: bare.y_in, z_in: bare.z_in });
    for (at, place) in std::iter::once(bare).chain(placed(build)) {
        if place.y_in.is_none() {
            let reason = "taken on the centerline";
            assumptions.add(format!("{at}/y_in"), 0.0, Some("in"), reason, "common practice");
        }
        if place.z_in.is_none() {
            let reason = "taken as high as the bare trailer's center of gravity, usually some 42 in";
            assumptions.add(format!("{at}/z_in"), height_in, Some("in"), reason, "common practice");
        }
    }
}

/// A place as the build gives it.
struct GivenPlace {
    x_in: Option<f64>,
    y_in: Option<f64>,
    z_in: Option<f64>,
}

/// Pointer and place of every part, tank and piece of cargo.
fn placed(build: &Build) -> impl Iterator<Item = (String, GivenPlace)> {
    let place = |x_in, y_in, z_in| GivenPlace { x_in, y_in, z_in };
    let parts = build.parts().map(move |(id, p)| (format!("/parts/{id}"), place(p.x_in, p.y_in, p.z_in)));
    let tanks = build.tanks().map(move |(id, t)| (format!("/tanks/{id}"), place(t.x_in, t.y_in, t.z_in)));
    let cargo = build.cargo().map(move |(id, c)| (format!("/cargo/{id}"), place(c.x_in, c.y_in, c.z_in)));
    parts.chain(tanks).chain(cargo)
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;

    fn build(tanks: Value, cargo: Value) -> Build {
        let trailer = json!({"gvwr_lb": 7000, "bare": {"mass_lb": 2000}});
        let build = json!({"trailer": trailer, "tanks": tanks, "cargo": cargo});
        Build::from_json(build.to_string().as_bytes()).unwrap()
    }

    /// Every usual state: its id, the fill of each tank and the cargo aboard.
    fn usual(tanks: Value, cargo: Value) -> Vec<(String, Vec<f64>, Vec<String>)> {
        let build = build(tanks, cargo);
        let states = Loading::of(&build).unwrap().states;
        let aboard = |state: &LoadingState| -> Vec<String> {
            let cargo = build.cargo().zip(&state.aboard).filter(|(_, aboard)| **aboard);
            cargo.map(|((id, _), _)| id.to_owned()).collect()
        };
        assert!(states.iter().all(|state| state.moving && state.given.is_none()));
        states.iter().map(|state| (state.id.to_string(), state.fill.clone(), aboard(state))).collect()
    }

    fn ids(states: &[(String, Vec<f64>, Vec<String>)]) -> Vec<&str> {
        states.iter().map(|(id, ..)| id.as_str()).collect()
    }

    fn tank(fluid: &str) -> Value {
        json!({"fluid": fluid, "capacity_gal": 10})
    }

    #[test]
    fn an_empty_trailer_is_delivered() {
        assert_eq!(usual(json!({}), json!({})), [("delivered".into(), vec![], vec![])]);
    }

    #[test]
    fn each_usual_state_appears_with_what_it_needs() {
        let (fresh, grey) = (tank("fresh_water"), tank("grey_water"));
        let (one, two) = (json!({"a": {"mass_lb": 9}}), json!({"a": {"mass_lb": 9}, "b": {"mass_lb": 4}}));
        for (tanks, cargo, expected) in [
            (json!({"f": fresh}), json!({}), vec!["delivered", "wet"]),
            (json!({"g": grey}), json!({}), vec!["delivered"]),
            (json!({}), one.clone(), vec!["delivered", "outbound", "toy_only"]),
            (json!({}), two, vec!["delivered", "outbound", "toy_only", "relocation"]),
            (
                json!({"f": fresh}),
                one.clone(),
                vec!["delivered", "wet", "outbound", "toy_only", "relocation"],
            ),
            (json!({"g": grey}), one, vec!["delivered", "outbound", "homebound", "toy_only", "relocation"]),
        ] {
            assert_eq!(ids(&usual(tanks, cargo)), expected);
        }
    }

    #[test]
    fn usual_states_are_filled_and_loaded_as_documented() {
        let tanks = json!({
            "fresh": tank("fresh_water"), "grey": tank("grey_water"), "black": tank("black_water"),
            "gas": tank("propane"), "fuel": tank("gasoline"),
        });
        let toy = json!({"mass_lb": 100, "toy": {"length_in": 60, "width_in": 30, "height_in": 40}});
        let states = usual(tanks, json!({"gear": {"mass_lb": 300}, "bike": toy}));
        let all = || vec!["gear".to_owned(), "bike".to_owned()];
        assert_eq!(
            states,
            [
                ("delivered".into(), vec![0.0, 0.0, 0.0, 1.0, 0.0], vec![]),
                ("wet".into(), vec![1.0, 0.0, 0.0, 1.0, 0.0], vec![]),
                ("outbound".into(), vec![1.0, 0.0, 0.0, 1.0, 1.0], all()),
                ("homebound".into(), vec![0.0, 1.0, 1.0, 0.5, 0.5], all()),
                ("toy_only".into(), vec![0.0, 0.0, 0.0, 1.0, 0.0], vec!["bike".to_owned()]),
                ("relocation".into(), vec![1.0, 1.0, 1.0, 1.0, 1.0], vec!["gear".to_owned()]),
            ]
        );
    }

    #[test]
    fn without_a_toys_size_the_heaviest_cargo_is_the_toy() {
        let states = usual(json!({}), json!({"gear": {"mass_lb": 90}, "atv": {"mass_lb": 690}}));
        assert_eq!(states[2], ("toy_only".into(), vec![], vec!["atv".to_owned()]));
    }

    #[test]
    fn of_cargo_that_shares_a_stand_the_heaviest_rides() {
        let cargo = json!({
            "bike": {"mass_lb": 260, "stand": "bay"},
            "atv": {"mass_lb": 690, "stand": "bay"},
            "twin": {"mass_lb": 690, "stand": "bay"},
            "box": {"mass_lb": 40, "stand": "tongue"},
        });
        let states = usual(json!({}), cargo);
        assert_eq!(states[1], ("outbound".into(), vec![], vec!["atv".to_owned(), "box".to_owned()]));
    }

    #[test]
    fn a_given_state_is_taken_as_given() {
        let json = json!({
            "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2000}},
            "tanks": {"fresh": tank("fresh_water"), "grey": tank("grey_water")},
            "cargo": {"a": {"mass_lb": 1}, "b": {"mass_lb": 2}},
            "states": {"camped": {"moving": false, "fill": {"grey": 0.25}, "aboard": ["b"]}, "bare": {}},
        });
        let build = Build::from_json(json.to_string().as_bytes()).unwrap();
        let loading = Loading::of(&build).unwrap();
        let [camped, bare] = loading.states.as_slice() else { panic!("two states") };
        assert_eq!(
            (camped.moving, &camped.fill, &camped.aboard),
            (false, &vec![0.0, 0.25], &vec![false, true])
        );
        assert_eq!((bare.moving, &bare.fill, &bare.aboard), (true, &vec![0.0, 0.0], &vec![false, false]));
        assert_eq!(loading.fluids_in(camped).mass_kg, loading.tanks[1].mass_kg * 0.25);
        assert_eq!(loading.cargo_in(camped).mass_kg, kg(2.0));
    }

    #[test]
    fn what_has_no_place_stands_at_the_bare_trailers() {
        let json = json!({
            "trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2000, "x_in": 150}},
            "parts": {"bench": {"mass_lb": 60, "quantity": 2}},
        });
        let build = Build::from_json(json.to_string().as_bytes()).unwrap();
        let fixed = Loading::of(&build).unwrap().fixed();
        assert!((fixed.mass_kg - kg(2120.0)).abs() < 1e-9);
        assert!((fixed.center_x_m() - m(150.0)).abs() < 1e-12);
        assert!((fixed.center_z_m() - m(42.0)).abs() < 1e-12);
        assert_eq!(fixed.y_kg_m, 0.0);
    }
}
