//! A whole manuscript in one kitchen: its components, what each weighs, and what a batch, a serving and 100 g hold.

use std::borrow::Cow;
use std::collections::HashSet;
use std::ops::Range as Bytes;

use evencrumb_manuscript::{LineRead, Manuscript, Query, QueryKind, Weight, Yield};
use evencrumb_measure::{Estimate, Influence, Range};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;

use crate::choice::{self, Choice, Offer, Variant};
use crate::fit::{self, Fit, OwnPan};
use crate::kept::{self, Kept};
use crate::line::{self, WeighedItem, WeighedLine};
use crate::made::{self, Elsewhere, Origin};
use crate::place::Lines;
use crate::shelf::{self, Shelf};
use crate::total::{self, Total};
use crate::used::{self, Uses};
use crate::{aside, behind, makes, measured, remaining, rendered, yield_weight};

/// A food without an amount.
pub static NO_AMOUNT: QueryKind = QueryKind { name: "no-amount", weight: Weight::Look };
/// What is only served with it, without an amount.
pub static NOT_COUNTED: QueryKind = QueryKind { name: "not-counted", weight: Weight::Note };

/// All computed figures of one manuscript.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// The title as the author wrote it.
    pub title: Option<String>,
    /// What it makes, as far as the text says.
    pub makes: Yield,
    /// The parts with their lines, in the order written.
    pub components: Vec<Component>,
    /// The whole batch, raw.
    pub total: Total,
    /// What heat leaves of the raw weight; nothing when nothing meets heat.
    pub kept: Option<Kept>,
    /// The batter and the pans it goes in.
    pub fit: Fit,
    /// The same recipe with each alternative, and without what is optional.
    pub variants: Vec<Variant>,
    /// What a careful reader would ask, in the order of the text.
    pub queries: Vec<Placed>,
}

/// A part of the recipe with an ingredient list of its own.
#[derive(Clone, Debug)]
pub struct Component {
    /// What heads it; nothing for a list without a heading.
    pub name: Option<String>,
    /// Its ingredient lines.
    pub lines: Vec<Line>,
    /// What they add up to.
    pub total: Total,
    /// The share of it that goes into this bake; less than 1 where the method keeps the rest for another.
    pub in_batch: f64,
}

impl Component {
    /// What heads it, and a word for what has no heading.
    pub fn heading(&self) -> &str {
        self.name.as_deref().unwrap_or(UNHEADED)
    }
}

/// What a list without a heading is called.
pub(crate) const UNHEADED: &str = "Ingredients";

/// An ingredient line in its component.
#[derive(Clone, Debug)]
pub struct Line {
    /// Bytes of the manuscript.
    pub place: Bytes<usize>,
    /// Its number in the manuscript, from 1.
    pub number: usize,
    /// The line weighed.
    pub weighed: WeighedLine,
    /// Grams of it that are eaten, of all its foods together; nothing when none has a weight or when it adds nothing.
    pub eaten: Option<Estimate>,
    /// Its share of the component's weight, from 0 to 1; nothing when the line or the component has no weight.
    pub share: Option<f64>,
    /// Baker's percentage: grams for 100 g of the flours, starches and nut flours of the component.
    pub bakers_percent: Option<f64>,
    /// Whether it adds nothing, because what it speaks of was counted where it was listed before.
    pub adds_nothing: bool,
    /// The steps that use it, and what is left over.
    pub uses: Uses,
}

/// A query with its place in the manuscript.
#[derive(Clone, Debug)]
pub struct Placed {
    /// The query; its place counts bytes of the manuscript.
    pub query: Query,
    /// Line of the manuscript, from 1.
    pub line: usize,
    /// Column in Unicode scalar values, from 1.
    pub column: usize,
}

/// What a sheet is computed with.
#[derive(Clone, Copy)]
pub struct Setting<'a> {
    /// The foods.
    pub pantry: &'a Pantry,
    /// Whose measures and eggs are meant.
    pub kitchen: Kitchen,
    /// The other manuscripts, for lines that name one.
    pub shelf: &'a dyn Shelf,
    /// The pans the author owns.
    pub pans: &'a [OwnPan],
}

