//! What the reader must know of foods: only whether words name one.

/// A food, by its number in the pantry at hand. Numbers mean nothing outside that pantry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct FoodId(pub u32);

/// A food that words name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Named {
    /// Which food.
    pub food: FoodId,
    /// Whether an unknown word before the name would make another food of it (tiger nut + flour).
    pub strict: bool,
    /// Whether people count it (eggs, bananas), so that a bare number means pieces.
    pub counted: bool,
}

/// Answers whether words name a food. The pantry does; tests pass a short list.
pub trait FoodWords {
    /// The food with exactly this name: folded singular words with one space between, as [`crate::word::key`] makes them.
    fn food(&self, name: &str) -> Option<Named>;
}

impl FoodWords for [&str] {
    fn food(&self, name: &str) -> Option<Named> {
        let at = self.iter().position(|known| *known == name)?;
        Some(Named {
            food: FoodId(u32::try_from(at).ok()?),
            strict: !name.contains(' '),
            counted: name == "egg" || name == "banana",
        })
    }
}
