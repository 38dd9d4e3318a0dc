//! Requests, and builds with a value put back.

use serde_json::{Map, Value, json};
use wainwright::named_files::NamedFiles;
use wainwright::operation::Operation;
use wainwright::question::{Answer, ForEachQuestion, Question, ask, for_each_question};
use wainwright::solve::{Solve, SolveReport};
use wainwright::{Build, Refusal};

/// A demonstration build.
pub fn demonstration(name: &str) -> Value {
    let text = match name {
        "heron" => include_str!("../../../../tests/builds/heron.json"),
        "pika" => include_str!("../../../../tests/builds/pika.json"),
        _ => include_str!("../../../../tests/builds/bison.json"),
    };
    serde_json::from_str(text).unwrap()
}

/// A request.
pub fn request(build: &Value, vary: &str, target: &Value) -> Value {
    json!({"build": build, "vary": vary, "target": target})
}

pub fn answer(request: &Value) -> Result<SolveReport, Refusal> {
    answer_text(&request.to_string())
}

pub fn answer_text(request: &str) -> Result<SolveReport, Refusal> {
    Solve::answer(request.as_bytes(), &NamedFiles::default())
}

#[track_caller]
pub fn solve(request: &Value) -> SolveReport {
    answer(request).unwrap_or_else(|refusal| panic!("{refusal}"))
}

/// The build with another value at a path.
pub fn with(build: &Value, path: &str, x: f64) -> Value {
    let mut build = build.clone();
    let mut here = &mut build;
    for key in path.split('.') {
        here = match here {
            Value::Array(items) => &mut items[key.parse::<usize>().unwrap()],
            other => other.as_object_mut().unwrap().entry(key).or_insert_with(|| Map::new().into()),
        };
    }
    *here = if x.fract() == 0.0 { json!(x as i64) } else { json!(x) };
    build
}

/// The report of a question, with its findings, as JSON.
pub fn report(build: &Value, question: &str) -> Value {
    struct Find<'a>(&'a str, &'a Build, Value);
    impl ForEachQuestion for Find<'_> {
        fn question<Q: Question>(&mut self) {
            if Q::NAME == self.0 {
                let report = ask::<Q>(self.1).unwrap_or_else(|refusal| panic!("{refusal}"));
                assert!(report.findings().len() < 1_000);
                self.2 = serde_json::to_value(report).unwrap();
            }
        }
    }
    let build = Build::from_json(build.to_string().as_bytes()).unwrap_or_else(|refusal| panic!("{refusal}"));
    let mut find = Find(question, &build, Value::Null);
    for_each_question(&mut find);
    find.2
}

/// Does the target hold in a build? Worked out here anew, by the question that is named.
pub fn holds(build: &Value, question: &str, target: &Value) -> bool {
    let report = report(build, question);
    if let Some(path) = target["figure"].as_str() {
        let path = path.strip_prefix(question).map_or(path, |rest| &rest[1..]);
        let pointer = format!("/{}", path.replace('.', "/"));
        let figure = report.pointer(&pointer).and_then(Value::as_f64);
        let figure = figure.unwrap_or_else(|| panic!("{pointer} is no figure"));
        return match (target["at_least"].as_f64(), target["at_most"].as_f64()) {
            (Some(least), _) => figure >= least,
            (_, Some(most)) => figure <= most,
            _ => (figure - target["equal"].as_f64().unwrap()).abs() <= 1e-6 * figure.abs().max(1.0),
        };
    }
    let is_raised = report["findings"].as_array().unwrap().iter().any(|finding| {
        finding["code"] == target["finding"]
            && [&Value::Null, &finding["subject"]].contains(&&target["subject"])
    });
    is_raised == (target["until"] == "appears")
}
