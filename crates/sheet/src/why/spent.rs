//! Where a cost comes from: lines, the grams as bought, and the packs they are part of.

use evencrumb_measure::{Estimate, Range, say};
use evencrumb_pantry::Pantry;

use super::answer::{called, largest_first, nothing, plain};
use super::{Misunderstood, Of, Priced, Question, Reason, Why};
use crate::cost::Sum;
use crate::sheet::Sheet;

pub fn answer(sheet: &Sheet, question: &Question, pantry: &Pantry, priced: Priced<'_>) -> Result<Why, Misunderstood> {
    let why = figure(sheet, question, pantry, priced)?;
    // Nothing known is no cost of nothing.
    if !why.unknown.is_empty() && why.figure.value.as_ref().is_none_or(|value| value.best() <= 0.0) {
        return Err(Misunderstood {
            said: format!("There is no cost: no price is known here for {}", why.unknown.join(", ")),
            mend: "Write what a pack of it cost into prices.toml of the kitchen folder.".to_owned(),
            near_to: None,
        });
    }
    Ok(why)
}

fn figure(sheet: &Sheet, question: &Question, pantry: &Pantry, priced: Priced<'_>) -> Result<Why, Misunderstood> {
    let spent = Spent { sheet, pantry, priced };
    let batch = &priced.cost.batch;
    match &question.of {
        Of::Batch | Of::RawBatch => Ok(Why::of(spent.batch(), missing(batch))),
        Of::Weighing { grams: wanted, .. } => {
            let value = priced.cost.per_100_g.as_ref();
            let value = value.ok_or_else(|| nothing(&format!("the cost of {wanted} g"), "something has no weight"))?;
            let value = value.times(wanted.value() / 100.0);
            let mut reason = spent.reason(format!("cost of {wanted} g as it is eaten"), &value);
            let grams = sheet.ready(&sheet.total).grams.best();
            reason.under = vec![plain(format!("the batch weighs {grams:.0} g as it is eaten")), spent.batch()];
            Ok(Why::of(reason, missing(batch)))
        }
        Of::Component(part) => Ok(Why::of(spent.component(*part), missing(&priced.cost.components[*part]))),
        Of::Lines(lines) => {
            let sums = lines.iter().filter_map(|(part, nth)| priced.cost.lines[*part][*nth].as_ref());
            let unknown: Vec<String> = sums.flat_map(missing).collect();
            let mut reasons: Vec<Reason> = lines.iter().filter_map(|(part, nth)| spent.line(*part, *nth)).collect();
            if reasons.len() == 1 {
                return Ok(Why::of(reasons.remove(0), unknown));
            }
            let value = reasons.iter().filter_map(|reason| reason.value.as_ref()).sum();
            let mut reason = spent.reason("cost of these lines together".to_owned(), &Estimate::default());
            reason.value = Some(value);
            reason.under = reasons;
            Ok(Why::of(reason, unknown))
        }
    }
}

/// What has no price or no weight.
fn missing(sum: &Sum) -> Vec<String> {
    sum.unpriced.iter().chain(&sum.unweighed).cloned().collect()
}

struct Spent<'a> {
    sheet: &'a Sheet,
    pantry: &'a Pantry,
    priced: Priced<'a>,
}

impl Spent<'_> {
    /// A reason with a sum of coins, told in the unit of the currency.
    fn reason(&self, words: String, coins: &Estimate) -> Reason {
        let value = coins.times(1.0 / f64::from(self.priced.currency.coins()));
        Reason { value: Some(value), unit: self.priced.currency.code().to_owned(), ..plain(words) }
    }

    fn batch(&self) -> Reason {
        let mut reason = self.reason("cost of the batch".to_owned(), &self.priced.cost.batch.coins);
        reason.under = match self.sheet.components.len() {
            1 => self.lines(0),
            parts => largest_first((0..parts).map(|part| self.component(part)).collect()),
        };
        reason
    }

    fn component(&self, part: usize) -> Reason {
        let name = called(&self.sheet.components[part]);
        let mut reason = self.reason(format!("cost of “{name}”"), &self.priced.cost.components[part].coins);
        reason.under = self.lines(part);
        reason
    }

    fn lines(&self, part: usize) -> Vec<Reason> {
        let lines = 0..self.sheet.components[part].lines.len();
        largest_first(lines.filter_map(|nth| self.line(part, nth)).collect())
    }

    /// What a line costs; nothing for one that is counted elsewhere.
    fn line(&self, part: usize, nth: usize) -> Option<Reason> {
        let line = &self.sheet.components[part].lines[nth];
        let sum = self.priced.cost.lines[part][nth].as_ref()?;
        let mut reason = self.reason(format!("line {}: {}", line.number, line.weighed.text.trim()), &sum.coins);
        if !sum.known {
            reason.value = None;
        }
        let prices = &self.priced.cost.used;
        for (food, grams) in sum.needs() {
            let Some(price) = prices.iter().find(|price| price.food == food) else { continue };
            let units = price.price.value() / f64::from(self.priced.currency.coins());
            let paid = say::money(Range::exact(units), self.priced.currency);
            let day = price.bought.as_ref().map_or("on a day that is not said".to_owned(), |day| format!("on {day}"));
            reason.under.push(plain(format!(
                "{:.0} g of {} as bought; a pack of {} holds {:.0} g and cost {paid} {day}",
                grams.best(),
                self.pantry.food(food).name,
                price.pack,
                price.grams.best()
            )));
        }
        reason.under.extend(sum.from_whole.iter().map(|one| plain(one.in_words(self.pantry))));
        for name in missing(sum) {
            reason.under.push(plain(format!(
                "{name} has no price here, or no weight; it adds nothing, and the sum is a least"
            )));
        }
        Some(reason)
    }
}
