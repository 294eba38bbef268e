//! Writes the JSON Schemas of the answers into docs/json/, from the types.

use anyhow::Context;
use evencrumb_desk::wire::{FoodAnswer, MeasuresAnswer, ScaleAnswer, SheetAnswer, WeighAnswer, WhyAnswer};
use schemars::JsonSchema;
use schemars::generate::SchemaSettings;

/// Writes every schema file.
pub fn write() -> anyhow::Result<()> {
    let folder = crate::repository().join("docs/json");
    for (name, text) in schemas()? {
        let file = folder.join(name);
        std::fs::write(&file, text).with_context(|| format!("writing {}", file.display()))?;
        println!("{}", file.display());
    }
    Ok(())
}

/// File names with what they hold.
fn schemas() -> anyhow::Result<Vec<(&'static str, String)>> {
    Ok(vec![
        ("weigh.schema.json", schema::<WeighAnswer>()?),
        ("food.schema.json", schema::<FoodAnswer>()?),
        ("measures.schema.json", schema::<MeasuresAnswer>()?),
        ("scale.schema.json", schema::<ScaleAnswer>()?),
        ("sheet.schema.json", schema::<SheetAnswer>()?),
        ("why.schema.json", schema::<WhyAnswer>()?),
    ])
}

/// The schema of what is written, in which every field is always there; what may be read would be laxer.
fn schema<T: JsonSchema>() -> anyhow::Result<String> {
    let schema = SchemaSettings::draft2020_12().for_serialize().into_generator().into_root_schema_for::<T>();
    Ok(serde_json::to_string_pretty(&schema)? + "\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_the_files_are_those_of_the_types() {
        for (name, text) in schemas().unwrap() {
            let file = crate::repository().join("docs/json").join(name);
            let there = std::fs::read_to_string(&file).unwrap_or_default();
            assert!(there == text, "{name} is not what the types say; run `cargo xtask schema`");
        }
    }
}
