//! JSON Schema of what is written as text; the other types derive theirs from the fields
//! they are written with.

use crate::{
    Area, ArealMass, EdgeRule, LinearDensity, LoopConstants, LoopsPerArea, Margin, Mass,
    RelaxedFabric, Yarn, YarnQuantity,
};
use alloc::borrow::Cow;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};

macro_rules! as_text {
    ($($name:ident: $description:literal, $($example:literal),+;)*) => {$(
        impl JsonSchema for $name {
            fn schema_name() -> Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({
                    "type": "string",
                    "description": $description,
                    "examples": [$($example),+],
                })
            }
        }
    )*};
}

as_text! {
    Area: "An area: a number and mm2, cm2, m2 or in2.", "300 cm2", "1120 in2";
    ArealMass: "What an area of fabric weighs.", "160 g/m2", "4.7 oz/yd2";
    EdgeRule: "How the yarn of an edge is reckoned.", "2 rows", "four widths", "7 in in 10 stitches";
    LinearDensity: "A yarn by its number and system, or its length per weight.", "71 3/7 tex", "2/28 Nm";
    LoopConstants: "The loop constants of a fabric, by its structure and relaxation.", "plain, wet";
    LoopsPerArea: "How many loops lie in an area of fabric.", "233 loops/cm2", "378 loops/in2";
    Margin: "What is bought beyond the amount.", "nothing", "10 %", "1 package more";
    Mass: "A number and its unit: mg, gr, g, kg, oz or lb.", "50 g", "1 3/4 oz";
    RelaxedFabric: "A structure and how far it has relaxed.", "plain, wet", "1x1 rib, unknown";
    Yarn: "A yarn by its number and system, or its length per weight.", "2/28 Nm", "450 m/100 g";
    YarnQuantity: "Yarn by its length or its weight.", "120 m", "63 g";
}
