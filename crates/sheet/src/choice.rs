//! What a manuscript leaves to choose: the alternatives of "or", and what is optional.

use crate::line::WeighedLine;
use crate::sheet::Sheet;

/// What is chosen where the manuscript leaves a choice; by default the first of alternatives, and all that is optional.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Choice {
    /// Alternatives taken in place of the first: component, line, and which of the alternatives as they are written.
    pub alternatives: Vec<(usize, usize, usize)>,
    /// Whether optional lines are left out.
    pub without_optional: bool,
    /// Optional lines that are left out one by one: component and line.
    pub left_out: Vec<(usize, usize)>,
}

/// One choice that a manuscript leaves.
#[derive(Clone, Debug)]
pub struct Offer {
    /// In words, as `walnuts in place of pecans` or `without what is optional`; no two of a manuscript are alike.
    pub name: String,
    /// Lines of the manuscript where the choice stands, from 1.
    pub lines: Vec<usize>,
    /// The whole choice: this one, with all that was chosen before.
    pub choice: Choice,
}

/// The same recipe with another choice.
#[derive(Clone, Debug)]
pub struct Variant {
    /// What is chosen.
    pub offer: Offer,
    /// Its figures. Pans and further variants are left out, and heat is taken to leave as much as of the recipe itself.
    pub sheet: Sheet,
}

impl Choice {
    /// Both choices in one.
    #[must_use]
    pub fn and(mut self, other: &Choice) -> Choice {
        self.alternatives.extend(&other.alternatives);
        self.without_optional |= other.without_optional;
        self.left_out.extend(&other.left_out);
        self
    }

    /// Which alternative of a line is taken; nothing for the first.
    fn of_line(&self, part: usize, nth: usize) -> Option<usize> {
        self.alternatives.iter().find(|chosen| (chosen.0, chosen.1) == (part, nth)).map(|chosen| chosen.2)
    }

    /// The same with another alternative of a line; with the first where `taken` is nothing.
    fn with(&self, part: usize, nth: usize, taken: Option<usize>) -> Choice {
        let mut choice = self.clone();
        choice.alternatives.retain(|chosen| (chosen.0, chosen.1) != (part, nth));
        choice.alternatives.extend(taken.map(|at| (part, nth, at)));
        choice
    }

    /// Lines with what was chosen of them.
    pub(crate) fn make(&self, lines: &mut [Vec<WeighedLine>]) {
        for (part, lines) in lines.iter_mut().enumerate() {
            for (nth, line) in lines.iter_mut().enumerate() {
                if let Some(alternative) = self.of_line(part, nth) {
                    line.choose(alternative);
                }
                if self.is_left_out(part, nth, line) {
                    line.foods.clear();
                }
            }
        }
    }

    fn is_left_out(&self, part: usize, nth: usize, line: &WeighedLine) -> bool {
        line.read.optional && (self.without_optional || self.left_out.contains(&(part, nth)))
    }
}

/// What could be chosen otherwise than it is, in the order of the text. `lines` are as they are written, nothing chosen
/// yet; `number` gives the number of a line in the manuscript.
pub(crate) fn offers(
    lines: &[Vec<WeighedLine>],
    chosen: &Choice,
    number: impl Fn(usize, usize) -> usize,
) -> Vec<Offer> {
    let mut offers = Vec::new();
    let all = || {
        let numbered = |(part, lines)| {
            let lines: &Vec<WeighedLine> = lines;
            lines.iter().enumerate().map(move |(nth, line)| (part, nth, line))
        };
        lines.iter().enumerate().flat_map(numbered).filter(|(part, nth, line)| !chosen.is_left_out(*part, *nth, line))
    };
    for (part, nth, line) in all() {
        let Some(first) = line.foods.first() else { continue };
        let taken = chosen.of_line(part, nth).filter(|at| *at < line.alternatives.len());
        let name = |at: Option<usize>| &at.map_or(first, |at| &line.alternatives[at]).item.name;
        let others = std::iter::once(None).chain((0..line.alternatives.len()).map(Some)).filter(|at| *at != taken);
        offers.extend(others.map(|at| Offer {
            name: format!("{} in place of {}", name(at), name(taken)),
            lines: vec![number(part, nth)],
            choice: chosen.with(part, nth, at),
        }));
    }
    tell_apart(&mut offers);
    let optional: Vec<usize> =
        all().filter(|(_, _, line)| line.read.optional).map(|(part, nth, _)| number(part, nth)).collect();
    if !optional.is_empty() {
        let choice = Choice { without_optional: true, ..chosen.clone() };
        offers.push(Offer { name: "without what is optional".to_owned(), lines: optional, choice });
    }
    offers
}

