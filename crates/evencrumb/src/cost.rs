//! Cost and shopping on the page of a sheet.

use std::path::Path;

use evencrumb_desk::kitchen::Found;
use evencrumb_desk::wire::{BuyAnswer, CostAnswer, Figure, Open, SheetAnswer};
use evencrumb_desk::{prices, stock};
use evencrumb_measure::{Currency, Range, say};
use evencrumb_pantry::Pantry;
use evencrumb_sheet::Sheet;
use evencrumb_sheet::cost::Cost;

use crate::out;
use crate::page::Page;
use crate::sheet::some;

/// The answer with what the recipe costs by the prices of its folder; as it is where there are none. What is wrong in the
/// files is said on standard error, and the rest works.
pub fn added(answer: SheetAnswer, sheet: &Sheet, folder: &Path, pantry: &Pantry, found: &Found) -> SheetAnswer {
    match of(sheet, folder, pantry, found) {
        Some((cost, currency)) => answer.with_cost(&cost, currency, pantry),
        None => answer,
    }
}

/// What a recipe costs by the prices of its folder; nothing where there are none.
pub fn of(sheet: &Sheet, folder: &Path, pantry: &Pantry, found: &Found) -> Option<(Cost, Currency)> {
    let (kitchen, currency) = (found.kitchen, Currency::named(&found.household.currency).unwrap_or_default());
    let prices = prices::beside(folder, pantry, kitchen, currency);
    let stock = stock::beside(folder, pantry, kitchen);
    out::faults(&prices.faults);
    out::faults(&stock.faults);
    if prices.rows.is_empty() {
        return None;
    }
    Some((evencrumb_sheet::cost::cost(sheet, &prices.rows, &stock.rows, pantry, kitchen), currency))
}

/// What the batch and one serving cost (or one piece: `one` is the word for it), what that leans on, and what must be
/// bought.
pub fn lay_out(cost: &CostAnswer, one: Option<&str>, page: &mut Page) {
    let currency = Currency::named(&cost.currency).unwrap_or_default();
    // A sum of nothing but what has no price is no sum.
    let priced = cost.batch.as_ref().filter(|batch| batch.best.value() > 0.0 || cost.unpriced.is_empty());
    let Some(batch) = priced else {
        let why = match (cost.unpriced.as_slice(), cost.unweighed.as_slice()) {
            ([], []) => "no ingredient was read".to_owned(),
            ([], unweighed) => format!("no amount of {}", some(unweighed)),
            (unpriced, _) => format!("no price of {}", some(unpriced)),
        };
        page.line(0, &format!("What the batch costs is not known: {why}."));
        return;
    };
    let mut parts = vec![format!("The batch costs {}", sum(batch, currency))];
    parts.extend(one.zip(cost.serving.as_ref()).map(|(word, figure)| format!("one {word} {}", sum(figure, currency))));
    page.line(0, &format!("{}.", parts.join(", ")));
    if !cost.unpriced.is_empty() {
        page.line(2, &format!("No price: {}.", cost.unpriced.join(", ")));
    }
    if !cost.unweighed.is_empty() {
        page.line(2, &format!("A price, but no amount: {}.", cost.unweighed.join(", ")));
    }
    for note in &cost.notes {
        page.line(2, &format!("{note}."));
    }
    let oldest = cost.oldest_price.as_ref().map(|day| format!("the oldest is of {day}"));
    let undated = (!cost.undated.is_empty()).then(|| format!("no day is known for {}", some(&cost.undated)));
    let days: Vec<String> = oldest.into_iter().chain(undated).collect();
    if !days.is_empty() {
        page.line(2, &format!("Prices used: {}.", days.join("; ")));
    }
    if !cost.buy.is_empty() {
        let least = if cost.to_pay.at_least { "at least " } else { "" };
        let packs = cost.buy.iter().map(|one| buy(one, currency)).collect::<Vec<_>>().join("; ");
        let sum = exact(cost.to_pay.known, currency);
        page.line(2, &format!("To buy in whole packs, less what is in stock, {least}{sum}: {packs}."));
    }
}

/// What a serving or piece costs, else the batch; nothing when no price is known.
pub fn in_short(cost: &CostAnswer) -> Option<String> {
    let currency = Currency::named(&cost.currency).unwrap_or_default();
    let (figure, of) =
        cost.serving.as_ref().map(|one| (one, "serving")).or(cost.batch.as_ref().map(|all| (all, "batch")))?;
    Some(format!("{} a {of}", sum(figure, currency)))
}

/// `cream cheese, 2 x 8 oz, $3.15 each`.
fn buy(one: &BuyAnswer, currency: Currency) -> String {
    let price = exact(one.price, currency);
    let sure = if one.packs_to_be_sure > one.packs {
        format!(" ({} to be sure)", one.packs_to_be_sure)
    } else {
        String::new()
    };
    let packs = if one.packs == 1 { one.pack.clone() } else { format!("{} x {}", one.packs, one.pack) };
    let each = if one.packs == 1 { "" } else { " each" };
    // A line is not broken inside "2 x 8 oz".
    format!("{}, {}{sure}, {price}{each}", one.food, packs.replace(' ', "\u{a0}"))
}

/// A sum of money that is exactly known.
pub fn exact(figure: Figure, currency: Currency) -> String {
    say::money(Range::exact(figure.value()), currency)
}

/// A sum of money; "at least" its low end where a part of it is not known.
pub fn sum(figure: &Open, currency: Currency) -> String {
    let best = figure.best.value();
    match figure.high.and_then(|high| Range::new(figure.low.value(), best, high.value())) {
        Some(range) => say::money(range, currency),
        None => format!("at least {}", exact(figure.low, currency)),
    }
}
