//! How far other kitchens lie from ours: the doubt that a cup filled elsewhere, or an onion grown elsewhere, adds.
//!
//! A row's own range says how one table's weighings scatter. Tables of other countries lie further apart than that,
//! because others fill differently and sell other kinds and sizes. How far is found by class of measure from printed
//! weighings; the classes and what was found stand in `data/spread.toml`. It is an influence of its own, "how others
//! fill a cup of …", so wide that it and the row's own together reach as far as the class does, and no further than the
//! row where that reaches further already.
//!
//! What the author weighed herself, eggs by class, and what a maker sizes (a can, a stick of butter) have no such doubt.

use std::sync::LazyLock;

use evencrumb_measure::{Estimate, Influence, Range, Unit};
use serde::Deserialize;

use super::Basis;
use crate::row::{Cited, Food, PieceWeight, Role, Size, Way};

/// The source of what was found, and of what was only stated.
const FOUND: &str = "printed-weighings";
const STATED: &str = "common-practice";

/// How the doubt of others is named, before what they measure.
const OTHERS_FILL: &str = "how others fill ";
const OTHERS_TAKE: &str = "how large others take ";

/// A spooned cup that weighs so much for each millilitre is no powder. The heaviest flours and milk powders lie below
/// 0.75, yogurt, jam and nut butters above 0.9.
const PASTE_GRAMS_PER_MILLILITRE: f64 = 0.85;

/// Sugar of at least so much in each millilitre is of crystals: granulated sugar has 0.85, powdered 0.5, coconut sugar,
/// which clumps, 0.65.
const CRYSTALS_GRAMS_PER_MILLILITRE: f64 = 0.75;

/// Measures of one kind, and how far others lie from ours.
#[derive(Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Class {
    /// Which measures, in words.
    pub what: String,
    /// Nine of ten lie above the best value divided by this …
    pub below: f64,
    /// … and below the best value multiplied by this.
    pub above: f64,
    /// From how many printed weighings that was found; `None` when it is common practice.
    pub weighings: Option<usize>,
}

/// Every class, by the names of `data/spread.toml`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Classes {
    /// Cups of powders.
    pub powder: Class,
    /// Cups of packed sugars.
    pub packed: Class,
    /// Cups of grains.
    pub grain: Class,
    /// Cups of sugars that flow.
    pub crystals: Class,
    /// Cups of pieces of fruit and vegetables, and of halves of nuts.
    pub pieces: Class,
    /// Cups of whole nuts.
    pub nuts: Class,
    /// Cups of pastes.
    pub paste: Class,
    /// Cups of liquids.
    pub liquid: Class,
    /// What is measured by the spoon.
    pub by_spoon: Class,
    /// Fruits by the piece.
    pub fruit: Class,
    /// Vegetables by the piece.
    pub vegetable: Class,
}

impl Classes {
    /// All of them, in the order of the file.
    pub fn all(&self) -> [&Class; 11] {
        let Classes { powder, packed, crystals, grain, pieces, nuts, paste, liquid, by_spoon, fruit, vegetable } = self;
        [powder, packed, crystals, grain, pieces, nuts, paste, liquid, by_spoon, fruit, vegetable]
    }
}

/// The classes of `data/spread.toml`.
pub static CLASSES: LazyLock<Classes> = LazyLock::new(|| {
    toml::from_str(include_str!("../../data/spread.toml")).expect("spread.toml is read by a test before it ships")
});

/// A measure with its own doubt and that of others.
#[derive(Debug)]
pub struct Spread {
    /// The figure with both doubts.
    pub grams: Estimate,
    /// With its own doubt alone.
    pub own: Range,
    /// How far others may lie from it; `None` when they may not.
    pub class: Option<&'static Class>,
    /// What it leans on.
    pub basis: Vec<Basis>,
}

