//! Bodies of every kind: what is answered, what is refused, and what the refusal says.

use std::io::Write;

use serde_json::{Value, json};

use crate::client::{Answer, post, request};
use crate::running::{HERON, config, questions, run, run_with};

const PATH: &str = "/v1/payload";

fn asked(body: impl Into<Vec<u8>>) -> Answer {
    post(PATH, body).to(run().at)
}

/// A build of so many parts.
fn parts(count: usize) -> String {
    let parts: Vec<String> = (0..count).map(|i| format!(r#""p{i}":{{"mass_lb":0.5}}"#)).collect();
    let trailer = r#"{"gvwr_lb": 7700, "bare": {"mass_lb": 2240}}"#;
    format!(r#"{{"trailer": {trailer}, "parts": {{{}}}}}"#, parts.join(","))
}

fn pointers(problem: &Value) -> Vec<&str> {
    problem["errors"].as_array().unwrap().iter().map(|error| error["pointer"].as_str().unwrap()).collect()
}

#[test]
fn every_question_answers_the_demonstration_builds() {
    let running = run();
    let builds = [HERON, include_str!("../builds/pika.json"), include_str!("../builds/bison.json")];
    for (path, build) in questions().iter().flat_map(|path| builds.map(|build| (path, build))) {
        let answer = post(path, build).to(running.at);
        assert_eq!(answer.status, 200, "{path}: {}", answer.text());
        assert_eq!(answer.field("content-type"), Some("application/json"));
        assert_eq!(answer.field("cache-control"), Some("no-store"));
        assert_eq!(answer.field("x-content-type-options"), Some("nosniff"));
        assert_eq!(answer.field("etag"), None);
        for member in ["findings", "assumptions", "cautions"] {
            assert!(answer.json()[member].is_array(), "{path} has no {member}");
        }
    }
}

#[test]
fn the_same_body_gets_the_same_bytes() {
    let running = run();
    for path in questions() {
        let first = post(&path, HERON).to(running.at).body;
        for _ in 0..20 {
            assert_eq!(post(&path, HERON).to(running.at).body, first);
        }
    }
}

#[test]
fn the_least_build_is_answered() {
    let answer = asked(r#"{"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}}"#);
    assert_eq!(answer.json()["unloaded_mass_lb"], 2180.0);
}

#[test]
fn a_build_over_its_rating_is_answered_with_a_violation() {
    let answer = asked(r#"{"trailer": {"gvwr_lb": 2000, "bare": {"mass_lb": 2180}}}"#);
    assert_eq!(answer.status, 200);
    assert_eq!(answer.json()["findings"][0]["severity"], "violation");
}

#[test]
fn five_mistakes_come_back_as_five_pointers_and_sentences() {
    let problem = asked(
        r#"{
            "trailer": {"gvwr_lb": "heavy", "bare": {"mass_lb": 2240}},
            "parts": {"bench": {"mas_lb": 86, "mass_lb": 86}, "bed": {"mass_lb": -12}},
            "tanks": {"grey": {"fluid": "gray_water", "capacity_gal": 18}},
            "states": {"homebound": {"moving": true, "aboard": ["trials_bike"]}}
        }"#,
    )
    .problem(422);
    assert_eq!(problem["type"], "/problems/invalid-build");
    assert_eq!(
        pointers(&problem),
        [
            "/trailer/gvwr_lb",
            "/parts/bench/mas_lb",
            "/parts/bed/mass_lb",
            "/tanks/grey/fluid",
            "/states/homebound/aboard/0"
        ]
    );
    let errors = problem["errors"].as_array().unwrap();
    let codes: Vec<_> = errors.iter().map(|error| error["code"].as_str().unwrap()).collect();
    assert_eq!(codes, ["wrong_type", "unknown_field", "below_minimum", "not_one_of", "unknown_id"]);
    assert!(errors.iter().all(|error| error["detail"].as_str().unwrap().len() > 10));
    assert_eq!(errors[1]["suggestion"], "mass_lb");
    assert_eq!(errors[2]["minimum"], 0.0);
    assert!(problem["detail"].as_str().unwrap().starts_with("5 faults"));
}

#[test]
fn more_than_a_hundred_faults_are_counted() {
    let parts: Vec<String> = (0..150).map(|i| format!(r#""p{i}":{{"mass_lb":-1}}"#)).collect();
    let problem = asked(format!(r#"{{"parts": {{{}}}}}"#, parts.join(","))).problem(422);
    assert_eq!(pointers(&problem).len(), 100);
    assert_eq!(problem["errors_left_out"], 50);
}

#[test]
fn a_missing_section_is_named() {
    for path in questions() {
        let section = match path.rsplit('/').next().unwrap() {
            "circuit-load" => "/electrical",
            "energy-budget" => "/battery",
            "cooling-load" => "/envelope/surfaces",
            // It answers whatever there is.
            "evaluate" => continue,
            _ => "/trailer",
        };
        let problem = post(&path, "{}").to(run().at).problem(422);
        assert_eq!(problem["type"], "/problems/missing-section", "{path}");
        assert!(pointers(&problem).contains(&section), "{path}: {problem}");
    }
}

#[test]
fn what_is_not_json_is_placed() {
    for (body, line, column) in [
        ("", 1, 1),
        (" \n ", 1, 1),
        ("oops", 1, 1),
        ("{\"parts\": {", 1, 11),
        ("{\n\"parts\": {,}}", 2, 11),
        ("{} {}", 1, 4),
        ("\u{feff}{}", 1, 1),
    ] {
        let problem = asked(body).problem(400);
        assert_eq!(problem["type"], "/problems/unreadable-body", "{body}");
        assert_eq!((&problem["line"], &problem["column"]), (&json!(line), &json!(column)), "{body}");
    }
}

#[test]
fn text_in_another_encoding_is_unreadable() {
    asked(b"{\"name\": \"\xff\"}".to_vec()).problem(400);
    asked("{}".encode_utf16().flat_map(u16::to_le_bytes).collect::<Vec<u8>>()).problem(400);
}

#[test]
fn a_body_cut_off_is_unreadable() {
    for end in [1, 100, HERON.len() - 3] {
        asked(&HERON.as_bytes()[..end]).problem(400);
    }
    // Fewer bytes than announced, then nothing more.
    let chunk = request("POST", PATH)
        .field("Content-Type", "application/json")
        .field("Transfer-Encoding", "chunked")
        .body("zz\r\n{}");
    chunk.to(run().at).problem(400);
}

#[test]
fn nesting_stops_at_its_limit() {
    for open in ["[", "{\"a\":"] {
        let deep = format!(r#"{{"site": {}"#, open.repeat(5000));
        let problem = asked(deep).problem(400);
        assert_eq!(problem["limit"], 32);
    }
    let known = format!(r#"{{"envelope": {{"a": {}1{}}}}}"#, "[".repeat(29), "]".repeat(29));
    assert_eq!(pointers(&asked(known).problem(422)), ["/envelope/a"]);
}

#[test]
fn a_number_too_large_to_hold_is_unreadable_and_one_out_of_range_is_a_fault() {
    let with =
        |number: &str| asked(format!(r#"{{"trailer": {{"gvwr_lb": {number}, "bare": {{"mass_lb": 1}}}}}}"#));
    with("1e999").problem(400);
    for number in ["NaN", "Infinity", "-", "01"] {
        with(number).problem(400);
    }
    for number in ["1e308", "-1", "-0.0"] {
        assert_eq!(pointers(&with(number).problem(422)), ["/trailer/gvwr_lb"], "{number}");
    }
}

#[test]
fn a_list_where_an_object_belongs_is_a_fault() {
    assert_eq!(pointers(&asked("[]").problem(422)), [""]);
    assert_eq!(pointers(&asked("7").problem(422)), [""]);
    let bare = r#"{"trailer": {"gvwr_lb": 7000, "bare": [2240, 150, 0, 42]}}"#;
    assert_eq!(pointers(&asked(bare).problem(422)), ["/trailer/bare"]);
}

#[test]
fn a_key_given_twice_is_a_fault() {
    let field = r#"{"trailer": {"gvwr_lb": 7000, "gvwr_lb": 7700, "bare": {"mass_lb": 2240}}}"#;
    assert_eq!(pointers(&asked(field).problem(422)), ["/trailer/gvwr_lb"]);
    let id = r#"{"parts": {"bed": {"mass_lb": 1}, "bed": {"mass_lb": 2}}}"#;
    let problem = asked(id).problem(422);
    assert_eq!(problem["errors"][0]["code"], "duplicate_key");
    assert_eq!(pointers(&problem), ["/parts/bed"]);
}

#[test]
fn ten_thousand_parts_are_answered_and_one_more_is_a_fault() {
    let running = run();
    let answer = post(PATH, parts(10_000)).to(running.at);
    assert_eq!(answer.json()["parts_mass_lb"].as_f64().map(f64::round), Some(5000.0));
    let problem = post(PATH, parts(10_001)).to(running.at).problem(422);
    assert_eq!(pointers(&problem), ["/parts"]);
    assert_eq!(problem["errors"][0]["code"], "too_many");
}

/// A body of exactly so many bytes.
fn padded(length: usize) -> Vec<u8> {
    let build = r#"{"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}}"#;
    let mut body = build.as_bytes().to_vec();
    body.resize(length, b' ');
    body
}

fn chunked(body: &[u8]) -> Vec<u8> {
    let mut chunks = Vec::new();
    for chunk in body.chunks(1000) {
        write!(chunks, "{:x}\r\n", chunk.len()).unwrap();
        chunks.extend_from_slice(chunk);
        chunks.extend_from_slice(b"\r\n");
    }
    chunks.extend_from_slice(b"0\r\n\r\n");
    chunks
}

#[test]
fn a_body_at_the_limit_is_read_and_one_byte_more_is_not() {
    let limit = 100_000;
    let running = run_with(wainwright_service::Config { body_limit_bytes: limit, ..config() });
    for length in [100, limit - 1, limit] {
        assert_eq!(post(PATH, padded(length)).to(running.at).status, 200);
        let in_chunks = post(PATH, chunked(&padded(length))).field("Transfer-Encoding", "chunked");
        assert_eq!(in_chunks.to(running.at).status, 200);
    }
    for length in [limit + 1, 5 * limit] {
        let problem = post(PATH, padded(length)).to(running.at).problem(413);
        assert_eq!(problem["limit_bytes"], limit);
        let in_chunks = post(PATH, chunked(&padded(length))).field("Transfer-Encoding", "chunked");
        in_chunks.to(running.at).problem(413);
    }
    let announced = post(PATH, "{").field("Content-Length", "99999999999");
    announced.to(running.at).problem(413);
}

fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::default());
    encoder.write_all(bytes).unwrap();
    encoder.finish().unwrap()
}

#[test]
fn compressed_bodies_are_read_and_bombs_are_not() {
    let running = run();
    let plain = post(PATH, HERON).to(running.at).body;
    let sent =
        |coding: &str, body: Vec<u8>| post(PATH, body).field("Content-Encoding", coding).to(running.at);
    assert_eq!(sent("gzip", gzip(HERON.as_bytes())).body, plain);
    assert_eq!(sent("GZIP", gzip(HERON.as_bytes())).body, plain);
    assert_eq!(sent("zstd", zstd::encode_all(HERON.as_bytes(), 3).unwrap()).body, plain);
    assert_eq!(sent("identity", HERON.into()).body, plain);

    let blanks = vec![b' '; 64 * 1024 * 1024];
    for (coding, bomb) in [("gzip", gzip(&blanks)), ("zstd", zstd::encode_all(&blanks[..], 3).unwrap())] {
        assert!(bomb.len() < 100_000);
        sent(coding, bomb).problem(413);
        sent(coding, HERON.into()).problem(400);
        let whole = gzip(HERON.as_bytes());
        sent(coding, whole[..whole.len() / 2].into()).problem(400);
    }
    for coding in ["br", "deflate", "gzip, gzip", "snappy"] {
        let answer = sent(coding, HERON.into());
        answer.problem(415);
        assert_eq!(answer.field("accept-encoding"), Some("gzip, zstd, identity"), "{coding}");
    }
}

#[test]
fn only_json_is_read() {
    let running = run();
    let sent =
        |media_type: &str| request("POST", PATH).field("Content-Type", media_type).body(HERON).to(running.at);
    for media_type in ["application/json", "application/json; charset=utf-8", "Application/Json"] {
        assert_eq!(sent(media_type).status, 200, "{media_type}");
    }
    for media_type in [
        "text/plain",
        "application/x-www-form-urlencoded",
        "application/xml",
        "application/json; charset=latin1",
    ] {
        let answer = sent(media_type);
        answer.problem(415);
        assert_eq!(answer.field("accept"), Some("application/json"));
    }
    let untyped = request("POST", PATH).body(HERON).to(running.at);
    untyped.problem(415);
}

#[test]
fn the_callers_own_text_comes_back_short_and_escaped() {
    let long = "é\u{1}".repeat(10_000);
    let problem = asked(json!({"tanks": {"a": {"fluid": long, "capacity_gal": 1}}}).to_string()).problem(422);
    assert!(problem.to_string().len() < 2000, "{problem}");
    assert!(!problem["detail"].as_str().unwrap().contains('\u{1}'));
}
