//! Published counts, asked of the `fit` verb as a file of counts and demands.

use super::verbs::fit;
use loopwright_tests::golden::cases;
use serde::Deserialize;
use serde_json::Value;
use std::collections::BTreeMap;

#[derive(Debug, Deserialize)]
struct Published {
    problem: toml::Value,
    counts: Option<BTreeMap<String, u32>>,
    conflict: Option<Vec<String>>,
    refused: Option<String>,
}

#[test]
fn published_counts_come_out_and_misprints_do_not() {
    let text = include_str!("../../golden/joint_published.toml");
    for case in cases::<Published>(text) {
        let name = &case.name;
        let outcome = fit(&toml::to_string(&case.fields.problem).unwrap(), &["--json"]);
        if let Some(text) = &case.fields.refused {
            assert_eq!(outcome.code, 2, "{name}");
            assert!(outcome.stderr.ends_with(&format!("{text}\n")), "{name}: {}", outcome.stderr);
            continue;
        }
        let told: Value = serde_json::from_str(&outcome.stdout).expect(name);
        if let Some(counts) = &case.fields.counts {
            let found: BTreeMap<String, u32> =
                serde_json::from_value(told["counts"].clone()).expect(name);
            assert_eq!(&found, counts, "{name}");
            assert_eq!(outcome.code, 0, "{name}");
        } else {
            let members = told["conflict"].as_array().expect(name).iter();
            let found: Vec<&str> =
                members.map(|member| member["demand"].as_str().unwrap()).collect();
            let wanted = case.fields.conflict.as_deref().expect(name);
            assert_eq!(found, wanted, "{name}");
            assert_eq!(outcome.code, 1, "{name}");
        }
    }
}
