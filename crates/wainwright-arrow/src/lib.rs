//! Tables of Arrow: their columns as the cells of a batch, and what comes of it as columns again.

mod columns;
mod scored;
pub mod stream;

pub use columns::table;
pub use scored::{ERRORS, scored};
