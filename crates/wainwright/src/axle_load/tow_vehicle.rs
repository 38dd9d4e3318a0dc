//! What the trailer does to the tow vehicle, with and without a weight-distributing hitch.
//!
//! Bars move load about: the trailer's mass stays, its axle loads rise. Over-restoring the front axle takes
//! understeer away.

/// Tow vehicle's geometry that matters to the hitch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TowVehicle {
    /// Front to rear axle WB [m], > 0.
    pub wheelbase_m: f64,
    /// Rear axle to ball OH [m], 0 or more.
    pub overhang_m: f64,
}

/// Changes of load that coupling makes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coupled {
    /// Change at the tow vehicle's front axle [kg].
    pub front_kg: f64,
    /// Change at its rear axle [kg].
    pub rear_kg: f64,
    /// What the bars add to the trailer's axles [kg]; 0 without bars.
    pub trailer_axles_kg: f64,
}

impl Coupled {
    /// Net load passed to the tow vehicle T' [kg].
    pub fn net_tongue_kg(&self) -> f64 {
        self.front_kg + self.rear_kg
    }
}

/// Changes of axle loads with a tongue load and a moment of the bars.
///
/// `T' = T − M/L`, `ΔF = (M − T' OH) / WB`, `ΔR = T' − ΔF`, trailer axles `+M/L`
///
/// - `tow`          wheelbase WB and overhang OH
/// - `tongue_kg`    tongue load without bars T [kg]
/// - `moment_kg_m`  nose-down moment of the hitch head on the tow vehicle M [kg·m]; 0 without bars
/// - `group_x_m`    station of the trailer's axle group L [m], > 0
///
/// Returns the changes; together they are the tongue load. Without bars the front axle loses `T OH/WB`, the rear
/// gains `T (WB + OH)/WB`.
///
/// Source: equilibrium of tow vehicle and trailer.
pub fn coupled(tow: TowVehicle, tongue_kg: f64, moment_kg_m: f64, group_x_m: f64) -> Coupled {
    let trailer_axles_kg = moment_kg_m / group_x_m;
    let net_tongue_kg = tongue_kg - trailer_axles_kg;
    let front_kg = (moment_kg_m - net_tongue_kg * tow.overhang_m) / tow.wheelbase_m;
    Coupled { front_kg, rear_kg: net_tongue_kg - front_kg, trailer_axles_kg }
}

/// Moment of the bars for a wanted restoration of the front axle's load.
///
/// `M = FALR T OH / (1 + OH/L)`
///
/// - `tow`          overhang OH, > 0 for a moment other than 0
/// - `tongue_kg`    tongue load without bars T [kg]
/// - `restoration`  front axle load restoration FALR: 0 none, 1 back to its load without the trailer
/// - `group_x_m`    station of the trailer's axle group L [m], > 0
///
/// Returns the moment [kg·m].
///
/// Source: SAE J2807's definition of front axle load restoration, with [`coupled`] solved for M.
pub fn moment_for_restoration_kg_m(tow: TowVehicle, tongue_kg: f64, restoration: f64, group_x_m: f64) -> f64 {
    restoration * tongue_kg * tow.overhang_m / (1.0 + tow.overhang_m / group_x_m)
}

/// Restoration of the front axle's load that a moment of the bars gives.
///
/// `FALR = M (1 + OH/L) / (T OH)`
///
/// - `tow`          overhang OH, > 0
/// - `tongue_kg`    tongue load without bars T [kg], not 0
/// - `moment_kg_m`  moment of the bars M [kg·m]
/// - `group_x_m`    station of the trailer's axle group L [m], > 0
///
/// Returns the fraction. Above 1 the front axle carries more than without the trailer: over-restored.
///
/// Source: SAE J2807's definition, (F_wd − F_coupled)/(F_uncoupled − F_coupled).
pub fn restoration(tow: TowVehicle, tongue_kg: f64, moment_kg_m: f64, group_x_m: f64) -> f64 {
    moment_kg_m * (1.0 + tow.overhang_m / group_x_m) / (tongue_kg * tow.overhang_m)
}

/// Tension in each of the two chains that lift the bars: `P = M / (2 b)`.
///
/// - `moment_kg_m`   moment of both bars M [kg·m]
/// - `bar_length_m`  ball to chain b [m], > 0
///
/// Returns the tension [kg].
///
/// Source: moments about the ball.
pub fn chain_tension_kg(moment_kg_m: f64, bar_length_m: f64) -> f64 {
    moment_kg_m / (2.0 * bar_length_m)
}

