//! The box in SI: its surfaces and panes, its room and what is in it.

use crate::air::properties::DRY_AIR_J_KG_K;
use crate::build::{Build, Envelope, Facing, Layer, Posts, Surface};
use crate::standards::building_material::{Material, thermal};
use crate::standards::finish::{Radiant, radiant};
use crate::standards::glazing::{self, Glazing, share_past};
use crate::standards::still_air::{HeatFlow, OUTSIDE_M2_K_W, inside_m2_k_w};
use crate::units::{J_K_PER_BTU_F, m, m2, m2_k_w, m3};

use super::envelope::framing::{Post, bridge, framed_u_w_m2_k};
use super::envelope::layers::{MOST_LAYERS, Path, limits};
use super::envelope::sol_air::{HORIZONTAL_SKY_LOSS_W_M2, UNDERSIDE_ABSORPTANCE};
use super::network::hourly_13790::{MASS_TO_SURFACE_W_M2_K, SURFACE_TO_AIR_W_M2_K};
use super::network::nodes::outside_to_mass_w_k;
use super::network::{FloorLoad, Network};

/// Solar absorptance of a surface that does not say: white in service.
pub const USUAL_ABSORPTANCE: f64 = 0.3;
/// Emittance of a surface that does not say: paint.
pub const USUAL_EMITTANCE: f64 = 0.9;
/// Heat that lining, floor and furniture take up for each square metre of floor [J/(m²·K)], where nothing is said (chosen here).
pub const MASS_J_M2_K: f64 = 60_000.0;
/// Specific heat of what stands on the floor, where nothing is said [BTU/(lb·°F)]: a machine of steel, aluminum, plastic and oil (chosen here).
pub const FLOOR_LOAD_BTU_LB_F: f64 = 0.2;
/// Heat capacity of air and of what follows it at once, by that of the air alone (chosen here).
pub const AIR_AND_CLOTH: f64 = 3.0;
/// Conductivity of foil-faced foam board [W/(m·K)]: of foam that does not say.
pub const FOAM_W_M_K: f64 = 0.026;
/// Share of all inner faces that counts as mass (chosen here).
const MASS_SHARE: f64 = 0.75;
/// By how much the conductance of the mass is above that of the opaque envelope at least.
const LEAST_RATIO: f64 = 1.25;
/// The season whose heat flow counts: in through the roof, or out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Season {
    /// Heat comes in.
    Summer,
    /// Heat goes out.
    Winter,
}

/// A surface without its windows.
#[derive(Debug, Clone, PartialEq)]
pub struct Opaque<'b> {
    /// Its id.
    pub id: &'b str,
    /// Which way it faces.
    pub facing: Facing,
    /// Its area without windows [m²].
    pub area_m2: f64,
    /// Its resistance from the air inside to its outer face [m²·K/W].
    pub inner_m2_k_w: f64,
    /// Share of the temperature difference that is left at the coldest place of its inside, where posts bridge it.
    pub coldest_share: Option<f64>,
    /// Share of the sun it takes in.
    pub absorptance: f64,
    /// Share of its heat it sheds as a black body would.
    pub emittance: f64,
    /// Share of sun and sky that reaches it.
    pub lit: f64,
}

/// A window.
#[derive(Debug, Clone, PartialEq)]
pub struct Pane<'b> {
    /// Its id.
    pub id: &'b str,
    /// Which way it faces.
    pub facing: Facing,
    /// Its area [m²].
    pub area_m2: f64,
    /// Transmittance [W/(m²·K)].
    pub u_w_m2_k: f64,
    /// Share of the sun's heat it lets in, struck squarely, past what covers it and through what shades the box.
    pub shgc: f64,
    /// Does it have two panes?
    pub double: bool,
}

/// The box.
#[derive(Debug, Clone, PartialEq)]
pub struct Body<'b> {
    /// Its surfaces.
    pub opaque: Vec<Opaque<'b>>,
    /// Its windows.
    pub panes: Vec<Pane<'b>>,
    /// The room inside [m³].
    pub volume_m3: f64,
    /// Area of its floor, or of its roof where the floor is not given [m²].
    pub floor_m2: f64,
    /// Heat that lining, floor and furniture take up [J/K].
    pub mass_j_k: f64,
    /// What stands on its floor.
    pub floor_load: Option<FloorLoad>,
}

