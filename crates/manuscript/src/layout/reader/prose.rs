//! A manuscript without a list: "whisk three eggs with a cup of sugar" brings its ingredients in its steps.

use super::super::Component;
use super::super::LINES_FROM_PROSE;
use super::super::NodeKind;
use super::super::OUTSIDE_THE_LIST;
use super::super::rows::Mark;
use super::super::vocabulary::VOCABULARY;
use super::Reader;
use super::Said;
use crate::food_words::FoodWords;
use crate::method;
use crate::prose;
use crate::query::Query;
use crate::word;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Reads a manuscript without a list: paragraphs that tell what to do are steps, and the ingredients stand in them.
    pub(super) fn read_prose(&mut self) {
        self.out.components.clear();
        self.out.steps.clear();
        self.out.notes.retain(|_| self.letter);
        let mut lines = Vec::new();
        let mut at = 0;
        while at < self.end {
            let free =
                |kind| matches!(kind, NodeKind::Headnote | NodeKind::Step | NodeKind::Note | NodeKind::IngredientLine);
            let taken = |reader: &Reader<'_, F>, at: usize| {
                reader.row(at).blank() || !free(reader.said[at].kind) || reader.letter && !reader.row(at).quoted
            };
            if taken(self, at) {
                at += 1;
                continue;
            }
            let mut part = vec![at];
            at += 1;
            while at < self.end && !taken(self, at) && self.row(at).mark == Mark::None {
                part.push(at);
                at += 1;
            }
            let first = part[0];
            let text = self.row(first).text.clone();
            if part.len() == 1 && self.yields(first, &text) {
                continue;
            }
            let verse = part.len() >= 4 && part.iter().all(|at| self.row(*at).text.len() <= 45);
            let place = self.row(first).body.start..self.row(part[part.len() - 1]).body.end;
            let found =
                if verse { Vec::new() } else { prose::lines(&self.text[place.clone()], place.start, self.foods) };
            let heated = || !method::step(self.text, place.clone()).heats.is_empty();
            let does = heated()
                || part.iter().any(|at| {
                    self.row(*at)
                        .text
                        .split(|c: char| !c.is_alphanumeric())
                        .map(word::fold)
                        .any(|word| VOCABULARY.rows.doing.has(&word))
                });
            let step = !verse && !self.is_remark(&part[..1], !self.out.steps.is_empty()) && (does || !found.is_empty());
            let kind = if step {
                NodeKind::Step
            } else if self.out.steps.is_empty() {
                NodeKind::Headnote
            } else {
                NodeKind::Note
            };
            for (nth, &at) in part.iter().enumerate() {
                self.said[at] = Said { kind, goes_on: nth > 0 };
            }
            if step {
                lines.extend(found);
                self.out.steps.push(method::step(self.text, place));
            } else if kind == NodeKind::Note {
                self.out.notes.push(place);
            }
        }
        if let (Some(first), Some(last)) = (lines.first(), lines.last()) {
            let place = first.place.start..last.place.end;
            self.out.queries.push(Query::new(
                &LINES_FROM_PROSE,
                place.clone(),
                format!("The manuscript has no list; {} ingredients were taken out of its sentences.", lines.len()),
                "Look whether each is there once, or write a list.",
            ));
            let mut known = prose::Known::of(&lines);
            self.out.components.push(Component { name: None, place, lines });
            self.ask_named(&mut known);
        }
    }

    /// Asks about the foods that the steps name without an amount.
    fn ask_named(&mut self, known: &mut prose::Known) {
        let steps = self.out.steps.iter().map(|step| step.place.clone());
        let named: Vec<_> = steps
            .flat_map(|place| prose::named(&self.text[place.clone()], place.start, known, self.foods))
            .take(MOST_ASKED)
            .collect();
        for (place, name) in named {
            self.out.queries.push(Query::new(
                &OUTSIDE_THE_LIST,
                place,
                format!("“{name}” is named without an amount; it was not counted."),
                "Write about how much is meant, as “a tablespoon of” or in grams.",
            ));
        }
    }
}

/// Most queries about foods without an amount.
const MOST_ASKED: usize = 12;
