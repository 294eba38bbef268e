//! What a recipe costs: the share of each pack that goes into it, and the whole packs that must be bought for it.
//!
//! Only what goes into the bowl is counted: no tax, no energy, no labour, no packaging. A food without a price is
//! unknown and never free, so that sums are "at least" and name it. Water and ice cost nothing. The white of an egg and the
//! zest of a lemon are paid for as eggs and lemons, unless they have a price of their own.
//!
//! All sums here are in the smallest coin of the kitchen's currency.

mod bought;
mod shopping;
mod whole;

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;
use std::sync::Arc;

use evencrumb_manuscript::FoodId;
use evencrumb_measure::{Estimate, Money};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;

use crate::line::WeighedItem;
use crate::made::{Made, Origin};
use crate::remaining::speaks_of_earlier;
use crate::sheet::{Component, Line, Sheet};
use crate::total;

pub use bought::{Whose, grams_as_bought};
pub use shopping::Purchase;
pub use whole::FromWhole;
use whole::Taken;

/// What a pack of a food costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Price {
    /// The food.
    pub food: FoodId,
    /// The pack in the author's words, as `2 lb`.
    pub pack: String,
    /// Grams of the pack as bought; never nothing.
    pub grams: Estimate,
    /// What is paid for the pack.
    pub price: Money,
    /// The day on the receipt, as `2026-10-03`.
    pub bought: Option<String>,
    /// What the author should know of how the price was chosen.
    pub note: Option<String>,
}

/// What is there of a food.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// The food.
    pub food: FoodId,
    /// Grams as bought.
    pub grams: Estimate,
}

/// A sum of money, as far as it is known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sum {
    /// What is known of it, in the smallest coin.
    pub coins: Estimate,
    /// Whether the cost of anything in it is known.
    pub known: bool,
    /// What has no price, each once.
    pub unpriced: Vec<String>,
    /// What has no weight, so that nobody can say how much of a pack is used; each once.
    pub unweighed: Vec<String>,
    /// What is paid for as the whole it comes of, each food once.
    pub from_whole: Vec<FromWhole>,
    /// What is used of foods with a price, in the order of the recipe.
    needs: Vec<Need>,
}

/// How much of a food with a price is used.
#[derive(Clone, Debug, PartialEq)]
struct Need {
    food: FoodId,
    /// Grams as bought.
    grams: Estimate,
}

/// The cost of one sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cost {
    /// For each component in the order of the sheet, what its lines cost; nothing for a line that is counted elsewhere.
    pub lines: Vec<Vec<Option<Sum>>>,
    /// What each component costs, with what it takes of others.
    pub components: Vec<Sum>,
    /// The whole batch; what is taken of a component is in it once.
    pub batch: Sum,
    /// One piece, where the text says how many there are.
    pub piece: Option<Estimate>,
    /// One serving, where the text says how many there are.
    pub serving: Option<Estimate>,
    /// 100 g as eaten, baked where it is baked; nothing while something has no weight.
    pub per_100_g: Option<Estimate>,
    /// What must be bought, in the order of the recipe.
    pub buy: Vec<Purchase>,
    /// The prices that were used, in the order of the recipe.
    pub used: Vec<Price>,
    /// The cost of each variant, in the order of the sheet.
    pub variants: Vec<Cost>,
}

impl Sum {
    /// Whether the sum is only a least.
    pub fn is_at_least(&self) -> bool {
        !(self.unpriced.is_empty() && self.unweighed.is_empty())
    }

    /// What is used of foods with a price: the food, and grams as bought.
    pub fn needs(&self) -> impl Iterator<Item = (FoodId, &Estimate)> {
        self.needs.iter().map(|need| (need.food, &need.grams))
    }

    fn add(&mut self, other: &Sum) {
        self.coins.add(&other.coins);
        self.known |= other.known;
        other.unpriced.iter().for_each(|name| name_once(&mut self.unpriced, name));
        other.unweighed.iter().for_each(|name| name_once(&mut self.unweighed, name));
        for other in &other.from_whole {
            match self.from_whole.iter_mut().find(|one| (one.part, one.whole) == (other.part, other.whole)) {
                Some(one) => one.add(other),
                None => self.from_whole.push(other.clone()),
            }
        }
        for other in &other.needs {
            match self.needs.iter_mut().find(|need| need.food == other.food) {
                Some(need) => need.grams.add(&other.grams),
                None => self.needs.push(other.clone()),
            }
        }
    }

