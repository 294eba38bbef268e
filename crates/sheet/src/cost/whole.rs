//! Parts that are bought as a whole: the whites and yolks of eggs, the zest and juice of a fruit.
//!
//! Whoever has no price for egg whites buys eggs. One egg gives its white and its yolk, one lemon its zest and its juice,
//! so that a recipe of three whites and three yolks pays for three eggs: the line that stands first pays for them, and a
//! later one only for what must be bought beyond.

use evencrumb_manuscript::FoodId;
use evencrumb_manuscript::line::Item;
use evencrumb_measure::{Estimate, Influence, Unit, say};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::row::Size;
use evencrumb_pantry::weigh::{self, Kitchen};

use super::Price;
use crate::eaten;

/// A food of a recipe that is paid for as the whole it comes of.
#[derive(Clone, Debug, PartialEq)]
pub struct FromWhole {
    /// The part, as egg white.
    pub part: FoodId,
    /// What is bought for it, as egg.
    pub whole: FoodId,
    /// How many wholes it takes, of the usual size where the line says none.
    pub takes: f64,
    /// How many of them are paid for with it; the others were with another part of them.
    pub paid: f64,
    /// Grams of the whole as bought that are taken, and those of them that are paid for.
    pub(super) grams: (Estimate, Estimate),
}

impl FromWhole {
    /// The same food of another line.
    pub(super) fn add(&mut self, other: &FromWhole) {
        (self.takes, self.paid) = (self.takes + other.takes, self.paid + other.paid);
        self.grams.0.add(&other.grams.0);
        self.grams.1.add(&other.grams.1);
    }

    pub(super) fn times(&mut self, share: &Estimate) {
        (self.takes, self.paid) = (self.takes * share.best(), self.paid * share.best());
        self.grams = (self.grams.0.product(share), self.grams.1.product(share));
    }

    /// Why it costs what it does.
    pub fn in_words(&self, pantry: &Pantry) -> String {
        let [part, whole] = [self.part, self.whole].map(|food| &pantry.food(food).name);
        let [takes, before] = [self.takes, self.takes - self.paid].map(|number| say::decimal(number, 1));
        let before = match self.takes - self.paid {
            // A hair of an egg is none.
            none if none < 0.05 => String::new(),
            all if self.takes - all < 0.05 => ", paid for already with another part of them".to_owned(),
            _ => format!(", {before} of which are paid for already with another part of them"),
        };
        format!("{part} has no price of its own, so the whole {whole} is paid for: {takes} of them{before}")
    }
}

/// What a part comes of.
pub(super) struct Source<'p> {
    /// The food that is bought.
    pub whole: FoodId,
    /// What it costs.
    pub price: &'p Price,
    /// Grams of the part that one whole gives.
    gives: Estimate,
    /// Grams of one whole as bought.
    weighs: Estimate,
}

/// The whole with a price that the item is a part of.
pub(super) fn source<'p>(item: &Item, prices: &'p [Price], pantry: &Pantry, kitchen: Kitchen) -> Option<Source<'p>> {
    let part = item.food?;
    let of_egg = ["egg white", "egg yolk"].iter().any(|name| pantry.named(name) == Some(part));
    let size = item.size.as_deref().and_then(Size::named).filter(|_| of_egg);
    let one = |food: FoodId| Some(weigh::one(pantry.food(food), Unit::Piece, size, kitchen.eggs)?.grams);
    let wholes: Vec<(FoodId, Estimate)> = if of_egg {
        pantry.named("egg").zip(one(part)).into_iter().collect()
    } else {
        // What a fruit gives is told of the usual size; a large one counts for more than one here and in the line alike.
        let of_fruit = |(fruit, given): (&evencrumb_pantry::Food, &evencrumb_pantry::row::Yield)| {
            let influence = Influence::named(&format!("{} of one {}", given.food, fruit.name));
            Some((pantry.named(&fruit.name)?, Estimate::of(given.grams.range, influence)))
        };
        pantry.given_by(part).filter_map(of_fruit).collect()
    };
    wholes.into_iter().find_map(|(whole, gives)| {
        let price = prices.iter().find(|price| price.food == whole)?;
        let grams = one(whole)?;
        let weighs = match eaten::edible_share(pantry.food(whole)) {
            Some(share) => grams.over(&share)?,
            None => grams,
        };
        Some(Source { whole, price, gives, weighs })
    })
}

/// The wholes that the lines of one recipe have taken so far, in grams as bought: by the whole and the part.
#[derive(Default)]
pub(super) struct Taken(Vec<(FoodId, FoodId, Estimate)>);

impl Taken {
    /// Takes the wholes for some grams of a part: grams of the whole that must be bought beyond what is bought already.
    pub fn take(&mut self, part: FoodId, grams: &Estimate, of: &Source<'_>) -> Option<(Estimate, FromWhole)> {
        let needed = grams.over(&of.gives)?.product(&of.weighs);
        let more = self.more(of.whole, part, &needed);
        let number = |grams: &Estimate| grams.best() / of.weighs.best();
        let told = FromWhole {
            part,
            whole: of.whole,
            takes: number(&needed),
            paid: number(&more),
            grams: (needed, more.clone()),
        };
        Some((more, told))
    }

    /// Takes what another recipe has taken and paid for by itself, and tells it as it is paid for here: the yolks of a
    /// custard are those of the eggs whose whites are in the cake. Gives what it paid for there as well, in grams.
    pub fn again(&mut self, there: &mut FromWhole) -> Estimate {
        let more = self.more(there.whole, there.part, &there.grams.0);
        let takes = there.grams.0.best();
        there.paid = if takes > 0.0 { there.takes * more.best() / takes } else { 0.0 };
        std::mem::replace(&mut there.grams.1, more)
    }

    /// Takes some grams of a whole, as bought, for a part of it: those that are not bought already.
    fn more(&mut self, whole: FoodId, part: FoodId, needed: &Estimate) -> Estimate {
        let before = self.bought(whole);
        match self.0.iter_mut().find(|taken| (taken.0, taken.1) == (whole, part)) {
            Some((_, _, sum)) => sum.add(needed),
            None => self.0.push((whole, part, needed.clone())),
        }
        let after = self.bought(whole);
        if after.best() > before.best() { after.less(&before) } else { Estimate::default() }
    }

    /// Grams of a whole that are bought: so many as the part that takes most of them needs.
    fn bought(&self, whole: FoodId) -> Estimate {
        let of_it = self.0.iter().filter(|taken| taken.0 == whole).map(|taken| &taken.2);
        of_it.max_by(|one, other| one.best().total_cmp(&other.best())).cloned().unwrap_or_default()
    }
}
