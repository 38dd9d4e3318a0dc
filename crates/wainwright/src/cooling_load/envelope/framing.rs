//! Framing as linear thermal bridges: what a post adds to a wall, and how cold the lining over it gets.
//!
//! Skin and lining gather heat for a metal post from some distance, so that it is worth far more than its share of the area.
//! What it adds hardly depends on the spacing: from 12 to 48 in by less than 0.2 %.

use std::sync::LazyLock;

use crate::standards::framing::Framing;
use crate::standards::table::rows;
use crate::units::M_PER_IN;

/// Depths of the posts worked out [m].
const DEPTHS_M: [f64; 3] = [1.0 * M_PER_IN, 1.5 * M_PER_IN, 2.0 * M_PER_IN];
/// Conductivities of the insulation between them [W/(m·K)].
const INSULATION_W_M_K: [f64; 2] = [0.026, 0.036];
/// Thicknesses of the lining [m].
const LININGS_M: [f64; 2] = [0.0032, 0.0095];
/// Conductivity of the foam between posts and lining [W/(m·K)].
const FOAM_W_M_K: f64 = 0.026;
/// Its resistances [m²·K/W]: none, half an inch, an inch.
const FOAMS_M2_K_W: [f64; 3] = [0.0, 0.5 * M_PER_IN / FOAM_W_M_K, 1.0 * M_PER_IN / FOAM_W_M_K];

/// Where a post stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Post {
    /// What it is made of.
    pub framing: Framing,
    /// Its depth, which is that of the insulation beside it [m]; as of 1 in below that, as of 2 in above.
    pub depth_m: f64,
    /// Conductivity of the insulation beside it [W/(m·K)]; as of 0.026 below that, as of 0.036 above.
    pub insulation_w_m_k: f64,
    /// Thickness of the wooden lining over it [m]; as of 3.2 mm below that, as of 9.5 mm above.
    pub lining_m: f64,
    /// Resistance of foam that runs through between posts and lining [m²·K/W], 0 or more.
    pub foam_m2_k_w: f64,
}

/// A linear thermal bridge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bridge {
    /// Heat it lets through beside that of the wall without it, for each meter and degree ψ [W/(m·K)].
    pub psi_w_m_k: f64,
    /// How far from the air outdoors to that inside the coldest place of the lining is, f_Rsi, 0 to 1.
    pub least_factor: f64,
}

/// By framing, foam, depth, insulation and lining.
type Grid = [[[[[Bridge; 2]; 2]; 3]; 3]; 3];

static GRID: LazyLock<Grid> = LazyLock::new(|| {
    let mut grid = [[[[[Bridge { psi_w_m_k: f64::NAN, least_factor: f64::NAN }; 2]; 2]; 3]; 3]; 3];
    for row in rows(include_str!("../../../data/framing_bridges.csv")) {
        let number = |column| row.number(column).unwrap_or(f64::NAN);
        let framing = match row.text("kind") {
            "steel" => Framing::Steel,
            "aluminum" => Framing::Aluminum,
            _ => Framing::Wood,
        };
        let foam = place(&FOAMS_M2_K_W, number("foam_mm") / 1000.0 / FOAM_W_M_K);
        let depth = place(&DEPTHS_M, number("depth_in") * M_PER_IN);
        let insulation = place(&INSULATION_W_M_K, number("insulation_w_m_k"));
        let lining = place(&LININGS_M, number("lining_mm") / 1000.0);
        grid[framing as usize][foam][depth][insulation][lining] =
            Bridge { psi_w_m_k: number("psi_w_m_k"), least_factor: number("f_rsi_min") };
    }
    grid
});

/// Place of a figure in a rising list that holds it.
fn place<const N: usize>(list: &[f64; N], figure: f64) -> usize {
    list.iter().take(N - 1).take_while(|listed| figure > *listed + 1e-6).count()
}

/// The two places of a rising list between which a figure lies, and how far it is from the first to the second. Beyond
/// the ends the nearest two: below 0 or above 1.
fn between(list: &[f64], figure: f64) -> (usize, f64) {
    let low = list.iter().skip(1).take(list.len() - 2).take_while(|listed| figure > **listed).count();
    (low, (figure - list[low]) / (list[low + 1] - list[low]))
}