/// What its surfaces and windows come to, by which way they face.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Sums {
    /// Conductance of the surfaces from air to air [W/K].
    pub opaque_w_k: [f64; 6],
    /// Heat that comes in for each watt that falls on a square metre of them [m²].
    pub sun_m2: [f64; 6],
    /// Heat that is shed to the sky by rule [W].
    pub sky_w: [f64; 6],
    /// Area of single panes by what they let in [m²].
    pub single_m2: [f64; 6],
    /// Area of double panes by what they let in [m²].
    pub double_m2: [f64; 6],
    /// Conductance of the windows [W/K].
    pub windows_w_k: f64,
    /// Area of all inner faces [m²].
    pub inner_m2: f64,
}

impl Opaque<'_> {
    /// What it sheds to the sky by rule: a roof by what of the sky it sees and how well it sheds, all else nothing
    /// [W/m²].
    pub fn sky_loss_w_m2(&self) -> f64 {
        let sees = if self.facing == Facing::Roof { self.lit } else { 0.0 };
        HORIZONTAL_SKY_LOSS_W_M2 * sees * self.emittance / USUAL_EMITTANCE
    }
}

impl<'b> Body<'b> {
    /// The box of a build; none where surfaces or room are missing.
    pub fn of(build: &'b Build, season: Season) -> Option<Self> {
        let envelope = build.envelope.as_ref()?;
        let lit = 1.0 - envelope.shade_fraction.unwrap_or(0.0);
        let mut opaque = Vec::new();
        for (id, surface) in envelope.surfaces() {
            let in_it = envelope
                .windows()
                .filter(|(_, window)| envelope.surface_of(window).is_some_and(|(other, _)| other == id));
            let windows_ft2: f64 = in_it.map(|(_, window)| window.area_ft2).sum();
            opaque.push(opaque_of(id, surface, windows_ft2, lit, season)?);
        }
        let panes = envelope.windows().map(|(id, window)| {
            let glazing = usual_glazing(window.glazing, window.u_value);
            let usual = glazing::window(glazing);
            Pane {
                id,
                facing: window.facing,
                area_m2: m2(window.area_ft2),
                u_w_m2_k: window.u_value.map_or(usual.u_w_m2_k, |u_value| 1.0 / m2_k_w(1.0 / u_value)),
                shgc: window.shgc.unwrap_or(usual.shgc) * window.cover.map_or(1.0, share_past) * lit,
                double: usual.panes == 2,
            }
        });
        let floor_ft2 = Some(envelope.area_ft2(Facing::Floor)).filter(|ft2| *ft2 > 0.0);
        let floor_m2 = m2(floor_ft2.unwrap_or(envelope.area_ft2(Facing::Roof)));
        Some(Self {
            opaque,
            panes: panes.collect(),
            volume_m3: m3(envelope.volume_ft3.or(envelope.box_ft3())?),
            floor_m2,
            mass_j_k: envelope
                .heat_capacity_btu_f
                .map_or(MASS_J_M2_K * floor_m2.max(1.0), |btu_f| btu_f * J_K_PER_BTU_F),
            floor_load: floor_load(envelope),
        })
    }

    /// What its surfaces and windows come to.
    ///
    /// - `film_w_m2_k`  conductance of the film outside h_o [W/(m²·K)], > 0
    pub fn sums(&self, film_w_m2_k: f64) -> Sums {
        let mut sums = Sums::default();
        for one in &self.opaque {
            let face = one.facing as usize;
            let u_w_m2_k = 1.0 / (one.inner_m2_k_w + 1.0 / film_w_m2_k);
            let passes = u_w_m2_k * one.area_m2;
            sums.opaque_w_k[face] += passes;
            sums.sun_m2[face] += passes * one.absorptance * one.lit / film_w_m2_k;
            sums.sky_w[face] += passes * one.sky_loss_w_m2() / film_w_m2_k;
            sums.inner_m2 += one.area_m2;
        }
        for pane in &self.panes {
            let face = pane.facing as usize;
            sums.windows_w_k += pane.u_w_m2_k * pane.area_m2;
            let lets_in = if pane.double { &mut sums.double_m2 } else { &mut sums.single_m2 };
            lets_in[face] += pane.area_m2 * pane.shgc;
            sums.inner_m2 += pane.area_m2;
        }
        sums
    }