    fn times(mut self, share: &Estimate) -> Sum {
        self.coins = self.coins.product(share);
        for need in &mut self.needs {
            need.grams = need.grams.product(share);
        }
        self.from_whole.iter_mut().for_each(|one| one.times(share));
        self
    }
}

fn name_once(names: &mut Vec<String>, name: &str) {
    if !names.iter().any(|known| known == name) {
        names.push(name.to_owned());
    }
}

/// What costs nothing unless the author gives it a price.
const FREE: &[&str] = &["water", "ice"];

/// The cost of a sheet. Optional lines are counted, alternatives are not. `prices` holds one price a food; pantry and
/// kitchen are those of the sheet.
pub fn cost(sheet: &Sheet, prices: &[Price], stock: &[Stock], pantry: &Pantry, kitchen: Kitchen) -> Cost {
    let Parts { lines, components, batch } =
        Reckoning { prices, pantry, kitchen, elsewhere: RefCell::default() }.parts(sheet);
    let coins = &batch.coins;
    let whole = &sheet.total;
    let eaten = sheet.ready(whole).grams;
    // Neither money nor weight is known there, so their quotient is not even a least.
    let weighed = whole.unweighed.is_empty() && batch.unweighed.is_empty();
    let used = batch.needs.iter().filter_map(|need| prices.iter().find(|price| price.food == need.food).cloned());
    Cost {
        piece: sheet.pieces().and_then(|pieces| coins.over(&pieces)),
        serving: sheet.servings().and_then(|servings| coins.over(&servings)),
        per_100_g: weighed.then(|| coins.over(&eaten)).flatten().map(|coins| coins.times(100.0)),
        buy: shopping::purchases(&batch.needs, prices, stock),
        used: used.collect(),
        variants: sheet.variants.iter().map(|one| cost(&one.sheet, prices, stock, pantry, kitchen)).collect(),
        lines,
        components,
        batch,
    }
}

/// What the parts of a sheet cost.
struct Parts {
    lines: Vec<Vec<Option<Sum>>>,
    components: Vec<Sum>,
    batch: Sum,
}

struct Reckoning<'p> {
    prices: &'p [Price],
    pantry: &'p Pantry,
    kitchen: Kitchen,
    /// What other manuscripts cost, by their sheets: each is reckoned once, however many lines take of it.
    elsewhere: RefCell<HashMap<*const Sheet, Rc<Parts>>>,
}

