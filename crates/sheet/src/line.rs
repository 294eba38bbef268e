//! One line read and weighed: what both the terminal and the JSON tell.

use evencrumb_manuscript::line::{self, FOOD_NOT_KNOWN, Item, Kind, Line, NO_INGREDIENT};
use evencrumb_manuscript::{Query, QueryKind, Weight};
use evencrumb_measure::Estimate;
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::{self, Basis, Kitchen, MEASURE_NOT_KNOWN, Weighed};

use crate::eaten;
use crate::made::Made;

/// A purpose that is said of a part of the line only.
pub static PURPOSE_OF_A_PART: QueryKind = QueryKind { name: "purpose-of-a-part", weight: Weight::Look };

/// A line with the weights of its foods.
#[derive(Clone, Debug)]
pub struct WeighedLine {
    /// The line as the author wrote it.
    pub text: String,
    /// What was read in it. Its foods and alternatives stand in [`WeighedLine::foods`] and
    /// [`WeighedLine::alternatives`], its queries in [`WeighedLine::queries`]; here they are empty.
    pub read: Line,
    /// The foods it names, the first of alternatives only.
    pub foods: Vec<WeighedItem>,
    /// The others of "or". They are told and never counted.
    pub alternatives: Vec<WeighedItem>,
    /// What a careful reader would ask, from reading and from weighing, in the order of their places.
    pub queries: Vec<Query>,
    /// What the last of several foods alone is for, as in "3 eggs + 1 egg white for brushing".
    pub purpose_of_last: Option<String>,
    /// Of oil that fries: the share that is taken up, where the weight of what is fried is known.
    pub taken_up: Option<Estimate>,
    /// Of what is fried until its fat runs: the share of the fat that stays, where the rest is poured off.
    pub fat_left: Option<Estimate>,
}

/// A food of a line and what it weighs.
#[derive(Clone, Debug)]
pub struct WeighedItem {
    /// What was read.
    pub item: Item,
    /// What it weighs, and on what that leans.
    pub weighed: Weighed,
    /// What it takes of something made, where it names a component or another manuscript and not a food.
    pub made: Option<Box<Made>>,
    /// The share of the grams that is used here, where a later line uses what remains; else 1.
    pub here: f64,
}

impl WeighedItem {
    /// A food that is used where its line stands.
    pub fn new(item: Item, weighed: Weighed) -> WeighedItem {
        WeighedItem { item, weighed, made: None, here: 1.0 }
    }
}

impl WeighedLine {
    /// Whether a figure is missing or wrong until something in the line is mended.
    pub fn must_be_mended(&self) -> bool {
        self.queries.iter().any(|query| query.kind.weight == Weight::MustMend)
    }

    /// Takes an alternative in place of the first, which becomes the last alternative.
    pub fn choose(&mut self, alternative: usize) {
        if alternative < self.alternatives.len() && !self.foods.is_empty() {
            let chosen = self.alternatives.remove(alternative);
            let first = std::mem::replace(&mut self.foods[0], chosen);
            self.alternatives.push(first);
        }
    }

    /// The column where a query stands, in Unicode scalar values from 1.
    pub fn column(&self, query: &Query) -> usize {
        let at = self.text.floor_char_boundary(query.place.start);
        self.text[..at].chars().count() + 1
    }
}

/// Reads and weighs a line. Never fails: what is not known has no weight and a query that says so.
pub fn weigh(text: &str, pantry: &Pantry, kitchen: Kitchen) -> WeighedLine {
    weigh_read(text, line::read(text, pantry), pantry, kitchen)
}

