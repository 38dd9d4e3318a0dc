//! Schemas of what the service itself says: problems, faults, health, limits, rules.

use serde_json::{Value, json};
use wainwright::FaultCode;
use wainwright::document::schema::{Definitions, Member, report_object};
use wainwright::report::{LimitKind, Severity};

/// Adds all of them.
pub fn add(definitions: &mut Definitions) {
    problem(definitions);
    health(definitions);
    limits(definitions);
    catalogues(definitions);
    rules(definitions);
}

fn field(name: &'static str, doc: &'static str, required: bool, schema: Value, example: Value) -> Member {
    Member { name, doc, required, schema, example: Some(example) }
}

fn text() -> Value {
    json!({"type": "string"})
}

fn count() -> Value {
    json!({"type": "integer", "format": "int32", "minimum": 0})
}

fn number() -> Value {
    json!({"type": "number", "format": "double"})
}

fn texts() -> Value {
    json!({"type": "array", "items": {"type": "string"}})
}

fn problem(definitions: &mut Definitions) {
    let doc = "What kept a request from being answered (RFC 9457).";
    report_object(definitions, "Problem", doc, |definitions| {
        let faults = json!({"type": "array", "items": fault(definitions)});
        vec![
            field(
                "type",
                "The kind of problem: a reference to its page. Branch on this. Later versions add kinds.",
                true,
                json!({"type": "string", "format": "uri-reference"}),
                json!("/problems/invalid-build"),
            ),
            field(
                "title",
                "The kind in words; the same for every problem of the kind.",
                true,
                text(),
                json!("The build cannot be evaluated as given."),
            ),
            field(
                "status",
                "The status of the answer.",
                true,
                json!({"type": "integer", "format": "int32", "minimum": 400, "maximum": 599}),
                json!(422),
            ),
            field(
                "detail",
                "What happened this time, for a person. The words may change in any release.",
                true,
                text(),
                json!("1 fault in the build: /tanks/grey/capacity_gal must be 0 or more; got -12."),
            ),
            field(
                "instance",
                "The request, by its id.",
                true,
                json!({"type": "string", "format": "uri-reference"}),
                json!("/requests/7f3c1e9a-0000002a"),
            ),
            Member {
                name: "errors",
                doc: "Every fault of the build, at most 100.",
                required: false,
                schema: faults,
                example: None,
            },
            field(
                "errors_left_out",
                "How many faults there are beyond those listed.",
                false,
                count(),
                json!(12),
            ),
            field(
                "line",
                "Line of the body where it stops being JSON, counted from 1.",
                false,
                count(),
                json!(14),
            ),
            field("column", "Column of that line, counted from 1.", false, count(), json!(3)),
            field(
                "limit",
                "How deep objects and lists may lie inside one another, where that was passed; or how much work is done for one request.",
                false,
                count(),
                json!(32),
            ),
            field(
                "limit_bytes",
                "The greatest size of a body, after decompression.",
                false,
                count(),
                json!(2_097_152),
            ),
            field(
                "work",
                "How much work the request would take, counted as `detail` says.",
                false,
                json!({"type": "integer", "format": "int64", "minimum": 0}),
                json!(4_194_304),
            ),
            field("available", "The forms that there are.", false, texts(), json!(["application/json"])),
            field(
                "violated-policies",
                "The limits that were passed, named as in `RateLimit-Policy`.",
                false,
                texts(),
                json!(["calls"]),
            ),
        ]
    });
}

