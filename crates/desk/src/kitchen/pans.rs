//! The author's pans: `[[pan]]` rows. A pan that cannot be computed with is left out and said.

use evencrumb_measure::{Inner, Pan, Plan, Shape};
use evencrumb_sheet::fit::{Colour, OwnPan};
use toml::de::DeTable;

use super::file::{Faults, Value, number, said};

/// Longest side of a pan that goes into an oven at home, and the least of any; millimetres.
const SIDES: std::ops::RangeInclusive<f64> = 5.0..=1000.0;
/// Most cups of a muffin pan, and most pans of a kind.
const MOST: f64 = 200.0;

const MEASURES: &[&str] = &["across", "across_bottom", "long", "long_bottom", "wide", "wide_bottom", "deep", "corner"];
const WORDS: &[&str] = &["name", "shape", "colour", "color", "have", "cups"];

/// Reads a row.
pub(super) fn read(row: Value<'_, '_>, faults: &mut Faults<'_>) -> Option<OwnPan> {
    let table = row.get_ref().as_table()?;
    let mut row = Row { table, at: row.span().start, faults };
    row.strangers();
    let name = row.word("name").unwrap_or_default();
    let called = if name.is_empty() { "This pan".to_owned() } else { format!("The pan “{name}”") };
    let Some(shape) = row.shape() else {
        row.faults.add(
            row.at,
            &format!(
                "{called} was left out: its shape is none of round, square, rectangular, loaf, tube, fluted, muffin, sheet, pie, tart. Write shape = \"round\"."
            ),
        );
        return None;
    };
    let inner = match row.inner(shape) {
        Ok(inner) => inner,
        Err(mend) => {
            row.faults.add(row.at, &format!("{called} was left out: {mend}"));
            return None;
        }
    };
    let cups = if shape == Shape::Muffin { row.count("cups", 12) } else { 1 };
    let have = row.count("have", 1);
    let colour = row.colour();
    let name = if name.is_empty() { shape.name().to_owned() } else { name };
    let pan = Pan::new(&name, shape, inner, cups);
    if pan.is_none() {
        row.faults.add(
            row.at,
            &format!("{called} was left out: no pan has these sides. Measure it inside the rim, and at the bottom."),
        );
    }
    Some(OwnPan { pan: pan?, have, colour })
}

/// A row being read.
struct Row<'r, 'v, 't, 'f> {
    table: &'v DeTable<'t>,
    at: usize,
    faults: &'r mut Faults<'f>,
}

impl<'v, 't> Row<'_, 'v, 't, '_> {
    fn get(&self, key: &str) -> Option<(usize, Value<'v, 't>)> {
        self.table
            .iter()
            .find(|(name, _)| name.get_ref().as_ref() == key)
            .map(|(name, value)| (name.span().start, value))
    }

    /// Keys that no pan has are most often spelled wrongly.
    fn strangers(&mut self) {
        for (key, _) in self.table {
            let key_name = key.get_ref().as_ref();
            let measure = key_name.strip_suffix("_inches").or_else(|| key_name.strip_suffix("_cm"));
            if !measure.is_some_and(|measure| MEASURES.contains(&measure)) && !WORDS.contains(&key_name) {
                let words = format!(
                    "“{key_name}” is nothing that a pan's row tells, and was left out. It tells name, shape, have, colour, cups, and the measures across, across_bottom, long, wide and deep with _inches or _cm behind them."
                );
                self.faults.add(key.span().start, &words);
            }
        }
    }

    fn word(&self, key: &str) -> Option<String> {
        self.get(key).and_then(|(_, value)| value.get_ref().as_str()).map(|word| word.trim().to_owned())
    }