/// Load between ball and coupler while the bars pull the trailer's frame down: `T' + 2 P`.
///
/// - `net_tongue_kg`     net load passed to the tow vehicle T' [kg]
/// - `chain_tension_kg`  tension in each chain P [kg]
///
/// Returns the load [kg], more than the tongue load.
///
/// Source: equilibrium of vertical forces.
pub fn ball_load_kg(net_tongue_kg: f64, chain_tension_kg: f64) -> f64 {
    net_tongue_kg + 2.0 * chain_tension_kg
}

/// Scale readings of three weighings, all level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighings {
    /// Tow vehicle's front axle, uncoupled [kg].
    pub front_alone_kg: f64,
    /// Its rear axle, uncoupled [kg].
    pub rear_alone_kg: f64,
    /// Its front axle, coupled without bars [kg].
    pub front_coupled_kg: f64,
    /// Its rear axle, coupled without bars [kg].
    pub rear_coupled_kg: f64,
    /// The trailer's axles, coupled without bars [kg].
    pub trailer_axles_kg: f64,
}

impl Weighings {
    /// Tongue load `T = F_c + R_c − F₀ − R₀` [kg].
    ///
    /// Source: equilibrium of vertical forces.
    pub fn tongue_kg(&self) -> f64 {
        self.front_coupled_kg + self.rear_coupled_kg - self.front_alone_kg - self.rear_alone_kg
    }

    /// Mass of the trailer `W = T + A` [kg].
    ///
    /// Source: equilibrium of vertical forces.
    pub fn gross_kg(&self) -> f64 {
        self.tongue_kg() + self.trailer_axles_kg
    }

    /// Tongue load from the front axle alone, `(F₀ − F_c) WB/OH` [kg]: far from [`Self::tongue_kg`], a reading is
    /// wrong.
    ///
    /// - `tow`  wheelbase WB and overhang OH, > 0
    ///
    /// Source: moments about the rear axle.
    pub fn tongue_by_front_axle_kg(&self, tow: TowVehicle) -> f64 {
        (self.front_alone_kg - self.front_coupled_kg) * tow.wheelbase_m / tow.overhang_m
    }
}

/// Frontal area of a trailer, to compare with the tow vehicle's published limit.
///
/// `(overall height − floor clearance) · width`
///
/// - `height_m`     ground to roof top [m]
/// - `clearance_m`  ground to underside [m]
/// - `width_m`      overall width [m]
///
/// Returns the area [m²].
///
/// Source: `common practice`.
pub fn frontal_area_m2(height_m: f64, clearance_m: f64, width_m: f64) -> f64 {
    (height_m - clearance_m) * width_m
}

/// Payload left in the tow vehicle.
///
/// `GVWR − curb − people and cargo − T' − hitch`
///
/// - `gvwr_kg`        GVWR of the tow vehicle [kg]
/// - `curb_kg`        its curb mass [kg]
/// - `aboard_kg`      people and cargo aboard [kg]
/// - `net_tongue_kg`  net load the hitch passes on T' [kg]
/// - `hitch_kg`       the hitch itself, where not in the curb mass [kg]
///
/// Returns the margin [kg]; below zero the tow vehicle is overloaded.
///
/// Source: 49 CFR 571.3, definition of GVWR.
pub fn payload_margin_kg(
    gvwr_kg: f64,
    curb_kg: f64,
    aboard_kg: f64,
    net_tongue_kg: f64,
    hitch_kg: f64,
) -> f64 {
    gvwr_kg - curb_kg - aboard_kg - net_tongue_kg - hitch_kg
}

/// Mass of trailer that the combination's rating leaves: `GCWR − (F₀ + R₀)`.
///
/// - `gcwr_kg`  GCWR [kg]
/// - `tow_kg`   tow vehicle with occupants and cargo, uncoupled F₀ + R₀ [kg]
///
/// Returns the mass [kg].
///
/// Source: 49 CFR 571.3, definition of GCWR (`from memory`).
pub fn trailer_by_gcwr_kg(gcwr_kg: f64, tow_kg: f64) -> f64 {
    gcwr_kg - tow_kg
}

/// Part of its uncoupled load that the front axle should keep, to steer (`common practice`).
pub const LEAST_FRONT_FRACTION: f64 = 0.80;

#[cfg(test)]
mod tests {
    use super::super::fixture::assert_printed;
    use super::*;
    use crate::units::{M_PER_IN, kg, kg_m, lb, lb_in, m};