/// A manuscript whose lines are weighed, before anything is chosen.
pub struct Unchosen<'a> {
    text: &'a str,
    manuscript: &'a Manuscript,
    setting: &'a Setting<'a>,
    lines: Vec<Vec<WeighedLine>>,
    /// The shelf, which all variants share.
    elsewhere: Elsewhere<'a>,
}

/// Computes the sheet of a manuscript alone, without other manuscripts around. `text` is the text that it was read from.
pub fn sheet(text: &str, manuscript: &Manuscript, pantry: &Pantry, kitchen: Kitchen) -> Sheet {
    Sheet::of(text, manuscript, &Setting { pantry, kitchen, shelf: &shelf::Empty, pans: &[] }, &Choice::default())
}

impl Sheet {
    /// Computes the sheet. `text` is the text that `manuscript` was read from.
    pub fn of(text: &str, manuscript: &Manuscript, setting: &Setting<'_>, choice: &Choice) -> Sheet {
        Unchosen::of(text, manuscript, setting).sheet(choice)
    }

    /// Computes the sheet as a part of the sheets of the manuscripts whose texts are in `stack`, as it is written and
    /// without its variants.
    pub(crate) fn within(
        text: &str,
        manuscript: &Manuscript,
        setting: &Setting<'_>,
        elsewhere: &Elsewhere<'_>,
        stack: &[&str],
    ) -> Sheet {
        let lines = weighed(text, manuscript, setting);
        Sheet::raw(text, manuscript, setting, elsewhere, lines, stack).in_pans(text, manuscript, setting)
    }

    /// The sheet with the pans it fits and what heat leaves of it.
    fn in_pans(mut self, text: &str, manuscript: &Manuscript, setting: &Setting<'_>) -> Sheet {
        fit::put(&mut self, text, manuscript, setting);
        self.kept = kept::of(&self, text, manuscript, setting.pantry);
        yield_weight::put(&mut self, text, manuscript);
        self
    }

    /// The lines summed, before pans and heat.
    fn raw(
        text: &str,
        manuscript: &Manuscript,
        setting: &Setting<'_>,
        elsewhere: &Elsewhere<'_>,
        mut lines: Vec<Vec<WeighedLine>>,
        stack: &[&str],
    ) -> Sheet {
        let pantry = setting.pantry;
        let places = Lines::of(text);
        let mut queries: Vec<Query> = manuscript.queries.clone();
        let made = made::settle(manuscript, &mut lines, setting, elsewhere, &[stack, &[text]].concat());
        queries.extend(made.queries);
        let place = |(part, nth): (usize, usize)| manuscript.components[part].lines[nth].place.clone();
        let mut adds_nothing = HashSet::new();
        for settled in remaining::settle(&mut lines) {
            queries.push(Query { place: place(settled.at), ..settled.query });
            if settled.adds_nothing {
                adds_nothing.insert(settled.at);
            }
        }
        for (part, lines) in lines.iter().enumerate() {
            let asked = lines.iter().enumerate().filter(|(nth, _)| !adds_nothing.contains(&(part, *nth)));
            let asked = asked.filter_map(|(nth, line)| Some((nth, no_amount(line).or_else(|| beside(line))?)));
            queries.extend(asked.map(|(nth, query)| Query { place: place((part, nth)), ..query }));
        }
        let (makes, asked) = makes::makes(manuscript);
        queries.extend(asked);
        let mut uses = used::uses(manuscript, &lines, setting).into_iter();
        let mut components = Vec::new();
        let mut without_taken: Vec<Option<Total>> = Vec::new();
        // Grams of the components before.
        let mut before: Vec<f64> = Vec::new();
        for (part, (component, weighed)) in manuscript.components.iter().zip(lines).enumerate() {
            for (read, weighed) in component.lines.iter().zip(&weighed) {
                queries.extend(weighed.queries.iter().map(|query| in_the_text(query, read, text)));
            }
            let counted = weighed.iter().enumerate().filter(|(nth, _)| !adds_nothing.contains(&(part, *nth)));
            let counted = counted.map(|(_, line)| line);
            let takes = weighed.iter().any(is_taken_here);
            without_taken.push(takes.then(|| total::of(counted.clone().filter(|line| !is_taken_here(line)), pantry)));
            let mut total = total::of(counted, pantry);
            queries.extend(measured::put_over(text, manuscript, part, &before, &mut total));
            before.push(total.grams.best());
            let hundred = flour_grams(weighed.iter(), pantry);
            let whole = total.grams.best();
            let uses = uses.next().unwrap_or_default();
            let lines =
                component.lines.iter().zip(weighed).zip(uses).enumerate().map(|(nth, ((read, weighed), uses))| {
                    let adds_nothing = adds_nothing.contains(&(part, nth));
                    let eaten = total::eaten_grams(&weighed, pantry).filter(|_| !adds_nothing);
                    let grams = eaten.as_ref().map(Estimate::best);
                    Line {
                        place: read.place.clone(),
                        number: places.position(read.place.start).0,
                        eaten,
                        share: grams.filter(|_| whole > 0.0).map(|grams| grams / whole),
                        bakers_percent: grams.filter(|_| hundred > 0.0).map(|grams| grams / hundred * 100.0),
                        adds_nothing,
                        weighed,
                        uses,
                    }
                });
            let mut in_batch = made.in_batch.get(&part).copied().unwrap_or(1.0);
            if !made.taken.contains(&part)
                && let Some(kept) = aside::of(text, manuscript, part, &total, &makes)
            {
                in_batch = kept.share.unwrap_or(1.0);
                queries.push(kept.query);
            }
            components.push(Component { name: component.name.clone(), lines: lines.collect(), total, in_batch });
        }
        queries.sort_by_key(|query| (query.place.start, query.kind.weight));
        let placed = |query: Query| {
            let (line, column) = places.position(query.place.start);
            Placed { query, line, column }
        };
        Sheet {
            title: manuscript.title.clone(),
            makes,
            total: of_batch(&components, &without_taken),
            components,
            kept: None,
            fit: Fit::default(),
            variants: Vec::new(),
            queries: queries.into_iter().map(placed).collect(),
        }
    }
}