    /// The network of the box.
    ///
    /// - `sums`        what its surfaces and windows come to
    /// - `air_kg_m3`   density of the air in it
    pub fn network(&self, sums: &Sums, air_kg_m3: f64) -> BoxNetwork {
        let opaque_w_k: f64 = sums.opaque_w_k.iter().sum();
        let usual_m2 = MASS_SHARE * sums.inner_m2;
        // Of bare metal so little holds the heat back that three quarters of the faces could not pass it on.
        let least_m2 = LEAST_RATIO * opaque_w_k / MASS_TO_SURFACE_W_M2_K;
        let mass_m2 = usual_m2.max(least_m2);
        let mass_to_surface_w_k = MASS_TO_SURFACE_W_M2_K * mass_m2;
        let inner_m2 = sums.inner_m2.max(mass_m2);
        let to_mass = mass_m2 / inner_m2;
        let lost = sums.windows_w_k / (MASS_TO_SURFACE_W_M2_K * inner_m2);
        BoxNetwork {
            network: Network {
                air_j_k: AIR_AND_CLOTH * self.volume_m3 * air_kg_m3 * DRY_AIR_J_KG_K,
                mass_j_k: self.mass_j_k,
                surface_to_air_w_k: SURFACE_TO_AIR_W_M2_K * inner_m2,
                mass_to_surface_w_k,
                // Below the conductance of the mass by how it was chosen.
                outside_to_mass_w_k: outside_to_mass_w_k(opaque_w_k, mass_to_surface_w_k)
                    .unwrap_or(opaque_w_k),
                windows_w_k: sums.windows_w_k,
                floor_load: self.floor_load,
            },
            to_mass,
            to_surface: (1.0 - to_mass - lost).max(0.0),
        }
    }
}

/// The network of a box, and where radiant heat in it goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoxNetwork {
    /// The network.
    pub network: Network,
    /// Share of radiant heat that goes into the mass.
    pub to_mass: f64,
    /// Share that goes into the surfaces; the rest is lost through the panes.
    pub to_surface: f64,
}

/// The kind of glazing of a window that does not say: by how much warmth it lets through.
pub fn usual_glazing(given: Option<Glazing>, u_value: Option<f64>) -> Glazing {
    /// Below this no single pane is [BTU/(h·ft²·°F)].
    const DOUBLE_BELOW: f64 = 0.75;
    match (given, u_value) {
        (Some(given), _) => given,
        (None, Some(u_value)) if u_value < DOUBLE_BELOW => Glazing::DoubleGlass,
        _ => Glazing::SingleGlass,
    }
}

/// Solar absorptance and emittance of a surface.
pub fn radiant_of(surface: &Surface) -> Radiant {
    if let Some(finish) = surface.finish {
        return radiant(finish);
    }
    let usual = if surface.facing == Facing::Floor { UNDERSIDE_ABSORPTANCE } else { USUAL_ABSORPTANCE };
    Radiant {
        absorptance: surface.solar_absorptance.unwrap_or(usual),
        emittance: surface.emittance.unwrap_or(USUAL_EMITTANCE),
    }
}

fn opaque_of<'b>(
    id: &'b str,
    surface: &Surface,
    windows_ft2: f64,
    lit: f64,
    season: Season,
) -> Option<Opaque<'b>> {
    let (total_m2_k_w, coldest_share) = match (&surface.r_value, &surface.layers) {
        (Some(r_value), _) => (m2_k_w(*r_value), None),
        (None, Some(layers)) => resistance(layers, surface.posts.as_ref(), flow(surface.facing, season))?,
        (None, None) => return None,
    };
    let Radiant { absorptance, emittance } = radiant_of(surface);
    Some(Opaque {
        id,
        facing: surface.facing,
        area_m2: m2((surface.area_ft2 - windows_ft2).max(0.0)),
        inner_m2_k_w: total_m2_k_w - OUTSIDE_M2_K_W,
        coldest_share,
        absorptance,
        emittance,
        lit: lit * (1.0 - surface.shade_fraction.unwrap_or(0.0)),
    })
}