    fn shape(&self) -> Option<Shape> {
        Some(match self.word("shape")?.to_lowercase().as_str() {
            "round" | "springform" => Shape::Round,
            "square" => Shape::Square,
            "rectangular" | "rectangle" => Shape::Rectangular,
            "loaf" => Shape::Loaf,
            "tube" => Shape::Tube,
            "fluted" => Shape::Fluted,
            "muffin" => Shape::Muffin,
            "sheet" => Shape::Sheet,
            "pie" => Shape::Pie,
            "tart" => Shape::Tart,
            _ => return None,
        })
    }

    fn colour(&mut self) -> Option<Colour> {
        let (at, value) = self.get("colour").or_else(|| self.get("color"))?;
        match value.get_ref().as_str().map(str::to_lowercase).as_deref() {
            Some("light") => Some(Colour::Light),
            Some("dark") => Some(Colour::Dark),
            Some("glass") => Some(Colour::Glass),
            _ => {
                let words = format!(
                    "colour is {}, which is none of light, dark, glass; the colour was left open.",
                    said(value, self.faults)
                );
                self.faults.add(at, &words);
                None
            }
        }
    }

    /// A whole number from 1; `usual` where it is not told or told wrongly.
    fn count(&mut self, key: &str, usual: u32) -> u32 {
        let Some((at, value)) = self.get(key) else { return usual };
        match number(value).filter(|count| (1.0..=MOST).contains(count) && count.fract() <= 0.0) {
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 1 and 200")]
            Some(count) => count as u32,
            None => {
                let words = format!(
                    "{key} is {}, which is no whole number from 1 to {MOST}; {usual} was taken.",
                    said(value, self.faults)
                );
                self.faults.add(at, &words);
                usual
            }
        }
    }

    /// A measure in millimetres, in whichever unit it is written.
    fn millimetres(&self, measure: &str) -> Result<Option<f64>, String> {
        for (unit, millimetres) in [("inches", 25.4), ("cm", 10.0)] {
            let key = format!("{measure}_{unit}");
            let Some((_, value)) = self.get(&key) else { continue };
            let side = number(value).map(|number| number * millimetres);
            return match side.filter(|side| SIDES.contains(side) || measure == "deep" && *side == 0.0) {
                Some(side) => Ok(Some(side)),
                None => Err(format!(
                    "{key} is {}, which is no side of a pan. Measure it inside the rim and write it as {key} = 8.0.",
                    said(value, self.faults)
                )),
            };
        }
        Ok(None)
    }

    fn needed(&self, measure: &str) -> Result<f64, String> {
        self.millimetres(measure)?.ok_or_else(|| {
            format!("{measure}_inches or {measure}_cm is missing. Measure it inside the rim and write {measure}_inches = 2.0.")
        })
    }

    /// The inside. What the row does not tell (how far the sides slope, the corners, the tube) is that of the nearest common
    /// pan of the shape.
    fn inner(&self, shape: Shape) -> Result<Inner, String> {
        let deep = self.needed("deep")?;
        let one_measure = shape.is_circular() || shape == Shape::Square && self.millimetres("across")?.is_some();
        let (length, width) = if one_measure {
            let across = self.needed("across")?;
            (across, across)
        } else {
            let (long, wide) = (
                self.needed("long")?,
                if shape == Shape::Square { self.needed("long")? } else { self.needed("wide")? },
            );
            (long.max(wide), long.min(wide))
        };
        let mut inner = Inner::like_common(shape, (length, width), deep)
            .ok_or_else(|| "no pan has these sides. Measure it inside the rim.".to_owned())?;
        let bottom = |plan: Plan, length: f64, width: f64| {
            let corner = if shape.is_circular() { width / 2.0 } else { plan.corner.min(width / 2.0) };
            Plan { length, width, corner }
        };
        if let Some(across) = self.millimetres("across_bottom")? {
            inner.bottom = bottom(inner.bottom, across, across);
        } else if let (Some(long), Some(wide)) = (self.millimetres("long_bottom")?, self.millimetres("wide_bottom")?) {
            inner.bottom = bottom(inner.bottom, long.max(wide), long.min(wide));
        }
        if let Some(corner) = self.millimetres("corner")?.filter(|_| !shape.is_circular()) {
            inner.top.corner = corner;
            inner.bottom.corner = corner;
        }
        Ok(inner)
    }
}