fn fault(definitions: &mut Definitions) -> Value {
    report_object(definitions, "Fault", "One fault of a build.", |_| {
        let codes: Vec<Value> = FaultCode::ALL.iter().map(|(code, _)| json!(code)).collect();
        let meanings: serde_json::Map<String, Value> = FaultCode::ALL
            .iter()
            .map(|(code, meaning)| (json!(code).as_str().unwrap_or_default().to_owned(), json!(meaning)))
            .collect();
        vec![
            field(
                "pointer",
                "JSON Pointer to the place, in string form. What is missing is pointed at where it would stand.",
                true,
                text(),
                json!("/tanks/grey/capacity_gal"),
            ),
            field(
                "code",
                "The kind of fault. Branch on this; later versions add kinds.",
                true,
                json!({"type": "string", "x-known": codes, "x-meanings": meanings}),
                json!("below_minimum"),
            ),
            field(
                "detail",
                "What is wrong there and what would be right, for a person. It reads on from the pointer.",
                true,
                text(),
                json!("must be 0 or more; got -12"),
            ),
            field("minimum", "The least value allowed, where one was passed.", false, number(), json!(0)),
            field(
                "maximum",
                "The greatest value, length or count allowed, where one was passed.",
                false,
                number(),
                json!(2000),
            ),
            field("suggestion", "The nearest known name.", false, text(), json!("mass_lb")),
            field("known", "The names there are.", false, texts(), json!(["fresh", "grey"])),
            field(
                "other_pointer",
                "JSON Pointer to the other of two things that cannot both be so.",
                false,
                text(),
                json!("/groups/battery/options/battery_200/patch/battery/capacity_ah"),
            ),
            field(
                "in_build",
                "JSON Pointer into the build that the patches of a request make, where the fault is one of that build.",
                false,
                text(),
                json!("/battery/capacity_ah"),
            ),
        ]
    })
}

fn health(definitions: &mut Definitions) {
    report_object(definitions, "Health", "That all is well. What is not well is a problem.", |_| {
        vec![
            field(
                "status",
                "Always `pass`.",
                true,
                json!({"type": "string", "enum": ["pass"]}),
                json!("pass"),
            ),
            field("version", "The version that runs.", true, text(), json!(env!("CARGO_PKG_VERSION"))),
        ]
    });
}

fn limits(definitions: &mut Definitions) {
    report_object(definitions, "Limits", "The limits in force.", |definitions| {
        let requests =
            report_object(definitions, "RequestLimit", "How many requests one client may make.", |_| {
                vec![
                    field("quota_count", "Requests in one window.", true, count(), json!(600)),
                    field("window_s", "Length of the window [s].", true, number(), json!(60)),
                ]
            });
        vec![
            field(
                "body_bytes",
                "Greatest size of a body after decompression [byte].",
                true,
                count(),
                json!(2_097_152),
            ),
            field(
                "nesting_count",
                "Objects and lists may lie so deep inside one another.",
                true,
                count(),
                json!(32),
            ),
            field("parts_count", "Greatest number of parts in a build.", true, count(), json!(10_000)),
            field(
                "entries_count",
                "Greatest number of entries in any other map or list of a build.",
                true,
                count(),
                json!(1_000),
            ),
            field("options_count", "Greatest number of options in a catalogue.", true, count(), json!(400)),
            field(
                "choices_count",
                "Greatest number of choices that are searched.",
                true,
                count(),
                json!(1_048_576),
            ),
            field(
                "evaluated_count",
                "Greatest number of builds that are evaluated in a search; sixteen that are read and weighed alone count as one.",
                true,
                count(),
                json!(2_048),
            ),
            field("rows_count", "Greatest number of rows in a batch.", true, count(), json!(100_000)),
            field("scores_count", "Greatest number of scores in a batch.", true, count(), json!(200)),
            field("receive_s", "Longest time that a body may take to arrive [s].", true, number(), json!(10)),
            field(
                "compute_s",
                "Longest time that an answer may take to work out [s].",
                true,
                number(),
                json!(10),
            ),
            Member {
                name: "requests",
                doc: "How many requests one client may make; `null` where there is no such limit.",
                required: true,
                schema: json!({"anyOf": [requests, {"type": "null"}]}),
                example: None,
            },
        ]
    });
}