/// The whole batch: what goes into this bake of each component. What a component takes of another is counted there;
/// `without_taken` is the total without it, of a component that takes.
fn of_batch(components: &[Component], without_taken: &[Option<Total>]) -> Total {
    let own = components.iter().zip(without_taken).map(|(component, own)| {
        let own = own.as_ref().unwrap_or(&component.total);
        match component.in_batch {
            part if part < 1.0 => Cow::Owned(own.times(&Estimate::exact(part))),
            _ => Cow::Borrowed(own),
        }
    });
    let own: Vec<Cow<'_, Total>> = own.collect();
    total::sum(own.iter().map(AsRef::as_ref))
}

/// Asks for the amount of a food that has none and that no usual amount stands for; its place is left to the caller.
fn no_amount(line: &WeighedLine) -> Option<Query> {
    let asked = line.must_be_mended();
    let without = |one: &&WeighedItem| {
        let named = one.item.food.is_some() && one.made.is_none() && !one.item.reference;
        named && one.item.amounts.is_empty() && total::is_missing(line, one)
    };
    let one = line.foods.iter().find(without).filter(|_| !asked)?;
    Some(Query::new(
        &NO_AMOUNT,
        0..0,
        format!("No amount of “{}” is given; nothing was weighed for it, and the totals are at least.", one.item.name),
        "Write about how much is meant, as “2 tablespoons”; or “to taste”, “for dusting”, “for greasing”, if it is that.",
    ))
}

/// Tells what is served with it and has no amount: it is in no figure, and no figure waits for it.
fn beside(line: &WeighedLine) -> Option<Query> {
    let served = line.foods.iter().filter(|one| total::is_beside(line, one));
    let names: Vec<&str> = served.map(|one| one.item.name.as_str()).collect();
    (!names.is_empty()).then(|| {
        Query::new(
            &NOT_COUNTED,
            0..0,
            format!("Not counted: {}, for serving.", names.join(", ")),
            "Write about how much is meant, as “2 tablespoons”, to have it in the totals.",
        )
    })
}

