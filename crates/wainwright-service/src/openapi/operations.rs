//! Every operation: what goes in, what comes out, and with which statuses.

use super::shorten::shortened;
use serde_json::{Map, Value, json};
use wainwright::document::Record;
use wainwright::document::schema::Definitions;
use wainwright::operation::Operation;
use wainwright::question::{Question, ask as put};
use wainwright::report::Described;
use wainwright::{Build, NamedFiles};

use super::describe::carries;
use super::problems;
use crate::papers::FORMS;
use crate::{Config, demo, limits, named_files, rules};

/// What a question may be answered with, besides its report.
const ASKING: &[u16] = &[400, 406, 408, 413, 415, 422, 429, 500, 503];
/// What a page may be answered with, besides itself.
const READING: &[u16] = &[406, 429, 500];

/// The operation that puts a question.
pub fn ask<Q: Question>(schemas: &mut Definitions) -> Value {
    let request = Build::schema(schemas);
    let report = Q::Report::schema(schemas);
    let demo = &demo::ALL[0];
    let build = Build::from_json(demo.json.as_bytes()).ok();
    let answer = build
        .and_then(|build| put::<Q>(&build).ok())
        .map(|report| shortened(json!(report)))
        .unwrap_or_default();
    let examples: Map<String, Value> = demo::ALL
        .iter()
        .map(|demo| (demo.name.to_owned(), json!({"$ref": format!("#/components/examples/{}", demo.name)})))
        .collect();
    let answers = json!({demo.name: {"summary": demo.summary, "value": answer}});
    json!({
        "tags": [Q::NAME],
        "summary": Q::SUMMARY,
        "description": Q::DESCRIPTION,
        "operationId": Q::NAME,
        "requestBody": {
            "description": "The build. Sections that this question does not read may be present.",
            "required": true,
            "content": {"application/json": {"schema": request, "examples": examples}},
        },
        "responses": answered(&report, &answers),
    })
}

/// The operation that is asked with a request of its own.
pub fn operate<O: Operation>(schemas: &mut Definitions) -> Value {
    let request = O::request_schema(schemas);
    let report = O::Answer::schema(schemas);
    let example = O::example();
    let answer = O::answer(example.to_string().as_bytes(), &NamedFiles::default());
    let answer = answer.map(|answer| shortened(json!(answer))).unwrap_or_default();
    let of = |value: Value| json!({"demonstration": {"summary": "Invented", "value": value}});
    json!({
        "tags": [O::NAME],
        "summary": O::SUMMARY,
        "description": O::DESCRIPTION,
        "operationId": O::NAME,
        "requestBody": {
            "description": "The request.",
            "required": true,
            "content": {"application/json": {"schema": request, "examples": of(example)}},
        },
        "responses": answered(&report, &of(answer)),
    })
}

/// What is answered: a report, or a problem.
fn answered(report: &Value, examples: &Value) -> Map<String, Value> {
    let mut responses = Map::new();
    responses.insert(
        "200".to_owned(),
        json!({
            "description": "The report. A build that breaks a rating is answered too: see its `findings`.",
            "headers": carries(&["X-Request-Id", "Cache-Control", "RateLimit", "RateLimit-Policy"]),
            "content": {"application/json": {"schema": report, "examples": examples}},
        }),
    );
    problems::add(&mut responses, ASKING);
    responses
}

/// The operation that writes the papers.
pub fn papers(schemas: &mut Definitions) -> Value {
    let request = Build::schema(schemas);
    let demo = &demo::ALL[0];
    let build = json!({demo.name: {"$ref": format!("#/components/examples/{}", demo.name)}});
    let [html, markdown] = FORMS;
    let text = |example: &str| json!({"schema": {"type": "string"}, "example": example});
    let mut responses = Map::new();
    responses.insert(
        "200".to_owned(),
        json!({
            "description": "The papers.",
            "headers": carries(&["X-Request-Id", "Cache-Control", "RateLimit", "RateLimit-Policy"]),
            "content": {
                html: text("<!doctype html><html lang=\"en\"><head><title>Heron</title></head><body><h1>Heron</h1></body></html>"),
                markdown: text("# Heron\n\nHand-over papers"),
            },
        }),
    );
    problems::add(&mut responses, ASKING);
    json!({
        "tags": ["papers"],
        "summary": PAPERS,
        "description": "Reads the whole build and puts every question to it. Answers with one self-contained page of HTML that \
            prints on US Letter, or with Markdown, as `Accept` asks: verdict, weights, loading guide, circuit directory, battery \
            and sun, heat and cold, cautions, findings and assumptions. What the build has too little for is said in its section.",
        "operationId": "papers",
        "requestBody": {
            "description": "The build.",
            "required": true,
            "content": {"application/json": {"schema": request, "examples": build}},
        },
        "responses": responses,
    })
}

/// What the papers are, in a line.
pub const PAPERS: &str = "The hand-over papers of the build, to print and give away with the trailer";

/// One thing to read.
struct Reading {
    path: &'static str,
    name: &'static str,
    summary: &'static str,
    description: &'static str,
    media_type: &'static str,
    schema: Value,
    example: Value,
    statuses: &'static [u16],
    kept: bool,
}

