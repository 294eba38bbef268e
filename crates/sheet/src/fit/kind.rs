//! Kinds of batter: how dense each is, and how full a pan of it may be.

use evencrumb_measure::Shape;

use super::words::has_any;

/// A kind of batter.
#[derive(Debug, PartialEq)]
pub struct Kind {
    /// Its name in plain words.
    pub name: &'static str,
    /// Grams in a millilitre: low, best, high.
    pub density: (f64, f64, f64),
    /// The id of the source of the density.
    pub from: &'static str,
    /// How full a pan of it is raw, as a share of the brim: least, usual, most. Common practice, no source.
    pub fill: (f64, f64, f64),
}

const fn kind(name: &'static str, density: (f64, f64, f64), from: &'static str, fill: (f64, f64, f64)) -> Kind {
    Kind { name, density, from, fill }
}

/// The list of the American Society of Baking gives one value a kind; how far kitchens lie from it is common practice.
const ASB: &str = "asb-specific-gravity";
const PRACTICE: &str = "common-practice";

pub(super) static ANGEL: Kind = kind("angel food batter", (0.25, 0.30, 0.42), ASB, (0.45, 0.67, 0.8));
pub(super) static SPONGE: Kind = kind("sponge batter", (0.40, 0.50, 0.62), ASB, (0.25, 0.5, 0.75));
/// Whipped eggs loaded with butter, chocolate or ground nuts; denser than a sponge, lighter than creamed batter.
pub(super) static RICH_SPONGE: Kind =
    kind("whipped-egg batter with nuts or fat", (0.52, 0.70, 0.92), PRACTICE, (0.25, 0.5, 0.8));
/// ASB's layer and cream cakes lie from 0.70 (yellow) to 0.90 (chocolate), with 0.85 for cream cake.
pub(super) static CREAMED: Kind = kind("creamed cake batter", (0.70, 0.85, 0.98), ASB, (0.25, 0.42, 0.67));
pub(super) static POUND: Kind = kind("pound cake batter", (0.72, 0.80, 0.93), ASB, (0.5, 0.67, 0.75));
pub(super) static STIRRED: Kind =
    kind("stirred cake or quick bread batter", (0.85, 1.0, 1.15), PRACTICE, (0.25, 0.5, 0.75));
pub(super) static MUFFIN: Kind = kind("muffin batter", (0.83, 0.98, 1.13), PRACTICE, (0.5, 0.75, 0.95));
pub(super) static CUPCAKE: Kind = kind("cupcake batter", (0.70, 0.86, 1.0), PRACTICE, (0.45, 0.6, 0.75));
pub(super) static BROWNIE: Kind = kind("brownie or bar batter", (0.93, 1.1, 1.27), PRACTICE, (0.17, 0.4, 0.8));
pub(super) static CHEESECAKE: Kind =
    kind("cheesecake filling with its crust", (0.88, 1.04, 1.2), PRACTICE, (0.35, 0.75, 0.95));
pub(super) static DOUGH: Kind = kind("yeast dough", (0.93, 1.1, 1.27), PRACTICE, (0.25, 0.5, 0.67));
/// A pie is heaped and its crust hangs over the rim, so that no share of the brim is too much.
pub(super) static PIE: Kind = kind("pie crust and filling", (0.8, 1.0, 1.2), PRACTICE, (0.4, 1.0, f64::INFINITY));
pub(super) static UNBAKED: Kind = kind("mixture that is not baked", (0.8, 1.05, 1.3), PRACTICE, (0.1, 0.5, 0.98));
/// Layers of caramel, chocolate and short crust; they bake and stay where they are.
pub(super) static STILL: Kind = kind("layers that do not rise", (0.85, 1.05, 1.3), PRACTICE, (0.1, 0.5, 0.98));
pub(super) static COOKIE: Kind = kind("cookie dough", (1.0, 1.2, 1.38), PRACTICE, (0.2, 0.5, 0.8));
pub(super) static UNKNOWN: Kind = kind("batter of an unknown kind", (0.65, 0.92, 1.2), PRACTICE, (0.2, 0.5, 0.7));

