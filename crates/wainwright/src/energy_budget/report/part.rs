//! A few figures of the report without the rest, for who asks many builds for no more.

use serde_json::{Map, Value, json};

use super::fill::{month_balance, per_day};
use crate::build::Build;
use crate::energy_budget::balance;
use crate::energy_budget::numbers::first_autonomy;
use crate::energy_budget::setup::Setup;

/// Members of the report that follow from the books alone.
const OF_BOOKS: [&str; 3] = ["load_wh_per_day", "months", "total"];
/// The member that is how long the battery lasts from the start of the stay on.
const AUTONOMY: &str = "autonomy_h";

/// The report with these members alone, each as in the whole; none where another is wanted.
///
/// Most of the time of the whole goes into the smallest array and bank.
///
/// - `wanted`  the first key of each figure's path
pub fn part(build: &Build, wanted: &[&str]) -> Option<Value> {
    if !wanted.iter().all(|key| *key == AUTONOMY || OF_BOOKS.contains(key)) {
        return None;
    }
    let setup = Setup::of(build)?;
    let mut members = Map::new();
    if wanted.contains(&AUTONOMY) {
        members.insert(AUTONOMY.to_owned(), json!(first_autonomy(build, &setup).hours_h));
    }
    if wanted.iter().any(|key| OF_BOOKS.contains(key)) {
        let sums = balance::add_up(&setup, |_, _| {});
        let months: Vec<_> = sums.months.iter().map(|month| month_balance(&setup, month)).collect();
        members.insert("load_wh_per_day".to_owned(), json!(per_day(&setup, sums.whole.load_wh)));
        members.insert("months".to_owned(), json!(months));
        members.insert("total".to_owned(), json!(month_balance(&setup, &sums.whole)));
    }
    Some(members.into())
}
