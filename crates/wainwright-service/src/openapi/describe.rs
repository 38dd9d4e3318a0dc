//! Header fields and answers, described.

use serde_json::{Map, Value, json};

/// Every header field that answers carry, to be referred to.
pub fn headers() -> Value {
    let mut headers = Map::new();
    let mut add = |name: &str, description: &str, schema: Value, example: Value| {
        let header = json!({"description": description, "schema": schema, "example": example});
        headers.insert(name.to_owned(), header);
    };
    let text = json!({"type": "string"});
    add(
        "X-Request-Id",
        "The request's id: the caller's, or one that was made.",
        text.clone(),
        json!("7f3c1e9a-0000002a"),
    );
    add("Cache-Control", "Whether and how long an answer may be kept.", text.clone(), json!("no-store"));
    add(
        "ETag",
        "Changes whenever the content does; each compression has its own.",
        text.clone(),
        json!("\"0f3a9c2e11d0b7a4\""),
    );
    add(
        "Retry-After",
        "Wait so many seconds before sending again.",
        json!({"type": "integer", "minimum": 0}),
        json!(1),
    );
    add(
        "RateLimit",
        "Requests left (`r`), and seconds until there are more (`t`). Only where a limit is configured; provisional.",
        text.clone(),
        json!("\"calls\";r=574;t=23"),
    );
    add(
        "RateLimit-Policy",
        "Requests that one client may make (`q`) in so many seconds (`w`). Only where a limit is configured; provisional.",
        text,
        json!("\"calls\";q=600;w=60"),
    );
    headers.into()
}

/// References to header fields.
pub fn carries(names: &[&str]) -> Value {
    let reference =
        |name: &&str| ((*name).to_owned(), json!({"$ref": format!("#/components/headers/{name}")}));
    Value::Object(names.iter().map(reference).collect())
}
