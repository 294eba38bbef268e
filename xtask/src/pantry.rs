//! Checks the rows of foods as they lie in the folder, so that an edit need not be compiled first.

use std::collections::BTreeMap;
use std::fs;

use anyhow::{Context, bail};
use evencrumb_pantry::{Table, check};

/// Prints the report; fails when a row breaks a rule.
pub(crate) fn check(by_source: bool) -> anyhow::Result<()> {
    let folder = crate::repository().join("crates/pantry/data/foods");
    let mut read: BTreeMap<String, String> = BTreeMap::new();
    for entry in fs::read_dir(&folder).context("reading crates/pantry/data/foods")? {
        let path = entry?.path();
        if path.extension().is_some_and(|ending| ending == "toml") {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            let text = fs::read_to_string(&path).with_context(|| format!("reading {name}"))?;
            read.insert(name, text);
        }
    }
    let report = check::check(read.iter().map(|(name, text)| (name.as_str(), text.as_str())), Table::embedded());

    if by_source {
        for (source, values) in &report.by_source {
            println!("{source}: {}", values.len());
            values.iter().for_each(|value| println!("  {value}"));
        }
        return Ok(());
    }
    report.looks.iter().for_each(|look| println!("look   {look}"));
    report.faults.iter().for_each(|fault| println!("fault  {fault}"));
    println!("{}", report.counts);
    println!("{} to look at, {} faults", report.looks.len(), report.faults.len());
    if !report.faults.is_empty() {
        bail!("the rows break rules of crates/pantry/data/README.md");
    }
    Ok(())
}
