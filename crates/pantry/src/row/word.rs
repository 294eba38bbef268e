//! The closed lists that a row may draw on. A word outside them is a fault of the row and not a new kind.

use std::fmt;

use serde::{Deserialize, Serialize};

macro_rules! words {
    ($(#[$doc:meta])+ $list:ident { $($variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])+
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        pub enum $list {
            $(#[doc = concat!("Written `", $word, "`.")] $variant),+
        }

        impl $list {
            /// Every word of the list, in order.
            pub const ALL: &'static [$list] = &[$($list::$variant),+];

            /// The word as rows write it.
            pub fn name(self) -> &'static str {
                match self { $($list::$variant => $word),+ }
            }

            /// What a word means; `None` when it is not in the list.
            pub fn named(word: &str) -> Option<$list> {
                match word { $($word => Some($list::$variant),)+ _ => None }
            }
        }

        impl fmt::Display for $list {
            fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str(self.name())
            }
        }
    };
}

words! {
    /// How a cup was filled, or what was put into it.
    Way {
        Poured = "poured", Spooned = "spooned", Dipped = "dipped", Packed = "packed", Sifted = "sifted",
        Loose = "loose", Whole = "whole", Halves = "halves", Pieces = "pieces", Chopped = "chopped", Fine = "fine",
        Sliced = "sliced", Slivered = "slivered", Ground = "ground", Grated = "grated", Shredded = "shredded",
        Crumbled = "crumbled", Crushed = "crushed", Cubed = "cubed", Mashed = "mashed", Puree = "puree",
        Melted = "melted", Softened = "softened", Cooked = "cooked", Beaten = "beaten", Whipped = "whipped",
    }
}

words! {
    /// The size of a counted thing, as the trade sorts it; eggs have the classes of the EU beside those of the US.
    Size {
        Small = "small", Medium = "medium", Large = "large", ExtraLarge = "extra large", Jumbo = "jumbo",
        EuSmall = "eu s", EuMedium = "eu m", EuLarge = "eu l", EuExtraLarge = "eu xl",
    }
}

words! {
    /// What a food does in a recipe.
    Role {
        Flour = "flour", Starch = "starch", NutFlour = "nut flour", Sugar = "sugar", Syrup = "syrup",
        Sweetener = "sweetener", Fat = "fat", Liquid = "liquid", Dairy = "dairy", Egg = "egg", Leavener = "leavener",
        Yeast = "yeast", Acid = "acid", Gum = "gum", Fibre = "fibre", Protein = "protein", Salt = "salt", Nut = "nut",
        Seed = "seed", Chocolate = "chocolate", Cocoa = "cocoa", Fruit = "fruit", DriedFruit = "dried fruit",
        Vegetable = "vegetable", Spice = "spice", Herb = "herb", Extract = "extract", Alcohol = "alcohol",
        Setting = "setting", Colour = "colour", Topping = "topping", Savoury = "savoury",
    }
}

impl Size {
    /// Whether this is an egg's class as the EU and the UK sort them.
    pub fn is_eu_class(self) -> bool {
        matches!(self, Size::EuSmall | Size::EuMedium | Size::EuLarge | Size::EuExtraLarge)
    }

    /// The class that this size of an egg is in a kitchen whose plain egg is `eggs`: where eggs are sorted as in the EU,
    /// "medium" is M.
    #[must_use]
    pub fn of_egg(self, eggs: Size) -> Size {
        if !eggs.is_eu_class() {
            return self;
        }
        match self {
            Size::Small => Size::EuSmall,
            Size::Medium => Size::EuMedium,
            Size::Large => Size::EuLarge,
            // Nothing lies above XL.
            Size::ExtraLarge | Size::Jumbo => Size::EuExtraLarge,
            class => class,
        }
    }
}

impl Role {
    /// Whether the food is part of the hundred that the baker's percentage counts from.
    pub fn is_of_the_hundred(self) -> bool {
        matches!(self, Role::Flour | Role::Starch | Role::NutFlour)
    }
}

words! {
    /// What people with an allergy ask for. It says what the food is, never what a factory also handles.
    Allergen {
        Milk = "milk", Egg = "egg", Fish = "fish", Crustacean = "crustacean", Mollusc = "mollusc", Peanut = "peanut",
        Soy = "soy", Sesame = "sesame", Wheat = "wheat", Rye = "rye", Barley = "barley", Oats = "oats",
        Celery = "celery", Mustard = "mustard", Lupin = "lupin", Sulphite = "sulphite",
        Almond = "tree nut: almond", BlackWalnut = "tree nut: black walnut", BrazilNut = "tree nut: brazil nut",
        Cashew = "tree nut: cashew", Hazelnut = "tree nut: hazelnut", Macadamia = "tree nut: macadamia",
        Pecan = "tree nut: pecan", PineNut = "tree nut: pine nut", Pistachio = "tree nut: pistachio",
        Walnut = "tree nut: walnut",
        Coconut = "coconut", Chestnut = "chestnut",
    }
}

words! {
    /// Whether a food holds gluten of wheat, rye or barley. `oats` needs its own word with most readers;
    /// `check` says that packets differ and hers has to be read.
    Gluten { None = "none", Contains = "contains", Oats = "oats", Check = "check" }
}

words! {
    /// Where the sugars of a food count: added sugars of the US label, free sugars of a juice, or its own.
    SugarKind { None = "none", Added = "added", Intrinsic = "intrinsic", Milk = "milk", Juice = "juice" }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_words_come_back() {
        assert_eq!(Role::named("dried fruit"), Some(Role::DriedFruit));
        assert!(Allergen::ALL.iter().all(|allergen| Allergen::named(allergen.name()) == Some(*allergen)));
        assert!(Role::NutFlour.is_of_the_hundred() && !Role::Fibre.is_of_the_hundred());
    }

    #[test]
    fn ok_sizes_of_eggs_go_by_the_kitchen() {
        assert_eq!(Size::Medium.of_egg(Size::Large), Size::Medium);
        assert_eq!(Size::Medium.of_egg(Size::EuLarge), Size::EuMedium);
        assert_eq!(Size::EuSmall.of_egg(Size::EuLarge), Size::EuSmall);
    }

    #[test]
    fn err_a_word_outside_the_list() {
        assert_eq!(Allergen::named("tree nut"), None);
        assert_eq!(Way::named("heaped"), None);
    }
}
