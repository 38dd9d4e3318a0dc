//! Option packages and the search over HTTP, and catalogues in a folder.

use std::path::PathBuf;
use std::{fs, process};

use serde_json::{Value, json};
use wainwright::options::{DEMO, demonstration};
use wainwright_service::Config;

use crate::client::{get, post};
use crate::program::{program, text};
use crate::running::{HERON, config, run, run_with};

/// A folder with catalogues that is there for one test.
struct Folder(PathBuf);

impl Folder {
    fn with(name: &str, files: &[(&str, &str)]) -> Self {
        let path = std::env::temp_dir().join(format!("wainwright-{}-catalogues-{name}", process::id()));
        fs::create_dir_all(path.join("deeper.json")).unwrap();
        for (name, text) in files {
            fs::write(path.join(name), text).unwrap();
        }
        Self(path)
    }

    fn config(&self) -> Config {
        Config { catalogue_folder: Some(self.0.clone()), ..config() }
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        _ = fs::remove_dir_all(&self.0);
    }
}

fn heron() -> Value {
    serde_json::from_str(HERON).unwrap()
}

/// A small request: a bench that is light or heavy, and cushions that want the light one.
fn bench() -> Value {
    json!({
        "base": {"trailer": {"gvwr_lb": 3000, "bare": {"mass_lb": 2000}}},
        "groups": {
            "bench": {"choose": "one", "options": {
                "light": {"price_usd": 200, "patch": {"parts": {"bench": {"mass_lb": 60}}}},
                "heavy": {"price_usd": 120, "patch": {"parts": {"bench": {"mass_lb": 1060}}}},
            }},
            "more": {"choose": "any", "options": {
                "cushions": {"price_usd": 50, "requires": ["light"], "label": "Cushions"},
                "lamp": {"price_usd": 30, "patch": {"parts": {"lamp": {"mass_lb": 1, "electrical": {"circuit": "none", "power_w": 5}}}}},
            }},
        },
        "chosen": ["light"],
    })
}

/// The problem with a changed request: pointers and codes.
fn faults(change: impl Fn(&mut Value)) -> Vec<(String, String)> {
    let mut request = bench();
    change(&mut request);
    let problem = post("/v1/options", request.to_string()).to(run().at).problem(422);
    assert_eq!(problem["type"], "/problems/invalid-build");
    let errors = problem["errors"].as_array().unwrap();
    let of = |fault: &Value, member: &str| fault[member].as_str().unwrap().to_owned();
    errors.iter().map(|fault| (of(fault, "pointer"), of(fault, "code"))).collect()
}

#[track_caller]
fn assert_faults(change: impl Fn(&mut Value), expected: &[(&str, &str)]) {
    let found = faults(change);
    let found: Vec<(&str, &str)> =
        found.iter().map(|(pointer, code)| (pointer.as_str(), code.as_str())).collect();
    assert_eq!(found, expected);
}

#[test]
fn every_option_has_its_state_its_reasons_and_its_price() {
    let answer = post("/v1/options", bench().to_string()).to(run().at).json();
    assert_eq!(answer["price_usd"], 200.0);
    assert_eq!(answer["chosen"], json!(["light"]));
    assert_eq!(answer["report"]["payload"]["parts_mass_lb"], 60.0);
    let option = |id: &str| &answer["options"][id];
    let shown = |id: &str| (option(id)["state"].clone(), option(id)["price_difference_usd"].clone());
    assert_eq!(shown("light"), (json!("chosen"), json!(0.0)));
    assert_eq!(shown("heavy"), (json!("breaks"), json!(-80.0)));
    assert_eq!(shown("cushions"), (json!("available"), json!(50.0)));
    assert_eq!(option("heavy")["because"][0]["code"], "gross_over_gvwr");
    assert_eq!(option("cushions")["label"], "Cushions");
    assert_eq!(option("heavy")["group"], "bench");
    let ids: Vec<&String> = answer["options"].as_object().unwrap().keys().collect();
    assert_eq!(ids, ["light", "heavy", "cushions", "lamp"]);
}

#[test]
fn what_the_present_choice_breaks_stands_after_what_is_new() {
    let mut request = bench();
    request["chosen"] = json!(["heavy", "cushions"]);
    let answer = post("/v1/options", request.to_string()).to(run().at).json();
    assert_eq!(answer["findings"][0]["code"], "option_requires_another");
    assert_eq!(
        answer["options"]["cushions"]["because"][0]["message"],
        "Option cushions requires light, which is not chosen."
    );
    assert_eq!(answer["options"]["light"]["state"], "available");
    let mut with = bench();
    with["groups"]["more"]["options"]["ballast"] = json!({"price_usd": 1, "excludes": ["heavy"]});
    with["chosen"] = json!(["heavy"]);
    let answer = post("/v1/options", with.to_string()).to(run().at).json();
    let because = answer["options"]["ballast"]["because"].as_array().unwrap();
    let codes: Vec<&Value> = because.iter().map(|finding| &finding["code"]).collect();
    assert_eq!(codes[0], "option_excludes_another");
    assert!(codes[1..].contains(&&json!("gross_over_gvwr")), "{codes:?}");
}

