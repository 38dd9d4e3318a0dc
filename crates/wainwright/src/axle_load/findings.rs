//! The rules of axle load, and a build held against them.

mod bay;
mod hitch;
mod limits;
mod tongue;

use super::limits::LimitName;
use super::numbers::Numbers;
use super::report::{Check, NormalUse, StateLoads, ToyReport, Unhitched};
use crate::build::Build;
use crate::document::Keyed;
use crate::loading::Loading;
use crate::report::shared_rules::GROSS_OVER_GVWR;
use crate::report::{Findings, rules};

rules! {
    shared { GROSS_OVER_GVWR }
    AXLE_OVER_GAWR: Violation Maximum "lb", "axle_over_gawr",
        "In a state that moves, an axle carries more than its gross axle weight rating.",
        "49 CFR 571.3 (GAWR)";
    TIRES_OVER_LOAD: Violation Maximum "lb", "tires_over_load",
        "In a state that moves, the tires on one side of an axle carry more than they may at their pressure.",
        "49 CFR 571.110 S4.2.2, 571.120 S5.1.2 (at second hand)";
    TIRES_BELOW_GAWR: Violation Minimum "lb", "tires_below_gawr",
        "The tires of an axle together are rated below the axle's rating.",
        "49 CFR 571.110 S4.2.2, 571.120 S5.1.2 (at second hand)";
    RIMS_OVER_LOAD: Violation Maximum "lb", "rims_over_load",
        "In a state that moves, the rims on one side of an axle carry more than they are rated for.",
        "49 CFR 571.110 (from memory)";
    COUPLER_OVER_RATING: Violation Maximum "lb", "coupler_over_rating",
        "In a state that moves, the trailer weighs more than its coupler is rated for.",
        "SAE J684 (as adopted in state law)";
    BALL_OVER_RATING: Violation Maximum "lb", "ball_over_rating",
        "In a state that moves, the trailer weighs more than the ball is rated for.",
        "SAE J684 (as adopted in state law)";
    BALL_MOUNT_OVER_RATING: Violation Maximum "lb", "ball_mount_over_rating",
        "In a state that moves, the trailer weighs more than the ball mount is rated for.",
        "SAE J684 (as adopted in state law)";
    RECEIVER_OVER_RATING: Violation Maximum "lb", "receiver_over_rating",
        "In a state that moves, the trailer weighs more than the receiver is rated for.",
        "SAE J684 (as adopted in state law)";
    CHAIN_BELOW_GROSS: Violation Maximum "lb", "chain_below_gross",
        "One safety chain breaks below the gross mass of the trailer in a state that moves.",
        "SAE J684 class 4; N.H. RSA 266:63";
    TOW_RATING_EXCEEDED: Violation Maximum "lb", "tow_rating_exceeded",
        "In a state that moves, the trailer weighs more than the tow vehicle is rated to tow.",
        "SAE J2807";
    GCWR_EXCEEDED: Violation Maximum "lb", "gcwr_exceeded",
        "In a state that moves, trailer and tow vehicle together weigh more than the combination rating.",
        "49 CFR 571.3 (GCWR, from memory)";
    COUPLER_OVER_MAX_TONGUE: Violation Maximum "lb", "coupler_over_max_tongue",
        "In a state that moves, the tongue presses on the coupler with more than it is rated for.",
        "SAE J684 (as adopted in state law)";
    BALL_MOUNT_OVER_MAX_TONGUE: Violation Maximum "lb", "ball_mount_over_max_tongue",
        "In a state that moves, the tongue presses on the ball mount with more than it is rated for.",
        "SAE J684 (as adopted in state law)";
    RECEIVER_OVER_MAX_TONGUE: Violation Maximum "lb", "receiver_over_max_tongue",
        "In a state that moves, the tongue presses on the receiver with more than it is rated for in the mode used.",
        "SAE J684 (as adopted in state law)";
    TOW_FRONT_AXLE_OVER_GAWR: Violation Maximum "lb", "tow_front_axle_over_gawr",
        "In a state that moves, the tow vehicle's front axle carries more than its rating.",
        "49 CFR 571.3 (GAWR)";
    TOW_REAR_AXLE_OVER_GAWR: Violation Maximum "lb", "tow_rear_axle_over_gawr",
        "In a state that moves, the tow vehicle's rear axle carries more than its rating.",
        "49 CFR 571.3 (GAWR)";
    TOW_VEHICLE_OVER_GVWR: Violation Maximum "lb", "tow_vehicle_over_gvwr",
        "In a state that moves, the tow vehicle with the tongue's load weighs more than its rating.",
        "49 CFR 571.3 (GVWR)";
    JACK_OVER_RATING: Violation Maximum "lb", "jack_over_rating",
        "Unhitched, the tongue presses on the jack with more than it is rated for, in some state of tanks and cargo.",
        "the jack's plate";
    RAMP_OVER_RATING: Violation Maximum "lb", "ramp_over_rating",
        "A toy with its rider weighs more than the ramp door is rated for.",
        "the ramp door's plate";
    PANEL_OVER_STRESS: Violation Maximum "psi", "panel_over_stress",
        "Under the toy's heaviest wheel the floor panel is bent beyond the stress it may carry.",
        "beam theory; the panel's allowable stress as given";
    LIMIT_NEAR: Caution Maximum "fraction", "limit_near",
        "In a state that moves, a load is within a twentieth of its rating.",
        "common practice";
    LIMIT_OVER_IN_SOME_STATE: Caution Maximum "lb", "limit_over_in_some_state",
        "The listed states keep a rating, but some fill of the tanks with some choice of cargo does not.",
        "common practice";
    TIRE_RESERVE_SMALL: Caution Maximum "fraction", "tire_reserve_small",
        "In a state that moves, less than a tenth of what the tires may carry is left.",
        "common practice";
    TONGUE_BELOW_TENTH: Caution Minimum "fraction", "tongue_below_tenth",
        "In a state that moves, less than a tenth of the gross mass is on the tongue: a trailer then is more likely to sway.",
        "common practice";
    TONGUE_ABOVE_15_PERCENT: Caution Maximum "fraction", "tongue_above_15_percent",
        "In a state that moves, more than 15 % of the gross mass is on the tongue: it unloads the tow vehicle's front axle.",
        "common practice";
    TONGUE_BELOW_TENTH_IN_SOME_STATE: Caution Minimum "fraction", "tongue_below_tenth_in_some_state",
        "The listed states keep a tenth on the tongue, but some fill of the tanks with some choice of cargo does not.",
        "common practice";
    TONGUE_ABOVE_15_PERCENT_IN_SOME_STATE: Caution Maximum "fraction", "tongue_above_15_percent_in_some_state",
        "The listed states keep 15 % on the tongue, but some fill of the tanks with some choice of cargo does not.",
        "common practice";
    TONGUE_PULLS_UP: Caution Minimum "lb", "tongue_pulls_up",
        "In a state, the tongue pulls up: hitched it lifts the tow vehicle's rear, unhitched the trailer stands on its tail.",
        "equilibrium of moments";
    AXLE_LIFTS: Caution Minimum "lb", "axle_lifts",
        "In a state that moves, one of the independent axles carries nothing: the ball is too high or too low.",
        "equilibrium of moments";
    AXLE_SHARES_UNKNOWN: Caution Maximum "lb", "axle_shares_unknown",
        "Independent axles share by hitch height and spring rates, and the rates are not given: one axle may carry 60 % of all.",
        "common practice";
    STEERING_LIGHT: Caution Minimum "fraction", "steering_light",
        "Coupled, the tow vehicle's front axle keeps less than four fifths of its load.",
        "common practice";
    BARS_OVER_RESTORED: Caution Maximum "fraction", "bars_over_restored",
        "The spring bars put more on the front axle than it carried before coupling: understeer is lost.",
        "SAE J2807 (committee's advice)";
    SWAY_DAMPING_LOW: Caution Minimum "1", "sway_damping_low",
        "The swing of tow vehicle and trailer dies out slowly in the model used for comparison.",
        "common practice";
    TAIL_CAN_DROP: Caution Maximum "lb", "tail_can_drop",
        "Unhitched, a toy with its rider at the hinge lifts the jack: the tail drops.",
        "equilibrium of moments";
    BALL_PULLS_UP_ON_LOADING: Caution Minimum "lb", "ball_pulls_up_on_loading",
        "Hitched, a toy at the hinge makes the coupler pull up on the ball.",
        "equilibrium of moments";
    TOY_DOES_NOT_FIT: Caution Minimum "in", "toy_does_not_fit",
        "A toy is larger than the clear room for it.",
        "geometry";
    TOY_FIT_TIGHT: Caution Minimum "in", "toy_fit_tight",
        "A toy fits with less clearance than is usual.",
        "common practice";
    RIDER_CANNOT_CLIMB_OFF: Note Minimum "in", "rider_cannot_climb_off",
        "Beside the toy there is less room than a rider needs to climb off.",
        "common practice";
    RAMP_STEEP: Caution Maximum "degree", "ramp_steep",
        "The ramp is steep for low machines.",
        "common practice";
    TOY_GROUNDS_ON_HINGE: Caution Minimum "in", "toy_grounds_on_hinge",
        "Between its axles the toy has less ground clearance than the angle at the hinge asks for.",
        "geometry";
    FLOOR_NEEDS_SPREADER: Caution Maximum "lb", "floor_needs_spreader",
        "A wheel of the toy is heavy for a plain panel floor.",
        "common practice";
    CROSSMEMBERS_FAR_APART: Caution Maximum "in", "crossmembers_far_apart",
        "The crossmembers are far apart for wheels on a plain panel floor.",
        "common practice";
    FLOOR_DEFLECTS: Caution Minimum "1", "floor_deflects",
        "Under the toy's heaviest wheel the floor bends by more than a 180th of its span.",
        "common practice";
    TOY_NOT_TIED_DOWN: Caution - -, "toy_not_tied_down",
        "A toy rides in a state that moves and no tie-down is given for it.",
        "49 CFR 393.106 (guidance for private use)";
    TIE_DOWNS_FEW: Caution Minimum "1", "tie_downs_few",
        "A machine on wheels is held by fewer than four tie-downs.",
        "common practice";
    TIE_DOWNS_BELOW_HALF_WEIGHT: Caution Minimum "lb", "tie_downs_below_half_weight",
        "The working load limits of the tie-downs, counted as the rule counts them, add up to less than half the toy's weight.",
        "49 CFR 393.106(d) (guidance for private use)";
    TIE_DOWNS_WEAK: Caution Minimum "lb", "tie_downs_weak",
        "In one direction the tie-downs hold less within their working load limits than the rule asks.",
        "49 CFR 393.102(a)(2) (guidance for private use)";
    TIE_DOWNS_BREAK: Caution Minimum "lb", "tie_downs_break",
        "In one direction the tie-downs break below what the rule asks.",
        "49 CFR 393.102(a)(1) (guidance for private use)";
    GAWR_SUM_BELOW_GVWR: Note Minimum "lb", "gawr_sum_below_gvwr",
        "The axles together are rated below the trailer: at its full rating the tongue must carry the rest.",
        "NHTSA letters of 1974-05-06 and 1976-01-15";
    TONGUE_BAND_WIDE: Note - "fraction", "tongue_band_wide",
        "In a state that moves, the tolerances of masses and places reach past 10 or 15 % on the tongue.",
        "common practice";
    RATING_NOT_GIVEN: Note - -, "rating_not_given",
        "A rating that the loads should be held to is not given: it is unknown, which is not the same as kept.",
        "common practice";
}

/// What is judged.
pub(super) struct Judged<'a> {
    pub build: &'a Build,
    pub masses: &'a Loading<'a>,
    pub numbers: &'a Numbers,
    pub axles: &'a [&'a str],
    pub states: &'a Keyed<StateLoads>,
    pub checks: &'a [(LimitName, Check)],
    pub normal_use: Option<&'a NormalUse>,
    pub unhitched: Option<&'a Unhitched>,
    pub toys: &'a Keyed<ToyReport>,
}

impl Judged<'_> {
    /// Pointer to a state: itself where the build gives it, else where the thing stands that decides.
    fn state_pointer(&self, id: &str) -> String {
        if self.build.states().len() == 0 { "/trailer".to_owned() } else { format!("/states/{id}") }
    }
}

/// Holds a build against the rules.
pub(super) fn judge(judged: &Judged, findings: &mut Findings) {
    limits::judge(judged, findings);
    tongue::judge(judged, findings);
    hitch::judge(judged, findings);
    bay::judge(judged, findings);
}
