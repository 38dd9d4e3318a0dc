//! Which figures and words of two answers differ.

use serde_json::Value;

use super::report::{FigureChange, WordChange};
use crate::figures::{names, unit};

/// Figures that differ by no more than this share of themselves differ by rounding.
const ROUNDING: f64 = 1e-12;
/// Members of answers that are compared by themselves, or not at all.
const APART: &[&str] = &["findings", "assumptions", "cautions", "engine"];
/// Members that are sentences for people.
const SENTENCES: &[&str] = &["summary", "sentence"];

/// What differs.
#[derive(Debug, Default)]
pub struct Differences {
    /// Figures, in the order of the answers.
    pub figures: Vec<FigureChange>,
    /// Words, in the order of the answers.
    pub words: Vec<WordChange>,
}

/// What differs between two answers of evaluate.
pub fn differences(before: &Value, after: &Value) -> Differences {
    let mut differences = Differences::default();
    walk(before, after, &mut Vec::new(), &mut differences);
    for change in &mut differences.figures {
        change.unit = unit("evaluate", &change.path.split('.').collect::<Vec<_>>());
    }
    differences
}

fn walk(before: &Value, after: &Value, path: &mut Vec<String>, into: &mut Differences) {
    let of = |kind: fn(&Value) -> bool| kind(before) || kind(after);
    if of(Value::is_object) {
        for key in keys(before, after) {
            step(&before[key], &after[key], key, path, into);
        }
    } else if of(Value::is_array) {
        list(before, after, path, into);
    } else if of(Value::is_number) {
        figure(before.as_f64(), after.as_f64(), path, into);
    } else {
        word(text(before), text(after), path, into);
    }
}

fn step(before: &Value, after: &Value, key: &str, path: &mut Vec<String>, into: &mut Differences) {
    path.push(key.to_owned());
    walk(before, after, path, into);
    path.pop();
}

/// The keys of the first, then those that the second alone has.
fn keys<'v>(before: &'v Value, after: &'v Value) -> impl Iterator<Item = &'v str> {
    let of = |value: &'v Value| value.as_object().into_iter().flat_map(|members| members.keys());
    let others = of(after).filter(|key| before.get(key.as_str()).is_none());
    let all = of(before).chain(others).map(String::as_str);
    all.filter(|key| !APART.contains(key) && !SENTENCES.contains(key))
}

fn list(before: &Value, after: &Value, path: &mut Vec<String>, into: &mut Differences) {
    let items = |value: &'_ Value| value.as_array().cloned().unwrap_or_default();
    let (some, others) = (items(before), items(after));
    let is_of_words = |items: &[Value]| items.iter().all(|item| !item.is_number() && !item.is_object());
    if is_of_words(&some) && is_of_words(&others) {
        return word(text(before), text(after), path, into);
    }
    match (names(&some), names(&others)) {
        (None, _) if !some.is_empty() => by_index(&some, &others, path, into),
        (_, None) if !others.is_empty() => by_index(&some, &others, path, into),
        (some_names, other_names) => {
            let (some_names, other_names) = (some_names.unwrap_or_default(), other_names.unwrap_or_default());
            let more = other_names.iter().filter(|name| !some_names.contains(name));
            for name in some_names.iter().chain(more) {
                let of = |names: &[&str], items: &[Value]| {
                    let index = names.iter().position(|other| other == name);
                    index.and_then(|index| items.get(index)).cloned().unwrap_or_default()
                };
                step(&of(&some_names, &some), &of(&other_names, &others), name, path, into);
            }
        }
    }
}

/// Items without names: of each figure in them the item with the greatest difference, and how many differ.
fn by_index(some: &[Value], others: &[Value], path: &mut Vec<String>, into: &mut Differences) {
    let mut greatest: indexmap::IndexMap<String, FigureChange> = indexmap::IndexMap::new();
    for index in 0..some.len().max(others.len()) {
        let item = |items: &[Value]| items.get(index).cloned().unwrap_or_default();
        let mut differences = Differences::default();
        let start = path.len() + 1;
        step(&item(some), &item(others), &index.to_string(), path, &mut differences);
        into.words.append(&mut differences.words);
        for change in differences.figures {
            let within = change.path.splitn(start + 1, '.').nth(start).unwrap_or_default().to_owned();
            let count = change.items.unwrap_or(1);
            let known =
                greatest.entry(within).or_insert_with(|| FigureChange { items: Some(0), ..change.clone() });
            let items = known.items.map(|items| items + count);
            let size = |change: &FigureChange| change.difference.map_or(f64::NEG_INFINITY, f64::abs);
            if size(&change) > size(known) {
                *known = change;
            }
            known.items = items;
        }
    }
    into.figures.extend(greatest.into_values());
}

