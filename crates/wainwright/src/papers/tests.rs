use serde_json::{Value, json};

use super::*;
use crate::evaluate::Evaluate;
use crate::question::Question;

const HERON: &str = include_str!("../../../../tests/builds/heron.json");

fn papers(build: &Value) -> Papers {
    let build = Build::from_json(build.to_string().as_bytes()).unwrap();
    Papers::of(&build, &Evaluate::answer(&build))
}

fn heron() -> Value {
    serde_json::from_str(HERON).unwrap()
}

/// Every tag that is opened is closed, in order.
fn assert_well_formed(html: &str) {
    let mut open = Vec::new();
    for piece in html.split('<').skip(1) {
        let tag = piece.split('>').next().unwrap();
        let name = tag.trim_start_matches('/').split([' ', '\n']).next().unwrap().trim_end_matches('/');
        if tag.starts_with('/') {
            assert_eq!(open.pop(), Some(name), "{tag}");
        } else if !tag.ends_with('/') && !["!doctype", "meta", "wbr"].contains(&name) {
            open.push(name);
        }
    }
    assert!(open.is_empty(), "{open:?}");
}

#[test]
fn the_papers_of_a_whole_build_have_every_section() {
    let papers = papers(&heron());
    let html = papers.html();
    assert_well_formed(&html);
    for heading in [
        "Weights",
        "Loading guide",
        "Circuit directory",
        "Battery and sun",
        "Heat and cold",
        "Cautions, findings",
    ] {
        assert!(html.contains(&format!("<h2>{heading}")), "{heading}");
        assert!(papers.markdown().contains(&format!("## {heading}")), "{heading}");
    }
    assert_eq!(html.matches("<svg").count(), 5);
    assert!(!html.contains("Not worked out"));
}

#[test]
fn what_was_not_worked_out_is_said() {
    for build in [json!({}), json!({"trailer": {"gvwr_lb": 7000, "bare": {"mass_lb": 2180}}})] {
        let html = papers(&build).html();
        assert_well_formed(&html);
        assert!(html.matches("Not worked out").count() >= 4, "{html}");
        assert!(html.contains("A trailer without a name"));
    }
    assert!(papers(&json!({})).markdown().contains("/trailer is missing"));
}

#[test]
fn a_name_from_the_caller_is_text() {
    let mut build = heron();
    build["name"] = "<script>alert('x')</script> & \"Heron\" | *co*".into();
    build["parts"]["galley"]["category"] = "<i>".into();
    let html = papers(&build).html();
    assert_well_formed(&html);
    assert!(!html.contains("<script") && !html.contains("<i>"), "{html}");
    assert!(
        html.contains(
            "<h1>&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;Heron&quot; | *co*</h1>"
        )
    );
    assert!(
        papers(&build)
            .markdown()
            .starts_with("# \\<script\\>alert('x')\\</script\\> \\& \"Heron\" \\| \\*co\\*\n")
    );
}

#[test]
fn nothing_is_loaded_and_nothing_runs() {
    let html = papers(&heron()).html();
    for part in ["<script", "<link", "<img", "src=", "href", "url(", "@import", "http:", "https:", "onload"] {
        assert!(!html.contains(part), "{part}");
    }
}

#[test]
fn water_is_tried_by_the_question_itself() {
    // Set up as the listed state outbound is, the table must say what the report says of it.
    let build = Build::from_json(HERON.as_bytes()).unwrap();
    let report = Evaluate::answer(&build);
    let outbound = &report.axle_load.as_ref().unwrap().states["outbound"];
    let shown = format!(
        "| fresh full, waste empty | {} lb, {}: right |",
        crate::report::figure(outbound.tongue_lb, 0),
        crate::report::percent(outbound.tongue_fraction)
    );
    let markdown = Papers::of(&build, &report).markdown();
    assert!(markdown.contains(&shown), "{shown}");
}

#[test]
fn many_parts_and_long_names_are_no_trouble() {
    let mut build = heron();
    for i in 0..60 {
        build["parts"][format!("{i:02}_{}", "long_name_".repeat(6))] =
            json!({"mass_lb": 4, "x_in": 48.0 + 3.0 * f64::from(i)});
    }
    build["name"] = "W".repeat(200).into();
    let html = papers(&build).html();
    assert_well_formed(&html);
    assert!(html.contains("lighter ones"));
    for states in [Value::Null, json!({}), json!({"only": {}})] {
        build["states"] = states;
        if build["states"].is_null() {
            build.as_object_mut().unwrap().remove("states");
        }
        assert_well_formed(&papers(&build).html());
    }
}

#[test]
fn a_toy_is_not_sent_where_a_limit_is_broken() {
    let heron = papers(&heron()).markdown();
    assert!(
        heron.contains("Stand it (690 lb) with the middle of its weight 195 in behind the ball, 45 in ahead"),
        "{heron}"
    );
    let pika: Value = serde_json::from_str(include_str!("../../../../tests/builds/pika.json")).unwrap();
    let pika = papers(&pika).markdown();
    assert!(pika.contains("Do not load it (245 lb) where the list has it, 122 in behind the ball"), "{pika}");
    assert!(!pika.contains("propane full, no water"), "{pika}");
}