/// What a post adds to a wall or roof, and how cold the lining over it gets. For a door frame count the length around it
/// once more.
///
/// Straight between the cases worked out by depth, insulation and lining (ψ within 1 %); by the foam's resistance 1/ψ and
/// 1/(1 − f_Rsi) run straight, and on beyond an inch of foam (ψ within 4 % to one inch, at most an eighth too high at two).
///
/// - `post`  where it stands
///
/// Source: two-dimensional finite-volume solutions of a wall with square tubes 1 in wide or wood 1.5 in wide, of which the
/// data file says more. Worked out, not measured: screws make ψ greater, resistance of contact makes it less.
pub fn bridge(post: Post) -> Bridge {
    let (foam, part) = between(&FOAMS_M2_K_W, post.foam_m2_k_w.max(0.0));
    let by_foam = &GRID[post.framing as usize];
    let [thin, thick] = [&by_foam[foam], &by_foam[foam + 1]].map(|cases| among(cases, post));
    let straight = |thin: f64, thick: f64| 1.0 / (1.0 / thin + part * (1.0 / thick - 1.0 / thin));
    Bridge {
        psi_w_m_k: straight(thin.psi_w_m_k, thick.psi_w_m_k),
        least_factor: 1.0 - straight(1.0 - thin.least_factor, 1.0 - thick.least_factor),
    }
}

/// The bridge among the cases of one foam, clamped to them.
fn among(cases: &[[[Bridge; 2]; 2]; 3], post: Post) -> Bridge {
    let (depth, deeper) = between(&DEPTHS_M, post.depth_m);
    let (insulation, more_conductive) = between(&INSULATION_W_M_K, post.insulation_w_m_k);
    let (lining, thicker) = between(&LININGS_M, post.lining_m);
    let mix = |a: Bridge, b: Bridge, part: f64| {
        let part = part.clamp(0.0, 1.0);
        Bridge {
            psi_w_m_k: a.psi_w_m_k + part * (b.psi_w_m_k - a.psi_w_m_k),
            least_factor: a.least_factor + part * (b.least_factor - a.least_factor),
        }
    };
    let by_lining = |cases: [Bridge; 2]| mix(cases[lining], cases[lining + 1], thicker);
    let by_insulation = |cases: [[Bridge; 2]; 2]| {
        mix(by_lining(cases[insulation]), by_lining(cases[insulation + 1]), more_conductive)
    };
    mix(by_insulation(cases[depth]), by_insulation(cases[depth + 1]), deeper)
}

/// Transmittance of a wall with posts, from that of the wall between them.
///
/// `U = U_0 + ψ / s`
///
/// - `clear_u_w_m2_k`  transmittance between the posts U_0 [W/(m²·K)], 0 or more, as if there were none
/// - `psi_w_m_k`       what a post adds ψ [W/(m·K)], from [`bridge`]
/// - `spacing_m`       spacing of the posts s [m], above 0; tabled for 0.3 m and more
///
/// Returns U [W/(m²·K)].
///
/// Source: ISO 14683, linear thermal transmittance.
pub fn framed_u_w_m2_k(clear_u_w_m2_k: f64, psi_w_m_k: f64, spacing_m: f64) -> f64 {
    clear_u_w_m2_k + psi_w_m_k / spacing_m
}

