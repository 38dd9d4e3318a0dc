//! The errors of an operation, each with the shared schema and an example made by the code that makes the real ones.

use actix_web::http::StatusCode;
use serde_json::{Map, Value, json};
use wainwright::{Build, Refusal};

use super::describe::carries;
use crate::Config;
use crate::problem::{self, Kind, Problem};

/// The id in examples.
const ID: &str = "7f3c1e9a-0000002a";

/// Adds the errors with these statuses to an operation's responses.
pub fn add(responses: &mut Map<String, Value>, statuses: &[u16]) {
    for status in statuses {
        responses.insert(status.to_string(), response(*status));
    }
}

fn response(status: u16) -> Value {
    let kinds: Vec<&'static Kind> =
        problem::ALL.iter().copied().filter(|kind| kind.status == status).collect();
    let described: Vec<String> =
        kinds.iter().map(|kind| format!("`{}`: {}", kind.uri, kind.meaning)).collect();
    let reason =
        StatusCode::from_u16(status).ok().and_then(|status| status.canonical_reason()).unwrap_or("Error");
    let examples: Map<String, Value> = kinds.iter().map(|kind| (name(kind), example(kind))).collect();
    let mut fields = vec!["X-Request-Id", "Cache-Control", "RateLimit", "RateLimit-Policy"];
    if matches!(status, 429 | 503) {
        fields.push("Retry-After");
    }
    json!({
        "description": format!("{reason}. {}", described.join(" ")),
        "headers": carries(&fields),
        "content": {"application/problem+json": {
            "schema": {"$ref": "#/components/schemas/Problem"},
            "examples": examples,
        }},
    })
}

fn name(kind: &Kind) -> String {
    kind.uri.rsplit(['/', '#']).next().unwrap_or_default().replace('-', "_")
}

fn example(kind: &'static Kind) -> Value {
    json!({"summary": kind.title, "value": occurrence(kind).to_json(ID)})
}

/// Such a problem as it may occur.
pub fn occurrence(kind: &'static Kind) -> Problem {
    let refused = |json: &str| Build::from_json(json.as_bytes()).err().map(Problem::from);
    let made = match kind.status {
        400 => refused(r#"{"parts": {"galley": {"mass_lb": 86,}}}"#),
        413 => Some(Problem::content_too_large(Config::default().body_limit_bytes)),
        422 if *kind == problem::INVALID_BUILD => refused(
            r#"{"tanks": {"grey": {"fluid": "grey_water", "capacity_gal": -12}}, "parts": {"bench": {"mass_lb": 40, "x": 90}}}"#,
        ),
        422 if *kind == problem::TOO_MUCH_WORK => Some(Problem::from(Refusal::TooMuchWork {
            detail: "There are 4194304 choices; 1048576 are searched. Vary fewer groups.".to_owned(),
            work: 4_194_304,
            limit: 1_048_576,
        })),
        422 => {
            let mut faults = wainwright::Faults::default();
            faults.missing_section("/trailer", "is missing; payload needs its gvwr_lb and bare mass_lb");
            faults.into_result().err().map(Problem::from)
        }
        429 => Some(
            Problem::new(kind, "One client may make 600 requests in 60 s. The next may be made in 1 s.")
                .with("violated-policies", vec!["calls"]),
        ),
        406 => Some(
            Problem::new(kind, "What there is here is application/json, and Accept excludes it.")
                .with("available", vec!["application/json"]),
        ),
        _ => None,
    };
    made.unwrap_or_else(|| Problem::new(kind, kind.meaning))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_example_is_of_its_own_kind_and_has_only_its_members() {
        for kind in problem::ALL {
            let problem = occurrence(kind);
            assert_eq!(problem.kind, *kind);
            for (member, _) in problem.members {
                assert!(kind.members.contains(&member), "{} has {member}", kind.uri);
            }
        }
    }
}
