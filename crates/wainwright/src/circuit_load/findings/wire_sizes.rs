//! The size of wire that a remedy names: by the rule that is broken, and one that is made.

use crate::circuit_load::conductor::made;
use crate::circuit_load::sizing::{Sizing, ampacity_a};
use crate::circuit_load::wiring::Conductors;
use crate::standards::size::Size;

/// A wire, what it was worked out to, and the table it goes by.
pub(super) struct WireSizes<'a> {
    pub wire: &'a Conductors,
    pub sizing: &'a Sizing,
    pub voltage_v: f64,
    pub by_code: bool,
}

impl WireSizes<'_> {
    /// The smallest for what flows and for the device ahead, whatever it loses.
    pub fn by_current(&self) -> Option<Size> {
        self.made(self.sizing.by_ampacity?.max(self.sizing.by_device?))
    }

    /// The smallest that loses little enough.
    pub fn by_drop(&self) -> Option<Size> {
        self.made(self.sizing.by_drop?)
    }

    /// Would a wire do, if only the device ahead of it were smaller?
    pub fn device_is_too_large(&self) -> bool {
        self.by_current().is_none() && self.sizing.by_ampacity.is_some_and(|size| self.made(size).is_some())
    }

    /// The size itself, or the next larger one that its table has; no smaller than was asked for, if it has so large a
    /// one.
    fn made(&self, size: Size) -> Option<Size> {
        let is_made = |size: Size| {
            self.wire.areas.area_mm2(size).is_some()
                && ampacity_a(self.wire, size, self.voltage_v, self.by_code).is_some()
        };
        made(size.max(self.wire.minimum), is_made).or_else(|| made(size, is_made))
    }
}
