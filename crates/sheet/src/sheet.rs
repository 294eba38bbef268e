//! A whole manuscript in one kitchen: its components, what each weighs, and what a batch, a serving and 100 g hold.

use std::ops::Range as Bytes;

use evencrumb_manuscript::{FactKind, Manuscript, Query, QueryKind, Weight, Yield};
use evencrumb_measure::{Estimate, Influence, Range};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;

use crate::line::{self, WeighedLine};
use crate::total::{self, Total};

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
    /// The share of the raw weight that stays after baking, and why; nothing when nothing is baked.
    pub kept: Option<(Estimate, &'static str)>,
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
}

/// An ingredient line in its component.
#[derive(Clone, Debug)]
pub struct Line {
    /// Bytes of the manuscript.
    pub place: Bytes<usize>,
    /// Its number in the manuscript, from 1.
    pub number: usize,
    /// The line weighed.
    pub weighed: WeighedLine,
    /// Its share of the component's weight, from 0 to 1; nothing when the line or the component has no weight.
    pub share: Option<f64>,
    /// Baker's percentage: grams for 100 g of the flours, starches and nut flours of the component.
    pub bakers_percent: Option<f64>,
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

/// Water lost in baking, as a share of the raw weight: layer cakes lose about a tenth. Common practice, no source; to be
/// replaced by the author's own weighings and by the bake.
const BAKED: (f64, f64, f64) = (0.84, 0.90, 0.95);

/// Computes the sheet. `text` is the text that `manuscript` was read from.
pub fn sheet(text: &str, manuscript: &Manuscript, pantry: &Pantry, kitchen: Kitchen) -> Sheet {
    let lines_begin = line_starts(text);
    let mut queries: Vec<Query> = manuscript.queries.clone();
    let mut components = Vec::new();
    for component in &manuscript.components {
        let weighed: Vec<WeighedLine> = component
            .lines
            .iter()
            .map(|read| line::weigh_read(&read.text, read.line.clone(), pantry, kitchen))
            .collect();
        for (read, weighed) in component.lines.iter().zip(&weighed) {
            let words_as_written = text.get(read.place.clone()) == Some(read.text.as_str());
            for query in &weighed.queries {
                // A line that was joined from several or taken from a table has no bytes of its own to count along.
                let moved = if words_as_written {
                    query.clone().moved(read.place.start)
                } else {
                    Query { place: read.place.clone(), ..query.clone() }
                };
                queries.push(moved);
            }
        }
        for (read, weighed) in component.lines.iter().zip(&weighed).filter(|(_, weighed)| counted_before(weighed)) {
            queries.push(Query::new(
                &COUNTED_BEFORE,
                read.place.clone(),
                format!("“{}” was made or listed above; its weight is shown and not added again.", weighed.text.trim()),
                "Nothing to do, unless it is a new ingredient: then leave out “remaining” or “from above”.",
            ));
        }
        let total = total::of(weighed.iter().filter(|line| !counted_before(line)), pantry);
        let hundred = flour_grams(&weighed, pantry);
        let whole = total.grams.best();
        let lines = component.lines.iter().zip(weighed).map(|(read, weighed)| {
            let grams = total::eaten_grams(&weighed, pantry).map(|grams| grams.best());
            let grams = grams.filter(|_| !counted_before(&weighed));
            Line {
                place: read.place.clone(),
                number: position(&lines_begin, text, read.place.start).0,
                share: grams.filter(|_| whole > 0.0).map(|grams| grams / whole),
                bakers_percent: grams.filter(|_| hundred > 0.0).map(|grams| grams / hundred * 100.0),
                weighed,
            }
        });
        components.push(Component { name: component.name.clone(), lines: lines.collect(), total });
    }
    let baked = manuscript.oven().is_some() || manuscript.facts.iter().any(|fact| fact.kind == FactKind::BakeTime);
    let kept = baked.then(|| Range::new(BAKED.0, BAKED.1, BAKED.2)).flatten().map(|range| {
        (
            Estimate::of(range, Influence::named("water lost in baking")),
            "baking is taken to drive off about a tenth of the weight as water",
        )
    });
    queries.sort_by_key(|query| (query.place.start, query.kind.weight));
    let placed = |query: Query| {
        let (line, column) = position(&lines_begin, text, query.place.start);
        Placed { query, line, column }
    };
    Sheet {
        title: manuscript.title.clone(),
        makes: makes(manuscript),
        total: total::sum(components.iter().map(|component| &component.total)),
        components,
        kept,
        queries: queries.into_iter().map(placed).collect(),
    }
}

impl Sheet {
    /// Whether a figure is missing or wrong until something is mended.
    pub fn must_be_mended(&self) -> bool {
        self.queries.iter().any(|placed| placed.query.kind.weight == Weight::MustMend)
    }

    /// Into how many servings the batch is cut: as said, else its pieces; with the range that the author gave.
    pub fn servings(&self) -> Option<Estimate> {
        let (low, high) = self.makes.servings.or(self.makes.pieces).filter(|(low, _)| *low > 0.0)?;
        let best = f64::midpoint(low, high);
        let range = Range::new(low, best, high)?;
        Some(if low < high {
            Estimate::of(range, Influence::named("how many servings are cut"))
        } else {
            Estimate::exact(best)
        })
    }
}

/// Something that was made or listed above.
pub static COUNTED_BEFORE: QueryKind = QueryKind { name: "counted-before", weight: Weight::Note };

/// Whether a line speaks of what an earlier line or component already brought: "remaining sugar", "pear puree, from above".
fn counted_before(line: &WeighedLine) -> bool {
    let words = line.text.to_lowercase();
    let above = [
        "from above",
        "(above)",
        "see above",
        "recipe above",
        "made above",
        "as above",
        "from earlier",
        "reserved from",
    ];
    line.read.remaining || above.iter().any(|said| words.contains(said))
}

/// What all facts together say that it makes; the first that says a thing wins.
fn makes(manuscript: &Manuscript) -> Yield {
    let mut whole = Yield::default();
    for makes in manuscript.facts.iter().filter_map(|fact| fact.makes.as_ref()) {
        whole.pieces = whole.pieces.or(makes.pieces);
        whole.servings = whole.servings.or(makes.servings);
        whole.word = whole.word.or_else(|| makes.word.clone());
        whole.container = whole.container.or_else(|| makes.container.clone());
    }
    whole
}

/// Grams of the flours, starches and nut flours: the hundred of the baker's percentage.
fn flour_grams(lines: &[WeighedLine], pantry: &Pantry) -> f64 {
    let foods = lines.iter().flat_map(|line| &line.foods);
    let flours = foods.filter(|one| {
        one.item.food.is_some_and(|food| pantry.food(food).roles.first().is_some_and(|role| role.is_of_the_hundred()))
    });
    flours.filter_map(|one| one.weighed.grams.as_ref()).map(Estimate::best).sum()
}

fn line_starts(text: &str) -> Vec<usize> {
    std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect()
}

/// Line and column of a byte, both from 1.
fn position(starts: &[usize], text: &str, at: usize) -> (usize, usize) {
    let at = text.floor_char_boundary(at);
    let line = starts.partition_point(|start| *start <= at).max(1);
    (line, text[starts[line - 1].min(at)..at].chars().count() + 1)
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
        assert_eq!(sheet.queries.iter().filter(|placed| placed.query.kind.name == "counted-before").count(), 2);
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
