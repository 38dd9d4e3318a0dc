//! What walls, roofs and floors are made of.

use std::sync::LazyLock;

use super::table::rows;
use crate::document::Options;

/// A building material, by the trade's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Material {
    /// Mild steel.
    Steel,
    /// Stainless steel.
    StainlessSteel,
    /// Aluminum alloy.
    Aluminum,
    /// Pine, spruce, fir.
    Softwood,
    /// Oak, ash, maple.
    Hardwood,
    /// Plywood of softwood.
    Plywood,
    /// Oriented strand board.
    Osb,
    /// Particle board.
    ParticleBoard,
    /// Rigid PVC panel.
    Pvc,
    /// Sheet vinyl or vinyl plank.
    VinylFloor,
    /// Rubber mat, diamond plate or coin.
    RubberFloor,
    /// Polyester resin with glass fiber, as a skin.
    FiberglassSkin,
    /// Acrylic sheet.
    Acrylic,
    /// Polycarbonate sheet.
    Polycarbonate,
    /// Window glass.
    Glass,
    /// Batt of glass fiber, not compressed.
    GlassFiberBatt,
    /// Expanded polystyrene board.
    Eps,
    /// Extruded polystyrene board.
    Xps,
    /// Polyisocyanurate board with foil faces, aged.
    Polyiso,
    /// Closed-cell sprayed polyurethane, aged.
    SprayFoam,
}

impl Options for Material {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("steel", Self::Steel),
        ("stainless_steel", Self::StainlessSteel),
        ("aluminum", Self::Aluminum),
        ("softwood", Self::Softwood),
        ("hardwood", Self::Hardwood),
        ("plywood", Self::Plywood),
        ("osb", Self::Osb),
        ("particle_board", Self::ParticleBoard),
        ("pvc", Self::Pvc),
        ("vinyl_floor", Self::VinylFloor),
        ("rubber_floor", Self::RubberFloor),
        ("fiberglass_skin", Self::FiberglassSkin),
        ("acrylic", Self::Acrylic),
        ("polycarbonate", Self::Polycarbonate),
        ("glass", Self::Glass),
        ("glass_fiber_batt", Self::GlassFiberBatt),
        ("eps", Self::Eps),
        ("xps", Self::Xps),
        ("polyiso", Self::Polyiso),
        ("spray_foam", Self::SprayFoam),
    ];
}

/// How a material conducts and stores heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thermal {
    /// Conductivity [W/(m·K)]. That of polyiso is at room temperature: near freezing it is a quarter more.
    pub conductivity_w_m_k: f64,
    /// Density [kg/m³].
    pub density_kg_m3: f64,
    /// Specific heat [J/(kg·K)].
    pub specific_heat_j_kg_k: f64,
}

impl Thermal {
    /// Heat stored by a layer for each square meter and degree.
    ///
    /// `κ = d ρ c`
    ///
    /// - `thickness_m`  thickness d [m], 0 or more
    ///
    /// Returns κ [J/(m²·K)].
    ///
    /// Source: definition of the specific heat.
    pub fn capacity_j_m2_k(&self, thickness_m: f64) -> f64 {
        thickness_m * self.density_kg_m3 * self.specific_heat_j_kg_k
    }
}

/// The materials in the order of [`Material`].
static THERMAL: LazyLock<Vec<Thermal>> = LazyLock::new(|| {
    let figure = |cell: Option<f64>| cell.unwrap_or(f64::NAN);
    rows(include_str!("../../data/building_materials.csv"))
        .map(|row| Thermal {
            conductivity_w_m_k: figure(row.number("conductivity_w_m_k")),
            density_kg_m3: figure(row.number("density_kg_m3")),
            specific_heat_j_kg_k: figure(row.number("specific_heat_j_kg_k")),
        })
        .collect()
});

/// How a material conducts and stores heat, where its maker states nothing.
///
/// - `material`  the material
///
/// Source: EN ISO 10456 and EN ISO 10077-2; glass fiber: ASHRAE Standard 140; foams by the R usually marked on them. Partly
/// `from memory`, as the data file says.
pub fn thermal(material: Material) -> Thermal {
    // Every material has its row: a test holds it.
    THERMAL[material as usize]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{m, r_value};

    #[test]
    fn every_material_has_its_row() {
        let names = rows(include_str!("../../data/building_materials.csv")).map(|row| row.text("name"));
        assert!(names.eq(Material::WORDS.iter().map(|(word, _)| *word)));
        for (place, (word, material)) in Material::WORDS.iter().enumerate() {
            assert_eq!(*material as usize, place);
            let Thermal { conductivity_w_m_k, density_kg_m3, specific_heat_j_kg_k } = thermal(*material);
            assert!(conductivity_w_m_k > 0.0 && density_kg_m3 > 0.0 && specific_heat_j_kg_k > 0.0, "{word}");
        }
    }

    /// R marked on an inch of board, `common practice`.
    #[test]
    fn an_inch_of_board_has_the_resistance_marked_on_it() {
        let r_per_inch = |material| format!("{:.1}", r_value(m(1.0) / thermal(material).conductivity_w_m_k));
        let boards = [Material::GlassFiberBatt, Material::Eps, Material::Xps, Material::Polyiso];
        assert_eq!(boards.map(r_per_inch), ["3.6", "3.8", "5.0", "5.5"]);
    }

    #[test]
    fn plywood_stores_heat_by_its_thickness() {
        let kj_m2_k =
            |thickness_m| format!("{:.1}", thermal(Material::Plywood).capacity_j_m2_k(thickness_m) / 1000.0);
        assert_eq!([0.0032, 0.0095, 0.019].map(kj_m2_k), ["2.6", "7.6", "15.2"]);
    }
}
