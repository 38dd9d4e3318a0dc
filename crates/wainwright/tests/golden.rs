//! What people read of the demo builds. A change of words shows in review as a change of these files.
//!
//! `UPDATE_GOLDEN=1 cargo test -p wainwright --test golden` writes them anew.

#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::path::Path;

use wainwright::Build;
use wainwright::question::{Answer, ForEachQuestion, Question, ask, for_each_question};

struct Golden<'a> {
    name: &'a str,
    build: Build,
}

impl ForEachQuestion for Golden<'_> {
    fn question<Q: Question>(&mut self) {
        let mut text = String::new();
        ask::<Q>(&self.build).unwrap().write_text(&mut text).unwrap();
        let file = format!("tests/golden/{}.{}.txt", self.name, Q::NAME);
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(&file);
        if std::env::var_os("UPDATE_GOLDEN").is_some() {
            std::fs::write(&path, &text).unwrap();
        }
        let golden = std::fs::read_to_string(&path).unwrap_or_default();
        let pairs = golden.lines().zip(text.lines()).enumerate();
        if let Some((line, (was, is))) = pairs.into_iter().find(|(_, (was, is))| was != is) {
            panic!("{file}, line {}:\n was: {was}\n is:  {is}", line + 1);
        }
        assert_eq!(golden.lines().count(), text.lines().count(), "{file}");
    }
}

fn check(name: &str, json: &str) {
    for_each_question(&mut Golden { name, build: Build::from_json(json.as_bytes()).unwrap() });
}

#[test]
fn heron_reads_as_before() {
    check("heron", include_str!("../../../tests/builds/heron.json"));
}

#[test]
fn bison_reads_as_before() {
    check("bison", include_str!("../../../tests/builds/bison.json"));
}

#[test]
fn pika_reads_as_before() {
    check("pika", include_str!("../../../tests/builds/pika.json"));
}
