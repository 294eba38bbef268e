//! What a food is made of, one name a thing: the nutrients the table knows, in the order a label gives them.

use std::fmt;

use serde::{Deserialize, Serialize};

macro_rules! nutrients {
    ($($variant:ident = $number:literal, $unit:literal, $name:literal);+ $(;)?) => {
        /// A constituent of food that the table can give, per 100 g of the edible part.
        ///
        /// The names are plain ones and each figure has one unit, so that a value never travels without knowing what
        /// it is. Fatty acids are named as chemists name them: carbons, then double bonds.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        pub enum Nutrient {
            $(#[doc = concat!($name, ", in ", $unit, "; number ", stringify!($number), " of the table")] $variant),+
        }

        impl Nutrient {
            /// Every nutrient, in the order of a label; the fatty acids one by one come last.
            pub const ALL: &'static [Nutrient] = &[$(Nutrient::$variant),+];

            /// The plain name, as `saturated fat`.
            pub fn name(self) -> &'static str {
                match self { $(Nutrient::$variant => $name),+ }
            }

            /// The unit of every value: `kcal`, `g`, `mg` or `µg`.
            pub fn unit(self) -> &'static str {
                match self { $(Nutrient::$variant => $unit),+ }
            }

            /// The number SR28 gives it (NUTR_DEF.txt).
            pub fn number(self) -> u16 {
                match self { $(Nutrient::$variant => $number),+ }
            }
        }
    };
}

nutrients! {
    Energy = 208, "kcal", "energy";
    Fat = 204, "g", "fat";
    SaturatedFat = 606, "g", "saturated fat";
    TransFat = 605, "g", "trans fat";
    MonounsaturatedFat = 645, "g", "monounsaturated fat";
    PolyunsaturatedFat = 646, "g", "polyunsaturated fat";
    Cholesterol = 601, "mg", "cholesterol";
    Sodium = 307, "mg", "sodium";
    Carbohydrate = 205, "g", "carbohydrate";
    Fibre = 291, "g", "fibre";
    Starch = 209, "g", "starch";
    Sugars = 269, "g", "sugars";
    Sucrose = 210, "g", "sucrose";
    Glucose = 211, "g", "glucose";
    Fructose = 212, "g", "fructose";
    Lactose = 213, "g", "lactose";
    Maltose = 214, "g", "maltose";
    Galactose = 287, "g", "galactose";
    Protein = 203, "g", "protein";
    VitaminD = 328, "µg", "vitamin D";
    Calcium = 301, "mg", "calcium";
    Iron = 303, "mg", "iron";
    Potassium = 306, "mg", "potassium";
    VitaminA = 320, "µg", "vitamin A";
    VitaminC = 401, "mg", "vitamin C";
    VitaminE = 323, "mg", "vitamin E";
    VitaminK = 430, "µg", "vitamin K";
    Thiamin = 404, "mg", "thiamin";
    Riboflavin = 405, "mg", "riboflavin";
    Niacin = 406, "mg", "niacin";
    VitaminB6 = 415, "mg", "vitamin B6";
    Folate = 435, "µg", "folate";
    VitaminB12 = 418, "µg", "vitamin B12";
    PantothenicAcid = 410, "mg", "pantothenic acid";
    Phosphorus = 305, "mg", "phosphorus";
    Magnesium = 304, "mg", "magnesium";
    Zinc = 309, "mg", "zinc";
    Selenium = 317, "µg", "selenium";
    Copper = 312, "mg", "copper";
    Manganese = 315, "mg", "manganese";
    Choline = 421, "mg", "choline";
    Fluoride = 313, "µg", "fluoride";
    Water = 255, "g", "water";
    Ash = 207, "g", "ash";
    Alcohol = 221, "g", "alcohol";
    Caffeine = 262, "mg", "caffeine";
    Theobromine = 263, "mg", "theobromine";
    Acid4To0 = 607, "g", "4:0";
    Acid6To0 = 608, "g", "6:0";
    Acid8To0 = 609, "g", "8:0";
    Acid10To0 = 610, "g", "10:0";
    Acid12To0 = 611, "g", "12:0";
    Acid13To0 = 696, "g", "13:0";
    Acid14To0 = 612, "g", "14:0";
    Acid15To0 = 652, "g", "15:0";
    Acid16To0 = 613, "g", "16:0";
    Acid17To0 = 653, "g", "17:0";
    Acid18To0 = 614, "g", "18:0";
    Acid20To0 = 615, "g", "20:0";
    Acid22To0 = 624, "g", "22:0";
    Acid24To0 = 654, "g", "24:0";
    Acid14To1 = 625, "g", "14:1";
    Acid15To1 = 697, "g", "15:1";
    Acid16To1 = 626, "g", "16:1";
    Acid17To1 = 687, "g", "17:1";
    Acid18To1 = 617, "g", "18:1";
    Acid20To1 = 628, "g", "20:1";
    Acid22To1 = 630, "g", "22:1";
    Acid18To2 = 618, "g", "18:2";
    LinoleicAcid = 675, "g", "linoleic acid";
    Acid18To3 = 619, "g", "18:3";
    AlphaLinolenicAcid = 851, "g", "alpha-linolenic acid";
    GammaLinolenicAcid = 685, "g", "gamma-linolenic acid";
    Acid18To4 = 627, "g", "18:4";
    Acid20To2 = 672, "g", "20:2";
    Acid20To3 = 689, "g", "20:3";
    Acid20To4 = 620, "g", "20:4";
    Acid20To5 = 629, "g", "20:5";
    Acid22To4 = 858, "g", "22:4";
    Acid22To5 = 631, "g", "22:5";
    Acid22To6 = 621, "g", "22:6";
}

