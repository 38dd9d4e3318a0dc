//! Columns of Arrow as cells.

use std::borrow::Cow;

use arrow_array::cast::AsArray;
use arrow_array::types::Float64Type;
use arrow_array::{Array, ArrayRef, RecordBatch};
use arrow_cast::cast;
use arrow_schema::{DataType, Schema};
use indexmap::IndexSet;
use wainwright::Refusal;
use wainwright::batch::Cells;
use wainwright::document::{FaultCode, Faults, Place};

/// Columns by name, and how many rows they have.
pub type Columns<'b> = (Vec<(&'b str, Cells<'b>)>, usize);

/// The columns of a table with their cells, and how many rows there are.
///
/// Chunks are put together; a single one of 64-bit floats is taken as it stands.
///
/// # Errors
///
/// Every column that holds neither numbers nor text nor true and false, with its pointer under `/columns`.
pub fn table<'b>(schema: &'b Schema, batches: &'b [RecordBatch]) -> Result<Columns<'b>, Refusal> {
    let rows = batches.iter().map(RecordBatch::num_rows).sum();
    let (mut columns, mut faults, root) = (Vec::new(), Faults::default(), Place::ROOT);
    let list = root.key("columns");
    for (index, field) in schema.fields().iter().enumerate() {
        let chunks: Vec<&ArrayRef> = batches.iter().map(|batch| batch.column(index)).collect();
        match cells(field.data_type(), &chunks) {
            Some(cells) => columns.push((field.name().as_str(), cells)),
            None => {
                let holds = field.data_type();
                let detail = format!("must hold numbers, text, or true and false; it holds {holds}");
                faults.add(&list.key(field.name()), FaultCode::WrongType, detail);
            }
        }
    }
    faults.into_result().map(|()| (columns, rows))
}

/// The cells of a column; none where it holds what no batch takes.
fn cells<'b>(holds: &DataType, chunks: &[&'b ArrayRef]) -> Option<Cells<'b>> {
    match holds {
        DataType::Dictionary(_, values) => match **values {
            DataType::Utf8 | DataType::LargeUtf8 | DataType::Utf8View => texts(chunks),
            ref other if is_number(other) => numbers(chunks),
            DataType::Boolean => flags(chunks),
            _ => None,
        },
        DataType::Utf8 | DataType::LargeUtf8 | DataType::Utf8View => texts(chunks),
        DataType::Boolean => flags(chunks),
        DataType::Null => {
            let rows = chunks.iter().map(|chunk| chunk.len()).sum();
            Some(Cells::Numbers { values: Cow::Owned(vec![f64::NAN; rows]), nulls: Some(vec![true; rows]) })
        }
        other if is_number(other) => numbers(chunks),
        _ => None,
    }
}

fn is_number(holds: &DataType) -> bool {
    use DataType::{Decimal32, Decimal64, Decimal128, Decimal256};
    holds.is_numeric() || matches!(holds, Decimal32(..) | Decimal64(..) | Decimal128(..) | Decimal256(..))
}

/// The same values of another type; none where they cannot be.
fn cast_to(chunk: &ArrayRef, to: &DataType) -> Option<ArrayRef> {
    if chunk.data_type() == to { Some(ArrayRef::clone(chunk)) } else { cast(chunk, to).ok() }
}

fn numbers<'b>(chunks: &[&'b ArrayRef]) -> Option<Cells<'b>> {
    if let [one] = chunks
        && let Some(floats) = one.as_primitive_opt::<Float64Type>()
    {
        return Some(Cells::Numbers { values: Cow::Borrowed(&floats.values()[..]), nulls: nulls(chunks) });
    }
    let mut values = Vec::with_capacity(chunks.iter().map(|chunk| chunk.len()).sum());
    for chunk in chunks {
        let floats = cast_to(chunk, &DataType::Float64)?;
        values.extend_from_slice(floats.as_primitive_opt::<Float64Type>()?.values());
    }
    Some(Cells::Numbers { values: Cow::Owned(values), nulls: nulls(chunks) })
}

/// Where there is no value; none where there is one everywhere.
fn nulls(chunks: &[&ArrayRef]) -> Option<Vec<bool>> {
    let is_one = chunks.iter().any(|chunk| chunk.logical_null_count() > 0);
    let all = chunks.iter().flat_map(|chunk| {
        let nulls = chunk.logical_nulls();
        (0..chunk.len()).map(move |row| nulls.as_ref().is_some_and(|nulls| nulls.is_null(row)))
    });
    is_one.then(|| all.collect())
}

fn texts<'b>(chunks: &[&ArrayRef]) -> Option<Cells<'b>> {
    let (mut words, mut cells): (IndexSet<String>, Vec<Option<u32>>) = Default::default();
    for chunk in chunks {
        let texts = cast_to(chunk, &DataType::LargeUtf8)?;
        for text in texts.as_string_opt::<i64>()? {
            cells.push(text.map(|text| {
                words.get_index_of(text).unwrap_or_else(|| words.insert_full(text.to_owned()).0) as u32
            }));
        }
    }
    let words = words.into_iter().collect();
    Some(Cells::Texts { words, cells })
}

fn flags<'b>(chunks: &[&ArrayRef]) -> Option<Cells<'b>> {
    let mut cells = Vec::new();
    for chunk in chunks {
        cells.extend(cast_to(chunk, &DataType::Boolean)?.as_boolean_opt()?.iter());
    }
    Some(Cells::Flags(cells))
}
