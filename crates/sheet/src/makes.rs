//! What the text says that it makes, of all its facts together.

use evencrumb_manuscript::{Fact, FactKind, Manuscript, Query, QueryKind, Weight, Yield};

/// A row that tells how much it makes, in no number that is read.
pub static YIELD_NOT_READ: QueryKind = QueryKind { name: "yield-not-read", weight: Weight::Look };
/// Two rows that tell different numbers of the same.
pub static YIELDS_DIFFER: QueryKind = QueryKind { name: "yields-differ", weight: Weight::Look };

/// The yield; the first fact that says a thing wins. Queries have places in the manuscript.
pub fn makes(manuscript: &Manuscript) -> (Yield, Vec<Query>) {
    let mut whole = Yield::default();
    let mut queries = Vec::new();
    for (fact, makes) in manuscript.facts.iter().filter_map(|fact| fact.makes.as_ref().map(|makes| (fact, makes))) {
        queries.extend(ask(fact, makes, &whole));
        whole.pieces = whole.pieces.or(makes.pieces);
        whole.servings = whole.servings.or(makes.servings);
        whole.word = whole.word.or_else(|| makes.word.clone());
        whole.container = whole.container.or_else(|| makes.container.clone());
    }
    (whole, queries)
}

fn ask(fact: &Fact, makes: &Yield, before: &Yield) -> Option<Query> {
    if fact.kind == FactKind::Yield && *makes == Yield::default() {
        return Some(Query::new(
            &YIELD_NOT_READ,
            fact.place.clone(),
            format!("“{}” gives no number of pieces or servings; none was taken.", fact.words),
            "Write it as “Makes 24 cookies, serves 12”.",
        ));
    }
    let differs = |one: Option<(f64, f64)>, other: Option<(f64, f64)>| one.is_some() && other.is_some() && one != other;
    let words = match (differs(before.servings, makes.servings), differs(before.pieces, makes.pieces)) {
        (true, _) => before.servings.map(|(low, high)| format!("{} servings", between(low, high))),
        (_, true) if makes.word == before.word || makes.word.is_none() => {
            before.pieces.map(|(low, high)| format!("{} pieces", between(low, high)))
        }
        _ => None,
    }?;
    Some(Query::new(
        &YIELDS_DIFFER,
        fact.place.clone(),
        format!("“{}” is not what was said before; {words} were taken.", fact.words),
        "Leave one of the two.",
    ))
}

fn between(low: f64, high: f64) -> String {
    if low < high { format!("{low} to {high}") } else { low.to_string() }
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::Pantry;

    use super::*;

    fn asked(facts: &str) -> Vec<&'static str> {
        let text = format!("Slab\n\n{facts}\n\n100 g flour\n100 g sugar\n\nMethod\n1. Mix.\n");
        let manuscript = evencrumb_manuscript::read(&text, Pantry::ours());
        makes(&manuscript).1.iter().map(|query| query.kind.name).collect()
    }

    #[test]
    fn ok_one_yield() {
        assert!(asked("Makes 24 cookies, serves 12").is_empty());
        assert!(asked("Makes 1 loaf (12 slices)").is_empty());
    }

    #[test]
    fn err_a_yield_without_a_number_and_two_that_differ() {
        assert_eq!(asked("Serves a crowd"), ["yield-not-read"]);
        assert_eq!(asked("Serves 8\nServes 12"), ["yields-differ"]);
    }
}
