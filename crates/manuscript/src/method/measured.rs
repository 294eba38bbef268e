//! Weights that the author gives in the text: "the batter weighs 212 g a cup".

use super::Measured;
use super::step::sentences;
use crate::figures;
use crate::layout::Manuscript;
use crate::line::{Cut, numbers, unit};
use crate::token::Kind as Token;

/// Weights in headnote, notes and steps: "the batter weighs 212 g a cup".
pub(super) fn measured(text: &str, out: &Manuscript) -> Vec<Measured> {
    use crate::layout::NodeKind;
    let mut found = Vec::new();
    for node in
        out.nodes.iter().filter(|node| matches!(node.kind, NodeKind::Headnote | NodeKind::Note | NodeKind::Step))
    {
        for sentence in sentences(&text[node.place.clone()], node.place.start) {
            let cut = Cut::of(&text[sentence.clone()]);
            weights(&cut, sentence.start, &mut found);
        }
    }
    found
}

/// What a weight in the text may be of.
const WEIGHED: &[&str] = &[
    "batter", "dough", "layer", "layers", "mixture", "filling", "frosting", "icing", "crumb", "streusel", "glaze",
    "cake", "loaf", "coat", "ball", "balls", "cup", "cups", "square", "squares", "piece", "bun", "roll", "cookie",
    "muffin", "pan", "pans", "half", "portion", "syrup", "custard", "cream", "caramel", "ganache", "crust", "pulp",
    "puree", "jam", "curd", "compote", "paste",
];

/// The weights of a sentence, which begins at byte `offset` of the manuscript.
fn weights(cut: &Cut<'_>, offset: usize, found: &mut Vec<Measured>) {
    let mut what: Option<&str> = None;
    let mut at = 0;
    while at < cut.tokens.len() {
        if cut.any(at, WEIGHED) && !(what.is_some() && at > 0 && cut.any(at - 1, &["of"])) {
            what = Some(cut.written(at, at + 1));
        }
        let start = (!figures::in_run(cut, at)).then_some(at);
        let read = start.and_then(|at| numbers(cut, at)).and_then(|read| {
            unit(cut, read.next).and_then(|(unit, next)| {
                unit.grams().map(|grams| (read.low.value() * grams, read.high.value() * grams, next))
            })
        });
        let Some((low, high, next)) = read else {
            at += 1;
            continue;
        };
        let each = (1..=2).any(|back| at >= back && cut.any(at - back, &["each"]));
        let per = if cut.any(next, &["a", "per", "each", "apiece"]) || cut.mark(next, '/') {
            cut.get(next + 1)
                .filter(|token| token.kind == Token::Word && !cut.any(next, &["each", "apiece"]))
                .map(|token| token.folded.to_string())
                .or_else(|| what.map(str::to_owned))
        } else if cut.any(next, &["into", "in"]) && cut.any(next + 1, &["each"]) {
            cut.get(next + 2)
                .filter(|token| token.kind == Token::Word)
                .map(|token| token.folded.to_string())
                .or_else(|| what.map(str::to_owned))
        } else if each || (0..at).any(|at| cut.any(at, &["each", "every"]) && at < 3) {
            what.map(str::to_owned)
        } else {
            pieces_before(cut, at)
        };
        let of = (cut.any(next, &["of"]) && cut.any(next + 1, WEIGHED)).then(|| cut.written(next + 1, next + 2));
        let verb = (at.saturating_sub(5)..at)
            .any(|at| cut.any(at, &["weigh", "weighs", "is", "are", "takes", "about", "makes", "gives", "scale"]));
        let bracketed = at > 0 && cut.mark(at - 1, '(');
        // "You should have about 2 cups (490 g)": what the step made, whatever it is called.
        let before = bracketed.then(|| volume_before(cut, at - 1)).flatten();
        let gives = before.is_some_and(|(from, _)| {
            (from.saturating_sub(4)..from).any(|at| cut.any(at, &["have", "makes", "make", "gives", "yields", "get"]))
        });
        let said = if per.is_none()
            && is_said_to_be_there(cut, at)
            && let Some(what) = of_what(cut, next)
        {
            Some((what, None, None))
        } else if gives && let Some((_, millilitres)) = before {
            Some(("mixture".to_owned(), Some(millilitres), None))
        } else if (verb || per.is_some()) && !bracketed {
            let name = of.or(what).map(|name| crate::word::fold(name).into()).or_else(|| per.clone());
            name.map(|name| (name, None, per))
        } else {
            None
        };
        if let Some((what, millilitres, per)) = said {
            let place = cut.place(at, next);
            let place = place.start + offset..place.end + offset;
            found.push(Measured { what, grams: (low, high), millilitres, per, place });
        }
        at = next.max(at + 1);
    }
}