impl Reckoning<'_> {
    fn parts(&self, sheet: &Sheet) -> Parts {
        let mut taken = Taken::default();
        let own = |component: &Component| component.lines.iter().map(|line| self.line(line, &mut taken)).collect();
        let mut lines: Vec<Vec<Option<Sum>>> = sheet.components.iter().map(own).collect();
        let mut batch = Sum::default();
        lines.iter().flatten().flatten().for_each(|line| batch.add(line));
        let mut components = vec![None; lines.len()];
        for at in 0..lines.len() {
            with_what_it_takes(sheet, at, &mut lines, &mut components);
        }
        Parts { lines, components: components.into_iter().map(Option::unwrap_or_default).collect(), batch }
    }

    /// What a line costs; nothing when what it names is counted elsewhere.
    fn line(&self, line: &Line, taken: &mut Taken) -> Option<Sum> {
        if taken_of(line).is_some() || adds_nothing(line) {
            return None;
        }
        let mut sum = Sum::default();
        for one in &line.weighed.foods {
            match &one.made {
                Some(made) => sum.add(&self.with_parts_of_wholes(self.made(made), taken)),
                None => self.food(line, one, taken, &mut sum),
            }
        }
        Some(sum)
    }

    /// What is taken of another manuscript.
    fn made(&self, made: &Made) -> Sum {
        let Some((share, sheet)) = made.share.as_ref().zip(made.sheet.as_ref()) else { return how_much(made) };
        let known = self.elsewhere.borrow().get(&Arc::as_ptr(sheet)).cloned();
        let parts = known.unwrap_or_else(|| {
            let parts = Rc::new(self.parts(sheet));
            self.elsewhere.borrow_mut().insert(Arc::as_ptr(sheet), Rc::clone(&parts));
            parts
        });
        let part = match &made.origin {
            Origin::Manuscript { component: Some(name), .. } => {
                sheet.components.iter().position(|one| one.name.as_ref() == Some(name))
            }
            _ => None,
        };
        part.map_or(&parts.batch, |at| &parts.components[at]).clone().times(share)
    }

    /// What is taken of another manuscript, where eggs and fruit whose other part is used here are paid for once.
    fn with_parts_of_wholes(&self, mut sum: Sum, taken: &mut Taken) -> Sum {
        for one in &mut sum.from_whole {
            let before = taken.again(one);
            let price = self.prices.iter().find(|price| price.food == one.whole);
            let coins = price.and_then(|price| {
                let coins = |grams: &Estimate| Some(grams.over(&price.grams)?.times(price.price.value()));
                coins(&before).zip(coins(&one.grams.1))
            });
            let Some((old, new)) = coins else { continue };
            sum.coins.add(&new);
            sum.coins = sum.coins.less(&old);
            if let Some(need) = sum.needs.iter_mut().find(|need| need.food == one.whole) {
                need.grams.add(&one.grams.1);
                need.grams = need.grams.less(&before);
            }
        }
        sum
    }

    fn food(&self, line: &Line, one: &WeighedItem, taken: &mut Taken, sum: &mut Sum) {
        if total::is_beside(&line.weighed, one) {
            return;
        }
        let Some(food) = one.item.food else {
            return name_once(&mut sum.unpriced, &one.item.name);
        };
        let name = &one.item.name;
        // Where a later line uses what remains of this one, that part is counted there.
        let grams =
            || bought::of_line(&line.weighed, one, self.pantry, self.kitchen).map(|grams| grams.times(one.here));
        let bought = if let Some(price) = self.prices.iter().find(|price| price.food == food) {
            let whole = bought::packs_of_line(one, &price.pack, self.pantry);
            let whole = whole.map(|packs| price.grams.times(packs * one.here));
            whole.or_else(grams).map(|grams| (price, grams, None))
        } else if let Some(source) = whole::source(&one.item, self.prices, self.pantry, self.kitchen) {
            let more = grams().and_then(|grams| taken.take(food, &grams, &source));
            more.map(|(grams, told)| (source.price, grams, Some(told)))
        } else if FREE.contains(&self.pantry.food(food).name.as_str()) {
            sum.known = true;
            return;
        } else {
            return name_once(&mut sum.unpriced, name);
        };
        let packs = bought.and_then(|(price, grams, told)| Some((grams.over(&price.grams)?, price, grams, told)));
        let Some((packs, price, grams, told)) = packs else {
            return name_once(&mut sum.unweighed, name);
        };
        sum.add(&Sum {
            coins: packs.times(price.price.value()),
            known: true,
            needs: vec![Need { food: price.food, grams }],
            from_whole: told.into_iter().collect(),
            ..Sum::default()
        });
    }
}

/// What a component costs with what it takes of others; the lines that take are filled in on the way. The batch pays
/// what is taken only once, where it is made.
fn with_what_it_takes(sheet: &Sheet, at: usize, lines: &mut [Vec<Option<Sum>>], components: &mut [Option<Sum>]) -> Sum {
    if let Some(sum) = &components[at] {
        return sum.clone();
    }
    // The sheet names circles and takes them apart; should one be left, it ends here.
    components[at] = Some(Sum::default());
    let mut sum = Sum::default();
    for (nth, line) in sheet.components[at].lines.iter().enumerate() {
        if let Some((of, made)) = taken_of(line) {
            let taken = made.share.as_ref().map(|share| with_what_it_takes(sheet, of, lines, components).times(share));
            lines[at][nth] = Some(taken.unwrap_or_else(|| how_much(made)));
        }
        if let Some(line) = &lines[at][nth] {
            sum.add(line);
        }
    }
    components[at] = Some(sum.clone());
    sum
}

/// The component of the same sheet that a line takes of.
fn taken_of(line: &Line) -> Option<(usize, &Made)> {
    let made = line.weighed.foods.first()?.made.as_deref()?;
    match made.origin {
        Origin::Component(of) => Some((of, made)),
        Origin::Manuscript { .. } => None,
    }
}

/// Whether the line speaks of what was counted before and has no share of its own.
fn adds_nothing(line: &Line) -> bool {
    let made = line.weighed.foods.iter().any(|one| one.made.is_some() || one.item.reference);
    !made && line.share.is_none() && speaks_of_earlier(&line.weighed)
}

/// A sum of something made, of which nobody says how much is taken.
fn how_much(made: &Made) -> Sum {
    Sum { unweighed: vec![made.name.clone()], ..Sum::default() }
}

#[cfg(test)]
mod tests;