/// A measure with the doubt of others beside its own; together they reach as far as `reach` does.
fn with_others(
    own: Range,
    influence: &str,
    (others, class, reach): (&str, &'static Class, Range),
    mut basis: Vec<Basis>,
) -> Spread {
    let mut grams = Estimate::of(own, Influence::named(influence));
    let beside = |reach: f64, own: f64| (reach * reach - own * own).max(0.0).sqrt();
    let down = beside(own.best() - reach.low(), own.best() - own.low());
    let up = beside(reach.high() - own.best(), own.high() - own.best());
    if let Some(beside) = Range::new(-down, 0.0, up).filter(|beside| beside.low() < beside.high()) {
        grams.add(&Estimate::of(beside, Influence::named(&format!("{others}{influence}"))));
        basis.extend(class.basis());
    }
    Spread { grams, own, class: Some(class), basis }
}

/// A measure of which others say nothing: hers, or of a stated size.
pub(super) fn alone(own: Range, influence: &str, basis: Vec<Basis>) -> Spread {
    Spread { grams: Estimate::of(own, Influence::named(influence)), own, class: None, basis }
}

/// Grams of a millilitre of a food filled in this way, `own` being what the row says of it.
pub(super) fn filled(
    food: &Food,
    way: Option<Way>,
    cited: &Cited,
    own: Range,
    influence: &str,
    basis: Vec<Basis>,
) -> Spread {
    if is_hers(cited) {
        return alone(own, influence, basis);
    }
    let class = class_of_filling(food, way, own.best());
    match class.reach(own.best()) {
        Some(reach) => with_others(own, influence, (OTHERS_FILL, class, reach), basis),
        None => alone(own, influence, basis),
    }
}

/// Grams of one piece, the line naming no size.
pub(super) fn unsized_piece(food: &Food, piece: &PieceWeight, influence: &str, basis: Vec<Basis>) -> Spread {
    let own = piece.grams.range;
    let reach = class_of_piece(food, piece).and_then(|class| Some((class, class.reach(own.best())?)));
    let Some((class, reach)) = reach.filter(|_| !is_hers(&piece.grams)) else { return alone(own, influence, basis) };
    let of_size = |size: Size| {
        food.piece.iter().find(|it| it.unit == piece.unit && it.size == Some(size)).map(|it| it.grams.range.best())
    };
    let low = of_size(Size::Small).map_or(reach.low(), |small| small.min(reach.low()));
    let high = of_size(Size::Large).map_or(reach.high(), |large| large.max(reach.high()));
    let reach = Range::new(low, own.best(), high).unwrap_or(reach);
    with_others(own, influence, (OTHERS_TAKE, class, reach), basis)
}

/// The figure as one kitchen has it: what the author's own weighings narrow.
pub(crate) fn without_others(grams: &Estimate) -> Estimate {
    grams.without(|influence| [OTHERS_FILL, OTHERS_TAKE].iter().any(|others| influence.name().starts_with(others)))
}

fn is_hers(cited: &Cited) -> bool {
    cited.from.source.id == "own"
}

impl Class {
    fn reach(&self, best: f64) -> Option<Range> {
        Range::new(best / self.below, best, best * self.above)
    }

    fn basis(&self) -> Option<Basis> {
        let Class { what, below, above, weighings } = self;
        let (down, up) = (100.0 * (1.0 - 1.0 / below), 100.0 * (above - 1.0));
        let far = format!("from {down:.0} % below to {up:.0} % above our usual weight");
        match weighings {
            Some(count) => {
                Basis::of(FOUND, format!("elsewhere, nine in ten of {count} printed weighings of {what} lie {far}"))
            }
            None => Basis::of(STATED, format!("other kitchens' {what} lie {far}")),
        }
    }
}

/// The class of a cup or spoon, by what the food does and how it is filled.
fn class_of_filling(food: &Food, way: Option<Way>, grams_per_millilitre: f64) -> &'static Class {
    let classes = &*CLASSES;
    let is = |roles: &[Role]| food.roles.first().is_some_and(|role| roles.contains(role));
    let is_pulse = is(&[Role::Vegetable]) && food.roles.contains(&Role::Protein);
    match way {
        Some(Way::Poured | Way::Melted | Way::Beaten) => &classes.liquid,
        _ if is(&[Role::Leavener, Role::Yeast, Role::Salt, Role::Spice, Role::Gum]) => &classes.by_spoon,
        // Only what is used by the spoon has no cup.
        None => &classes.by_spoon,
        Some(Way::Puree | Way::Mashed | Way::Softened | Way::Whipped) => &classes.paste,
        Some(Way::Sifted | Way::Dipped | Way::Ground) => &classes.powder,
        // Grains of sugar flow; ground to powder, or moist and packed, it does not.
        Some(Way::Spooned) if is(&[Role::Sugar]) && grams_per_millilitre >= CRYSTALS_GRAMS_PER_MILLILITRE => {
            &classes.crystals
        }
        Some(Way::Packed) if is(&[Role::Sugar]) => &classes.packed,
        Some(_) if is(&[Role::Sugar, Role::Sweetener]) => &classes.powder,
        Some(Way::Spooned | Way::Packed) if grams_per_millilitre >= PASTE_GRAMS_PER_MILLILITRE => &classes.paste,
        Some(Way::Spooned) => &classes.powder,
        Some(Way::Whole) if is_pulse => &classes.grain,
        Some(Way::Whole) if is(&[Role::Nut]) => &classes.nuts,
        Some(Way::Whole | Way::Halves | Way::Pieces | Way::Cubed)
            if is(&[Role::Nut, Role::Fruit, Role::DriedFruit, Role::Vegetable]) =>
        {
            &classes.pieces
        }
        Some(_) if is(&[Role::Fruit, Role::DriedFruit, Role::Vegetable, Role::Herb]) => &classes.pieces,
        Some(Way::Cubed) => &classes.pieces,
        Some(_) => &classes.grain,
    }
}