/// Resistance of layers from air to air [m²·K/W], posts counted, and the share of the temperature difference that is left
/// at the coldest place of the inside where posts bridge it. None for more layers than the method takes.
fn resistance(layers: &[Layer], posts: Option<&Posts>, flow: HeatFlow) -> Option<(f64, Option<f64>)> {
    let mut paths = [[Path::whole(0.0); 2]; MOST_LAYERS];
    for (paths, layer) in paths.iter_mut().zip(layers) {
        *paths = paths_of(layer)?;
    }
    let mut slices: [&[Path]; MOST_LAYERS] = [&[]; MOST_LAYERS];
    for (slice, paths) in slices.iter_mut().zip(&paths) {
        *slice = if paths[1].share > 0.0 { paths } else { &paths[..1] };
    }
    let inside_m2_k_w = inside_m2_k_w(flow);
    let clear = limits(slices.get(..layers.len())?, inside_m2_k_w, OUTSIDE_M2_K_W)?;
    let Some(posts) = posts else { return Some((clear.total_m2_k_w(), None)) };
    // Between the posts stands what holds back most.
    let insulation = layers
        .iter()
        .zip(&paths)
        .filter_map(|(layer, paths)| Some((m(layer.thickness_in?), paths[0].resistance_m2_k_w)))
        .max_by(|one, other| one.1.total_cmp(&other.1));
    let insulation_w_m_k =
        insulation.filter(|(_, r)| *r > 0.0).map_or(FOAM_W_M_K, |(thickness_m, r)| thickness_m / r);
    let bridge = bridge(Post {
        framing: posts.material,
        depth_m: m(posts.depth_in),
        insulation_w_m_k,
        lining_m: layers.last().and_then(|layer| layer.thickness_in).map_or(0.0, m),
        foam_m2_k_w: m(posts.foam_in.unwrap_or(0.0)) / FOAM_W_M_K,
    });
    let framed = framed_u_w_m2_k(clear.u_w_m2_k(), bridge.psi_w_m_k, m(posts.spacing_in));
    Some((1.0 / framed, Some(bridge.least_factor)))
}

/// The paths through a layer: what it is made of, and wood.
fn paths_of(layer: &Layer) -> Option<[Path; 2]> {
    let conductivity = |material| thermal(material).conductivity_w_m_k;
    let between = match (layer.r_value, layer.material, layer.thickness_in) {
        (Some(r_value), ..) => m2_k_w(r_value),
        (None, Some(material), Some(thickness_in)) => m(thickness_in) / conductivity(material),
        _ => return None,
    };
    let wood = layer.wood_fraction.unwrap_or(0.0);
    // All of wood is wood, whatever else is named.
    let between = if wood < 1.0 { between } else { f64::INFINITY };
    let of_wood = layer.thickness_in.map_or(between, |inches| m(inches) / conductivity(Material::Softwood));
    Some([
        Path { share: 1.0 - wood, resistance_m2_k_w: between },
        Path { share: wood, resistance_m2_k_w: of_wood },
    ])
}

/// Which way heat flows through a surface in a season.
pub fn flow(facing: Facing, season: Season) -> HeatFlow {
    match (facing, season) {
        (Facing::Roof, Season::Summer) | (Facing::Floor, Season::Winter) => HeatFlow::Down,
        (Facing::Roof, Season::Winter) | (Facing::Floor, Season::Summer) => HeatFlow::Up,
        _ => HeatFlow::Horizontal,
    }
}

fn floor_load(envelope: &Envelope) -> Option<FloorLoad> {
    let load = envelope.floor_load.as_ref()?;
    let btu_lb_f = load.specific_heat_btu_lb_f.unwrap_or(FLOOR_LOAD_BTU_LB_F);
    let heat_j_k = load.mass_lb * btu_lb_f * J_K_PER_BTU_F;
    (heat_j_k > 0.0)
        .then(|| FloorLoad { heat_j_k, to_surface_w_k: MASS_TO_SURFACE_W_M2_K * m2(load.area_ft2) })
}

#[cfg(test)]
mod tests;