/// Share of its resistance that the insulation between the posts keeps.
///
/// `F = (1/U − R_rest) / R_ins`
///
/// - `framed_u_w_m2_k`   transmittance with posts U [W/(m²·K)], above 0, from [`framed_u_w_m2_k`]
/// - `rest_m2_k_w`       resistance of surfaces, lining and whatever else is not between the posts R_rest [m²·K/W]
/// - `between_m2_k_w`    resistance of the insulation between them R_ins [m²·K/W], above 0
///
/// Source: ANSI/ASHRAE/IES 90.1, appendix A: meaning of the factor, to compare with
/// [`crate::standards::framing::steel_stud_factor`].
pub fn framing_factor(framed_u_w_m2_k: f64, rest_m2_k_w: f64, between_m2_k_w: f64) -> f64 {
    (1.0 / framed_u_w_m2_k - rest_m2_k_w) / between_m2_k_w
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standards::framing::{StudSpacing, steel_stud_factor};
    use crate::units::{m, r_value};
    use proptest::prelude::*;

    /// A steel post of 1.5 in between polyisocyanurate, behind 1/8 in of plywood.
    const STEEL: Post = Post {
        framing: Framing::Steel,
        depth_m: 1.5 * M_PER_IN,
        insulation_w_m_k: 0.026,
        lining_m: 0.0032,
        foam_m2_k_w: 0.0,
    };
    const FRAMINGS: [Framing; 3] = [Framing::Steel, Framing::Aluminum, Framing::Wood];

    #[test]
    fn every_case_has_its_row() {
        assert_eq!(rows(include_str!("../../../data/framing_bridges.csv")).count(), 3 * 3 * 3 * 2 * 2);
        for Bridge { psi_w_m_k, least_factor } in
            GRID.as_flattened().as_flattened().as_flattened().as_flattened()
        {
            assert!((0.0..0.3).contains(psi_w_m_k) && (0.2..1.0).contains(least_factor));
        }
    }

    #[test]
    fn beyond_the_cases_the_nearest_counts() {
        for framing in FRAMINGS {
            let post = Post { framing, ..STEEL };
            let (deep, deepest) = (Post { depth_m: m(2.0), ..post }, Post { depth_m: m(3.5), ..post });
            assert_eq!(bridge(deep), bridge(deepest));
            let bare = Post { lining_m: 0.0, insulation_w_m_k: 0.02, ..post };
            assert_eq!(bridge(bare), bridge(post));
        }
    }

    /// Cases between those of the table, worked out by the same two-dimensional solution.
    #[test]
    fn between_the_cases_it_is_near_the_solution() {
        let half_foam = FOAMS_M2_K_W[1] / 2.0;
        for (post, psi_w_m_k, least_factor) in [
            (Post { depth_m: m(1.25), ..STEEL }, 0.19866, 0.2684),
            (Post { depth_m: m(1.75), ..STEEL }, 0.20938, 0.2813),
            (Post { insulation_w_m_k: 0.031, ..STEEL }, 0.20229, 0.2781),
            (Post { lining_m: 0.00635, ..STEEL }, 0.19220, 0.3759),
            (Post { foam_m2_k_w: half_foam, ..STEEL }, 0.08098, 0.7159),
            (Post { foam_m2_k_w: 3.0 * half_foam, ..STEEL }, 0.03592, 0.8755),
            // Half an inch of foam of 0.036 W/(m·K).
            (Post { foam_m2_k_w: 0.0127 / 0.036, ..STEEL }, 0.06670, 0.7835),
            (Post { foam_m2_k_w: 4.0 * half_foam, ..STEEL }, 0.02730, 0.9036),
        ] {
            let got = bridge(post);
            let by_foam = post.foam_m2_k_w > 0.0;
            let error = got.psi_w_m_k / psi_w_m_k - 1.0;
            assert!(error.abs() < if by_foam { 0.045 } else { 0.008 }, "{post:?}: {error}");
            assert!((got.least_factor - least_factor).abs() < 0.01, "{post:?}: {}", got.least_factor);
        }
        let two_inches = bridge(Post { foam_m2_k_w: 8.0 * half_foam, ..STEEL });
        let error = two_inches.psi_w_m_k / 0.012_486 - 1.0;
        assert!((0.0..0.15).contains(&error), "{error}");
        assert!((two_inches.least_factor - 0.9492).abs() < 0.001);
    }

    #[test]
    fn a_steel_framed_wall_has_half_its_marked_resistance() {
        let clear_u = 1.0 / (0.13 + 0.04 + 0.0032 / 0.13 + m(1.5) / 0.026);
        let framed_u = framed_u_w_m2_k(clear_u, bridge(STEEL).psi_w_m_k, m(16.0));
        assert_eq!(format!("{:.1} {:.1}", r_value(1.0 / clear_u), r_value(1.0 / framed_u)), "9.4 5.1");
    }

    /// Source: ANSI/ASHRAE/IES 90.1, Table A9.2-2: R-13 between steel studs at 16 in keeps 0.46; 0.37 to 0.50
    /// (`from memory`). Tubes between polyisocyanurate 1.5 and 2 in thick lie in the same span.
    #[test]
    fn tubes_keep_as_much_as_the_studs_of_a_house() {
        let stud = |cavity_r| steel_stud_factor(cavity_r, StudSpacing::Inches16).unwrap();
        for depth_m in [m(1.5), m(2.0)] {
            let (rest, between) = (0.13 + 0.04 + 0.0032 / 0.13, depth_m / 0.026);
            let psi_w_m_k = bridge(Post { depth_m, ..STEEL }).psi_w_m_k;
            let framed_u = framed_u_w_m2_k(1.0 / (rest + between), psi_w_m_k, m(16.0));
            let factor = framing_factor(framed_u, rest, between);
            assert!(stud(19.0) < factor && factor < stud(11.0), "{factor}");
        }
    }

    proptest! {
        #[test]
        fn foam_over_posts_always_helps_and_wood_is_always_better_than_metal(
            depth_in in 0.5..4.0f64,
            insulation_w_m_k in 0.02..0.05f64,
            lining_m in 0.0..0.02f64,
            foam_m2_k_w in 0.0..3.0f64,
            more in 0.001..1.0f64,
        ) {
            let [steel, aluminum, wood] = FRAMINGS.map(|framing| {
                let post = Post { framing, depth_m: m(depth_in), insulation_w_m_k, lining_m, foam_m2_k_w };
                let (less, more) = (bridge(post), bridge(Post { foam_m2_k_w: foam_m2_k_w + more, ..post }));
                assert!(more.psi_w_m_k < less.psi_w_m_k && more.psi_w_m_k > 0.0);
                assert!(more.least_factor > less.least_factor && more.least_factor < 1.0);
                less
            });
            prop_assert!(wood.psi_w_m_k < steel.psi_w_m_k && steel.psi_w_m_k < aluminum.psi_w_m_k);
            prop_assert!(wood.least_factor > steel.least_factor);
        }
    }
}
