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
    /// Whether only what holds no flour is meant, or hardly any: a pavlova has a spoon of starch.
    #[serde(default)]
    without_flour: bool,
    /// Kinds of batter that it never is, whatever the title says, by name.
    #[serde(default)]
    never: Vec<String>,
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

/// The most flour of a bake that is told by holding none. Common practice, no source.
const HARDLY_FLOUR: f64 = 0.06;

/// The kind of a bake: `names` are title and parts in small letters, `kind` the name of the kind of batter, `flour` the share
/// of flours, starches and nut flours in the raw weight.
pub fn of(names: &str, kind: &str, flour: f64) -> Option<&'static Bake> {
    BAKES.iter().find(|bake| {
        let named = bake.words.iter().any(|word| has_any(names, &[word]));
        let any = bake.words.is_empty() && bake.kinds.is_empty();
        let is_other = bake.without_flour && flour > HARDLY_FLOUR || bake.never.iter().any(|never| never == kind);
        !is_other && (any || named || bake.kinds.iter().any(|of| of == kind))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn what(names: &str, kind: &str, flour: f64) -> &'static str {
        &of(names, kind, flour).expect("the last row fits all").what
    }

    #[test]
    fn ok_every_kind_is_one_of_the_fit_and_loses_less_than_half() {
        for bake in BAKES.iter() {
            assert!(bake.lost.low() > 0.0 && bake.lost.high() < 0.5, "{}", bake.what);
            for kind in bake.kinds.iter().chain(&bake.never) {
                assert!(crate::fit::kind_names().any(|name| name == kind), "{kind}");
            }
        }
    }

    #[test]
    fn ok_kinds_by_name_and_by_batter() {
        assert_eq!(what("raspberry meringue kisses", "cookie dough", 0.0), "meringue that is dried through");
        assert_eq!(what("lemon meringue pie", "pie crust and filling", 0.3), "a pie or tart");
        assert_eq!(what("seeded crackers", "cookie dough", 0.3), "crackers and other thin crisp bakes");
        assert_eq!(what("coffee choux buns", "cookie dough", 0.3), "choux");
        assert_eq!(what("berry pavlova", "angel food batter", 0.02), "a pavlova, crisp outside and soft inside");
        assert_eq!(
            what("brown sugar meringues", "whipped-egg batter with nuts or fat", 0.01),
            "meringue that is dried through"
        );
        assert_eq!(what("coffee macarons", "cookie dough", 0.3), "macarons");
        assert_eq!(what("oat cookies", "creamed cake batter", 0.3), "cookies");
        assert_eq!(what("rhubarb custard traybake", "creamed cake batter", 0.25), "cakes");
        assert_eq!(what("custard tart", "pie crust and filling", 0.2), "a custard, cheesecake or baked pudding");
        assert_eq!(what("plum cake", "creamed cake batter", 0.3), "cakes");
    }
}
