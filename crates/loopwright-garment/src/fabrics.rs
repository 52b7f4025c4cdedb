use crate::Error;
use loopwright_gauge::{Gauge, Repeat, SwatchGauge};
use loopwright_pattern::Fabric;

/// The gauge of each fabric in the garment.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
#[non_exhaustive]
pub struct Fabrics {
    /// The gauge of stocking stitch.
    pub plain: Gauge,
    /// The same with its error, as far as the swatch tells it.
    pub measured: SwatchGauge,
    /// The gauge of the ribs, stretched as they are worn.
    pub rib: Gauge,
    /// Knit and purl stitches in one repeat of the rib.
    pub rib_repeat: (u8, u8),
}

impl Fabrics {
    /// Stocking stitch at `gauge`, and 2x2 ribs taken to have the same gauge, until
    /// [`Fabrics::ribbed`] says better.
    #[must_use]
    pub fn plain(gauge: Gauge) -> Self {
        Self::swatched(gauge.into())
    }

    /// The same from a swatch, whose error the finished measures will tell.
    #[must_use]
    pub const fn swatched(measured: SwatchGauge) -> Self {
        let plain = measured.gauge();
        Self { plain, measured, rib: plain, rib_repeat: (2, 2) }
    }

    /// The same with ribs of `repeat` knit and purl stitches at `gauge`.
    #[must_use]
    pub const fn ribbed(self, repeat: (u8, u8), gauge: Gauge) -> Self {
        Self { rib: gauge, rib_repeat: repeat, ..self }
    }

    /// The rib as a fabric.
    #[must_use]
    pub const fn rib_fabric(&self) -> Fabric {
        Fabric::Rib { knit: self.rib_repeat.0, purl: self.rib_repeat.1 }
    }

    /// Stitches in one repeat of the rib.
    pub(crate) fn rib_stitches(&self) -> u32 {
        let (knit, purl) = self.rib_repeat;
        u32::from(knit) + u32::from(purl)
    }

    /// The counts at which a flat rib shows knit at both edges.
    pub(crate) fn rib_counts(&self) -> Result<Repeat, Error> {
        Ok(Repeat::multiple_of(self.rib_stitches())?.plus(self.rib_repeat.0.into())?)
    }

    /// The gauge of a fabric.
    #[must_use]
    pub const fn of(&self, fabric: Fabric) -> Gauge {
        match fabric {
            Fabric::Rib { .. } => self.rib,
            _ => self.plain,
        }
    }
}
