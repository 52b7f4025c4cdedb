//! serde through the same doors as `new`: quantities as text.

use crate::{
    Area, ArealMass, EdgeRule, LinearDensity, LoopConstants, LoopsPerArea, Margin, Mass,
    RelaxedFabric, Yarn, YarnQuantity,
};
use alloc::borrow::Cow;
use alloc::string::ToString;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

macro_rules! as_text {
    ($($name:ty),*) => {$(
        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(&self.to_string())
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text: Cow<'_, str> = Cow::deserialize(deserializer)?;
                text.parse().map_err(D::Error::custom)
            }
        }
    )*};
}

as_text!(
    Area,
    ArealMass,
    EdgeRule,
    LinearDensity,
    LoopConstants,
    LoopsPerArea,
    Margin,
    Mass,
    RelaxedFabric,
    Yarn,
    YarnQuantity
);
