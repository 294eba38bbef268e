//! Units that a line leaves out or that stand in the name.

use evencrumb_measure::{Dimension, Unit};

use super::Reading;
use crate::food_words::Named;
use crate::line::cut::Cut;
use crate::line::name::Found;
use crate::line::{Item, UNIT_MISSING};
use crate::query::Query;

impl<'a> Reading<'_, 'a> {
    /// "3 leaves of gelatine", "2 cloves": unit and name may be a food together, or the name holds the unit.
    pub(super) fn settle_unit(&self, item: &mut Item, found: &Found) {
        let Some(first) = item.amounts.first_mut() else { return };
        let unit = first.unit();
        if matches!(unit, Unit::Can | Unit::Jar)
            && let Some(named) = (self.ask)(&format!("canned {}", found.key))
        {
            item.food = Some(named.food);
        }
        if item.part.is_some() || first.each.is_some() {
            return;
        }
        // "a squeeze of lemon": what can be squeezed out of it is the juice.
        let poured = !first.bare && matches!(unit, Unit::Splash | Unit::Drizzle | Unit::Glug);
        if let Some(juice) = (self.ask)(&format!("{} juice", found.key)).filter(|_| poured) {
            item.food = Some(juice.food);
            item.part = Some("juice".to_owned());
            return;
        }
        if !first.bare
            && unit.dimension() == Dimension::Count
            && !matches!(unit, Unit::Piece | Unit::Batch | Unit::Can | Unit::Package | Unit::Bag | Unit::Box)
            && let Some(named) = (self.ask)(&format!("{} {}", found.key, unit.name()))
        {
            item.food = Some(named.food);
        }
        let rooted = matches!(found.key.as_str(), "ginger" | "turmeric" | "horseradish" | "galangal");
        if rooted
            && (first.bare || matches!(unit, Unit::Knob | Unit::Inch | Unit::Centimetre | Unit::Piece | Unit::Slice))
        {
            // A thumb of ginger is the root, not the powder.
            if let Some(named) = (self.ask)(&format!("fresh {}", found.key)) {
                item.food = Some(named.food);
            }
        }
        // "2 vanilla pods", "gelatin sheets 6 ea", "silver sheet gelatin x 5": the name holds the unit. Of "6 mint leaves"
        // too, but not of "2 bay leaves", which are counted as what they are.
        let uncounted = first.place.start < item.place.start && found.named.is_some_and(|named| !named.counted);
        let named_unit = |word: &str| {
            Unit::named(word).filter(|unit| match unit {
                Unit::Clove | Unit::Pod | Unit::Sheet | Unit::Slice | Unit::Sprig | Unit::Square => true,
                Unit::Leaf => uncounted || found.key.contains("gelatin"),
                Unit::Stick => uncounted,
                _ => false,
            })
        };
        if (first.bare || unit == Unit::Piece)
            && let Some((one, other)) = found.key.rsplit_once(' ')
            && let Some(unit) = named_unit(other).or_else(|| named_unit(one.split(' ').next()?))
        {
            for term in &mut first.terms {
                term.unit = unit;
            }
            first.bare = false;
        }
    }

    /// A bare number before a food that nobody counts: a professional's grams when it is large, a query when it is not.
    pub(super) fn assume_unit(&mut self, item: &mut Item, named: Option<Named>) {
        let Some(first) = item.amounts.first_mut() else { return };
        let Some(named) = named else {
            // "gelatin mass 42": not known, but a professional's line all the same.
            if first.bare && first.place.start >= item.place.end && first.terms[0].low.value() >= 5.0 {
                first.terms[0].unit = Unit::Gram;
                first.bare = false;
            }
            return;
        };
        // "eggs 30" are counted; "fresh yeast 25", in the singular and with its number behind it, is weighed.
        let value = first.terms[0].low.value();
        let singular = Cut::of(&item.name).tokens.last().is_some_and(|last| last.folded == last.key);
        let pieces = value < 15.0 || value < 60.0 && !(singular && first.place.start >= item.place.end);
        if !first.bare || item.part.is_some() || first.each.is_some() || (named.counted && pieces) {
            return;
        }
        let place = first.place.clone();
        let number = self.cut.text.get(place.clone()).unwrap_or_default().to_owned();
        let behind_name = place.start >= item.place.end;
        if first.terms[0].low.value() >= 5.0 || behind_name {
            for term in &mut first.terms {
                term.unit = Unit::Gram;
            }
            first.bare = false;
            self.line.queries.push(Query::new(
                &UNIT_MISSING,
                place,
                format!("“{}” of {} has no unit; it was taken as grams.", number.trim(), item.name),
                format!("Write the unit, as “{} g {}”.", number.trim(), item.name),
            ));
        } else {
            self.line.queries.push(Query::new(
                &UNIT_MISSING,
                place,
                format!(
                    "“{}” of {} has no unit, and {} is not counted; nothing was weighed.",
                    number.trim(),
                    item.name,
                    item.name
                ),
                format!("Write the unit, as “{} cups {}” or its grams.", number.trim(), item.name),
            ));
        }
    }
}