/// The lines weighed, nothing chosen yet, and marked where the method leaves something of them behind.
fn weighed(text: &str, manuscript: &Manuscript, setting: &Setting<'_>) -> Vec<Vec<WeighedLine>> {
    let weigh = |component: &evencrumb_manuscript::Component| {
        let lines = component.lines.iter();
        let weigh = |read: &LineRead| line::weigh_read(&read.text, read.line.clone(), setting.pantry, setting.kitchen);
        lines.map(weigh).collect()
    };
    let mut lines: Vec<Vec<WeighedLine>> = manuscript.components.iter().map(weigh).collect();
    behind::mark(text, manuscript, &mut lines, setting.pantry);
    rendered::mark(text, manuscript, &mut lines, setting.pantry);
    lines
}

impl<'a> Unchosen<'a> {
    /// Weighs the lines. `text` is the text that `manuscript` was read from.
    pub fn of(text: &'a str, manuscript: &'a Manuscript, setting: &'a Setting<'a>) -> Unchosen<'a> {
        let elsewhere = Elsewhere::of(setting.shelf);
        Unchosen { text, manuscript, setting, lines: weighed(text, manuscript, setting), elsewhere }
    }

    /// What the manuscript leaves to choose, in the order of the text.
    pub fn offers(&self) -> Vec<Offer> {
        let mut offers = self.other_than(&Choice::default());
        offers.extend(choice::without_one(&self.lines, self.number()));
        offers
    }

    fn other_than(&self, choice: &Choice) -> Vec<Offer> {
        choice::offers(&self.lines, choice, self.number())
    }

    /// The number of a line in the manuscript.
    fn number(&self) -> impl Fn(usize, usize) -> usize {
        let places = Lines::of(self.text);
        move |part, nth| places.position(self.manuscript.components[part].lines[nth].place.start).0
    }

    /// The sheet of what is chosen, with a variant for each other choice.
    pub fn sheet(mut self, choice: &Choice) -> Sheet {
        let raw = |mut lines: Vec<Vec<WeighedLine>>, choice: &Choice| {
            choice.make(&mut lines);
            Sheet::raw(self.text, self.manuscript, self.setting, &self.elsewhere, lines, &[])
        };
        let mut offers = self.other_than(choice);
        let again = MOST_LINES_AGAIN / self.lines.iter().map(Vec::len).sum::<usize>().max(1);
        offers.truncate(MOST_VARIANTS.min(again));
        let mut variants: Vec<Variant> =
            offers.into_iter().map(|offer| Variant { sheet: raw(self.lines.clone(), &offer.choice), offer }).collect();
        let lines = std::mem::take(&mut self.lines);
        let mut sheet = raw(lines, choice).in_pans(self.text, self.manuscript, self.setting);
        for variant in &mut variants {
            variant.sheet.kept = sheet.kept.clone();
        }
        sheet.variants = variants;
        sheet
    }
}

/// Most variants that are computed: a text of nothing but "or" would take long, and nobody reads further.
const MOST_VARIANTS: usize = 24;

/// Most lines that are summed once more for all variants together.
const MOST_LINES_AGAIN: usize = 4_000;

/// Whether a line takes of another component of this manuscript.
pub(crate) fn is_taken_here(line: &WeighedLine) -> bool {
    line.foods.iter().any(|one| one.made.as_ref().is_some_and(|made| matches!(made.origin, Origin::Component(_))))
}

/// A query of a line, at its place in the manuscript.
fn in_the_text(query: &Query, read: &evencrumb_manuscript::LineRead, text: &str) -> Query {
    if text.get(read.place.clone()) == Some(read.text.as_str()) {
        return query.clone().moved(read.place.start);
    }
    // A line that was joined from several or taken from a table has no bytes of its own to count along.
    Query { place: read.place.clone(), ..query.clone() }
}

impl Sheet {
    /// Whether a figure is missing or wrong until something is mended.
    pub fn must_be_mended(&self) -> bool {
        self.queries.iter().any(|placed| placed.query.kind.weight == Weight::MustMend)
    }

    /// A sum of the whole batch as it is eaten: baked, where it is baked.
    pub fn ready(&self, raw: &Total) -> Total {
        match &self.kept {
            Some(kept) => raw.dried_to(&raw.grams.product(&kept.share)),
            None => raw.clone(),
        }
    }

