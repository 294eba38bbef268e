//! Foods of the author's own: like one of ours, or as the label says.
//!
//! Besides the words of any row (`data/README.md`) she may write what stands on a packet: nutrients for 100 g by their
//! plain names, `salt` in grams, and grams of a cup, a tablespoon or a piece. What the label does not print stays unknown.

use evencrumb_manuscript::word::name_key;
use evencrumb_measure::{Custom, Range, Source, Unit};

use super::Reading;
use super::judge::no_kitchen_weighs;
use crate::row::{Citation, Cited, Composition, CupWeight, FOOD_KEYS, Fields, Food, PieceWeight, Place, UNSAID, Value};

impl Reading {
    /// Puts the foods of the file beside ours. One that is like another of the author's own may stand before it.
    pub(super) fn foods(&mut self, rows: &[&Value<'_>]) {
        let mut waiting = Vec::new();
        for row in rows {
            self.reader.food = None;
            let Some(mut fields) = self.reader.fields(row, "a food") else { continue };
            let allergens = written(&fields, "allergens");
            let Some(mut food) = self.reader.food(&mut fields) else { continue };
            // A word that nobody could read may have been the one that matters.
            food.allergens_untold = allergens.is_none_or(|written| food.allergens.len() < written);
            self.weights_of_no_kitchen(&mut food);
            let like = fields.take("like").and_then(|value| self.reader.text(value, "like"));
            self.label(&mut food, &mut fields);
            let known = format!(
                "like, from, salt, energy, fat and the other nutrients, cup_grams, tablespoon_grams, piece_grams, {FOOD_KEYS}"
            );
            self.reader.refuse_the_rest(fields, &known);
            waiting.push((food, like));
        }
        self.circles_by_our_names(&waiting);
        // Each round settles those whose like is known by then; what is left over names no food.
        loop {
            let before = waiting.len();
            let mut later = Vec::new();
            for (food, like) in waiting {
                let own_later = |name: &String| self.pantry.named(name).is_none();
                if like.as_ref().is_some_and(own_later) { later.push((food, like)) } else { self.put(food, like) }
            }
            waiting = later;
            if waiting.is_empty() || waiting.len() == before {
                break;
            }
        }
        let links: Vec<(String, String)> = waiting.iter().map(|(food, like)| link(food, like.as_deref())).collect();
        for (food, like) in waiting {
            let like = like.unwrap_or_default();
            self.reader.food = Some(food.name.clone());
            if let Some(circle) = circle(&food.name, &links) {
                let what = format!("what it is like goes in a circle: {circle}");
                let mend = "say of one of them what it is like among other foods, or what its label says; it was taken \
                            as a food of which only this row is known";
                self.reader.fault(food.place.clone(), what, mend.to_owned());
                self.put_beside(food);
                continue;
            }
            let mend = self.nearest(&like, "it was taken as a food of which only this row is known");
            self.reader.fault(food.place.clone(), format!("it is like “{like}”, which is no food known here"), mend);
            self.put_beside(food);
        }
    }

    /// Tells of foods that are like each other in a circle which only closes because one of them bears a name of ours; of
    /// each that is like such a name, ours was taken.
    fn circles_by_our_names(&mut self, waiting: &[(Food, Option<String>)]) {
        let links: Vec<(String, String)> = waiting.iter().map(|(food, like)| link(food, like.as_deref())).collect();
        for (food, like) in waiting.iter() {
            let Some(ours) = like.as_ref().and_then(|like| self.pantry.named(like)) else { continue };
            // Hers that is like ours of the same name is plain enough.
            let is_itself = like.as_ref().is_some_and(|like| name_key(like) == name_key(&food.name));
            let Some(circle) = circle(&food.name, &links).filter(|_| !is_itself) else { continue };
            self.reader.food = Some(food.name.clone());
            let taken = self.pantry.food(ours).name.clone();
            self.reader.fault(
                food.place.clone(),
                format!("what it is like goes in a circle: {circle}"),
                format!(
                    "give one of them another name; the {taken} known here without your file was taken for “{}”",
                    like.as_deref().unwrap_or_default()
                ),
            );
        }
        self.reader.food = None;
    }

    fn put(&mut self, mut food: Food, like: Option<String>) {
        let place = food.place.clone();
        if let Some(model) = like.as_ref().and_then(|like| self.pantry.named(like)) {
            let model = self.pantry.food(model).clone();
            food = like_that(food, model);
        } else if food.cup.is_empty() && food.piece.is_empty() && food.teaspoon.is_none() && food.composition.is_none()
        {
            self.reader.food = Some(food.name.clone());
            let mend =
                "write like = \"…\", or what its label says; until then it has neither weight nor nutrients".to_owned();
            self.reader.fault(place.clone(), "nothing is said of it but its name".to_owned(), mend);
        }
        self.put_beside(food);
    }

    fn put_beside(&mut self, mut food: Food) {
        let place = food.place.clone();
        if food.own.is_empty() {
            food.own.push(format!("a food of your own ({place})"));
        }
        for name in food.names().map(str::to_owned).collect::<Vec<_>>() {
            self.note_another_meaning(&name, None, &place);
        }
        self.pantry.put(food);
    }

    /// Takes out what a cup, teaspoon or piece of her row cannot weigh.
    fn weights_of_no_kitchen(&mut self, food: &mut Food) {
        let holds = |unit: Unit| unit.millilitres(Custom::Us).map(Range::best);
        let mut is_sound =
            |grams: &Cited, millilitres: Option<f64>| match no_kitchen_weighs(grams.range.best(), millilitres) {
                Some(what) => {
                    self.reader.fault(grams.place.clone(), what, "correct it; it was left out".to_owned());
                    false
                }
                None => true,
            };
        food.cup.retain(|cup| is_sound(&cup.grams, holds(Unit::Cup)));
        food.teaspoon = food.teaspoon.take().filter(|grams| is_sound(grams, holds(Unit::Teaspoon)));
        food.piece.retain(|piece| is_sound(&piece.grams, None));
    }

    /// Grams that a key of the row gives a measure; what no kitchen weighs is told and left out.
    fn grams_of(&mut self, fields: &mut Fields<'_, '_>, key: &str, millilitres: Option<f64>) -> Option<f64> {
        let value = fields.take(key)?;
        let grams = self.reader.number(value, key)?;
        let Some(what) = no_kitchen_weighs(grams, millilitres) else { return Some(grams) };
        self.reader.fault_at(value, format!("{key}: {what}"), "correct it; it was left out");
        None
    }

    /// What the packet says, into the form that every food has.
    fn label(&mut self, food: &mut Food, fields: &mut Fields<'_, '_>) {
        let from = fields.take("from").and_then(|value| self.reader.text(value, "from"));
        let source = from.map_or_else(
            || "as foods.toml says".to_owned(),
            |from| format!("from the {}", from.trim_start_matches("the ")),
        );
        let mut said: Vec<String> = Vec::new();
        let us = |unit: Unit| unit.millilitres(Custom::Us).map_or(1.0, Range::best);
        let custom = self.kitchen.custom;
        let hers = |unit: Unit| unit.millilitres(custom).map_or(1.0, Range::best);
        let measures =
            [("cup_grams", "cup", hers(Unit::Cup)), ("tablespoon_grams", "tablespoon", hers(Unit::Tablespoon))];
        for (key, measure, holds) in measures {
            let Some(grams) = self.grams_of(fields, key, Some(holds)) else { continue };
            let in_a_us_cup = us(Unit::Cup) / holds;
            said.push(format!("1 {measure} weighs {grams} g"));
            // The first that is said counts for cups; a tablespoon beside a cup would be the same food twice.
            if food.cup.is_empty() {
                food.cup.extend(cited(grams * in_a_us_cup, &source, &food.place).map(|grams| CupWeight {
                    way: None,
                    grams,
                    dense: None,
                }));
            }
        }
        if let Some(grams) = self.grams_of(fields, "piece_grams", None) {
            said.push(format!("one weighs {grams} g"));
            food.piece.extend(cited(grams, &source, &food.place).map(|grams| PieceWeight {
                unit: Unit::Piece,
                size: None,
                grams,
            }));
        }
        let values = self.printed(fields, &food.place);
        if !values.is_empty() && food.composition.is_none() {
            said.push("what 100 g hold".to_owned());
            food.composition = citation(&source).map(|from| Composition { values, from, place: food.place.clone() });
        }
        if !said.is_empty() {
            food.own.push(format!("{}, {source} ({})", said.join(", "), food.place));
        }
    }
}

/// How many values a key of a row has; nothing where the row does not have it.
fn written(fields: &Fields<'_, '_>, key: &str) -> Option<usize> {
    let (_, _, value) = fields.left.iter().find(|(own, _, _)| *own == key)?;
    Some(value.get_ref().as_array().map_or(1, |values| values.len()))
}

/// A food and what it is like, as names are compared.
fn link(food: &Food, like: Option<&str>) -> (String, String) {
    (name_key(&food.name), name_key(like.unwrap_or_default()))
}

/// The way from a food by what each is like back to it, as `a → b → a`; nothing when it does not come back.
fn circle(name: &str, links: &[(String, String)]) -> Option<String> {
    let start = name_key(name);
    let mut way = vec![start.clone()];
    // No way is longer than there are foods before it comes by one of them again.
    while way.len() <= links.len() {
        let here = way.last()?;
        let (_, next) = links.iter().find(|(food, _)| food == here)?;
        way.push(next.clone());
        if *next == start {
            return Some(way.join(" → "));
        }
    }
    None
}

/// The author's food, weighed and counted as the model where her row says nothing.
fn like_that(hers: Food, model: Food) -> Food {
    let mut food = Food { id: hers.id, name: hers.name, also: hers.also, place: hers.place, own: hers.own, ..model };
    if hers.composition.is_some() {
        (food.table, food.stand_in, food.parts, food.parts_from) = (None, None, Vec::new(), None);
        food.composition = hers.composition;
    } else if food.table.is_some() {
        food.stand_in = Some(format!("it is counted as {}, as foods.toml says", model.name));
    }
    if !hers.cup.is_empty() {
        (food.cup, food.teaspoon) = (hers.cup, None);
    }
    food.teaspoon = hers.teaspoon.or(food.teaspoon);
    if !hers.piece.is_empty() {
        food.piece = hers.piece;
    }
    // What either says of allergens holds: nothing that somebody must avoid may get lost.
    food.allergens.extend(hers.allergens);
    food.allergens.sort_unstable();
    food.allergens.dedup();
    food.allergens_untold = food.allergens_untold && hers.allergens_untold;
    food.gluten = hers.gluten.or(food.gluten);
    food.sugar = hers.sugar.or(food.sugar);
    if !hers.roles.is_empty() {
        food.roles = hers.roles;
    }
    food.own.push(format!("weighed and counted as {} ({})", model.name, food.place));
    food.like = Some(model.name);
    food
}

fn citation(words: &str) -> Option<Citation> {
    let source = Source::by_id("own")?;
    Some(Citation { source, row: None, portion: None, words: Some(words.to_owned()) })
}

/// A figure that she gave without a range.
fn cited(best: f64, words: &str, place: &Place) -> Option<Cited> {
    let range = Range::new(best * (1.0 - UNSAID), best, best * (1.0 + UNSAID))?;
    Some(Cited { range, from: citation(words)?, place: place.clone() })
}
