//! Scores as columns of Arrow.

use std::sync::Arc;

use arrow_array::builder::LargeStringBuilder;
use arrow_array::{ArrayRef, Float64Array, RecordBatch, RecordBatchOptions, new_null_array};
use arrow_schema::{ArrowError, DataType, Field, Schema};
use wainwright::batch::{RowError, Scored};

/// The column of what is wrong with each row.
pub const ERRORS: &str = "errors";

/// A column for each score, and after them what is wrong with each row: null where nothing is.
///
/// - `rows`    how many rows there are
/// - `scores`  the names of the scores
///
/// # Errors
///
/// Never, as long as every score has a figure for each row.
pub fn scored(rows: usize, scores: &[String], scored: Scored) -> Result<RecordBatch, ArrowError> {
    let mut fields: Vec<Field> =
        scores.iter().map(|name| Field::new(name, DataType::Float64, true)).collect();
    fields.push(Field::new(ERRORS, DataType::LargeUtf8, true));
    let mut columns: Vec<ArrayRef> = scored.scores.into_iter().zip(scored.whole).map(figures).collect();
    columns.push(errors(rows, &scored.errors));
    let options = RecordBatchOptions::new().with_row_count(Some(rows));
    RecordBatch::try_new_with_options(Arc::new(Schema::new(fields)), columns, &options)
}

/// What is wrong with each row, null where nothing is.
fn errors(rows: usize, told: &[RowError]) -> ArrayRef {
    if told.is_empty() {
        return new_null_array(&DataType::LargeUtf8, rows);
    }
    let mut errors = LargeStringBuilder::with_capacity(rows, 0);
    let mut next = told.iter().peekable();
    for row in 0..rows {
        match next.next_if(|error| error.row as usize == row) {
            Some(error) if error.subject.is_empty() => errors.append_value(&error.message),
            Some(error) => errors.append_value(format!("{} {}", error.subject, error.message)),
            None => errors.append_null(),
        }
        // One is told of each row.
        while next.next_if(|error| error.row as usize == row).is_some() {}
    }
    Arc::new(errors.finish())
}

/// A figure a row, null where there is none.
fn figures((figures, is_whole): (Vec<f64>, bool)) -> ArrayRef {
    if is_whole {
        return Arc::new(Float64Array::from(figures));
    }
    Arc::new(figures.into_iter().map(|figure| figure.is_finite().then_some(figure)).collect::<Float64Array>())
}