#[cfg(test)]
static ALL: &[&Kind] = &[
    &ANGEL,
    &SPONGE,
    &RICH_SPONGE,
    &CREAMED,
    &POUND,
    &STIRRED,
    &MUFFIN,
    &CUPCAKE,
    &BROWNIE,
    &CHEESECAKE,
    &DOUGH,
    &PIE,
    &STILL,
    &COOKIE,
    &UNKNOWN,
];

/// The names of all kinds.
#[cfg(test)]
pub(crate) fn names() -> impl Iterator<Item = &'static str> {
    ALL.iter().map(|kind| kind.name)
}

/// What a batter is told by.
pub(super) struct Signs<'s> {
    /// The title and the names of the parts, in small letters.
    pub names: &'s str,
    /// The sentences of the method before the baking, in small letters.
    pub sentences: &'s [String],
    /// The pan's shape, when it is known.
    pub shape: Option<Shape>,
    /// Whether yeast is in it.
    pub yeast: bool,
    /// Grams of fat in a gram of it.
    pub fat_share: &'s dyn Fn() -> f64,
    /// Whether it is of one part, or most of it rises.
    pub rises: &'s dyn Fn() -> bool,
    /// Whether it is baked at all.
    pub baked: bool,
    /// Whether it lies in pieces on a sheet.
    pub pieces: bool,
}

/// The kind of a batter, and why it was taken for that.
pub(super) fn of(signs: &Signs<'_>) -> (&'static Kind, String) {
    let named = |words: &[&str]| {
        words.iter().find(|word| has_any(signs.names, &[word])).map(|word| format!("the recipe says “{word}”"))
    };
    if !signs.baked {
        return (&UNBAKED, "no step bakes it".to_owned());
    }
    if signs.yeast {
        return (&DOUGH, "there is yeast in it".to_owned());
    }
    if signs.pieces {
        return (&COOKIE, "it is set out in pieces on a sheet".to_owned());
    }
    if let Some(why) = named(&["cheesecake"]) {
        return (&CHEESECAKE, why);
    }
    if matches!(signs.shape, Some(Shape::Pie | Shape::Tart)) {
        return (&PIE, "it is baked in a pie or tart pan".to_owned());
    }
    if let Some(why) = named(&["cupcake"]).filter(|_| !has_any(signs.names, &["muffin"])) {
        return (&CUPCAKE, why);
    }
    if let Some(why) = named(&["muffin"]) {
        return (&MUFFIN, why);
    }
    if signs.shape == Some(Shape::Muffin) {
        return (&MUFFIN, "it is baked in a muffin pan".to_owned());
    }
    if let Some(why) = named(&["brownie", "blondie", "bar", "flapjack", "shortbread"]) {
        return (&BROWNIE, why);
    }
    if let Some(why) = named(&["angel food"]) {
        return (&ANGEL, why);
    }
    // A chiffon is a sponge, and oil is what makes it one.
    if let Some(why) = named(&["chiffon"]) {
        return (&SPONGE, why);
    }
    if let Some(why) = whipped(signs.sentences) {
        // A gram of sponge without fat holds the fat of its eggs, less than 0.06.
        let kind = if (signs.fat_share)() > 0.08 { &RICH_SPONGE } else { &SPONGE };
        return (kind, why.to_owned());
    }
    if let Some(why) = named(&["sponge", "genoise", "génoise"]).filter(|_| (signs.fat_share)() < 0.08) {
        return (&SPONGE, why);
    }
    if let Some(why) = named(&["pound cake"]) {
        return (&POUND, why);
    }
    if creamed(signs.sentences) {
        return (&CREAMED, "butter is beaten with the sugar".to_owned());
    }
    if let Some(why) = named(&["loaf", "bread", "gingerbread", "cake"]) {
        return (&STIRRED, format!("{why}, and nothing in it is whipped or creamed"));
    }
    if !(signs.rises)() {
        return (&STILL, "little in its layers makes them rise".to_owned());
    }
    (&UNKNOWN, "neither names nor method tell what kind it is".to_owned())
}

