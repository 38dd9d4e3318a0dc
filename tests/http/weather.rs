//! Weather files: in a folder, by name, and in a body, as text.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Output;
use std::{fs, process};

use serde_json::{Value, json};
use wainwright_service::Config;

use crate::client::post;
use crate::program::{program, text};
use crate::running::{HERON, config, run, run_with};

/// A day of invented weather as an EPW file.
fn day() -> String {
    let mut text = "LOCATION,Heron Flats,NC,USA,invented,000000,36.10,-79.95,-5.0,273.0\n\
        COMMENTS 1,invented figures\nDATA PERIODS,1,1,Data,Sunday,6/1,6/1\n"
        .to_owned();
    for hour in 1..=24 {
        let sun = if (7..=18).contains(&hour) { 300 } else { 0 };
        writeln!(
            text,
            "2001,6,1,{hour},60,?9?9,15.0,8.0,60,98000,0,0,300,{sun},{sun},{},0,0,0,0,180,2.5",
            sun / 2
        )
        .unwrap();
    }
    text
}

/// A folder that is there for one test.
struct Folder(PathBuf);

impl Folder {
    fn with(name: &str, files: &[(&str, &str)]) -> Self {
        let path = std::env::temp_dir().join(format!("wainwright-{}-{name}", process::id()));
        fs::create_dir_all(path.join("deeper.epw")).unwrap();
        for (name, text) in files {
            fs::write(path.join(name), text).unwrap();
        }
        Self(path)
    }

    fn config(&self) -> Config {
        Config { weather_folder: Some(self.0.clone()), ..config() }
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        _ = fs::remove_dir_all(&self.0);
    }
}

/// The demonstration build with weather of this form.
fn heron(weather: &Value) -> String {
    let mut build: Value = serde_json::from_str(HERON).unwrap();
    build["site"] = json!({"weather": weather});
    build.to_string()
}

#[test]
fn a_file_of_the_folder_is_named_in_a_build() {
    let folder = Folder::with("named", &[("flats.EPW", &day()), ("read.me", "no weather")]);
    let running = run_with(folder.config());
    let asked = |name: &str| post("/v1/payload", heron(&json!({"file": name}))).to(running.at);
    assert_eq!(asked("flats.EPW").status, 200);
    for other in ["flats.csv", "read.me", "deeper.epw", "../flats.EPW"] {
        let problem = asked(other).problem(422);
        let fault = &problem["errors"][0];
        assert_eq!((&fault["pointer"], &fault["code"]), (&"/site/weather/file".into(), &"unknown_id".into()));
        assert_eq!(fault["known"], json!(["flats.EPW"]), "{problem}");
    }
}

#[test]
fn cooling_load_walks_through_a_file_of_the_folder() {
    let folder = Folder::with("walked", &[("flats.epw", &day())]);
    let running = run_with(folder.config());
    let asked = |weather: &Value| post("/v1/cooling-load", heron(weather)).to(running.at).json();
    let named = asked(&json!({"file": "flats.epw"}));
    assert_eq!(named["months"][0]["month"], 6);
    assert_eq!(named["months"].as_array().unwrap().len(), 1);
    assert_eq!(named["design"]["max_f"], 59.0);
    assert_eq!(asked(&json!({"text": day()}))["hours"], named["hours"]);
}

#[test]
fn without_a_folder_a_name_is_answered_with_that() {
    let problem = post("/v1/payload", heron(&json!({"file": "flats.epw"}))).to(run().at).problem(422);
    let detail = problem["errors"][0]["detail"].as_str().unwrap();
    assert_eq!(detail, "names \"flats.epw\", and no folder with weather files was given");
}

#[test]
fn a_file_may_stand_in_the_body_as_text() {
    let running = run();
    let asked = |text: &str| post("/v1/payload", heron(&json!({"text": text}))).to(running.at);
    assert_eq!(asked(&day()).status, 200);
    let problem = asked(&day().replacen(",15.0,", ",warm,", 1)).problem(422);
    assert_eq!(problem["errors"][0]["pointer"], "/site/weather/text");
    assert_eq!(
        problem["errors"][0]["detail"],
        "has a fault at line 4, column 7, dry bulb temperature: must be a number, -90 to 60 °C, or 99.9 where it is missing; got \"warm\""
    );
}

fn evaluate(folder: &Path) -> Output {
    let build = folder.join("build.json");
    fs::write(&build, heron(&json!({"file": "flats.epw"}))).unwrap();
    program().arg("evaluate").arg(build).arg("--weather-folder").arg(folder).output().unwrap()
}

#[test]
fn the_program_evaluates_with_a_folder() {
    let folder = Folder::with("evaluated", &[("flats.epw", &day())]);
    let output = evaluate(&folder.0);
    assert!(matches!(output.status.code(), Some(0 | 1)), "{}", text(&output.stderr));
    let build = folder.0.join("build.json");
    let without = program().arg("evaluate").arg(&build).output().unwrap();
    assert_eq!(without.status.code(), Some(2));
    assert!(text(&without.stderr).contains("/site/weather/file names"), "{}", text(&without.stderr));
    let of_environment =
        program().arg("evaluate").arg(build).env("WAINWRIGHT_WEATHER_FOLDER", &folder.0).output().unwrap();
    assert_eq!(of_environment.status.code(), output.status.code());
}

#[test]
fn a_file_that_is_refused_stops_the_start_with_all_its_faults() {
    let cold = day().replace(",15.0,", ",-200,");
    let files = [("flats.epw", cold.as_str()), ("good.epw", &day()), ("page.csv", "<html>\n</html>")];
    let folder = Folder::with("refused", &files);
    let served =
        program().args(["serve", "--listen", "127.0.0.1:0", "--weather-folder"]).arg(&folder.0).output();
    for output in [served.unwrap(), evaluate(&folder.0)] {
        let told = text(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{told}");
        assert!(output.stdout.is_empty());
        let path = |name: &str| folder.0.join(name).display().to_string();
        assert!(
            told.contains(&format!("{} is refused:\nline 4, column 7, dry bulb", path("flats.epw"))),
            "{told}"
        );
        assert!(told.contains("\nand 4 more\n"), "{told}");
        assert!(told.contains(&format!("{} is refused:\nline 1: must begin", path("page.csv"))), "{told}");
        assert!(!told.contains("good.epw"), "{told}");
    }
}

#[test]
fn a_folder_that_is_not_there_stops_the_start() {
    let output = program().args(["serve", "--weather-folder", "no-such-folder"]).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("no-such-folder cannot be read"), "{}", text(&output.stderr));
}