    /// Into how many servings the batch is cut: as said, else its pieces; with the range that the author gave.
    pub fn servings(&self) -> Option<Estimate> {
        number_of(self.makes.servings.or(self.makes.pieces), "how many servings are cut")
    }

    /// How many pieces it makes, with the range that the author gave.
    pub fn pieces(&self) -> Option<Estimate> {
        number_of(self.makes.pieces, "how many pieces are made")
    }
}

fn number_of(said: Option<(f64, f64)>, why: &str) -> Option<Estimate> {
    let (low, high) = said.filter(|(low, _)| *low > 0.0)?;
    let best = f64::midpoint(low, high);
    let range = Range::new(low, best, high)?;
    Some(if low < high { Estimate::of(range, Influence::named(why)) } else { Estimate::exact(best) })
}

/// Grams of the flours, starches and nut flours: the hundred of the baker's percentage.
pub(crate) fn flour_grams<'l>(lines: impl Iterator<Item = &'l WeighedLine>, pantry: &Pantry) -> f64 {
    let flours = lines.flat_map(|line| &line.foods).filter(|one| is_of_the_hundred(one, pantry));
    flours.filter_map(|one| one.weighed.grams.as_ref()).map(Estimate::best).sum()
}

/// Whether it is a flour, a starch or a nut flour.
pub(crate) fn is_of_the_hundred(one: &WeighedItem, pantry: &Pantry) -> bool {
    one.item.food.is_some_and(|food| pantry.food(food).roles.first().is_some_and(|role| role.is_of_the_hundred()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Sheet {
        let pantry = Pantry::ours();
        sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default())
    }

    const TEXT: &str = "Plain Squares\n\nMakes 16 squares, serves 8\nOven: 350°F\n\nBase\n200 g all-purpose flour\n100 g butter\n50 g moon dust\n\nTopping\n100 g sugar\n\nMethod\n1. Rub the butter into the flour and bake for 20 minutes.\n";

    #[test]
    fn ok_components_shares_and_totals() {
        let sheet = read(TEXT);
        assert_eq!(sheet.title.as_deref(), Some("Plain Squares"));
        let base = &sheet.components[0];
        assert_eq!(base.lines[1].bakers_percent.map(f64::round), Some(50.0));
        assert!((base.lines[0].share.unwrap_or_default() - 200.0 / 350.0).abs() < 1e-9);
        assert!((sheet.total.grams.best() - 450.0).abs() < 1e-9);
        assert_eq!(sheet.servings().map(|servings| servings.best()), Some(8.0));
        assert!(sheet.kept.is_some());
    }

    #[test]
    fn ok_what_was_listed_above_is_not_added_again() {
        let text = "Slab\n\nIngredients\n1 cup sugar, divided\n\nTopping\nremaining sugar, about 1/2 cup\n200 g pear puree, from above\n";
        let sheet = read(text);
        assert!((sheet.total.grams.best() - 200.0).abs() < 1.0, "{}", sheet.total.grams.best());
        assert_eq!(sheet.queries.iter().filter(|placed| placed.query.kind.name == "already-counted").count(), 2);
    }

    #[test]
    fn err_a_food_without_amount_is_asked_about_and_what_remains_is_not() {
        let text = "Buns\n\nDough\n200 g flour\n100 g sugar, divided\nvanilla\nSome chopped nuts\nMilk to mix\nsalt to taste\nbutter for greasing\n\nTopping\nremaining sugar\npearl sugar\n\nMethod\n1. Mix.\n";
        let sheet = read(text);
        let asked = sheet.queries.iter().filter(|placed| placed.query.kind.name == NO_AMOUNT.name);
        assert_eq!(asked.map(|placed| placed.line).collect::<Vec<_>>(), [6, 7, 8, 14]);
        assert_eq!(sheet.total.unweighed.len(), 4, "{:?}", sheet.total.unweighed);
    }

    #[test]
    fn err_an_unknown_food_is_asked_about_where_it_stands() {
        let sheet = read(TEXT);
        assert!(sheet.must_be_mended());
        let placed = sheet.queries.iter().find(|placed| placed.query.kind.name == "food-not-known").expect("asked");
        assert_eq!((placed.line, placed.column), (9, 6));
        assert_eq!(&TEXT[placed.query.place.clone()], "moon dust");
    }
}
