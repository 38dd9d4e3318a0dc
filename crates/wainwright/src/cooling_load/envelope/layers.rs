//! Thermal transmittance of a wall of layers, some of them bridged by framing.

/// Most layers a wall may have.
pub const MOST_LAYERS: usize = 12;
/// Most paths through the whole wall: six layers of four paths, or twelve of two.
pub const MOST_PATHS: usize = 4096;
/// Ratio of the upper to the lower limit beyond which ISO 6946 does not admit its method.
pub const MOST_RATIO: f64 = 1.5;

/// A path through a layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Path {
    /// Share of the area, above 0, to 1. Those of a layer make up 1.
    pub share: f64,
    /// Resistance [m²·K/W], 0 or more.
    pub resistance_m2_k_w: f64,
}

impl Path {
    /// The only path through a layer of one material.
    ///
    /// - `resistance_m2_k_w`  resistance [m²·K/W], 0 or more
    pub const fn whole(resistance_m2_k_w: f64) -> Self {
        Self { share: 1.0, resistance_m2_k_w }
    }
}

/// Resistance of a layer.
///
/// `R = d / λ`
///
/// - `thickness_m`         thickness d [m], 0 or more
/// - `conductivity_w_m_k`  conductivity λ [W/(m·K)], above 0
///
/// Returns R [m²·K/W].
///
/// Source: ISO 6946, thermal resistance of homogeneous layers.
pub fn resistance_m2_k_w(thickness_m: f64, conductivity_w_m_k: f64) -> f64 {
    thickness_m / conductivity_w_m_k
}

/// Resistance of a wall from one air to the other, between two limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// As if no heat could pass from one path to another, R'_T [m²·K/W].
    pub upper_m2_k_w: f64,
    /// As if every layer were as warm as itself everywhere, R''_T [m²·K/W].
    pub lower_m2_k_w: f64,
}

impl Limits {
    /// The resistance.
    ///
    /// `R_T = (R'_T + R''_T) / 2`
    ///
    /// Returns R_T [m²·K/W].
    ///
    /// Source: ISO 6946, combined method.
    pub fn total_m2_k_w(&self) -> f64 {
        (self.upper_m2_k_w + self.lower_m2_k_w) / 2.0
    }

    /// The transmittance.
    ///
    /// `U = 1 / R_T`
    ///
    /// Returns U [W/(m²·K)].
    ///
    /// Source: ISO 6946, thermal transmittance.
    pub fn u_w_m2_k(&self) -> f64 {
        1.0 / self.total_m2_k_w()
    }

    /// How far the resistance may be off, as a share of it.
    ///
    /// `e = (R'_T − R''_T) / (2 R_T)`
    ///
    /// Source: ISO 6946, estimation of error.
    pub fn relative_error(&self) -> f64 {
        (self.upper_m2_k_w - self.lower_m2_k_w) / (2.0 * self.total_m2_k_w())
    }

    /// True where the limits are near enough that the standard admits the method, to a ratio of [`MOST_RATIO`].
    ///
    /// Source: ISO 6946, scope of the combined method, `from memory`.
    pub fn admitted(&self) -> bool {
        self.upper_m2_k_w <= MOST_RATIO * self.lower_m2_k_w
    }
}

/// The limits of a wall's resistance. Framing of wood may bridge its layers, metal may not: skin and lining spread its heat
/// sideways (see [`super::framing`]).
///
/// ```text
/// 1/R'_T = Σ f_m / R_Tm                              paths m through the whole wall
/// R''_T = R_si + Σ R''_j + R_se    1/R''_j = Σ f_mj / R_mj
/// ```
///
/// - `layers`          from one side to the other, each the paths through it. Where several are bridged, every path of one
///   meets every path of the others, by the product of their shares
/// - `inside_m2_k_w`   resistance of the surface inside R_si [m²·K/W], above 0
/// - `outside_m2_k_w`  resistance of the surface outside R_se [m²·K/W], 0 or more
///
/// None for more than [`MOST_LAYERS`] layers or more than [`MOST_PATHS`] paths through the whole, and where a layer has no
/// path.
///
/// Source: ISO 6946, 6.7.2.
pub fn limits(layers: &[&[Path]], inside_m2_k_w: f64, outside_m2_k_w: f64) -> Option<Limits> {
    let paths = layers.iter().fold(1_usize, |paths, layer| paths.saturating_mul(layer.len()));
    if layers.len() > MOST_LAYERS || !(1..=MOST_PATHS).contains(&paths) {
        return None;
    }
    let surfaces_m2_k_w = inside_m2_k_w + outside_m2_k_w;
    let side_by_side =
        |layer: &&[Path]| 1.0 / layer.iter().map(|path| path.share / path.resistance_m2_k_w).sum::<f64>();
    Some(Limits {
        upper_m2_k_w: 1.0 / conductance_w_m2_k(layers, 1.0, surfaces_m2_k_w),
        lower_m2_k_w: surfaces_m2_k_w + layers.iter().map(side_by_side).sum::<f64>(),
    })
}