/// Adds the operations that read.
pub fn add_reading(paths: &mut Map<String, Value>) {
    for reading in readings() {
        paths.insert(reading.path.to_owned(), json!({"get": reading.operation()}));
    }
    paths["/problems/{slug}"]["get"]["parameters"] = json!([{
        "name": "slug",
        "in": "path",
        "required": true,
        "description": "The last piece of a problem's `type`.",
        "schema": {"type": "string"},
        "example": "invalid-build",
    }]);
}

impl Reading {
    fn operation(&self) -> Value {
        let fields: &[&str] = match self.kept {
            true => &["X-Request-Id", "Cache-Control", "ETag", "RateLimit", "RateLimit-Policy"],
            false => &["X-Request-Id", "Cache-Control"],
        };
        let mut responses = Map::new();
        let content = json!({"schema": self.schema, "example": self.example});
        responses.insert(
            "200".to_owned(),
            json!({
                "description": self.summary,
                "headers": carries(fields),
                "content": {self.media_type: content},
            }),
        );
        if self.kept {
            let description = "Not changed since the `ETag` that `If-None-Match` names.";
            responses
                .insert("304".to_owned(), json!({"description": description, "headers": carries(fields)}));
        }
        problems::add(&mut responses, self.statuses);
        json!({
            "tags": ["service"],
            "summary": self.summary,
            "description": self.description,
            "operationId": self.name,
            "responses": responses,
        })
    }
}

fn readings() -> Vec<Reading> {
    let schema = |name: &str| json!({"$ref": format!("#/components/schemas/{name}")});
    vec![
        Reading {
            path: "/v1/findings",
            name: "findings",
            summary: "Every rule that builds are held against",
            description: "What `code` of a finding may be, with severity, meaning and source.",
            media_type: "application/json",
            schema: schema("RuleList"),
            example: first_rule(),
            statuses: READING,
            kept: true,
        },
        Reading {
            path: named_files::PATH,
            name: "catalogues",
            summary: "The catalogues of options that requests may name",
            description: "The files of the folder that the service was given, each by its name without `.json`, with its \
                groups and options. Their patches are not told.",
            media_type: "application/json",
            schema: schema("CatalogueList"),
            example: catalogues(),
            statuses: READING,
            kept: true,
        },
        Reading {
            path: "/v1/limits",
            name: "limits",
            summary: "The limits in force",
            description: "What this service accepts, for the form of a client.",
            media_type: "application/json",
            schema: schema("Limits"),
            example: limits::limits(&Config::default()),
            statuses: READING,
            kept: true,
        },
        Reading {
            path: "/health/live",
            name: "live",
            summary: "The process answers",
            description: "Checks nothing else.",
            media_type: "application/json",
            schema: schema("Health"),
            example: health(),
            statuses: &[500],
            kept: false,
        },
        Reading {
            path: "/health/ready",
            name: "ready",
            summary: "Requests are taken",
            description: "200 once every question has answered a demonstration build, until the shutdown begins.",
            media_type: "application/json",
            schema: schema("Health"),
            example: health(),
            statuses: &[500, 503],
            kept: false,
        },
        Reading {
            path: "/metrics",
            name: "metrics",
            summary: "What was counted",
            description: "Requests by path, method and status, their durations, and what limits refused, as Prometheus reads it.",
            media_type: "text/plain",
            schema: json!({"type": "string"}),
            example: json!(
                "wainwright_requests_total{path=\"/v1/payload\",method=\"POST\",status=\"200\"} 3"
            ),
            statuses: &[500],
            kept: false,
        },
        Reading {
            path: "/problems",
            name: "problems",
            summary: "Every kind of problem",
            description: "A page that lists what `type` may be.",
            media_type: "text/html",
            schema: json!({"type": "string"}),
            example: json!("<h1>Kinds of problems</h1>"),
            statuses: READING,
            kept: true,
        },
        Reading {
            path: "/problems/{slug}",
            name: "problem",
            summary: "One kind of problem",
            description: "The page that a problem's `type` leads to.",
            media_type: "text/html",
            schema: json!({"type": "string"}),
            example: json!("<h1>The build cannot be evaluated as given.</h1>"),
            statuses: &[404, 406, 429, 500],
            kept: true,
        },
    ]
}

fn health() -> Value {
    json!({"status": "pass", "version": env!("CARGO_PKG_VERSION")})
}

/// The list of catalogues with the demonstration's first group alone.
fn catalogues() -> Value {
    let mut known = NamedFiles::default();
    // The catalogue is part of the program, and tests read it.
    _ = known.read_catalogue("heron", wainwright::options::DEMO.as_bytes());
    let mut listed = named_files::catalogues(&known);
    if let Some(groups) = listed["catalogues"]["heron"]["groups"].as_object_mut() {
        let first = groups.keys().next().cloned();
        groups.retain(|id, _| Some(id) == first.as_ref());
    }
    listed
}

/// The list of rules, with the first alone.
fn first_rule() -> Value {
    json!({"rules": [rules::rules()["rules"][0]]})
}
