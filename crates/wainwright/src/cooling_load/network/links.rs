//! The network with its surface node eliminated.

use super::nodes::{Drive, Network};

impl Network {
    /// The network with its surface node eliminated.
    pub(super) fn links(&self, ventilation_w_k: f64) -> Links {
        let to_surface_w_k = [self.surface_to_air_w_k, self.mass_to_surface_w_k, self.floor_load_w_k()];
        let per_total = 1.0 / (to_surface_w_k.iter().sum::<f64>() + self.windows_w_k);
        let share = to_surface_w_k.map(|conductance_w_k| conductance_w_k * per_total);
        let windows_w_k = self.windows_w_k;
        Links {
            share,
            between: [
                share[0] * to_surface_w_k[1],
                share[0] * to_surface_w_k[2],
                share[1] * to_surface_w_k[2],
            ],
            out: [
                share[0] * windows_w_k + ventilation_w_k,
                share[1] * windows_w_k + self.outside_to_mass_w_k,
                share[2] * windows_w_k,
            ],
            windows_w_k,
            ventilation_w_k,
            outside_to_mass_w_k: self.outside_to_mass_w_k,
        }
    }
}

/// A network with its surface node eliminated: a star turned into a mesh. In the order air, mass, load on the floor.
///
/// Source: star-mesh transformation of conductances.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Links {
    /// Share of heat into the surfaces that goes to each, while none moves.
    share: [f64; 3],
    /// Air to mass, air to load, mass to load [W/K].
    pub between: [f64; 3],
    /// From each to the outside, whatever the way [W/K].
    pub out: [f64; 3],
    windows_w_k: f64,
    /// As in [`Network::response`].
    pub ventilation_w_k: f64,
    outside_to_mass_w_k: f64,
}

impl Links {
    /// Heat into each capacity from all that drives the network, each standing at 0 °C [W].
    #[inline]
    pub fn heat_w(&self, drive: &Drive) -> [f64; 3] {
        let surface_w = self.windows_w_k * drive.outdoor_c + drive.surface_w;
        [
            self.share[0] * surface_w + self.ventilation_w_k * drive.supply_c + drive.air_w,
            self.share[1] * surface_w + self.outside_to_mass_w_k * drive.equivalent_c + drive.mass_w,
            self.share[2] * surface_w + drive.floor_load_w,
        ]
    }
}
