//! Rows that state a fact go into the manuscript: "Makes 12" wherever it stands.

use super::super::FactKind;
use super::super::NodeKind;
use super::super::fact;
use super::super::rows::Mark;
use super::Reader;
use crate::food_words::FoodWords;
use std::ops::Range;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    pub(super) fn state_facts(&mut self, at: usize, facts: Vec<fact::Fact>) {
        self.say(at, NodeKind::Fact);
        let body = self.row(at).body.clone();
        let exact = self.text[body.clone()] == *self.row(at).text;
        for mut fact in facts {
            // Places are exact where the row stands as it was read, else the row's.
            let place =
                |own: &Range<usize>| if exact { own.start + body.start..own.end + body.start } else { body.clone() };
            fact.place = place(&fact.place);
            fact.heats.iter_mut().for_each(|heat| heat.place = place(&heat.place));
            fact.times.iter_mut().for_each(|time| time.place = place(&time.place));
            self.out.facts.push(fact);
        }
    }

    /// Takes the row as a fact when it says what the recipe makes.
    pub(super) fn yields(&mut self, at: usize, text: &str) -> bool {
        if self.words(at) > 14 || self.row(at).mark != Mark::None {
            return false;
        }
        let facts = fact::facts(text, false);
        if facts.first().is_none_or(|fact| fact.kind != FactKind::Yield) {
            return false;
        }
        self.state_facts(at, facts);
        true
    }
}
