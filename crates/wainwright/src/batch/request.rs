//! The request: a base, what varies in it row by row, and what is wanted of every row.

use std::borrow::Cow;

use serde_json::{Value, json};

use super::cells::Cells;
use crate::bounds;
use crate::document::{FaultCode, Faults, Inner, Keyed, List, Place, Text, echo, record};
use crate::options::catalogue::{BASE, GROUPS, Group};

record! {
    /// A base, and a table of what varies in it.
    pub struct BatchRequest: "a request for a batch" {
        /// The build that the columns vary. Left out, the base of the catalogue that is named.
        optional base: Value = BASE;
        /// Groups of options that columns may choose of. In their place `catalogue` may be given.
        optional groups: Keyed<Group> = GROUPS, json!({}), aside;
        /// A catalogue of the service's folder, by name.
        optional catalogue: String = bounds::NAME, "heron", aside;
        /// The columns by name, each a list with a cell a row. A path into the build, its keys joined by dots, holds numbers.
        /// The id of a group of which one may be chosen holds ids of its options, null for none; the id of an option holds
        /// true and false.
        required columns: Value = COLUMNS, json!({"parts.galley.mass_lb": [165, 180, 244]});
        /// The figures that are wanted of every row: each a path into an answer, a question first. Beside them `price_usd`
        /// and `broken_rule_count` of a choice of options.
        required scores: Vec<String> = List { of: Text { longest: 400 }, most: bounds::MOST_SCORES }, json!(["payload.states.outbound.payload_left_lb"]);
    }
}

record! {
    /// A base, and the options that columns may choose of, where the columns are given apart.
    pub struct BatchBase: "a base of a batch" {
        /// The build that the columns vary. Left out, the base of the catalogue that is named.
        optional base: Value = BASE;
        /// Groups of options that columns may choose of. In their place `catalogue` may be given.
        optional groups: Keyed<Group> = GROUPS, json!({}), aside;
        /// A catalogue by name.
        optional catalogue: String = bounds::NAME, "heron", aside;
    }
}

/// Columns by name.
const COLUMNS: Inner = Inner::lists();

/// The columns of a request, and how many rows they have.
///
/// What is wrong with them is noted, and they are left out.
pub fn columns<'r>(json: &'r Value, faults: &mut Faults) -> (Vec<(&'r str, Cells<'r>)>, usize) {
    let (root, mut rows) = (Place::ROOT, None);
    let at = root.key("columns");
    let mut columns = Vec::new();
    for (name, list) in json.as_object().into_iter().flatten() {
        let here = at.key(name);
        let Some(list) = list.as_array() else {
            faults.wrong_type(&here, "a list with a cell a row", kind(list));
            continue;
        };
        match rows {
            None => rows = Some((name, list.len())),
            Some((first, rows)) if rows != list.len() => {
                let detail = format!("must have {rows} cells, as {first} has; it has {}", list.len());
                faults.contradiction(&here, detail);
                continue;
            }
            Some(_) => {}
        }
        if list.len() > bounds::MOST_ROWS {
            let most = bounds::MOST_ROWS;
            let detail = format!("must have {most} rows or fewer; it has {}", list.len());
            if let Some(fault) = faults.add(&here, FaultCode::TooMany, detail) {
                fault.maximum = Some(most as f64);
            }
            continue;
        }
        columns.extend(cells(name, list, &here, faults).map(|cells| (name.as_str(), cells)));
    }
    (columns, rows.map_or(0, |(_, rows)| rows))
}

/// The cells of a list; none where they are not all alike, which is noted.
///
/// - `name`  that of the column: with a dot in it, it is a path, and holds numbers
fn cells(name: &str, list: &[Value], at: &Place, faults: &mut Faults) -> Option<Cells<'static>> {
    let first = list.iter().find(|cell| !cell.is_null());
    let is_mixed =
        list.iter().any(|cell| !cell.is_null() && first.is_some_and(|first| kind(cell) != kind(first)));
    if is_mixed {
        let wanted = if name.contains('.') { "a number" } else { first.map_or("null", kind) };
        let odd = list.iter().position(|cell| !cell.is_null() && kind(cell) != wanted).unwrap_or(0);
        faults.wrong_type(&at.index(odd), wanted, kind(&list[odd]));
        return None;
    }
    match first {
        Some(Value::String(_)) => {
            let mut words: indexmap::IndexSet<&str> = indexmap::IndexSet::new();
            let cells =
                list.iter().map(|cell| cell.as_str().map(|word| words.insert_full(word).0 as u32)).collect();
            Some(Cells::Texts { words: words.into_iter().map(str::to_owned).collect(), cells })
        }
        Some(Value::Bool(_)) => Some(Cells::Flags(list.iter().map(Value::as_bool).collect())),
        None | Some(Value::Number(_)) => {
            let nulls: Vec<bool> = list.iter().map(Value::is_null).collect();
            let values = list.iter().map(|cell| cell.as_f64().unwrap_or(f64::NAN)).collect();
            Some(Cells::Numbers { values: Cow::Owned(values), nulls: nulls.contains(&true).then_some(nulls) })
        }
        Some(other) => {
            let found = match other {
                Value::Array(_) => "lists".to_owned(),
                other => format!("an object, {}", echo(&other.to_string())),
            };
            faults.wrong_type(at, "a list of numbers, of text, or of true and false", &found);
            None
        }
    }
}

fn kind(value: &Value) -> &'static str {
    match value {
        Value::Null => "null",
        Value::Bool(_) => "true or false",
        Value::Number(_) => "a number",
        Value::String(_) => "text",
        Value::Array(_) => "a list",
        Value::Object(_) => "an object",
    }
}