    const TONGUE_LB: f64 = 548.010526315789;

    fn tow() -> TowVehicle {
        TowVehicle { wheelbase_m: m(145.0), overhang_m: m(48.0) }
    }

    fn with_moment(moment_kg_m: f64) -> Coupled {
        coupled(tow(), kg(TONGUE_LB), moment_kg_m, m(190.0))
    }

    fn for_restoration(fraction: f64) -> f64 {
        moment_for_restoration_kg_m(tow(), kg(TONGUE_LB), fraction, m(190.0))
    }

    #[test]
    fn ball_behind_the_axle_lightens_the_front() {
        let c = with_moment(0.0);
        assert_printed(lb(c.front_kg), "-181.410");
        assert_printed(lb(c.rear_kg), "729.421");
        assert_printed(3300.0 + lb(c.front_kg), "3118.590");
        assert_printed(2300.0 + lb(c.rear_kg), "3029.421");
        assert_eq!(c.trailer_axles_kg, 0.0);
    }

    #[test]
    fn half_restoration_gives_half_the_front_loss_back() {
        let moment = for_restoration(0.5);
        let c = with_moment(moment);
        assert_printed(lb_in(moment), "10,499.70");
        assert_printed(lb(c.trailer_axles_kg), "55.262");
        assert_printed(lb(c.net_tongue_kg()), "492.749");
        assert_printed(lb(c.front_kg), "-90.705");
        assert_printed(lb(c.rear_kg), "583.454");
        assert_printed(lb(chain_tension_kg(moment, m(30.0))), "174.995");
    }

    #[test]
    fn full_restoration_brings_the_front_back() {
        let moment = for_restoration(1.0);
        let c = with_moment(moment);
        assert_printed(lb_in(moment), "20,999.39");
        assert_printed(lb(c.trailer_axles_kg), "110.523");
        assert_printed(lb(c.net_tongue_kg()), "437.487");
        assert_printed(lb(c.front_kg), "0.000");
        assert_printed(lb(c.rear_kg), "437.487");
        let chain = chain_tension_kg(moment, m(30.0));
        assert_printed(lb(ball_load_kg(c.net_tongue_kg(), chain)), "1137.47");
    }

    #[test]
    fn strong_bars_over_restore() {
        let moment = kg_m(24_000.0);
        let c = with_moment(moment);
        assert_printed(lb(c.trailer_axles_kg), "126.316");
        assert_printed(lb(c.net_tongue_kg()), "421.695");
        assert_printed(lb(c.front_kg), "25.922");
        assert_printed(lb(c.rear_kg), "395.773");
        let fraction = restoration(tow(), kg(TONGUE_LB), moment, m(190.0));
        assert_printed(fraction, "1.14289");
    }

    #[test]
    fn changes_sum_to_the_tongue_and_the_moment_gives_its_restoration() {
        for fraction in [0.0, 0.25, 0.9] {
            let moment = for_restoration(fraction);
            let c = with_moment(moment);
            let sum = c.front_kg + c.rear_kg + c.trailer_axles_kg;
            assert!((lb(sum) - TONGUE_LB).abs() < 1e-9);
            let back = restoration(tow(), kg(TONGUE_LB), moment, m(190.0));
            assert!((back - fraction).abs() < 1e-12);
        }
    }

    #[test]
    fn three_weighings_give_tongue_and_trailer() {
        let w = Weighings {
            front_alone_kg: kg(3300.0),
            rear_alone_kg: kg(2300.0),
            front_coupled_kg: kg(3118.59),
            rear_coupled_kg: kg(3029.42),
            trailer_axles_kg: kg(3687.99),
        };
        assert_printed(lb(w.tongue_kg()), "548.01");
        assert_printed(lb(w.gross_kg()), "4236.00");
        assert_printed(lb(w.tongue_by_front_axle_kg(tow())), "548.01");
    }

    #[test]
    fn margins_are_as_printed() {
        let payload = payload_margin_kg(kg(7000.0), kg(5300.0), kg(450.0), kg(548.01), kg(0.0));
        assert_printed(lb(payload), "701.99");
        let trailer = trailer_by_gcwr_kg(kg(14_000.0), kg(5600.0));
        assert_printed(lb(trailer) - 4236.0, "4164");
    }

    #[test]
    fn frontal_area_leaves_the_clearance_out() {
        let area = frontal_area_m2(m(108.0), m(12.0), m(90.0));
        assert_printed(area / (144.0 * M_PER_IN * M_PER_IN), "60.0");
    }
}
