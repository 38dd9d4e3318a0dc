//! Solar irradiance by where it comes from.

/// Irradiance of one moment in its three usual measures: `ghi = dni cos θz + dhi`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Irradiance {
    /// Global: all that falls on a horizontal plane [W/m²].
    pub ghi_w_m2: f64,
    /// Direct normal: what comes straight from the sun, on a plane that faces it [W/m²].
    pub dni_w_m2: f64,
    /// Diffuse: what comes from the rest of the sky, on a horizontal plane [W/m²].
    pub dhi_w_m2: f64,
}

impl Irradiance {
    /// Night.
    pub const DARK: Self = Self::overcast(0.0);

    /// No beam: all there is comes from the whole sky.
    ///
    /// - `ghi_w_m2`  global horizontal irradiance [W/m²], 0 or more
    pub const fn overcast(ghi_w_m2: f64) -> Self {
        Self { ghi_w_m2, dni_w_m2: 0.0, dhi_w_m2: ghi_w_m2 }
    }
}