/// Each optional line by itself, for whoever leaves out the walnuts and keeps the raisins. They are no variants of their
/// own, so that a sheet doesn't tell every recipe that could be made.
pub(crate) fn without_one(lines: &[Vec<WeighedLine>], number: impl Fn(usize, usize) -> usize) -> Vec<Offer> {
    let mut offers = Vec::new();
    for (part, lines) in lines.iter().enumerate() {
        for (nth, line) in lines.iter().enumerate().filter(|(_, line)| line.read.optional) {
            let names: Vec<&str> = line.foods.iter().map(|one| one.item.name.as_str()).collect();
            if !names.is_empty() {
                offers.push(Offer {
                    name: format!("without {}", names.join(" and ")),
                    lines: vec![number(part, nth)],
                    choice: Choice { left_out: vec![(part, nth)], ..Choice::default() },
                });
            }
        }
    }
    tell_apart(&mut offers);
    offers
}

/// Two lines may leave the same choice; then each says its line.
fn tell_apart(offers: &mut [Offer]) {
    let mut count = std::collections::HashMap::new();
    for offer in offers.iter() {
        *count.entry(offer.name.clone()).or_insert(0) += 1;
    }
    for offer in offers.iter_mut().filter(|offer| count[&offer.name] > 1) {
        offer.name.push_str(&format!(" in line {}", offer.lines[0]));
    }
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::Pantry;
    use evencrumb_pantry::weigh::Kitchen;

    use crate::{Setting, Unchosen, shelf};

    const TEXT: &str = "Bars\n\n100 g pecans or walnuts or almonds\n50 g honey or molasses\n20 g raisins (optional)\n";

    /// The names of what can be chosen otherwise once these names were chosen, with the weight and the fat then.
    fn variants(text: &str, names: &[&str]) -> Vec<String> {
        let pantry = Pantry::ours();
        let manuscript = evencrumb_manuscript::read(text, pantry);
        let setting = Setting { pantry, kitchen: Kitchen::default(), shelf: &shelf::Empty, pans: &[] };
        let unchosen = Unchosen::of(text, &manuscript, &setting);
        let offers = unchosen.offers();
        let choice = names.iter().fold(crate::Choice::default(), |choice, name| {
            choice.and(&offers.iter().find(|offer| offer.name == *name).expect("it is offered").choice)
        });
        let sheet = unchosen.sheet(&choice);
        let fat = |sheet: &crate::Sheet| sheet.total.nutrient(evencrumb_pantry::Nutrient::Fat).amount.best();
        let told = |name: &str, sheet: &crate::Sheet| {
            format!("{name}: {:.0} g, fat {:.0} g", sheet.total.grams.best(), fat(sheet))
        };
        let rest = sheet.variants.iter().map(|one| told(&one.offer.name, &one.sheet));
        std::iter::once(told("this", &sheet)).chain(rest).collect()
    }

    /// SR28, g of fat in 100 g: pecans 71.97, walnuts 65.21, almonds 49.93, honey 0, molasses 0.1, raisins 0.5.
    #[test]
    fn ok_what_is_chosen_stays_chosen_in_the_variants() {
        assert_eq!(
            variants(TEXT, &["walnuts in place of pecans"]),
            [
                "this: 170 g, fat 65 g",
                "pecans in place of walnuts: 170 g, fat 72 g",
                "almonds in place of walnuts: 170 g, fat 50 g",
                "molasses in place of honey: 170 g, fat 65 g",
                "without what is optional: 150 g, fat 65 g",
            ]
        );
        assert_eq!(
            variants(TEXT, &["almonds in place of pecans", "molasses in place of honey", "without what is optional"]),
            [
                "this: 150 g, fat 50 g",
                "pecans in place of almonds: 150 g, fat 72 g",
                "walnuts in place of almonds: 150 g, fat 65 g",
                "honey in place of molasses: 150 g, fat 50 g",
            ]
        );
    }

    #[test]
    fn ok_one_optional_line_is_left_out_and_the_other_stays() {
        let text = "Bars\n\n100 g pecans\n20 g raisins (optional)\n30 g walnuts, optional\n";
        assert_eq!(
            variants(text, &["without raisins"]),
            ["this: 130 g, fat 92 g", "without what is optional: 100 g, fat 72 g"]
        );
        assert_eq!(variants(text, &["without raisins", "without walnuts"]), ["this: 100 g, fat 72 g"]);
    }

    #[test]
    fn ok_the_same_choice_in_two_lines_says_its_line() {
        let text = "Bars\n\nBase\n100 g pecans or walnuts\n\nTopping\n50 g pecans or walnuts\n";
        assert_eq!(
            variants(text, &["walnuts in place of pecans in line 7"])[1..],
            ["walnuts in place of pecans: 150 g, fat 98 g", "pecans in place of walnuts: 150 g, fat 108 g"]
        );
    }
}
