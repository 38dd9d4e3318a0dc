//! Source: three scenarios of our own, all invented; their sums were worked independently of this program, by adding
//! up masses and moments and by looking at every corner of fills and cargo.
//!
//! Tolerance: half a unit of the last digit worked.

use serde_json::{Value, json};
use wainwright::Build;
use wainwright::axle_load::{AxleLoad, AxleLoadReport, Extreme};
use wainwright::payload::{Payload, PayloadReport};
use wainwright::question::ask;

use super::printed::assert_printed;

const HERON: &str = include_str!("../../../../tests/builds/heron.json");
const PIKA: &str = include_str!("../../../../tests/builds/pika.json");
const BISON: &str = include_str!("../../../../tests/builds/bison.json");

fn document(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

fn loads(document: &Value) -> AxleLoadReport {
    ask::<AxleLoad>(&Build::from_json(document.to_string().as_bytes()).unwrap()).unwrap()
}

fn masses(document: &Value) -> PayloadReport {
    ask::<Payload>(&Build::from_json(document.to_string().as_bytes()).unwrap()).unwrap()
}

fn percent(fraction: f64) -> f64 {
    100.0 * fraction
}

/// What is full and aboard in an extreme's state.
fn with(extreme: &Extreme) -> Vec<&str> {
    let full = extreme.fill.iter().filter(|(_, fill)| **fill == 1.0).map(|(tank, _)| tank.as_str());
    full.chain(extreme.aboard.iter().map(String::as_str)).collect()
}

mod heron {
    use super::*;

    #[test]
    fn states_weigh_and_bear_what_was_worked() {
        let heron = document(HERON);
        let (loads, masses) = (loads(&heron), masses(&heron));
        for (id, [gross, left, tongue, fraction, axle, jack]) in [
            ("delivered", ["3,937.9", "3,762.1", "579.0", "14.70", "1,679.5", "608.6"]),
            ("outbound", ["5,199.0", "2,501.0", "555.2", "10.68", "2,321.9", "583.5"]),
            ("homebound", ["5,189.1", "2,510.9", "552.4", "10.64", "2,318.4", "580.6"]),
            ("relocation", ["4,659.2", "3,040.8", "696.3", "14.95", "1,981.4", "731.9"]),
        ] {
            let state = &loads.states[id];
            assert_printed(state.gross_mass_lb, gross);
            assert_printed(masses.states[id].payload_left_lb, left);
            assert_printed(state.tongue_lb, tongue);
            assert_printed(percent(state.tongue_fraction), fraction);
            for each in state.axles.values() {
                assert_printed(each.load_lb, axle);
            }
            assert_printed(state.jack_lb.unwrap(), jack);
        }
    }

    #[test]
    fn worst_cases_are_those_of_all_corners() {
        let worst = loads(&document(HERON)).worst;
        assert_printed(worst.gross_mass_lb.min.value, "3,918.0");
        assert_printed(worst.gross_mass_lb.max.value, "5,349.2");
        for axle in worst.axles.values() {
            assert_printed(axle.min.value, "1,677.8");
            assert_printed(axle.max.value, "2,390.4");
        }
        assert_printed(worst.tongue_lb.min.value, "434.5");
        assert_printed(worst.tongue_lb.max.value, "696.3");
        let least = &worst.tongue_fraction.min;
        assert_printed(percent(least.value), "9.20");
        assert_eq!(with(least), ["fresh", "grey", "atv", "outboard_motor", "gear"]);
        let most = &worst.tongue_fraction.max;
        assert_printed(percent(most.value), "15.95");
        assert_eq!(with(most), ["propane", "fuel_can", "food_clothes"]);
    }

    #[test]
    fn no_rating_is_broken_and_the_tongue_leaves_its_range_only_in_states_not_listed() {
        use wainwright::report::Severity;
        let findings = loads(&document(HERON)).findings;
        assert!(findings.iter().all(|finding| finding.severity != Severity::Violation));
        for code in [
            "tongue_below_tenth_in_some_state",
            "tongue_above_15_percent_in_some_state",
            "gawr_sum_below_gvwr",
        ] {
            assert!(findings.iter().any(|finding| finding.code == code), "{code}");
        }
    }

    #[test]
    fn label_is_rounded_down() {
        let masses = masses(&document(HERON));
        assert_printed(masses.unloaded_mass_lb, "3,938");
        assert_printed(masses.label.cargo_capacity_lb, "3,762");
        assert_printed(masses.label.cargo_capacity_kg, "1,706");
        assert_printed(masses.label.water_lb, "149.4");
        assert_printed(masses.label.water_kg, "68.1");
    }

    /// The rearmost place of the battery bank was worked as 266.56 in; what stands on the floor ends with it.
    #[test]
    fn things_may_stand_where_every_listed_state_keeps_ten_to_fifteen_percent() {
        let placement = loads(&document(HERON)).placement;
        for (id, [least, most], by) in [
            ("battery_bank", ["162.64", "240.00"], ["tongue_fraction_max", "floor"]),
            ("atv", ["141.43", "202.98"], ["tongue_fraction_max", "tongue_fraction_min"]),
            ("outboard_motor", ["147.23", "214.54"], ["tongue_fraction_max", "tongue_fraction_min"]),
            ("food_clothes", ["109.00", "151.31"], ["tongue_fraction_max", "tongue_fraction_min"]),
        ] {
            let place = placement[id].as_ref().unwrap();
            assert_printed(place.min_x_in.unwrap(), least);
            assert_printed(place.max_x_in.unwrap(), most);
            assert_eq!(place.bound_by, by, "{id}");
        }
    }

    #[test]
    fn without_a_floor_the_battery_bank_is_bound_by_the_tongue_alone() {
        let mut heron = document(HERON);
        heron["trailer"].as_object_mut().unwrap().remove("floor");
        let placement = loads(&heron).placement;
        assert_printed(placement["battery_bank"].as_ref().unwrap().max_x_in.unwrap(), "266.56");
    }

    #[test]
    fn heaviest_machine_is_bound_by_the_tongue_on_the_way_home() {
        let report = loads(&document(HERON));
        let atv = report.largest_mass["atv"].as_ref().unwrap();
        assert_printed(atv.mass_lb.unwrap(), "807.2");
        assert_eq!(atv.bound_by.as_deref(), Some("tongue_fraction_min"));
    }

    #[test]
    fn tow_vehicle_carries_what_was_worked() {
        let report = loads(&document(HERON));
        let relocation = report.states["relocation"].tow_vehicle.unwrap();
        assert_printed(relocation.front_axle_lb, "3,029.5");
        assert_printed(relocation.rear_axle_lb, "3,466.8");
        assert_printed(relocation.front_axle_lb + relocation.rear_axle_lb, "6,496.3");
        assert_printed(relocation.payload_left_lb.unwrap(), "553.7");
        assert_printed(report.states["outbound"].tow_vehicle.unwrap().combination_lb, "10,999.0");
    }

    #[test]
    fn bars_at_half_restoration_load_the_trailers_axles() {
        let mut heron = document(HERON);
        heron["tow_vehicle"]["front_load_restoration"] = json!(0.5);
        let report = loads(&heron);
        let bars = report.states["relocation"].with_bars.as_ref().unwrap();
        assert_printed(bars.moment_lb_in, "12,936.9");
        for axle in bars.axles.values() {
            assert_printed(*axle, "2,020.7");
        }
    }

    #[test]
    fn tail_holds_the_machine_and_its_rider() {
        let mut heron = document(HERON);
        let report = loads(&heron);
        let unhitched = report.unhitched.as_ref().unwrap();
        assert_printed(unhitched.hinge_x_in, "240");
        assert_printed(unhitched.lift_mass_lb.unwrap(), "1,261.5");
        assert_eq!(unhitched.lift_state.as_deref(), Some("delivered"));
        assert_printed(report.toys["atv"].loading.mass_lb, "880");
        assert_printed(report.toys["atv"].ramp.unwrap().angle_deg, "18.11");
        heron["states"] = json!({"outbound": heron["states"]["outbound"]});
        assert_printed(loads(&heron).unhitched.unwrap().lift_mass_lb.unwrap(), "1,488.3");
    }
}

mod pika {
    use super::*;

    #[test]
    fn tongue_is_light_on_the_road() {
        let report = loads(&document(PIKA));
        for (id, [gross, tongue, fraction]) in [
            ("delivered", ["1,716.0", "221.4", "12.90"]),
            ("outbound", ["2,184.4", "164.5", "7.53"]),
            ("homebound", ["2,117.7", "186.3", "8.80"]),
        ] {
            let state = &report.states[id];
            assert_printed(state.gross_mass_lb, gross);
            assert_printed(state.tongue_lb, tongue);
            assert_printed(percent(state.tongue_fraction), fraction);
        }
        let fraction = &report.worst.tongue_fraction;
        assert_printed(percent(fraction.min.value), "5.16");
        assert_eq!(with(&fraction.min), ["fresh", "grey", "dirt_bike"]);
        assert_printed(percent(fraction.max.value), "13.70");
    }

    #[test]
    fn label_promises_what_is_left() {
        assert_printed(masses(&document(PIKA)).label.cargo_capacity_lb, "1,274");
    }

    #[test]
    fn tanks_and_plumbing_ahead_of_the_axle_put_the_tongue_right() {
        let mut pika = document(PIKA);
        for tank in ["fresh", "grey"] {
            pika["tanks"][tank]["x_in"] = json!(92);
            pika["parts"][format!("{tank}_tank_shell")]["x_in"] = json!(92);
        }
        pika["parts"]["pump_plumbing"]["x_in"] = json!(92);
        pika["tanks"]["grey"]["capacity_gal"] = json!(16);
        pika["states"]["relocation"] = json!({"fill": {"fresh": 1, "grey": 1}, "aboard": ["gear"]});
        let report = loads(&pika);
        for (id, fraction) in
            [("delivered", "13.67"), ("outbound", "11.22"), ("homebound", "11.22"), ("relocation", "14.38")]
        {
            assert_printed(percent(report.states[id].tongue_fraction), fraction);
        }
    }

    #[test]
    fn grey_tank_is_smaller_than_the_fresh() {
        assert!(
            masses(&document(PIKA)).findings.iter().any(|finding| finding.code == "waste_smaller_than_fresh")
        );
    }

    #[test]
    fn machine_and_rider_drop_the_tail_with_full_tanks() {
        let report = loads(&document(PIKA));
        let unhitched = report.unhitched.as_ref().unwrap();
        assert_printed(unhitched.lift_mass_lb.unwrap(), "294.6");
        assert_printed(report.toys["dirt_bike"].loading.mass_lb, "435");
        assert!(report.findings.iter().any(|finding| finding.code == "tail_can_drop"));
    }
}

mod bison {
    use super::*;

    fn at_ball(height_in: f64) -> Value {
        let mut bison = document(BISON);
        bison["trailer"]["coupler"]["ball_height_in"] = json!(height_in);
        bison
    }

    /// The axles taking the same whatever the ball's height.
    fn equal_shares() -> Value {
        let mut bison = at_ball(19.0);
        let trailer = bison["trailer"].as_object_mut().unwrap();
        trailer.remove("level");
        trailer.insert("suspension".to_owned(), json!("equalized"));
        bison
    }

    #[test]
    fn level_it_carries_what_was_worked() {
        let report = loads(&equal_shares());
        for (id, [gross, tongue, fraction]) in [
            ("delivered", ["5,800.9", "802.7", "13.84"]),
            ("outbound", ["9,316.5", "1,053.4", "11.31"]),
            ("homebound", ["9,296.5", "989.7", "10.65"]),
        ] {
            let state = &report.states[id];
            assert_printed(state.gross_mass_lb, gross);
            assert_printed(state.tongue_lb, tongue);
            assert_printed(percent(state.tongue_fraction), fraction);
        }
        for (id, axle) in [("outbound", "4,131.5"), ("homebound", "4,153.4")] {
            for each in report.states[id].axles.values() {
                assert_printed(each.load_lb, axle);
            }
        }
        let worst = &report.worst;
        assert_printed(worst.gross_mass_lb.min.value, "5,761.0");
        assert_printed(worst.gross_mass_lb.max.value, "9,650.1");
        assert_printed(percent(worst.tongue_fraction.min.value), "5.23");
        assert_printed(percent(worst.tongue_fraction.max.value), "18.36");
        assert_printed(worst.tongue_lb.min.value, "377.2");
        assert_printed(worst.tongue_lb.max.value, "1,498.9");
    }

    #[test]
    fn three_inches_too_high_the_rear_axle_is_over_its_rating() {
        let report = loads(&at_ball(22.0));
        for (id, [front, rear]) in
            [("outbound", ["3,739.6", "4,462.9"]), ("homebound", ["3,759.5", "4,486.4"])]
        {
            assert_printed(report.states[id].axles["front"].load_lb, front);
            assert_printed(report.states[id].axles["rear"].load_lb, rear);
        }
        assert_printed(percent(report.states["outbound"].tongue_fraction), "11.96");
        let over = report.findings.iter().find(|finding| finding.code == "axle_over_gawr").unwrap();
        assert_eq!(over.subject, "/trailer/axles/rear/gawr_lb");
        for (height_in, rear) in [(20.0, "4,242.0"), (19.0, "4,131.5")] {
            assert_printed(loads(&at_ball(height_in)).states["outbound"].axles["rear"].load_lb, rear);
        }
    }

    /// The set-up as a free height instead of a level state: c = 21.84932 in on both axles.
    #[test]
    fn free_heights_say_the_same_as_the_level_state() {
        let mut bison = at_ball(22.0);
        bison["trailer"].as_object_mut().unwrap().remove("level");
        for axle in ["front", "rear"] {
            bison["trailer"]["axles"][axle]["unloaded_height_in"] = json!(21.84932);
        }
        let report = loads(&bison);
        assert_printed(report.states["outbound"].axles["front"].load_lb, "3,739.6");
        assert_printed(report.states["outbound"].axles["rear"].load_lb, "4,462.9");
    }

    #[test]
    fn one_machine_alone_belongs_to_neither_stand() {
        let mut bison = equal_shares();
        let away = |machine: &str| json!({"fill": {"fresh": 1, "propane": 1}, "aboard": [machine, "gear", "generator"]});
        bison["states"]["front_alone"] = away("side_by_side_front");
        bison["states"]["rear_alone"] = away("side_by_side_rear");
        let report = loads(&bison);
        let front = &report.states["front_alone"];
        assert_printed(percent(front.tongue_fraction), "18.36");
        assert_printed(front.tongue_lb, "1,444.6");
        assert_printed(percent(report.states["rear_alone"].tongue_fraction), "8.76");
    }

    #[test]
    fn one_machine_alone_belongs_near_the_axles() {
        let mut bison = equal_shares();
        bison["cargo"].as_object_mut().unwrap().remove("side_by_side_rear");
        bison["states"] = json!({
            "empty": {"fill": {"propane": 1}, "aboard": ["side_by_side_front"]},
            "outbound": {"fill": {"fresh": 1, "propane": 1}, "aboard": ["side_by_side_front", "gear", "generator"]},
            "homebound": {"fill": {"grey": 1, "propane": 0.5}, "aboard": ["side_by_side_front", "gear", "generator"]}
        });
        let report = loads(&bison);
        let place = report.placement["side_by_side_front"].as_ref().unwrap();
        assert_printed(place.min_x_in.unwrap(), "200.2");
        assert_printed(place.max_x_in.unwrap(), "226.5");
    }

    #[test]
    fn both_tanks_full_and_both_machines_are_too_much_but_not_in_normal_use() {
        let report = loads(&document(BISON));
        assert_printed(report.worst.gross_mass_lb.max.value, "9,650.1");
        assert_printed(report.normal_use.unwrap().gross_mass_max_lb, "9,316.5");
    }

    #[test]
    fn tail_holds_one_machine_and_two_riders() {
        let mut bison = equal_shares();
        bison["states"] = json!({"outbound": bison["states"]["outbound"]});
        let unhitched = loads(&bison).unhitched.unwrap();
        assert_printed(unhitched.hinge_x_in, "330");
        assert_printed(unhitched.lift_mass_lb.unwrap(), "2,019.9");
        bison["states"]["outbound"]["aboard"] = json!(["gear", "generator"]);
        assert_printed(loads(&bison).states["outbound"].jack_lb.unwrap(), "1,122");
    }

    #[test]
    fn two_machines_fit_in_length_and_leave_no_room_to_climb_off() {
        let report = loads(&document(BISON));
        let fit = report.toys["side_by_side_front"].fit.unwrap();
        assert_printed(fit.length_left_in - 3.0 * 4.0, "2");
        assert_printed(fit.width_left_in.unwrap(), "22");
        assert!(report.findings.iter().any(|finding| finding.code == "rider_cannot_climb_off"));
    }
}