impl Nutrient {
    /// The nutrient whose plain name this is.
    pub fn named(name: &str) -> Option<Nutrient> {
        Nutrient::ALL.iter().copied().find(|nutrient| nutrient.name() == name)
    }

    /// The nutrient of this SR28 number, if the table keeps it.
    pub fn of_number(number: u16) -> Option<Nutrient> {
        Nutrient::ALL.iter().copied().find(|nutrient| nutrient.number() == number)
    }

    /// The word for it in a `composition` of foods.toml: the name with low lines, and the unit behind it when that
    /// is not grams or kilocalories (`saturated_fat`, `sodium_mg`, `vitamin_d_mcg`).
    pub fn key(self) -> String {
        let word = self.name().to_lowercase().replace([' ', '-', ':'], "_");
        match self.unit() {
            "mg" => word + "_mg",
            "µg" => word + "_mcg",
            _ => word,
        }
    }

    /// The nutrient a word of a `composition` means.
    pub fn of_key(key: &str) -> Option<Nutrient> {
        Nutrient::ALL.iter().copied().find(|nutrient| nutrient.key() == key)
    }
}

impl fmt::Display for Nutrient {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_no_name_number_or_key_twice() {
        for (at, nutrient) in Nutrient::ALL.iter().enumerate() {
            assert_eq!(Nutrient::named(nutrient.name()), Some(*nutrient));
            assert_eq!(Nutrient::of_number(nutrient.number()), Some(*nutrient));
            assert_eq!(Nutrient::of_key(&nutrient.key()), Some(*nutrient));
            assert_eq!(*nutrient as usize, at);
        }
    }

    #[test]
    fn ok_keys_carry_their_unit() {
        assert_eq!(Nutrient::SaturatedFat.key(), "saturated_fat");
        assert_eq!(Nutrient::Sodium.key(), "sodium_mg");
        assert_eq!(Nutrient::VitaminB12.key(), "vitamin_b12_mcg");
        assert_eq!(Nutrient::Energy.key(), "energy");
        assert_eq!(Nutrient::of_key("sodium"), None);
    }
}
