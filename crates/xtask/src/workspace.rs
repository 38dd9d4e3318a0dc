//! Where things are.

use std::path::{Path, PathBuf};

/// The folder of the workspace's `Cargo.toml`.
pub fn root() -> &'static Path {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).unwrap_or(here)
}

/// The target folder, wherever cargo was told to put it: this program stands in `TARGET/debug`.
pub fn target() -> PathBuf {
    let program = std::env::current_exe().ok();
    let target = program.as_deref().and_then(|program| program.ancestors().nth(2));
    target.map_or_else(|| root().join("target"), Path::to_path_buf)
}

/// The service's program, as `cargo build` leaves it.
pub fn service() -> PathBuf {
    target().join("debug").join(format!("wainwright{}", std::env::consts::EXE_SUFFIX))
}
