//! The hand-over papers of the demonstration builds as they are read.
//!
//! `UPDATE_GOLDEN=1 cargo test -p wainwright --test papers` writes them anew.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::path::Path;

use wainwright::Build;
use wainwright::evaluate::Evaluate;
use wainwright::papers::Papers;
use wainwright::question::Question;

fn check(name: &str, json: &str) {
    let build = Build::from_json(json.as_bytes()).unwrap();
    let text = Papers::of(&build, &Evaluate::answer(&build)).markdown();
    let file = format!("tests/golden/{name}.papers.md");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(&file);
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(&path, &text).unwrap();
    }
    let golden = std::fs::read_to_string(&path).unwrap_or_default();
    for (line, (was, is)) in golden.lines().zip(text.lines()).enumerate() {
        assert_eq!(was, is, "{file}, line {}", line + 1);
    }
    assert_eq!(golden.lines().count(), text.lines().count(), "{file}");
}

#[test]
fn the_papers_of_heron_read_as_before() {
    check("heron", include_str!("../../../tests/builds/heron.json"));
}

#[test]
fn the_papers_of_bison_read_as_before() {
    check("bison", include_str!("../../../tests/builds/bison.json"));
}

#[test]
fn the_papers_of_pika_read_as_before() {
    check("pika", include_str!("../../../tests/builds/pika.json"));
}
