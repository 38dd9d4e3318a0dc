//! The build as masses at places, in SI, and the loading states it is looked at in.
//!
//! Made once from the document; questions compute from it without looking anything up by name.

use std::borrow::Cow;

use crate::build::{Bare, Build, Cargo, Fluid, Part, State, Tank};
use crate::masses::{PointMass, Totals};
use crate::report::Assumptions;
use crate::units::{kg, kg_per_l, l, lb, m};

/// Height of the bare trailer's centre of gravity where the build does not say [in]. Common practice.
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
    /// At the bare trailer's centre of gravity: such a mass shifts nothing. NaN where that is not given
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
}

impl<'b> Loading<'b> {
    /// The masses and states of a build; none where it has no trailer.
    pub fn of(build: &'b Build) -> Option<Self> {
        let bare = &build.trailer.as_ref()?.bare;
        let place = DefaultPlace::of(bare);
        let part = |p: &Part| {
            place.load(p.mass_lb, p.x_in, p.y_in, p.z_in).times(f64::from(p.quantity.unwrap_or(1)))
        };
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
            "a part listed once is there once",
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
            "the states such a trailer usually goes through",
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
        let listed = |tank: &str| state.fill.as_ref().is_some_and(|fill| fill.contains_key(tank));
        for (tank, _) in build.tanks().filter(|(tank, _)| !listed(tank)) {
            let pointer = format!("/states/{id}/fill/{tank}");
            assumptions.add(
                pointer,
                0.0,
                Some("fraction"),
                "a tank that a state does not list is empty in it",
                "common practice",
            );
        }
    }
}

/// Notes every default that [`Loading::of`] used for places.
pub fn assume_places(build: &Build, assumptions: &mut Assumptions) {
    let Some(trailer) = &build.trailer else { return };
    let default = DefaultPlace::of(&trailer.bare);
    let bare = &trailer.bare;
    let mut assume = |at: &str, x_in: Option<f64>, y_in: Option<f64>, z_in: Option<f64>, x_default: f64| {
        if x_in.is_none() {
            let reason = "stands at the bare trailer's centre of gravity, where it shifts nothing";
            assumptions.add(format!("{at}/x_in"), x_default, Some("in"), reason, "common practice");
        }
        if y_in.is_none() {
            assumptions.add(
                format!("{at}/y_in"),
                0.0,
                Some("in"),
                "stands on the centreline",
                "common practice",
            );
        }
        if z_in.is_none() {
            let reason = "stands as high as the bare trailer's centre of gravity, usually some 42 in";
            assumptions.add(format!("{at}/z_in"), default.z_in, Some("in"), reason, "common practice");
        }
    };
    // The bare trailer's x is asked for where it is needed; it is never assumed.
    assume("/trailer/bare", bare.x_in.or(Some(0.0)), bare.y_in, bare.z_in, default.x_in);
    for (id, part) in build.parts() {
        assume(&format!("/parts/{id}"), part.x_in, part.y_in, part.z_in, default.x_in);
    }
    for (id, tank) in build.tanks() {
        assume(&format!("/tanks/{id}"), tank.x_in, tank.y_in, tank.z_in, default.x_in);
    }
    for (id, cargo) in build.cargo() {
        assume(&format!("/cargo/{id}"), cargo.x_in, cargo.y_in, cargo.z_in, default.x_in);
    }
}
