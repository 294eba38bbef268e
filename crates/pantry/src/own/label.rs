//! What a label says of 100 g, and what of it cannot be so.

use super::Reading;
use super::judge::shown;
use crate::nutrient::Nutrient;
use crate::row::{Fields, Place};

/// Sodium in a gram of salt, in milligrams: labels of the EU print salt as sodium times 2.5 (Regulation (EU) No
/// 1169/2011, Annex I, from memory).
const SODIUM_MG_IN_SALT_G: f64 = 1000.0 / 2.5;
/// Salt and sodium of one label may differ by their rounding.
const ROUNDING: f64 = 0.15;
/// Grams by which a figure of a label may be rounded (common practice, no source).
const ROUNDED_GRAMS: f64 = 1.0;
/// Kilocalories that 100 g of anything have at most: pure fat, with 9 in a gram (from memory).
const MOST_KCAL: f64 = 900.0 + 2.0;
/// Kilojoules in a kilocalorie.
const KJ_IN_KCAL: f64 = 4.184;
/// How far the energy of a label lies from what 4, 4 and 9 kcal in a gram give, as a share (common practice, no source).
const SAME_ENERGY: f64 = 0.25;
/// Parts that are in their whole.
const PARTS: &[(Nutrient, Nutrient)] =
    &[(Nutrient::SaturatedFat, Nutrient::Fat), (Nutrient::Sugars, Nutrient::Carbohydrate)];
/// What shares the 100 g, none of it in another. Fibre is left out: US labels have it in carbohydrate, those of the EU
/// beside it.
const WHOLE: &[Nutrient] =
    &[Nutrient::Water, Nutrient::Fat, Nutrient::Carbohydrate, Nutrient::Protein, Nutrient::Alcohol];

impl Reading {
    /// Nutrients as printed, in the order of a label; salt counts as sodium.
    pub(super) fn printed(&mut self, fields: &mut Fields<'_, '_>, place: &Place) -> Vec<(Nutrient, f64)> {
        let mut values: Vec<(Nutrient, f64)> = Vec::new();
        let mut salt = None;
        for (key, at, value) in std::mem::take(&mut fields.left) {
            let nutrient = Nutrient::of_key(key).or((key == "salt").then_some(Nutrient::Sodium));
            let Some(nutrient) = nutrient else {
                fields.left.push((key, at, value));
                continue;
            };
            let Some(number) = self.reader.number(value, key) else { continue };
            let grams = if key == "salt" { Some(number) } else { grams(nutrient, number) };
            if nutrient == Nutrient::Energy && number > MOST_KCAL {
                self.reader.fault_at(
                    value,
                    format!("{number} kcal in 100 g, more than pure fat has"),
                    kilojoules(number),
                );
            } else if grams.is_some_and(|grams| grams > 100.0) {
                let unit = if key == "salt" { "g" } else { nutrient.unit() };
                let mend = "write it for 100 g; it was left unknown";
                self.reader.fault_at(value, format!("{number} {unit} of {key} in 100 g"), mend);
            } else if key == "salt" {
                salt = Some((number * SODIUM_MG_IN_SALT_G, value));
            } else {
                values.push((nutrient, number));
            }
        }
        if let Some((sodium, value)) = salt {
            match values.iter().find(|(nutrient, _)| *nutrient == Nutrient::Sodium) {
                None => values.push((Nutrient::Sodium, sodium)),
                Some((_, printed)) if (sodium - printed).abs() > ROUNDING * printed.max(sodium) => {
                    let what = format!("that salt holds {sodium:.0} mg of sodium, but sodium_mg says {printed}");
                    self.reader.fault_at(value, what, "look at the label again; sodium_mg was taken");
                }
                Some(_) => {}
            }
        }
        values.sort_by_key(|(nutrient, _)| *nutrient);
        self.that_do_not_fit(&mut values, place);
        values
    }

    /// Tells and leaves unknown what cannot be so together: a part larger than its whole, more than 100 g in 100 g,
    /// energy that is some four times what fat, carbohydrate and protein give.
    fn that_do_not_fit(&mut self, values: &mut Vec<(Nutrient, f64)>, place: &Place) {
        let held = |values: &[(Nutrient, f64)], wanted: Nutrient| {
            values.iter().find(|(nutrient, _)| *nutrient == wanted).map(|(_, value)| *value)
        };
        for (part, whole) in PARTS {
            let both = held(values, *part).zip(held(values, *whole));
            let Some((less, more)) = both.filter(|(less, more)| *less > more + ROUNDED_GRAMS) else { continue };
            let what = format!("{less} g of {} are more than {more} g of {}", part.name(), whole.name());
            let mend = format!("look at the label again; {} was left unknown", part.name());
            self.reader.fault(place.clone(), what, mend);
            values.retain(|(nutrient, _)| nutrient != part);
        }
        let [fat, carbohydrate, protein] =
            [Nutrient::Fat, Nutrient::Carbohydrate, Nutrient::Protein].map(|one| held(values, one));
        if let (Some(energy), Some(fat), Some(carbohydrate), Some(protein)) =
            (held(values, Nutrient::Energy), fat, carbohydrate, protein)
        {
            let expected =
                9.0 * fat + 4.0 * carbohydrate + 4.0 * protein + 7.0 * held(values, Nutrient::Alcohol).unwrap_or(0.0);
            let is_so = (energy / KJ_IN_KCAL / expected - 1.0).abs() < SAME_ENERGY;
            if is_so {
                let what =
                    format!("{energy} kcal in 100 g, but its fat, carbohydrate and protein give some {expected:.0}");
                self.reader.fault(place.clone(), what, kilojoules(energy));
                values.retain(|(nutrient, _)| *nutrient != Nutrient::Energy);
            }
        }
        let whole: Vec<(Nutrient, f64)> = values
            .iter()
            .filter(|(nutrient, _)| WHOLE.contains(nutrient))
            .filter_map(|(nutrient, value)| Some((*nutrient, grams(*nutrient, *value)?)))
            .collect();
        let sum: f64 = whole.iter().map(|(_, grams)| grams).sum();
        if sum > 100.0 + ROUNDED_GRAMS * 2.0 {
            let named: Vec<&str> = whole.iter().map(|(nutrient, _)| nutrient.name()).collect();
            let what = format!("{} are {sum:.0} g together in 100 g", named.join(", "));
            let mend = "look whether the label says them for 100 g; they were left unknown";
            self.reader.fault(place.clone(), what, mend.to_owned());
            values.retain(|(nutrient, _)| !WHOLE.contains(nutrient) && !PARTS.iter().any(|(part, _)| part == nutrient));
        }
    }
}

/// What a figure of a label is in grams; nothing for energy.
fn grams(nutrient: Nutrient, value: f64) -> Option<f64> {
    match nutrient.unit() {
        "g" => Some(value),
        "mg" => Some(value / 1e3),
        "µg" => Some(value / 1e6),
        _ => None,
    }
}

fn kilojoules(energy: f64) -> String {
    format!(
        "these may be kilojoules: write energy = {:.0}, if the label says {} kJ; it was left unknown",
        energy / KJ_IN_KCAL,
        shown(energy)
    )
}
