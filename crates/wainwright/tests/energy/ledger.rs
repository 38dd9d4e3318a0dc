//! The ledger's identity in every step, for every chemistry.

use proptest::prelude::*;
use proptest::sample::select;
use serde_json::json;
use wainwright::Build;
use wainwright::energy_budget::bank::house;
use wainwright::energy_budget::ledger::{Conditions, Flows, Ledger, Other};

use super::builds::cases;

proptest! {
    #![proptest_config(cases(512))]

    #[test]
    fn what_comes_is_stored_lost_spilled_or_used_in_every_step_of_a_walk(
        chemistry in select(&["flooded", "agm", "gel", "lifepo4"][..]),
        (capacity_ah, usable, round_trip, self_discharge) in (0.1..1e5f64, 0.01..=1.0f64, 0.05..=1.0f64, 0.0..=1.0f64),
        (absorption_h, reconnects, starts) in (0.0..48.0f64, any::<bool>(), any::<bool>()),
        (start_soc, step_h) in (0.0..=1.0f64, select(&[1.0, 0.5, 0.25][..])),
        steps in prop::collection::vec((0.0..2.0f64, 0.0..1.0f64, 0.0..2.0f64, 0.0..=1.0f64, 0.0..=1.0f64), 1..200),
    ) {
        let mut battery = json!({"chemistry": chemistry, "capacity_ah": capacity_ah, "nominal_v": 12,
            "usable_fraction": usable, "round_trip_efficiency": round_trip,
            "self_discharge_fraction": self_discharge, "absorption_h": absorption_h});
        // With less used the battery is empty there already.
        if reconnects && usable > 0.06 {
            battery["reconnect_soc"] = json!(0.95);
        }
        let build = Build::from_json(json!({"battery": battery}).to_string().as_bytes()).unwrap();
        let bank = house(build.battery.as_ref().unwrap()).bank;
        let ledger = Ledger::new(bank, step_h);
        // Powers by what empties the bank in four hours.
        let by = |part: fn(&(f64, f64, f64, f64, f64)) -> f64, times: f64| {
            steps.iter().map(|step| part(step) * times).collect::<Vec<f64>>()
        };
        let (sun_w, other_w) = (by(|s| s.0, bank.rated_wh / 4.0), by(|s| s.1, bank.rated_wh / 4.0));
        let load_w = by(|s| s.2, bank.rated_wh / 4.0);
        let (usable, acceptance) = (by(|s| s.3, usable), by(|s| s.4, 1.0));
        let others = [Other { available_w: &other_w, start_soc: starts.then_some(0.5), stop_soc: 0.8 }];
        let flows = Flows { sun_w: &sun_w, sun_scale: 1.0, most_sun_w: bank.rated_wh / 3.0, load_w: &load_w,
            others: &others, conditions: Conditions { usable: &usable, acceptance: &acceptance } };
        let mut state = ledger.at_rest(start_soc);
        for (index, offered_w) in other_w.iter().enumerate() {
            let before_wh = state.stored_wh;
            let mut step = None;
            ledger.walk(&mut state, &flows, index..index + 1, |_, done| { step = Some(*done); true });
            let step = step.unwrap();
            let came_wh = step.sun_wh + step.other_wh - step.load_wh;
            let went_wh = state.stored_wh - before_wh + step.lost_wh + step.spilled_wh - step.unmet_wh;
            prop_assert!((came_wh - went_wh).abs() < 1e-9 * bank.rated_wh, "{step:?}");
            prop_assert!(step.unmet_wh >= 0.0 && step.spilled_wh >= 0.0 && step.lost_wh >= -1e-9 * bank.rated_wh);
            prop_assert!(step.other_wh <= offered_w * step_h * (1.0 + 1e-12));
            prop_assert!((0.0..=1.0 + 1e-9).contains(&step.soc));
        }
        // The walk in one go ends where the walk step by step did.
        let mut walked = ledger.at_rest(start_soc);
        ledger.walk(&mut walked, &flows, 0..steps.len(), |_, _| true);
        prop_assert_eq!(walked, state);
    }
}
