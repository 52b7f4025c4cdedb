//! JSON Schema of what is written as text or as a bounded number; the other types
//! derive theirs from the fields they are written with.

use crate::{Choice, Ease, Exact, Gauge, Length, PerLength, Reading, Rows, Stitches, bounds};
use alloc::borrow::Cow;
use alloc::format;
use alloc::vec::Vec;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};

/// The type of a schema's name.
///
/// # Examples
/// ```
/// let name: loopwright_gauge::schema::Text = "Round".into();
/// assert_eq!(name.len(), 5);
/// ```
pub type Text = Cow<'static, str>;

/// One of the names of a choice, each with what it means: what
/// [`choices!`](crate::choices) describes itself by.
///
/// # Examples
/// ```
/// use loopwright_gauge::{Parity, schema::of_choice};
/// let schema = of_choice::<Parity>();
/// assert_eq!(schema.as_value()["oneOf"].as_array().map(Vec::len), Some(2));
/// ```
#[must_use]
pub fn of_choice<C: Choice>() -> Schema {
    let one = |choice: &C| {
        json_schema!({
            "type": "string",
            "const": choice.name(),
            "description": choice.about(),
        })
    };
    let all: Vec<Schema> = C::ALL.iter().map(one).collect();
    json_schema!({ "oneOf": all })
}

/// A number as it is written: whole, decimal, fraction, mixed.
const NUMBER: &str = "-?([0-9]+([.,][0-9]+|/[0-9]+|( [0-9]+/[0-9]+)|( ?[¼-¾⅐-⅞]))?|[¼-¾⅐-⅞])";
const UNIT: &str = "([A-Za-z]+|[\"'″′])";

macro_rules! as_text {
    ($($name:ident: $types:tt, $pattern:expr, $description:literal, $($example:literal),+;)*) => {$(
        impl JsonSchema for $name {
            fn schema_name() -> Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({
                    "type": $types,
                    "pattern": $pattern,
                    "description": $description,
                    "examples": [$($example),+],
                })
            }
        }
    )*};
}

as_text! {
    Exact: ["string", "number"], format!("^{NUMBER}$"), "An exact number: a whole number, a decimal, a fraction or a mixed number.", "12", "12.5", "3/4", "20 1/2";
    Length: "string", format!("^{NUMBER} ?{UNIT}( .+)?$"), "A number and its unit: mm, cm, m, in, ft or yd.", "52 cm", "20 1/2 in", "5 ft 4 in";
    Gauge: "string", format!("^{NUMBER}( ?[xX×] ?{NUMBER})? ?/ ?({NUMBER} ?)?{UNIT}$"), "Stitches x rows / length; the rows may be left out.", "28 x 40 / 10 cm", "5.5x8/1in", "28/10cm";
    PerLength: "string", format!("^{NUMBER} ?/ ?({NUMBER} ?)?{UNIT}$"), "A count / length.", "28 / 10 cm", "5.5/1in";
    Reading: "string", format!("^ *{NUMBER} ?[A-Za-z]+ *= *{NUMBER} ?{UNIT}.*$"), "A count of stitches or rows = a length.", "40 st = 13.3 cm", "60 rows = 15.4 cm";
    Ease: "string", format!("^{NUMBER} ?(%|{UNIT}.*)$"), "A length or a percentage of the body, negative too.", "5 cm", "-10 %";
}

macro_rules! as_count {
    ($($name:ident),*) => {$(
        impl JsonSchema for $name {
            fn schema_name() -> Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({ "type": "integer", "minimum": 0, "maximum": bounds::COUNT })
            }
        }
    )*};
}

as_count!(Stitches, Rows);