#[cfg(test)]
mod tests {
    use super::super::file::read;
    use super::*;

    fn pans(text: &str) -> (Vec<OwnPan>, Vec<String>) {
        let found = read("kitchen.toml", text);
        (found.household.pans, found.faults)
    }

    /// By hand: a cylinder 20 cm across and 5 cm deep holds pi * 10 * 10 * 5 = 1570.8 ml.
    #[test]
    fn ok_a_round_pan_in_centimetres() {
        let (pans, faults) = pans(
            "[[pan]]\nname = \"mine\"\nshape = \"round\"\nacross_cm = 20\ndeep_cm = 5.0\nhave = 2\ncolor = \"dark\"\n",
        );
        assert_eq!(faults, Vec::<String>::new());
        assert!((pans[0].pan.capacity_millilitres() - 1570.8).abs() < 0.1);
        assert_eq!((pans[0].pan.name(), pans[0].have, pans[0].colour), ("mine", 2, Some(Colour::Dark)));
    }

    /// By hand: a cone cut off, 7 and 5 cm across and 3 cm deep, holds pi * 3 / 12 * (49 + 35 + 25) = 85.6 ml.
    #[test]
    fn ok_a_muffin_pan_is_its_cups() {
        let (pans, _) =
            pans("[[pan]]\nshape = \"muffin\"\ncups = 6\nacross_cm = 7\nacross_bottom_cm = 5\ndeep_cm = 3\n");
        assert_eq!(pans[0].pan.count(), 6);
        assert!((pans[0].pan.capacity_millilitres() / 6.0 - 85.6).abs() < 0.1);
    }

    /// Nobody measures the slope of a loaf pan: it is that of the common one.
    #[test]
    fn ok_a_loaf_pan_slopes_as_the_common_one_does() {
        let (pans, _) = pans("[[pan]]\nshape = \"loaf\"\nwide_inches = 5\nlong_inches = 9\ndeep_inches = 2.75\n");
        let common = Pan::named("9 by 5-inch loaf pan").expect("a common pan");
        assert!((pans[0].pan.capacity_millilitres() / common.capacity_millilitres() - 1.0).abs() < 0.01);
    }

    #[test]
    fn err_a_pan_without_a_depth_is_left_out_and_the_next_is_read() {
        let (pans, faults) = pans(
            "[[pan]]\nname = \"a\"\nshape = \"round\"\nacross_inches = 8\n[[pan]]\nname = \"b\"\nshape = \"round\"\nacross_inches = 9\ndeep_inches = 2\nhave = 1.5\ncolour = \"beige\"\nwidht_inches = 3\n",
        );
        assert_eq!(pans.len(), 1);
        assert_eq!(pans[0].pan.name(), "b");
        assert_eq!(
            faults[0],
            "kitchen.toml, line 1: The pan “a” was left out: deep_inches or deep_cm is missing. Measure it inside the rim and write deep_inches = 2.0."
        );
        assert_eq!(faults.len(), 4, "{faults:?}");
    }

    #[test]
    fn err_what_is_no_pan() {
        let text = "[[pan]]\nname = \"oval\"\nshape = \"oval\"\n[[pan]]\nshape = \"round\"\nacross_inches = 800\ndeep_inches = 2\n[[pan]]\nshape = \"tube\"\nacross_cm = 25\nacross_bottom_cm = 6\ndeep_cm = 10\n";
        let (pans, faults) = pans(text);
        assert_eq!(pans, []);
        assert_eq!(faults.len(), 3, "{faults:?}");
        assert!(faults[0].contains("“oval” was left out") && faults[1].contains("across_inches is 800"), "{faults:?}");
    }
}