/// Conductance of all paths through the layers that are left, behind one path through those before: its share of the area
/// and its resistance.
fn conductance_w_m2_k(layers: &[&[Path]], share: f64, resistance_m2_k_w: f64) -> f64 {
    let Some((layer, behind)) = layers.split_first() else { return share / resistance_m2_k_w };
    layer
        .iter()
        .map(|path| {
            conductance_w_m2_k(behind, share * path.share, resistance_m2_k_w + path.resistance_m2_k_w)
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn bridged(share: f64, framing: f64, between: f64) -> [Path; 2] {
        [Path { share: 1.0 - share, resistance_m2_k_w: between }, Path { share, resistance_m2_k_w: framing }]
    }

    #[test]
    fn layers_of_one_material_add_up_and_leave_no_doubt() {
        let wall = limits(&[&[Path::whole(0.5)], &[Path::whole(1.0)]], 0.13, 0.04).unwrap();
        assert!((wall.total_m2_k_w() - 1.67).abs() < 1e-12);
        assert!(wall.relative_error().abs() < 1e-12 && wall.admitted());
    }

    #[test]
    fn bare_surfaces_are_a_wall_too() {
        let wall = limits(&[], 0.13, 0.04).unwrap();
        assert!((wall.u_w_m2_k() - 1.0 / 0.17).abs() < 1e-12);
    }

    #[test]
    fn two_bridged_layers_have_four_paths() {
        let (first, second) = (bridged(0.2, 0.3, 1.5), bridged(0.1, 0.2, 1.0));
        let wall = limits(&[&first, &second], 0.13, 0.04).unwrap();
        let by_hand = 1.0 / (0.72 / 2.67 + 0.08 / 1.87 + 0.18 / 1.47 + 0.02 / 0.67);
        assert!((wall.upper_m2_k_w - by_hand).abs() < 1e-12);
    }

    #[test]
    fn a_metal_post_lies_beyond_the_method() {
        let post = bridged(0.06, 0.001, 1.5);
        assert!(!limits(&[&post], 0.13, 0.04).unwrap().admitted());
        // Just at the limit of the ratio it is admitted.
        assert!(Limits { upper_m2_k_w: 1.5, lower_m2_k_w: 1.0 }.admitted());
        assert!(!Limits { upper_m2_k_w: 1.500_001, lower_m2_k_w: 1.0 }.admitted());
    }

    #[test]
    fn more_than_can_be_walked_through_is_refused() {
        let two = bridged(0.5, 1.0, 1.0);
        let layers: [&[Path]; 13] = [&two; 13];
        assert!(limits(&layers[..12], 0.13, 0.04).is_some());
        assert_eq!(limits(&layers, 0.13, 0.04), None);
        let four = [Path { share: 0.25, resistance_m2_k_w: 1.0 }; 4];
        let layers: [&[Path]; 7] = [&four; 7];
        assert!(limits(&layers[..6], 0.13, 0.04).is_some());
        assert_eq!(limits(&layers, 0.13, 0.04), None);
        assert_eq!(limits(&[&[]], 0.13, 0.04), None);
    }

    proptest! {
        #[test]
        fn the_upper_limit_is_never_below_the_lower_and_more_insulation_never_lets_more_through(
            share in 0.01..0.5f64,
            framing in 0.01..2.0f64,
            between in 0.01..4.0f64,
            lining in 0.0..0.5f64,
            more in 0.0..3.0f64,
        ) {
            let wall = |framing, between, lining| {
                let (core, lining) = (bridged(share, framing, between), [Path::whole(lining)]);
                limits(&[&lining, &core, &core], 0.13, 0.04).unwrap()
            };
            let base = wall(framing, between, lining);
            prop_assert!(base.relative_error() >= -1e-12);
            for better in [
                wall(framing + more, between, lining),
                wall(framing, between + more, lining),
                wall(framing, between, lining + more),
            ] {
                prop_assert!(better.u_w_m2_k() <= base.u_w_m2_k() * (1.0 + 1e-12));
            }
        }
    }
}