fn whipped(sentences: &[String]) -> Option<&'static str> {
    // "Beat the egg whites until foamy. Add the sugar and beat to stiff peaks": the peaks are of the whites named before,
    // and not of cream that is whipped meanwhile.
    let peaks = (0..sentences.len()).any(|at| {
        let here = &sentences[at];
        let whites = |sentence: &String| has_any(sentence, &["white", "meringue"]);
        let earlier = || sentences[at.saturating_sub(3)..at].iter().any(whites) && !has_any(here, &["cream", "yolk"]);
        has_any(here, &["peak", "stiff", "glossy"]) && (whites(here) || earlier())
    });
    if peaks {
        return Some("egg whites are beaten to peaks");
    }
    let eggs_alone = sentences.iter().any(|sentence| {
        has_any(sentence, &["egg", "yolk"])
            && has_any(sentence, &["pale", "ribbon", "tripled", "doubled"])
            && has_any(sentence, &["whisk", "beat", "whip"])
            && !has_any(sentence, &["butter", "oil", "margarine", "shortening"])
    });
    eggs_alone.then_some("eggs are whisked until pale or thick")
}

fn creamed(sentences: &[String]) -> bool {
    sentences.iter().any(|sentence| {
        has_any(sentence, &["butter", "margarine", "shortening"])
            && has_any(sentence, &["beat", "cream", "whip"])
            && has_any(sentence, &["sugar", "muscovado", "fluffy", "pale", "light"])
            && !has_any(sentence, &["melted", "melt"])
    })
}

#[cfg(test)]
mod tests {
    use evencrumb_measure::{Range, Source};

    use super::*;

    fn kind(names: &str, sentences: &[&str], fat_share: f64) -> &'static str {
        let sentences: Vec<String> = sentences.iter().map(|&sentence| sentence.to_owned()).collect();
        let signs = Signs {
            names,
            sentences: &sentences,
            shape: None,
            yeast: false,
            fat_share: &|| fat_share,
            rises: &|| true,
            baked: true,
            pieces: false,
        };
        of(&signs).0.name
    }

    #[test]
    fn ok_every_row_is_in_order_and_has_a_source() {
        for kind in ALL {
            let (low, best, high) = kind.density;
            let range = Range::new(low, best, high).expect("in order");
            let source = Source::by_id(kind.from).expect("a source");
            assert!(source.printed || (low <= best * 0.85 && high >= best * 1.15), "{}", kind.name);
            assert!(range.low() > 0.0 && kind.fill.0 < kind.fill.1 && kind.fill.1 < kind.fill.2, "{}", kind.name);
        }
    }

    #[test]
    fn ok_kinds_are_told_by_names_and_method() {
        assert_eq!(kind("fig bars", &[], 0.2), BROWNIE.name);
        assert_eq!(kind("barley cake", &["whisk all together."], 0.1), STIRRED.name);
        assert_eq!(kind("plum cake", &["beat the butter with both sugars until pale."], 0.2), CREAMED.name);
        assert_eq!(kind("torte", &["beat the egg whites to soft peaks."], 0.25), RICH_SPONGE.name);
        assert_eq!(kind("roll", &["whisk the eggs and sugar until pale."], 0.04), SPONGE.name);
        assert_eq!(kind("", &[], 0.0), UNKNOWN.name);
    }

    /// Found by a practitioner: a chiffon cake was taken for a stirred one, because another sentence has its peaks.
    #[test]
    fn ok_whites_may_come_to_peaks_in_a_later_sentence() {
        let beaten = ["beat the egg whites until foamy.", "add the sugar slowly.", "beat to stiff peaks."];
        assert_eq!(kind("chiffon cake", &beaten, 0.15), SPONGE.name);
        assert_eq!(kind("walnut cake", &beaten, 0.15), RICH_SPONGE.name);
        assert_eq!(kind("sunny cake", &beaten, 0.04), SPONGE.name);
        let cream = ["stir in the egg whites.", "beat the cream to stiff peaks."];
        assert_eq!(kind("cake", &cream, 0.15), STIRRED.name);
    }

    /// "A quarter of a teaspoon of cream" is no creaming, and melted butter holds no air.
    #[test]
    fn err_what_is_not_creamed() {
        assert_eq!(kind("cake", &["beat the melted butter with the sugar."], 0.2), STIRRED.name);
        assert_eq!(kind("cake", &["whisk butter into the milk."], 0.2), STIRRED.name);
    }
}
