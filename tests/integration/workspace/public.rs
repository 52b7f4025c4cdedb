//! What a crate's root makes public, read from its `pub use` lists.

use super::sources;
use regex::Regex;
use std::path::PathBuf;

/// A public item of a room.
#[derive(Clone, Debug)]
pub(super) struct Item {
    pub(super) room: &'static str,
    pub(super) name: String,
    pub(super) kind: Kind,
    /// Its documentation, empty where it has none.
    pub(super) docs: String,
    /// Its attributes.
    pub(super) attributes: String,
}

#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(super) enum Kind {
    Type,
    Trait,
    Function,
    Constant,
}

/// The public items of a room: what its root takes from its modules, and what stands in
/// its public modules. What it takes from other crates is theirs.
pub(super) fn items(room: &'static str) -> Vec<Item> {
    let folder = format!("crates/loopwright-{room}/src");
    let sources = sources::rust_below(&folder);
    let top = code(&sources::text(&format!("{folder}/lib.rs")));
    let mut names = used(&top);
    for module in modules(&top) {
        let path = [format!("{folder}/{module}.rs"), format!("{folder}/{module}/mod.rs")]
            .into_iter()
            .find(|path| sources::root().join(path).exists())
            .unwrap_or_else(|| panic!("{folder}: no file of the public module {module}"));
        let text = sources::text(&path);
        names.extend(used(&code(&text)));
        names.extend(declared(&text));
    }
    names.sort();
    names.dedup();
    let items: Vec<Item> = names.into_iter().map(|name| item(room, &sources, name)).collect();
    assert!(items.len() > 5, "{room}: {} public items were found", items.len());
    items
}

/// The text without comments.
fn code(text: &str) -> String {
    let lines = text.lines().map(|line| line.split("//").next().unwrap_or(line));
    lines.collect::<Vec<_>>().join("\n")
}

fn used(code: &str) -> Vec<String> {
    let list = Regex::new(r"(?m)^pub use ([\w:]+?)(?:::\{([^}]*)\})?;").unwrap();
    list.captures_iter(code)
        .filter(|one| !one[1].starts_with("loopwright_"))
        .flat_map(|one| match one.get(2) {
            Some(names) => names.as_str().split(',').map(str::to_owned).collect(),
            None => vec![one[1].rsplit("::").next().unwrap().to_owned()],
        })
        .map(|name| name.rsplit(" as ").next().unwrap().trim().to_owned())
        .filter(|name| !name.is_empty())
        .collect()
}

fn modules(code: &str) -> Vec<String> {
    let module = Regex::new(r"(?m)^pub mod (\w+);").unwrap();
    // How serde and schemas reach the vocabulary is for the other rooms alone.
    module
        .captures_iter(code)
        .map(|one| one[1].to_owned())
        .filter(|name| !["bounds", "schema", "serial"].contains(&name.as_str()))
        .collect()
}

fn declared(text: &str) -> Vec<String> {
    let item = Regex::new(r"(?m)^pub (?:const )?(?:fn|struct|enum|trait|const) (\w+)").unwrap();
    item.captures_iter(text).map(|one| one[1].to_owned()).filter(|name| name != "fn").collect()
}

fn item(room: &'static str, sources: &[(PathBuf, String)], name: String) -> Item {
    let declared = format!(r"(?m)^ *pub (?:const )?(fn|struct|enum|trait|const) {name}\b");
    let by_macro = format!(r"(?m)^ *(?:\w+!\(|)\s*{name}[,:]");
    let find = |pattern: &str| {
        let pattern = Regex::new(pattern).unwrap();
        sources.iter().find_map(|(_, text)| {
            let found = pattern.captures(text)?;
            let word = found.get(1).map_or("struct", |word| word.as_str()).to_owned();
            Some((word, above(&text[..found.get(0).unwrap().start()])))
        })
    };
    let (word, above) = find(&declared)
        .or_else(|| find(&by_macro))
        .unwrap_or_else(|| panic!("{room}: {name} is public but was not found"));
    let kind = match word.as_str() {
        "fn" => Kind::Function,
        "trait" => Kind::Trait,
        "const" => Kind::Constant,
        _ => Kind::Type,
    };
    let (docs, attributes): (Vec<&str>, Vec<&str>) =
        above.iter().partition(|line| line.starts_with("///"));
    Item { room, name, kind, docs: docs.join("\n"), attributes: attributes.join("\n") }
}

/// The documentation and attributes that end where an item begins.
fn above(text: &str) -> Vec<&str> {
    let mut lines: Vec<&str> = text
        .lines()
        .rev()
        .map(str::trim)
        .take_while(|line| {
            line.starts_with("///") || !(line.is_empty() || line.ends_with(['}', ';', '{']))
        })
        .collect();
    lines.reverse();
    lines
}