/// Weighs a line that was read already.
pub fn weigh_read(text: &str, mut read: Line, pantry: &Pantry, kitchen: Kitchen) -> WeighedLine {
    let mut queries = std::mem::take(&mut read.queries);
    queries.extend(purpose_of_a_part(text, &mut read));
    let purpose_of_last = purpose_of_last(text, &mut read, pantry);
    let purpose = read.purpose.clone();
    let mut weighed = |items: Vec<Item>, counted: bool| -> Vec<WeighedItem> {
        let mut found = Vec::new();
        for mut item in items {
            item.food = weigh::meant(&item, pantry);
            let mut weighed = weigh::weigh(&item, purpose.as_deref(), pantry, kitchen);
            // No total waits for the weight of an alternative, so that nothing must be mended when it has none.
            queries
                .extend(weighed.queries.drain(..).filter(|query| counted || query.kind.name != MEASURE_NOT_KNOWN.name));
            with_peel(text, &item, pantry, &mut weighed);
            found.push(WeighedItem::new(item, weighed));
        }
        found
    };
    let foods = weighed(std::mem::take(&mut read.foods), true);
    let alternatives = weighed(std::mem::take(&mut read.alternatives), false);
    if foods.is_empty() && queries.is_empty() {
        // The reader is silent about an empty line and about one of marks alone; whoever asked to have it weighed is told.
        queries.push(nothing_to_weigh(text, read.kind));
    }
    for query in queries.iter_mut().filter(|query| query.kind.name == FOOD_NOT_KNOWN.name) {
        let items = foods.iter().chain(&alternatives);
        let asked = items.map(|one| &one.item).find(|item| item.food.is_none() && item.place == query.place);
        if let Some(guess) = asked.and_then(|item| pantry.nearest(&item.name, 1).into_iter().next()) {
            query.mend = format!("The nearest known is “{}”; it was not used. {}", guess.food.name, query.mend);
        }
    }
    queries.sort_by_key(|query| (query.place.start, query.kind.weight));
    WeighedLine {
        text: text.to_owned(),
        read,
        foods,
        alternatives,
        queries,
        purpose_of_last,
        taken_up: None,
        fat_left: None,
    }
}

/// Gives a counted fruit that goes in whole the weight of its peel; the row's is without.
fn with_peel(text: &str, item: &Item, pantry: &Pantry, weighed: &mut Weighed) {
    let Some(food) = item.food.map(|food| pantry.food(food)).filter(|food| eaten::is_with_peel(text, item, food))
    else {
        return;
    };
    let counted = !item.amounts.iter().any(line::Amount::is_weight);
    if let (Some(grams), Some(edible), true) = (weighed.grams.as_mut(), eaten::edible_share(food), counted) {
        *grams = grams.product(&edible.inverse());
        let words =
            format!("{} goes in whole; {:.0} % of it is what is left without peel", food.name, edible.best() * 100.0);
        let source = food.edible.as_ref().map_or("common-practice", |edible| edible.from.source.id.as_str());
        weighed.basis.extend(Basis::of(source, words));
    }
}

/// Purposes that take some of a line away.
const LESSENS: &[&str] = &["greasing", "dusting", "frying", "brushing", "soaking"];

/// A purpose that takes most of a line away is let go where it is said of a part of the line only: "6 tbsp butter (4 for
/// batter, 2 for pan)", "500 g flour, of which 50 g for dusting", "1 egg (reserve white for brushing)".
fn purpose_of_a_part(text: &str, read: &mut Line) -> Option<Query> {
    let said = read.foods.first().map(|item| item.preparation.as_str()).unwrap_or_default();
    let is_part = said.split([',', ';']).any(|clause| is_part_of(clause.trim()));
    let purpose = read.purpose.take_if(|purpose| is_part && LESSENS.contains(&purpose.as_str()))?;
    Some(Query::new(
        &PURPOSE_OF_A_PART,
        0..text.len(),
        format!("Only a part of “{}” is for {purpose}; all of it was counted as eaten.", text.trim()),
        format!("Write two lines, one of them for {purpose}."),
    ))
}

/// A purpose behind the last of several foods is that one's: "3 eggs + 1 egg white for brushing", "500 g flour plus 1 egg
/// for brushing". An egg thinned with milk is one wash, and behind a comma it is said of the whole line, unless an extra of
/// the same food was added with a plus.
fn purpose_of_last(text: &str, read: &mut Line, pantry: &Pantry) -> Option<String> {
    let [.., before, last] = &read.foods[..] else { return None };
    let first = &read.foods[0];
    let rest = text.get(last.place.end..)?.to_lowercase();
    let at = rest.find("for ").or_else(|| rest.find("to "))?;
    let is_egg =
        |item: &Item| item.food.is_some_and(|food| pantry.food(food).roles.contains(&evencrumb_pantry::row::Role::Egg));
    let between = text.get(before.place.end..last.place.start)?;
    let added = between.contains('+') || between.split_whitespace().any(|word| word.eq_ignore_ascii_case("plus"));
    let alike = first.food.is_some() && first.food == last.food || is_egg(first) && is_egg(last);
    let behind_comma = rest[..at].contains([',', ';', '(']);
    let one_wash = is_egg(first) && !is_egg(last);
    let of_last = if behind_comma { added && alike } else { alike || !one_wash };
    read.purpose.take_if(|purpose| of_last && LESSENS.contains(&purpose.as_str()))
}