/// The class of a counted thing that grew; what a maker sizes has none, and eggs have the classes of the law.
fn class_of_piece(food: &Food, piece: &PieceWeight) -> Option<&'static Class> {
    let grown = matches!(
        piece.unit,
        Unit::Piece
            | Unit::Head
            | Unit::Clove
            | Unit::Stalk
            | Unit::Ear
            | Unit::Pod
            | Unit::Leaf
            | Unit::Bunch
            | Unit::Sprig
    );
    let class = match food.roles.first()? {
        Role::Fruit | Role::DriedFruit | Role::Nut => &CLASSES.fruit,
        Role::Vegetable | Role::Herb => &CLASSES.vegetable,
        _ => return None,
    };
    grown.then_some(class)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pantry::Pantry;
    use crate::weigh::{millilitre, one};

    fn class(name: &str, ways: &[&str], small: bool) -> &'static str {
        let pantry = Pantry::ours();
        let food = pantry.food(pantry.named(name).expect("a food of ours"));
        let ways: Vec<String> = ways.iter().map(|way| (*way).to_owned()).collect();
        millilitre(food, &ways, small).and_then(|it| it.class).map_or("none", |class| class.what.as_str())
    }

    #[test]
    fn ok_the_data_is_read_and_widens() {
        for class in CLASSES.all() {
            for factor in [class.below, class.above] {
                assert!((1.0..4.0).contains(&factor), "{}", class.what);
            }
        }
    }

    #[test]
    fn ok_classes_by_what_a_baker_would_say() {
        let classes = &*CLASSES;
        for name in ["all-purpose flour", "powdered sugar", "almond flour", "skim milk powder"] {
            assert_eq!(class(name, &[], false), classes.powder.what, "{name}");
        }
        assert_eq!(class("brown sugar", &[], false), classes.packed.what);
        for name in ["granulated sugar", "caster sugar", "turbinado sugar"] {
            assert_eq!(class(name, &[], false), classes.crystals.what, "{name}");
        }
        for name in ["rolled oat", "long-grain white rice", "lentil", "sesame seed", "fresh breadcrumb"] {
            assert_eq!(class(name, &[], false), classes.grain.what, "{name}");
        }
        assert_eq!(class("almond", &["chopped"], false), classes.grain.what);
        for name in ["raisin", "blueberry", "pecan"] {
            assert_eq!(class(name, &[], false), classes.pieces.what, "{name}");
        }
        assert_eq!(class("almond", &[], false), classes.nuts.what);
        for name in ["jam", "peanut butter", "sour cream", "lard", "unsalted butter", "tomato paste"] {
            assert_eq!(class(name, &[], false), classes.paste.what, "{name}");
        }
        for name in ["water", "whole milk", "vegetable oil", "honey", "egg white"] {
            assert_eq!(class(name, &[], false), classes.liquid.what, "{name}");
        }
        for name in ["baking powder", "table salt", "ground cinnamon", "xanthan gum"] {
            assert_eq!(class(name, &[], true), classes.by_spoon.what, "{name}");
        }
    }

    /// By hand: 3 g of its own and 4 g of others are 5 g. What others add joins the row's own to the class's reach, and a row that reaches further stays.
    #[test]
    fn ok_both_doubts_together_reach_as_far_as_the_class() {
        let range = |low, best, high| Range::new(low, best, high).expect("ordered");
        let reach = range(95.0, 100.0, 120.0);
        let spread = with_others(range(97.0, 100.0, 140.0), "a", (OTHERS_FILL, &CLASSES.powder, reach), Vec::new());
        let others = &spread.grams.pulls()[1];
        assert!((others.down - 4.0).abs() < 1e-9 && others.up.abs() < 1e-9, "{others:?}");
        assert!((spread.grams.range().low() - 95.0).abs() < 1e-9);
        assert!((spread.grams.range().high() - 140.0).abs() < 1e-9);
        assert_eq!(without_others(&spread.grams).range(), spread.own);
    }

    fn piece(name: &str, unit: Unit, size: Option<Size>) -> Spread {
        let pantry = Pantry::ours();
        let food = pantry.food(pantry.named(name).expect("a food of ours"));
        one(food, unit, size, Size::Large).expect("a piece of it")
    }

    /// The usual size stays the best value; only what nobody said is wide.
    #[test]
    fn ok_a_piece_of_no_stated_size_reaches_from_small_to_large() {
        let unsaid = piece("carrot", Unit::Piece, None);
        let medium = piece("carrot", Unit::Piece, Some(Size::Medium));
        let [small, large] = [Size::Small, Size::Large].map(|size| piece("carrot", Unit::Piece, Some(size)));
        assert_eq!(unsaid.own, medium.own, "the best value stays");
        assert!(unsaid.grams.range().low() <= small.own.best() && unsaid.grams.range().high() >= large.own.best());
        assert_eq!(medium.grams.range(), medium.own);
    }

    #[test]
    fn err_what_a_law_or_a_maker_sizes_is_no_wider_than_its_row() {
        for (name, unit) in [("egg", Unit::Piece), ("unsalted butter", Unit::Stick), ("white bean", Unit::Can)] {
            let one = piece(name, unit, None);
            assert_eq!(one.grams.range(), one.own, "{name}");
        }
    }
}
