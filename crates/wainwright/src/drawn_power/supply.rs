//! What feeds a circuit in a supply mode.

use crate::build::{Build, Mode, Source, SourceKind};

/// What feeds a circuit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Supply<'b> {
    /// The build says nothing of circuits: whatever there is.
    Unsaid,
    /// A source, by its position among the sources.
    Source(usize, &'b Source),
}

/// What feeds a circuit in a mode; none where nothing does. Without modes the only source feeds every circuit.
///
/// - `mode`     the supply mode, where the build has modes
/// - `circuit`  the circuit's id
pub fn supply<'b>(build: &'b Build, mode: Option<&Mode>, circuit: &str) -> Option<Supply<'b>> {
    let Some(electrical) = &build.electrical else { return Some(Supply::Unsaid) };
    let sources = electrical.sources.as_ref()?;
    let name = match mode {
        Some(mode) => {
            let feeder = || electrical.circuits.as_ref()?.get(circuit)?.feeder.as_ref();
            mode.feeds.get(circuit).or_else(|| mode.feeds.get(feeder()?))?
        }
        None => sources.first()?.0,
    };
    let (index, _, source) = sources.get_full(name)?;
    Some(Supply::Source(index, source))
}

/// Does shore power or a generator feed a circuit in a mode?
pub fn has_supply(build: &Build, mode: &Mode) -> bool {
    let sources = build.electrical.as_ref().and_then(|electrical| electrical.sources.as_ref());
    let is_supply = |name: &String| {
        let kind = sources.and_then(|sources| Some(sources.get(name)?.kind));
        matches!(kind, Some(SourceKind::Shore | SourceKind::Generator))
    };
    mode.feeds.values().any(is_supply)
}