#[test]
fn an_option_that_makes_a_build_that_is_refused_breaks_with_what_is_wrong() {
    let mut request = bench();
    request["groups"]["more"]["options"]["lamp"]["patch"]["parts"]["lamp"]["mass_lb"] = json!(-1);
    request["groups"]["more"]["options"]["lighter"] =
        json!({"price_usd": 5, "patch": {"parts": {"bench": {"mass_lb": 50}}}});
    let answer = post("/v1/options", request.to_string()).to(run().at).json();
    let lamp = &answer["options"]["lamp"];
    assert_eq!((&lamp["state"], &lamp["because"][0]["code"]), (&json!("breaks"), &json!("patch_refused")));
    let message = lamp["because"][0]["message"].as_str().unwrap();
    assert!(
        message.contains("/groups/more/options/lamp/patch/parts/lamp/mass_lb must be 0 or more; got -1"),
        "{message}"
    );
    let lighter = &answer["options"]["lighter"]["because"][0];
    assert_eq!(lighter["code"], "options_conflict");
    assert_eq!(lighter["message"], "Options lighter and light set /parts/bench/mass_lb to different values.");
}

#[test]
fn faults_of_the_request_come_all_together_with_their_places() {
    assert_faults(
        |request| {
            request["groups"]["bench"]["options"]["light"]["requires"] = json!(["cushion", "light"]);
            request["groups"]["bench"]["options"]["heavy"]["prise_usd"] = json!(1);
            request["groups"]["more"]["choose"] = json!("all");
            request["groups"]["more"]["options"]["heavy"] = json!({"price_usd": "dear"});
            request["chosen"] = json!(["light", "heavy", "lampe", "light"]);
        },
        &[
            ("/groups/bench/options/light/requires/0", "unknown_id"),
            ("/groups/bench/options/light/requires/1", "contradiction"),
            ("/groups/bench/options/heavy/prise_usd", "unknown_field"),
            ("/groups/more/choose", "not_one_of"),
            ("/groups/more/options/heavy", "contradiction"),
            ("/groups/more/options/heavy/price_usd", "wrong_type"),
            ("/chosen/1", "contradiction"),
            ("/chosen/2", "unknown_id"),
            ("/chosen/3", "duplicate_key"),
        ],
    );
    assert_faults(
        |request| *request = json!({"chosen": ["light"]}),
        &[("/groups", "missing_field"), ("/base", "missing_field")],
    );
    assert_faults(|request| request["catalogue"] = json!("heron"), &[("/catalogue", "contradiction")]);
}

#[test]
fn null_is_left_out_and_missing_is_missing() {
    let mut request = bench();
    request["chosen"] = Value::Null;
    request["catalogue"] = Value::Null;
    request["groups"]["more"]["options"]["cushions"]["patch"] = Value::Null;
    request["groups"]["more"]["options"]["lamp"]["requires"] = Value::Null;
    let answer = post("/v1/options", request.to_string()).to(run().at).json();
    assert_eq!((&answer["price_usd"], &answer["chosen"]), (&json!(0.0), &json!([])));
    assert_faults(
        |request| request["groups"]["more"]["options"]["cushions"]["price_usd"] = Value::Null,
        &[("/groups/more/options/cushions/price_usd", "missing_field")],
    );
}

#[test]
fn faults_of_the_patched_build_point_to_where_the_value_came_from() {
    let mut request = bench();
    request["base"]["tanks"] = json!({"fresh": {"fluid": "fresh_water", "capacity_gal": -2}});
    request["groups"]["bench"]["options"]["light"]["patch"] =
        json!({"parts": {"bench": {"mas_lb": 60}}, "trailer": {"bare": {"mass_lb": null}}});
    let problem = post("/v1/options", request.to_string()).to(run().at).problem(422);
    let errors: Vec<(&str, &str)> = problem["errors"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fault| (fault["pointer"].as_str().unwrap(), fault["in_build"].as_str().unwrap()))
        .collect();
    let patch = "/groups/bench/options/light/patch";
    assert_eq!(
        errors,
        [
            ("/base/tanks/fresh/capacity_gal", "/tanks/fresh/capacity_gal"),
            (&*format!("{patch}/parts/bench/mas_lb"), "/parts/bench/mas_lb"),
            (&*format!("{patch}/parts/bench/mass_lb"), "/parts/bench/mass_lb"),
            (&*format!("{patch}/trailer/bare/mass_lb"), "/trailer/bare/mass_lb"),
        ]
    );
}

#[test]
fn two_chosen_options_that_set_one_member_differently_are_a_fault() {
    let mut request = bench();
    request["groups"]["more"]["options"]["lighter"] =
        json!({"price_usd": 5, "patch": {"parts": {"bench": {"mass_lb": 50}}}});
    request["chosen"] = json!(["lighter", "light"]);
    let problem = post("/v1/options", request.to_string()).to(run().at).problem(422);
    let fault = &problem["errors"][0];
    assert_eq!(fault["code"], "conflicting_options");
    assert_eq!(fault["pointer"], "/groups/more/options/lighter/patch/parts/bench/mass_lb");
    assert_eq!(fault["other_pointer"], "/groups/bench/options/light/patch/parts/bench/mass_lb");
    assert_eq!(fault["in_build"], "/parts/bench/mass_lb");
}

