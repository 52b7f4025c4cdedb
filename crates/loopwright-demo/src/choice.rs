//! One parser for every choice the libraries offer: their own words, with hyphens.

use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use loopwright::gauge::{Choice, Error};

/// Reads a choice; help lists its names with what each means.
pub(crate) fn choice<C: Choice + Send + Sync>() -> impl TypedValueParser<Value = C> {
    let value = |choice: &C| {
        let also = choice.also().iter().filter(|word| word.is_ascii()).map(|word| hyphened(word));
        PossibleValue::new(hyphened(choice.name())).aliases(also).help(choice.about())
    };
    let values: Vec<PossibleValue> = C::ALL.iter().map(value).collect();
    PossibleValuesParser::new(values).try_map(|text| -> Result<C, Error> { C::read(&text) })
}

/// A name as an option writes it.
pub(crate) fn hyphened(name: &str) -> String {
    name.replace(' ', "-")
}
