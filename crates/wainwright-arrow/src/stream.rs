//! Tables as streams of bytes: Arrow's IPC streaming format.

use std::io::Cursor;

use arrow_array::RecordBatch;
use arrow_ipc::reader::StreamReader;
use arrow_ipc::writer::StreamWriter;
use arrow_schema::{ArrowError, SchemaRef};

/// The media type of such a stream.
pub const MEDIA_TYPE: &str = "application/vnd.apache.arrow.stream";

/// Reads a table.
///
/// # Errors
///
/// The bytes are no such stream.
pub fn read(bytes: &[u8]) -> Result<(SchemaRef, Vec<RecordBatch>), ArrowError> {
    let reader = StreamReader::try_new(Cursor::new(bytes), None)?;
    let schema = reader.schema();
    Ok((schema, reader.collect::<Result<_, _>>()?))
}

/// Writes a table of one batch.
///
/// # Errors
///
/// Never, as long as it fits into memory.
pub fn write(batch: &RecordBatch) -> Result<Vec<u8>, ArrowError> {
    let mut bytes = Vec::new();
    let mut writer = StreamWriter::try_new(&mut bytes, &batch.schema())?;
    writer.write(batch)?;
    writer.finish()?;
    drop(writer);
    Ok(bytes)
}
