//! Which sources are live in a mode, what they feed on, and whether energy goes round in a circle.

use super::wiring::{Index, Load, Switching, Wiring};

/// The source that another takes its power from in this mode; `None` where it brings its own, and where its
/// circuit is off.
pub fn upstream(wiring: &Wiring, mode: &Switching, source: Index) -> Option<Index> {
    let supply = &wiring.sources[source];
    match supply.circuit {
        Some(circuit) => mode.feeds[circuit],
        None => supply.battery,
    }
}

/// A source, what it feeds on, and so on up to one that brings its own power. It ends after as many steps as there
/// are sources, so that a circle of sources ends too.
pub fn chain(wiring: &Wiring, mode: &Switching, source: Index) -> impl Iterator<Item = Index> {
    std::iter::successors(Some(source), move |&source| upstream(wiring, mode, source))
        .take(wiring.sources.len())
}

/// Can a source give power in this mode? It can where its chain ends at a source that brings its own.
pub fn is_live(wiring: &Wiring, mode: &Switching, source: Index) -> bool {
    let brings_its_own = |source: Index| {
        let supply = &wiring.sources[source];
        supply.circuit.is_none() && supply.battery.is_none()
    };
    chain(wiring, mode, source).any(brings_its_own)
}

/// How many sources a source has above it: a source's own current is known once all below it are.
pub fn depth(wiring: &Wiring, mode: &Switching, source: Index) -> usize {
    chain(wiring, mode, source).count()
}

/// Does a charger, fed by `source`, charge what `source` feeds on? Then the battery pays for its own charge.
pub fn charges_its_own_source(
    wiring: &Wiring,
    mode: &Switching,
    charger: &Load,
    source: Index,
) -> Option<Index> {
    let battery = charger.charges?;
    chain(wiring, mode, source).any(|above| above == battery).then_some(battery)
}

/// Share of the power from a battery that arrives at `source`, which feeds on it through inverters.
pub fn efficiency_from(wiring: &Wiring, mode: &Switching, source: Index, battery: Index) -> f64 {
    let between = chain(wiring, mode, source).take_while(|&above| above != battery);
    between.map(|above| super::defaults::inverter_losses(wiring.sources[above].source).1).product()
}