fn figure(before: Option<f64>, after: Option<f64>, path: &[String], into: &mut Differences) {
    let difference = before.zip(after).map(|(before, after)| after - before);
    let is_rounding =
        |(before, after): (f64, f64)| (after - before).abs() <= ROUNDING * before.abs().max(after.abs());
    if !before.zip(after).is_some_and(is_rounding) {
        let path = path.join(".");
        into.figures.push(FigureChange { path, before, after, difference, unit: None, items: None });
    }
}

fn word(before: Option<String>, after: Option<String>, path: &[String], into: &mut Differences) {
    if before != after {
        into.words.push(WordChange { path: path.join("."), before, after });
    }
}

/// A word, true or false, or a list of them, as text.
fn text(value: &Value) -> Option<String> {
    match value {
        Value::String(text) => Some(text.clone()),
        Value::Bool(flag) => Some(flag.to_string()),
        Value::Array(items) => {
            let between = if items.iter().any(Value::is_array) { "; " } else { ", " };
            Some(items.iter().filter_map(text).collect::<Vec<_>>().join(between))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    type Told<'a> = (&'a str, Option<f64>, Option<f64>, Option<u32>);

    fn told(differences: &Differences) -> Vec<Told<'_>> {
        let all = differences.figures.iter();
        all.map(|change| (change.path.as_str(), change.before, change.after, change.items)).collect()
    }

    #[test]
    fn every_figure_that_differs_is_listed_in_the_order_of_the_answers() {
        let before =
            json!({"a": {"x_lb": 1.0, "y": 2.0, "gone": 4.0}, "none": null, "same": 3, "findings": [1]});
        let after = json!({"a": {"x_lb": 1.5, "y": 2.000_000_000_000_001}, "none": 7, "same": 3.0, "new": {"b": 5}, "findings": []});
        let expected = [
            ("a.x_lb", Some(1.0), Some(1.5), None),
            ("a.gone", Some(4.0), None, None),
            ("none", None, Some(7.0), None),
            ("new.b", None, Some(5.0), None),
        ];
        assert_eq!(told(&differences(&before, &after)), expected);
        let halved = differences(&json!({"x": 1.0}), &json!({"x": 0.5}));
        assert_eq!(halved.figures[0].difference, Some(-0.5));
    }

    #[test]
    fn of_a_list_the_item_with_the_greatest_difference_is_listed() {
        let hours = |shift: f64| -> Value {
            (0..24)
                .map(|hour| json!({"hour": hour, "w": f64::from(hour) * shift, "deep": [shift, 0.0]}))
                .collect()
        };
        let all = differences(&json!({"hours": hours(1.0)}), &json!({"hours": hours(2.0)}));
        let expected = [
            ("hours.0.deep.0", Some(1.0), Some(2.0), Some(24)),
            ("hours.23.w", Some(23.0), Some(46.0), Some(23)),
        ];
        assert_eq!(told(&all), expected);
        let longer = differences(&json!({"w": [1.0, 2.0]}), &json!({"w": [1.0, 2.5, 9.0]}));
        assert_eq!(told(&longer), [("w.1", Some(2.0), Some(2.5), Some(2))]);
    }

    #[test]
    fn items_with_names_are_matched_by_them() {
        let before = json!([{"category": "water", "mass_lb": 3}, {"category": "gas", "mass_lb": 2}]);
        let after = json!([{"category": "gas", "mass_lb": 5}, {"category": "bay", "mass_lb": 1}]);
        let all = differences(&json!({"of": before}), &json!({"of": after}));
        let expected = [
            ("of.water.mass_lb", Some(3.0), None, None),
            ("of.gas.mass_lb", Some(2.0), Some(5.0), None),
            ("of.bay.mass_lb", None, Some(1.0), None),
        ];
        assert_eq!(told(&all), expected);
    }

    #[test]
    fn words_that_differ_are_listed_and_sentences_are_not() {
        let before = json!({"awg": "14", "ok": true, "set": [["a", "b"], ["c"]], "summary": "Three."});
        let after = json!({"awg": "12", "ok": false, "set": [["a"]], "summary": "Four.", "kind": "x"});
        let words: Vec<_> = differences(&before, &after)
            .words
            .into_iter()
            .map(|word| (word.path, word.before.unwrap_or_default(), word.after.unwrap_or_default()))
            .collect();
        let expected =
            [("awg", "14", "12"), ("ok", "true", "false"), ("set", "a, b; c", "a"), ("kind", "", "x")];
        assert_eq!(words, expected.map(|(a, b, c)| (a.to_owned(), b.to_owned(), c.to_owned())));
    }
}
