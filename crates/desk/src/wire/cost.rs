//! What a recipe costs, in `evencrumb sheet --json`.

use evencrumb_measure::{Currency, Estimate, Range};
use evencrumb_pantry::Pantry;
use evencrumb_sheet::cost::{Cost, Price, Purchase, Sum};
use serde::Serialize;

use super::{Figure, Open, SheetAnswer};

/// What the ingredients cost, by the share of each pack that is used. No tax, no energy, no labour, no packaging.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CostAnswer {
    /// The currency of all sums, by its code (ISO 4217), as `USD`; sums are in its units, not in cents.
    pub currency: String,
    /// The whole batch; null when nothing in it has a price.
    pub batch: Option<Open>,
    /// One piece; null when the text does not say how many there are.
    pub piece: Option<Open>,
    /// One serving; null when the text does not say how many there are.
    pub serving: Option<Open>,
    /// 100 g as it is eaten, baked where it is baked; null when something has no weight.
    pub per_100_g: Option<Open>,
    /// What has no price, so that all sums with it are "at least"; unknown is not free. Water and ice are free.
    pub unpriced: Vec<String>,
    /// What has a price and no weight, so that nobody knows how much of a pack is used; sums are "at least" too.
    pub unweighed: Vec<String>,
    /// What must be bought in whole packs beyond what is in stock, in the order of the recipe; only what has a price.
    pub buy: Vec<BuyAnswer>,
    /// What those packs cost together; "at least" when something has no price.
    pub to_pay: PayAnswer,
    /// The oldest day of the prices used, as `2026-02-20`; null when none has a day.
    pub oldest_price: Option<String>,
    /// Foods of which the price used has no day.
    pub undated: Vec<String>,
    /// Which of several prices of a food was taken, and what is paid for as the whole it comes of (egg whites as eggs), in
    /// words.
    pub notes: Vec<String>,
}

/// Packs of one food.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BuyAnswer {
    /// The food.
    pub food: String,
    /// How many packs; at least one.
    pub packs: u64,
    /// How many packs are enough in nineteen kitchens of twenty.
    pub packs_to_be_sure: u64,
    /// The pack in the author's words, as `2 lb`.
    pub pack: String,
    /// What one pack costs.
    pub price: Figure,
    /// Grams as bought, with peel and core, that are left of the packs and the stock.
    pub left_over_grams: Open,
}

/// What is paid at the till.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PayAnswer {
    /// The packs to be bought, to the cent.
    pub known: Figure,
    /// Whether more must be paid for what has no price, unless it is in stock.
    pub at_least: bool,
}

/// What was assumed.
const IN_WORDS: &str = "cost is that of the ingredients alone, by the share of each pack that is used, water free: no \
                        tax, no energy, no labour";

impl SheetAnswer {
    /// The answer with what it costs; pantry and cost are those of its sheet. Without any price it stays as it is.
    #[must_use]
    pub fn with_cost(mut self, cost: &Cost, currency: Currency, pantry: &Pantry) -> SheetAnswer {
        let sum = |sum: &Sum| sum.known.then(|| open(&sum.coins, sum.is_at_least(), currency));
        for (component, (of_lines, whole)) in self.components.iter_mut().zip(cost.lines.iter().zip(&cost.components)) {
            component.cost = sum(whole);
            for (line, of_line) in component.lines.iter_mut().zip(of_lines) {
                line.cost = of_line.as_ref().and_then(sum);
            }
        }
        let of_variants = self.variants.iter_mut().map(|variant| &mut variant.totals).zip(&cost.variants);
        for (totals, cost) in std::iter::once((&mut self.totals, cost)).chain(of_variants) {
            totals.cost = Some(CostAnswer::of(cost, currency, pantry));
            totals.assumptions.push(IN_WORDS.to_owned());
        }
        self
    }
}

impl CostAnswer {
    fn of(cost: &Cost, currency: Currency, pantry: &Pantry) -> CostAnswer {
        let at_least = cost.batch.is_at_least();
        let part = |part: &Option<Estimate>| {
            part.as_ref().filter(|_| cost.batch.known).map(|coins| open(coins, at_least, currency))
        };
        let name = |price: &Price| pantry.food(price.food).name.clone();
        let paid = cost
            .buy
            .iter()
            .map(|one| one.price.times(one.packs))
            .fold(Default::default(), evencrumb_measure::Money::plus);
        CostAnswer {
            currency: currency.code().to_owned(),
            batch: cost.batch.known.then(|| open(&cost.batch.coins, at_least, currency)),
            piece: part(&cost.piece),
            serving: part(&cost.serving),
            per_100_g: part(&cost.per_100_g),
            unpriced: cost.batch.unpriced.clone(),
            unweighed: cost.batch.unweighed.clone(),
            buy: cost.buy.iter().map(|one| BuyAnswer::of(one, currency, pantry)).collect(),
            to_pay: PayAnswer { known: units(paid.value(), currency), at_least },
            oldest_price: cost.used.iter().filter_map(|price| price.bought.clone()).min(),
            undated: cost.used.iter().filter(|price| price.bought.is_none()).map(name).collect(),
            notes: cost
                .used
                .iter()
                .filter_map(|price| price.note.clone())
                .chain(cost.batch.from_whole.iter().map(|one| one.in_words(pantry)))
                .collect(),
        }
    }
}

impl BuyAnswer {
    fn of(one: &Purchase, currency: Currency, pantry: &Pantry) -> BuyAnswer {
        BuyAnswer {
            food: pantry.food(one.food).name.clone(),
            packs: one.packs,
            packs_to_be_sure: one.packs_to_be_sure,
            pack: one.pack.clone(),
            price: units(one.price.value(), currency),
            left_over_grams: Open::of(&one.left_over, false),
        }
    }
}

/// Coins as units of the currency.
fn units(coins: f64, currency: Currency) -> Figure {
    Figure::sound(coins / f64::from(currency.coins()))
}

fn open(coins: &Estimate, at_least: bool, currency: Currency) -> Open {
    let range: Range = coins.range();
    Open {
        best: units(range.best(), currency),
        low: units(range.low(), currency),
        high: (!at_least).then(|| units(range.high(), currency)),
    }
}