fn catalogues(definitions: &mut Definitions) {
    let price = || json!({"type": "number", "format": "double"});
    let label = || json!({"type": ["string", "null"]});
    let map = |of: Value| json!({"type": "object", "additionalProperties": of});
    report_object(definitions, "CatalogueList", "The catalogues that requests may name.", |definitions| {
        let catalogue = report_object(definitions, "ListedCatalogue", "A catalogue.", |definitions| {
            let group = report_object(definitions, "ListedGroup", "A group of options.", |definitions| {
                let option = report_object(definitions, "ListedOption", "An option.", |_| {
                    vec![
                        field(
                            "label",
                            "What it is called, for people.",
                            true,
                            label(),
                            json!("200 Ah battery"),
                        ),
                        field("price_usd", "What it adds to the price.", true, price(), json!(1150)),
                        field(
                            "requires",
                            "Options that must be chosen with it.",
                            true,
                            texts(),
                            json!(["charger_45"]),
                        ),
                        field(
                            "excludes",
                            "Options that must not be chosen with it.",
                            true,
                            texts(),
                            json!(["battery_100"]),
                        ),
                    ]
                });
                vec![
                    field("label", "What it is called, for people.", true, label(), json!("House battery")),
                    field(
                        "choose",
                        "How many of its options may be chosen: one or none, or any.",
                        true,
                        json!({"type": "string", "enum": ["one", "any"]}),
                        json!("one"),
                    ),
                    Member {
                        name: "options",
                        doc: "Its options by id, in the order of the catalogue.",
                        required: true,
                        schema: map(option),
                        example: None,
                    },
                ]
            });
            vec![
                field(
                    "name",
                    "What it is called, for people.",
                    true,
                    label(),
                    json!("Heron (invented catalogue)"),
                ),
                field(
                    "has_base",
                    "Does it bring the build that its options change?",
                    true,
                    json!({"type": "boolean"}),
                    json!(false),
                ),
                Member {
                    name: "groups",
                    doc: "Its groups by id, in the order in which their patches apply.",
                    required: true,
                    schema: map(group),
                    example: None,
                },
            ]
        });
        vec![Member {
            name: "catalogues",
            doc: "The catalogues by the name under which a request names them.",
            required: true,
            schema: map(catalogue),
            example: None,
        }]
    });
}

fn rules(definitions: &mut Definitions) {
    report_object(definitions, "RuleList", "Every rule that builds are held against.", |definitions| {
        let rule = report_object(definitions, "Rule", "One rule that builds are held against.", |_| {
            vec![
                field(
                    "code",
                    "The rule's stable name, as in `code` of a finding.",
                    true,
                    text(),
                    json!("gross_over_gvwr"),
                ),
                field(
                    "severity",
                    "How grave a breach is.",
                    true,
                    json!({"type": "string", "enum": Severity::WORDS}),
                    json!("violation"),
                ),
                field(
                    "meaning",
                    "What a breach means.",
                    true,
                    text(),
                    json!(
                        "In a state that moves, the trailer weighs more than its gross vehicle weight rating."
                    ),
                ),
                field(
                    "unit",
                    "Unit of `value` and `limit` of its findings.",
                    true,
                    json!({"type": ["string", "null"]}),
                    json!("lb"),
                ),
                field(
                    "limit_kind",
                    "Which side of the limit is wanted.",
                    true,
                    json!({"type": ["string", "null"], "enum": nullable_words()}),
                    json!("maximum"),
                ),
                field("citation", "Where the rule is from.", true, text(), json!("49 CFR 571.3 (GVWR)")),
                field(
                    "questions",
                    "The questions that hold builds against it.",
                    true,
                    texts(),
                    json!(["payload"]),
                ),
            ]
        });
        vec![Member {
            name: "rules",
            doc: "The rules.",
            required: true,
            schema: json!({"type": "array", "items": rule}),
            example: None,
        }]
    });
}

fn nullable_words() -> Vec<Value> {
    LimitKind::WORDS.iter().map(|word| json!(word)).chain([Value::Null]).collect()
}