/// "2", "50 g", "about 2 tbsp", "of which 50 g", "reserve white", "half".
fn is_part_of(clause: &str) -> bool {
    let clause = clause.to_lowercase();
    let mut words = clause.split_whitespace().skip_while(|word| matches!(*word, "about" | "and" | "plus" | "then"));
    let Some(first) = words.next() else { return false };
    if matches!(first, "reserve" | "reserved" | "reserving" | "save" | "keep" | "half" | "some" | "including") {
        return true;
    }
    let number = first.starts_with(|c: char| c.is_numeric());
    let unit = first.trim_start_matches(|c: char| c.is_numeric() || "./⁄-–".contains(c));
    let is_unit = |word: &str| evencrumb_measure::Unit::written(word).is_some();
    let rest: Vec<&str> = words.collect();
    match rest[..] {
        ["which", ..] => first == "of",
        [] => number && (unit.is_empty() || is_unit(unit)),
        [unit] => number && is_unit(unit),
        _ => false,
    }
}

fn nothing_to_weigh(text: &str, kind: Kind) -> Query {
    let message = if text.contains(char::is_alphanumeric) {
        format!("The line was taken for {}, so nothing in it is weighed.", kind.words())
    } else {
        "There is no word and no number in the line, so nothing is weighed.".to_owned()
    };
    Query::new(&NO_INGREDIENT, 0..text.len(), message, "Write the amount and the food.")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weighed(text: &str) -> WeighedLine {
        weigh(text, Pantry::ours(), Kitchen::default())
    }

    fn queries(text: &str) -> String {
        let line = weighed(text);
        line.queries
            .iter()
            .map(|query| format!("{}:{}", line.column(query), query.kind.name))
            .collect::<Vec<_>>()
            .join(" ")
    }

    #[test]
    fn ok_foods_and_alternatives_have_weights() {
        let line = weighed("1 cup pecans or walnuts, chopped");
        assert_eq!(line.foods.len(), 1);
        assert_eq!(line.alternatives.len(), 1);
        assert!(line.foods[0].weighed.grams.is_some());
    }

    #[test]
    fn ok_a_purpose_of_a_part_leaves_the_line_whole_and_is_asked_about() {
        for text in [
            "6 tbsp butter (4 for batter, 2 for pan)",
            "500 g flour, of which 50 g for dusting",
            "1 egg (reserve white for brushing)",
            "3/4 cup sugar (reserve 1/4 cup for rolling)",
        ] {
            let line = weighed(text);
            assert_eq!(line.read.purpose, None, "{text}");
            assert!(line.queries.iter().any(|query| query.kind.name == PURPOSE_OF_A_PART.name), "{text}");
        }
        for text in [
            "2 tbsp butter, for the pan",
            "1 egg, beaten with 1 tbsp water, for brushing",
            "2 tablespoons flour for dusting",
            "1 litre oil, 5 cm deep, for frying",
        ] {
            let line = weighed(text);
            assert!(line.read.purpose.is_some() && line.queries.is_empty(), "{text} {:?}", line.queries);
        }
    }

    #[test]
    fn ok_columns_count_characters() {
        assert_eq!(queries("½ cup crème flâche"), "7:food-not-known");
    }

    #[test]
    fn ok_an_empty_line_says_so() {
        assert_eq!(queries(", ; %"), "1:no-ingredient");
        assert_eq!(queries("   "), "1:no-ingredient");
        assert!(weighed("=").queries[0].message.starts_with("There is no word and no number in the line"));
        assert!(!weighed("").must_be_mended());
    }

    #[test]
    fn err_an_unknown_food_names_the_nearest_and_does_not_use_it() {
        let line = weighed("1 cup hazlenut flower");
        assert!(line.must_be_mended());
        assert!(line.foods[0].weighed.grams.is_none());
        assert!(line.queries[0].mend.contains("“hazelnut flour”; it was not used"), "{}", line.queries[0].mend);
    }
}
