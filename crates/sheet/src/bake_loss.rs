//! How much of its weight a bake loses as water, by its kind; the rows stand in `data/bake_loss.toml`.

use std::sync::LazyLock;

use evencrumb_measure::Range;
use serde::Deserialize;

use crate::fit::has_any;

/// A kind of bake.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bake {
    /// What it is, in words.
    pub what: String,
    /// Words of titles and headings.
    #[serde(default)]
    words: Vec<String>,
    /// Kinds of batter, by name.
    #[serde(default)]
    kinds: Vec<String>,
    /// Whether only what holds no flour is meant.
    #[serde(default)]
    without_flour: bool,
    /// The share of the raw weight that is lost.
    pub lost: Range,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Bakes {
    bake: Vec<Bake>,
}

static BAKES: LazyLock<Vec<Bake>> = LazyLock::new(|| {
    let bakes: Bakes = toml::from_str(include_str!("../data/bake_loss.toml"))
        .expect("bake_loss.toml is read by a test before it ships");
    bakes.bake
});

/// The kind of a bake: `names` are title and parts in small letters, `kind` the name of the kind of batter.
pub fn of(names: &str, kind: &str, has_flour: bool) -> Option<&'static Bake> {
    BAKES.iter().find(|bake| {
        let named = bake.words.iter().any(|word| has_any(names, &[word]));
        let any = bake.words.is_empty() && bake.kinds.is_empty();
        !(bake.without_flour && has_flour) && (any || named || bake.kinds.iter().any(|of| of == kind))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn what(names: &str, kind: &str, has_flour: bool) -> &'static str {
        &of(names, kind, has_flour).expect("the last row fits all").what
    }

    #[test]
    fn ok_every_kind_is_one_of_the_fit_and_loses_less_than_half() {
        for bake in BAKES.iter() {
            assert!(bake.lost.low() > 0.0 && bake.lost.high() < 0.5, "{}", bake.what);
            for kind in &bake.kinds {
                assert!(crate::fit::kind_names().any(|name| name == kind), "{kind}");
            }
        }
    }

    #[test]
    fn ok_kinds_by_name_and_by_batter() {
        assert_eq!(what("raspberry meringue kisses", "cookie dough", false), "meringue that is dried through");
        assert_eq!(what("lemon meringue pie", "pie crust and filling", true), "a pie or tart");
        assert_eq!(what("seeded crackers", "cookie dough", true), "crackers and other thin crisp bakes");
        assert_eq!(what("coffee choux buns", "cookie dough", true), "choux");
        assert_eq!(what("plum cake", "creamed cake batter", true), "cakes");
    }
}
