//! How many foods there are, and what their values lean on.

use std::collections::BTreeMap;
use std::fmt;

use super::{Value, values};
use crate::row::Food;

/// Counts over all rows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Foods.
    pub foods: usize,
    /// Names, the other names included.
    pub names: usize,
    /// Foods whose composition is a row of the table.
    pub tied: usize,
    /// Of those, foods for which a near relative stands in.
    pub stand_ins: usize,
    /// Foods with a composition from another printed source.
    pub printed: usize,
    /// Foods with a composition that is common practice or from memory.
    pub unprinted: usize,
    /// Foods given as parts of other foods.
    pub mixtures: usize,
    /// Foods without a cup.
    pub without_cup: usize,
    /// Foods without a piece.
    pub without_piece: usize,
    /// Foods with neither cup, spoon nor piece.
    pub without_either: usize,
    /// Values, a composition and a list of parts counted as one each.
    pub values: usize,
    /// Values by the source they lean on.
    pub by_source: BTreeMap<String, usize>,
}

impl Counts {
    pub(super) fn of(foods: &[Food]) -> Counts {
        let count = |keep: &dyn Fn(&Food) -> bool| foods.iter().filter(|food| keep(food)).count();
        let printed =
            |food: &Food| food.composition.as_ref().is_some_and(|composition| composition.from.source.printed);
        let mut by_source = BTreeMap::new();
        for value in foods.iter().flat_map(values) {
            *by_source.entry(value.from.source.id.clone()).or_insert(0) += 1;
        }
        Counts {
            foods: foods.len(),
            names: foods.iter().map(|food| food.names().count()).sum(),
            tied: count(&|food| food.table.is_some()),
            stand_ins: count(&|food| food.table.is_some() && food.stand_in.is_some()),
            printed: count(&|food| food.table.is_none() && printed(food)),
            unprinted: count(&|food| food.table.is_none() && food.composition.is_some() && !printed(food)),
            mixtures: count(&|food| food.table.is_none() && food.composition.is_none() && !food.parts.is_empty()),
            without_cup: count(&|food| food.cup.is_empty()),
            without_piece: count(&|food| food.piece.is_empty()),
            without_either: count(&|food| food.cup.is_empty() && food.piece.is_empty() && food.teaspoon.is_none()),
            values: by_source.values().sum(),
            by_source,
        }
    }
}

impl fmt::Display for Counts {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "foods             {:>5}, under {} names", self.foods, self.names)?;
        writeln!(out, "  tied to a row   {:>5}, {} of them by a near relative", self.tied, self.stand_ins)?;
        writeln!(out, "  printed source  {:>5}", self.printed)?;
        writeln!(out, "  no printed one  {:>5}", self.unprinted)?;
        writeln!(out, "  mixed of foods  {:>5}", self.mixtures)?;
        writeln!(out, "without a cup     {:>5}", self.without_cup)?;
        writeln!(out, "without a piece   {:>5}", self.without_piece)?;
        writeln!(out, "without both      {:>5}", self.without_either)?;
        writeln!(out, "values            {:>5}", self.values)?;
        for (source, count) in &self.by_source {
            let share = 100.0 * *count as f64 / self.values.max(1) as f64;
            writeln!(out, "  {source:<16}{count:>5}  {share:>4.1} %")?;
        }
        Ok(())
    }
}

/// Every value in words, by source.
pub(super) fn by_source(foods: &[Food]) -> BTreeMap<String, Vec<String>> {
    let mut by_source: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for food in foods {
        for value in values(food) {
            by_source.entry(value.from.source.id.clone()).or_default().push(said(food, &value));
        }
    }
    by_source
}

fn said(food: &Food, value: &Value<'_>) -> String {
    let mut text = format!("{} {}, {}", value.place, food.name, value.kind);
    if let Some(cited) = value.cited {
        text += &format!(": {} ({} to {})", cited.range.best(), cited.range.low(), cited.range.high());
    }
    if let Some(row) = value.from.row {
        text += &format!(", row {row}");
    }
    if let Some(portion) = &value.from.portion {
        text += &format!(", `{portion}`");
    }
    text
}