/// The pieces whose weight begins at token `at`: "divide in 10 pieces of about 85 g".
fn pieces_before(cut: &Cut<'_>, at: usize) -> Option<String> {
    const BETWEEN: &[&str] = &["of", "about", "approximately", "approx", "roughly", "around", "at", "weighing"];
    const PIECES: &[&str] = &[
        "piece", "pieces", "ball", "balls", "bun", "buns", "roll", "rolls", "portion", "portions", "cookie", "cookies",
        "round", "rounds", "part", "parts", "loaf", "loaves", "mound", "mounds", "knot", "knots",
    ];
    let last = (0..at).rev().find(|before| !cut.any(*before, BETWEEN))?;
    let counted = (last.saturating_sub(2)..last)
        .any(|before| cut.get(before).is_some_and(|token| token.is_number()) || cut.any(before, &["equal", "even"]));
    let joined = last + 1 < at && counted && cut.any(last, PIECES);
    joined.then(|| cut.written(last, last + 1).to_lowercase())
}

/// "You should have about", "we will end up with roughly" before the number at `at`.
fn is_said_to_be_there(cut: &Cut<'_>, at: usize) -> bool {
    const BETWEEN: &[&str] = &[
        "about",
        "roughly",
        "around",
        "approximately",
        "approx",
        "some",
        "a",
        "total",
        "of",
        "just",
        "over",
        "under",
        "nearly",
        "at",
        "least",
        "up",
        "with",
    ];
    let Some(verb) = (0..at).rev().find(|before| !cut.any(*before, BETWEEN)) else { return false };
    cut.any(verb, &["have", "get", "end", "left", "got"])
        && (verb.saturating_sub(3)..verb).any(|at| cut.any(at, &["should", "will", "ought", "youll", "well", "ll"]))
}

/// What the weight before `next` is of: "of batter", "of the smooth dough", or simply what there is. Nothing when it is of
/// something that is no whole component, as "50 g of zest".
fn of_what(cut: &Cut<'_>, next: usize) -> Option<String> {
    let after = cut.get(next).filter(|token| token.kind == Token::Word);
    if after.is_none() || cut.any(next, &["in", "left", "total", "now", "altogether", "at", "when", "after", "once"]) {
        return Some("mixture".to_owned());
    }
    let named = (next..next + 4).take_while(|at| cut.get(*at).is_some_and(|token| token.kind == Token::Word));
    let named = named.into_iter().find(|at| cut.any(*at, WEIGHED))?;
    Some(crate::word::fold(cut.written(named, named + 1)).into())
}

/// A volume that ends before token `end`: where it begins, and its millilitres.
fn volume_before(cut: &Cut<'_>, end: usize) -> Option<(usize, f64)> {
    (end.saturating_sub(6)..end).find_map(|from| {
        let read = numbers(cut, from)?;
        let (unit, next) = unit(cut, read.next)?;
        let each = unit.millilitres(evencrumb_measure::Custom::Us)?.best();
        (next == end).then_some((from, f64::midpoint(read.low.value(), read.high.value()) * each))
    })
}

#[cfg(test)]
mod tests {
    /// What a step says to have made, in whole grams.
    fn said(step: &str) -> String {
        let text = format!("Pears\n\n900 g pears\n50 g sugar\n\nMethod\n1. Stir the pears. {step}\n");
        let read = crate::layout::read(&text, &["pear"][..]);
        let said = |one: &super::Measured| {
            format!("{} {:.0} to {:.0} {}", one.what, one.grams.0, one.grams.1, one.per.clone().unwrap_or_default())
        };
        read.measured.iter().map(said).collect::<Vec<_>>().join("; ").trim_end().to_owned()
    }

    #[test]
    fn ok_how_many_grams_there_should_be() {
        assert_eq!(said("You should have about 250 g."), "mixture 250 to 250");
        assert_eq!(said("You should have 250 g of batter."), "batter 250 to 250");
        assert_eq!(said("You should get roughly 250 to 300 g of the smooth dough."), "dough 250 to 300");
        assert_eq!(said("You should end up with about 1 kg of batter in all."), "batter 1000 to 1000");
        assert_eq!(said("You will have 250 g in total."), "mixture 250 to 250");
        assert_eq!(said("You should have 12 balls of about 60 g."), "balls 60 to 60 balls");
        assert_eq!(said("You should have about 50 g of zest."), "");
        assert_eq!(said("You have 250 g to use."), "");
    }

    #[test]
    fn ok_a_number_of_pieces_before_a_weight() {
        let text = "Knots\n\n900 g flour\n\nMethod\n1. Prove the dough, divide in 10 pieces of about 85 g. The dough weighs 850 g.\n";
        let read = crate::layout::read(text, &["flour"][..]);
        let per: Vec<Option<&str>> = read.measured.iter().map(|one| one.per.as_deref()).collect();
        assert_eq!(per, [Some("pieces"), None]);
    }

    #[test]
    fn ok_what_a_step_should_have_made() {
        let text =
            "Pears\n\n900 g pears\n50 g sugar\n\nMethod\n1. Roast and puree. You should have about 2 cups (490 g).\n";
        let read = crate::layout::read(text, &["pear"][..]);
        assert_eq!(read.measured.len(), 1);
        assert!((read.measured[0].grams.0 - 490.0).abs() < 1e-9);
        assert!((read.measured[0].millilitres.unwrap_or_default() - 473.2).abs() < 0.1);
        assert!(read.steps[0].cooks);
    }
}
