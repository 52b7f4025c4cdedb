//! The map of DEVELOPERS.md against the manifests, and the manifests against the sources.

use super::{ROOMS, sources};
use std::collections::{BTreeMap, BTreeSet};

/// The crates that the map names and the crates each stands over.
fn map() -> BTreeMap<String, BTreeSet<String>> {
    let text = sources::text("DEVELOPERS.md");
    let map = text.split("```text\n").nth(1).and_then(|rest| rest.split("```").next());
    map.expect("DEVELOPERS.md begins with the map")
        .lines()
        .filter(|line| !line.starts_with(' '))
        .map(|line| {
            let (name, rest) = line.split_once(' ').unwrap_or((line, ""));
            let over = rest.split("over ").nth(1).map_or("", |over| over.trim());
            let over = over.split([',', ' ']).filter(|name| !name.is_empty()).map(str::to_owned);
            (name.to_owned(), over.collect())
        })
        .collect()
}

/// A manifest's own dependencies, by the table they stand in.
fn dependencies(manifest: &str, table: &str) -> Vec<String> {
    let manifest: toml::Table = sources::text(manifest).parse().unwrap();
    manifest
        .get(table)
        .and_then(toml::Value::as_table)
        .map(|table| table.keys().cloned().collect())
        .unwrap_or_default()
}

fn manifest(name: &str) -> String {
    match name {
        "tests" | "benches" | "examples" => format!("{name}/Cargo.toml"),
        "loopwright" => "crates/loopwright/Cargo.toml".into(),
        room => format!("crates/loopwright-{room}/Cargo.toml"),
    }
}

#[test]
fn the_map_is_what_the_manifests_say() {
    let map = map();
    let crates = std::fs::read_dir(sources::root().join("crates")).unwrap().count();
    assert_eq!(map.len(), crates + 3, "every crate and the three members beside them");
    for (name, over) in &map {
        let tables = ["dependencies", "dev-dependencies"];
        let told: BTreeSet<String> = tables
            .iter()
            .flat_map(|table| dependencies(&manifest(name), table))
            .filter_map(|dependency| {
                let name = dependency.strip_prefix("loopwright")?;
                Some(name.strip_prefix('-').unwrap_or("loopwright").to_owned())
            })
            .collect();
        assert_eq!(over, &told, "what {name} stands over");
    }
}

/// One direction: a crate stands only over crates that the map names before it.
#[test]
fn arrows_run_one_way() {
    let text = sources::text("DEVELOPERS.md");
    let mut before: BTreeSet<&str> = BTreeSet::new();
    let map = map();
    for line in text.split("```text\n").nth(1).unwrap().split("```").next().unwrap().lines() {
        let Some((name, over)) = map.get_key_value(line.split(' ').next().unwrap()) else {
            continue;
        };
        for below in over {
            assert!(before.contains(below.as_str()), "{name} stands over {below}, told later");
        }
        before.insert(name);
    }
}

/// An arrow that no line of code uses is no arrow.
#[test]
fn every_dependency_is_used() {
    for name in map().keys() {
        let manifest = manifest(name);
        let folder = manifest.strip_suffix("/Cargo.toml").unwrap();
        let below =
            if folder.starts_with("crates") { format!("{folder}/src") } else { folder.into() };
        let sources = sources::rust_below(&below);
        for (dependency, shipped) in [("dependencies", true), ("dev-dependencies", false)]
            .into_iter()
            .flat_map(|(table, shipped)| {
                dependencies(&manifest, table).into_iter().map(move |name| (name, shipped))
            })
        {
            // Schemas come by derive alone, and a crate's own types may not be ready for them.
            if dependency == "schemars" {
                continue;
            }
            let path = dependency.replace('-', "_");
            let mentions = |line: &str| {
                let line = line.trim_start();
                // What only the doc examples use is there for tests alone.
                (!shipped || !line.starts_with("//"))
                    && [format!("{path}::"), format!("use {path}"), format!("{path}!")]
                        .iter()
                        .any(|mention| line.contains(mention))
            };
            let used = sources.iter().any(|(_, text)| text.lines().any(mentions));
            assert!(used, "{name} does not use {dependency}");
        }
    }
}

/// A crate that other programs embed has the standard library only behind its feature.
#[test]
fn the_rooms_do_without_the_standard_library() {
    for room in ROOMS.into_iter().filter(|room| *room != "garment") {
        let root = sources::text(&format!("crates/loopwright-{room}/src/lib.rs"));
        assert!(root.contains("\n#![no_std]\n"), "{room}");
        let behind: Vec<&str> = root
            .lines()
            .zip(root.lines().skip(1))
            .filter(|(_, line)| *line == "extern crate std;")
            .map(|(before, _)| before)
            .collect();
        for gate in behind {
            assert!(gate.starts_with("#[cfg(") && gate.contains("feature = \"std\""), "{room}");
        }
    }
}