#[test]
fn the_order_of_chosen_does_not_matter() {
    let running = run();
    let asked = |chosen: Value| {
        let mut request = demonstration();
        request["chosen"] = chosen;
        post("/v1/options", request.to_string()).to(running.at).json()
    };
    assert_eq!(
        asked(json!(["awning", "solar_600", "water_30"])),
        asked(json!(["water_30", "solar_600", "awning"]))
    );
}

#[test]
fn a_catalogue_of_the_folder_is_named_and_listed() {
    let own = json!({"base": bench()["base"], "groups": bench()["groups"]}).to_string();
    let folder = Folder::with("named", &[("heron.json", DEMO), ("bench.json", &own), ("read.me", "none")]);
    let running = run_with(folder.config());
    let listed = get("/v1/catalogues").to(running.at).json();
    let names: Vec<&String> = listed["catalogues"].as_object().unwrap().keys().collect();
    assert_eq!(names, ["bench", "heron"]);
    assert_eq!(listed["catalogues"]["bench"]["has_base"], true);
    assert_eq!(
        listed["catalogues"]["bench"]["groups"]["more"]["options"]["cushions"]["requires"],
        json!(["light"])
    );
    let asked = |request: Value| post("/v1/options", request.to_string()).to(running.at);
    let named = asked(
        json!({"base": heron(), "catalogue": "heron", "chosen": ["battery_300", "solar_600", "awning"]}),
    );
    assert_eq!(named.json(), asked(demonstration()).json());
    assert_eq!(asked(json!({"catalogue": "bench", "chosen": ["light"]})).json()["price_usd"], 200.0);
    let problem = asked(json!({"catalogue": "heron"})).problem(422);
    assert_eq!(problem["errors"][0]["pointer"], "/base");
    let problem = asked(json!({"catalogue": "benhc"})).problem(422);
    assert_eq!(problem["errors"][0]["suggestion"], "bench");
    assert_eq!(get("/v1/catalogues").to(run().at).json(), json!({"catalogues": {}}));
}

#[test]
fn a_catalogue_that_is_refused_stops_the_start_with_all_its_faults() {
    let wrong = DEMO.replacen("\"choose\": \"one\"", "\"choose\": \"two\"", 1).replacen(
        "[\"roof_rack\"]",
        "[\"rack\"]",
        1,
    );
    let files = [("a.json", wrong.as_str()), ("b.json", "{"), ("heron.json", DEMO)];
    let folder = Folder::with("refused", &files);
    let served =
        program().args(["serve", "--listen", "127.0.0.1:0", "--catalogue-folder"]).arg(&folder.0).output();
    let output = served.unwrap();
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(
        told.contains("a.json is refused:\n/groups/tow_vehicle/choose must be one of one, any"),
        "{told}"
    );
    assert!(told.contains("/groups/solar/options/solar_800/excludes/0 names \"rack\""), "{told}");
    assert!(told.contains("b.json is refused:\nline 1, column"), "{told}");
    assert!(!told.contains("heron.json"), "{told}");
}

#[test]
fn a_search_lists_the_best_and_refuses_too_much_work() {
    let running = run();
    let mut request = bench();
    request["chosen"] = json!([]);
    request["weights"] = json!({"price_usd": 1, "payload_left_lb": 1});
    let found = post("/v1/search", request.to_string()).to(running.at).json();
    assert_eq!((&found["choice_count"], &found["unbroken_count"]), (&json!(12), &json!(6)));
    assert_eq!(found["best"][0]["chosen"], json!([]));
    let left_lb = found["best"][0]["margins"]["payload_left_lb"].as_f64().unwrap();
    assert!((left_lb - 1000.0).abs() < 1e-9, "{left_lb}");
    let mut demo = demonstration();
    demo["chosen"] = json!([]);
    let problem = post("/v1/search", demo.to_string()).to(running.at).problem(422);
    assert_eq!(problem["type"], "/problems/too-much-work");
    assert!(problem["work"].as_u64().unwrap() > problem["limit"].as_u64().unwrap(), "{problem}");
    let limits = get("/v1/limits").to(running.at).json();
    assert_eq!(problem["limit"], limits["choices_count"]);
    assert_eq!(limits["options_count"], 400);
}

#[test]
fn a_search_names_what_cannot_vary() {
    let mut request = bench();
    request["vary"] = json!(["bench", "mor"]);
    request["weights"] = json!({"price": 1});
    request["most"] = json!(101);
    let problem = post("/v1/search", request.to_string()).to(run().at).problem(422);
    let pointers: Vec<&Value> =
        problem["errors"].as_array().unwrap().iter().map(|fault| &fault["pointer"]).collect();
    assert_eq!(pointers, ["/vary/0", "/vary/1", "/weights/price", "/most"]);
}
