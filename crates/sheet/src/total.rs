//! What lines add up to: grams and nutrients, with ranges, and with what is not known named.

use std::collections::{HashMap, HashSet};

use evencrumb_measure::{Estimate, Estimates, Influence, Range};
use evencrumb_pantry::contents::{self, Held, Known};
use evencrumb_pantry::{Nutrient, Pantry};

use crate::line::{WeighedItem, WeighedLine};
use crate::{composition, eaten, rendered};

/// The sum of lines.
#[derive(Clone, Debug)]
pub struct Total {
    /// Grams that go in the bowl and are eaten.
    pub grams: Estimate,
    /// Foods that have no weight here; where there are any, the grams are "at least".
    pub unweighed: Vec<String>,
    /// One sum for each nutrient, in the order of [`Nutrient::ALL`].
    nutrients: Estimates,
    /// What the table does not say of the foods.
    gaps: Vec<Gap>,
}

/// The sum of one nutrient.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NutrientTotal {
    /// The amount in the nutrient's unit, of the foods for which it is known.
    pub amount: Estimate,
    /// Foods that weigh something and for which the table has no value; unknown is not zero.
    pub unknown: Vec<String>,
    /// What those can hold at most, in the nutrient's unit: a gram holds no more than a gram, and no more than 9 kcal.
    pub unknown_at_most: f64,
    /// Foods that are unknown too, and of which there is so little that all they can hold is less than the doubt of the
    /// amount; its high end was raised by that.
    pub too_little: Vec<String>,
    /// Foods of which no row says it and a rule reckoned it, as the starch of a flour; what it took them for is in the
    /// amount and its range.
    pub derived: Vec<String>,
}

/// A food, and of which nutrients no row says how much it holds.
#[derive(Clone, Debug)]
struct Gap {
    food: String,
    /// Grams of it, at most.
    grams: f64,
    unknown: Nutrients,
    derived: Nutrients,
}

/// Some of the nutrients, a bit for each.
type Nutrients = u128;
const _: () = assert!(Nutrient::ALL.len() <= Nutrients::BITS as usize);

/// The nutrients of which something holds that is asked by their number.
fn nutrients(holds: impl Fn(usize) -> bool) -> Nutrients {
    (0..Nutrient::ALL.len()).filter(|at| holds(*at)).fold(0, |some, at| some | 1 << at)
}

/// The sum of nothing.
impl Default for Total {
    fn default() -> Total {
        let nutrients = Estimates::nothing(Nutrient::ALL.len());
        Total { grams: Estimate::default(), unweighed: Vec::new(), nutrients, gaps: Vec::new() }
    }
}

impl Total {
    /// The sum of a nutrient.
    pub fn nutrient(&self, nutrient: Nutrient) -> NutrientTotal {
        let at = nutrient as usize;
        let foods = |of: fn(&Gap) -> Nutrients| {
            self.gaps.iter().filter(|gap| of(gap) >> at & 1 == 1).map(|gap| gap.food.clone()).collect()
        };
        let unknown_grams: f64 = self.gaps.iter().filter(|gap| gap.unknown >> at & 1 == 1).map(|gap| gap.grams).sum();
        let sum = NutrientTotal {
            amount: self.nutrients.one(at),
            unknown: foods(|gap| gap.unknown),
            unknown_at_most: unknown_grams * most_in_a_gram(nutrient),
            too_little: Vec::new(),
            derived: foods(|gap| gap.derived),
        };
        sum.without_traces()
    }

    /// A share of all of it; what is not known stays not known.
    #[must_use]
    pub fn times(&self, share: &Estimate) -> Total {
        let of_share = |gap: &Gap| Gap { grams: gap.grams * share.best(), ..gap.clone() };
        let gaps = self.gaps.iter().map(of_share).collect();
        Total { grams: self.grams.product(share), nutrients: self.nutrients.product(share), gaps, ..self.clone() }
    }

    /// The same when heat has left `ready` grams of it: what went off was water, and everything else stays.
    #[must_use]
    pub fn dried_to(&self, ready: &Estimate) -> Total {
        let mut dried = Total { grams: ready.clone(), ..self.clone() };
        let water = self.nutrients.one(Nutrient::Water as usize).best();
        if water > 0.0 {
            let lost = (self.grams.best() - ready.best()).max(0.0);
            dried.nutrients.take_times(Nutrient::Water as usize, (1.0 - lost / water).max(0.0));
        }
        dried
    }

    /// Adds another sum.
    pub fn add(&mut self, other: &Total) {
        self.grams.add(&other.grams);
        self.unweighed.extend(other.unweighed.iter().cloned());
        self.nutrients.add(&other.nutrients);
        self.gaps.extend(other.gaps.iter().cloned());
    }

    /// A food that stands in two lines is named once.
    fn name_once(&mut self) {
        let mut seen = HashSet::new();
        self.unweighed.retain(|food| seen.insert(food.clone()));
        let mut places: HashMap<String, usize> = HashMap::new();
        let mut named: Vec<Gap> = Vec::new();
        for gap in self.gaps.drain(..).filter(|gap| gap.unknown | gap.derived != 0) {
            let at = *places.entry(gap.food.clone()).or_insert(named.len());
            match named.get_mut(at) {
                Some(before) => {
                    before.grams += gap.grams;
                    before.unknown |= gap.unknown;
                    before.derived |= gap.derived;
                }
                None => named.push(gap),
            }
        }
        self.gaps = named;
    }
}

impl NutrientTotal {
    /// A trace of something unknown makes no sum "at least": where all that the unknown can hold is less than half of the
    /// range's width, the best value stays and the high end is raised by it.
    fn without_traces(mut self) -> NutrientTotal {
        let (range, most) = (self.amount.range(), self.unknown_at_most);
        if self.unknown.is_empty() || most > 0.5 * (range.high() - range.low()) {
            return self;
        }
        let raised = Range::new(0.0, 0.0, most).unwrap_or(Range::exact(0.0));
        let why = format!("what is not known of {}", self.unknown.join(", "));
        self.amount.add(&Estimate::of(raised, Influence::named(&why)));
        self.too_little = std::mem::take(&mut self.unknown);
        self.unknown_at_most = 0.0;
        self
    }
}

/// What a gram of anything can hold at most, in the nutrient's unit: a gram of it, and of energy that of pure fat.
fn most_in_a_gram(nutrient: Nutrient) -> f64 {
    match nutrient.unit() {
        "g" => 1.0,
        "mg" => 1e3,
        "kcal" => 9.0,
        _ => 1e6,
    }
}

/// Whether a food without a weight is missing in the sum. What is poured off is not, nor what stands beside the plate.
pub(crate) fn is_missing(line: &WeighedLine, one: &WeighedItem) -> bool {
    let poured_off = matches!(line.read.purpose.as_deref(), Some("soaking" | "bath"));
    one.weighed.grams.is_none() && !poured_off && !is_beside(line, one)
}

/// Whether it is only served with what is made, as much as anybody likes: "ice cream, for serving".
pub(crate) fn is_beside(line: &WeighedLine, one: &WeighedItem) -> bool {
    let unmeasured = one.weighed.grams.is_none() && one.item.amounts.is_empty() && one.made.is_none();
    unmeasured && !one.item.reference && line.read.purpose.as_deref() == Some("serving")
}

/// Grams of a line that are eaten; nothing when none of its foods has a weight.
pub fn eaten_grams(line: &WeighedLine, pantry: &Pantry) -> Option<Estimate> {
    let parts: Vec<Estimate> = line.foods.iter().filter_map(|one| eaten(line, one, pantry)).collect();
    (!parts.is_empty()).then(|| parts.iter().sum())
}

fn eaten(line: &WeighedLine, one: &WeighedItem, pantry: &Pantry) -> Option<Estimate> {
    if let Some((parts, _)) = in_two(line, one, pantry) {
        return Some(parts.iter().sum());
    }
    with_all_fat(line, one, pantry)
}

/// What is no fat of an item and the fat that stays, where fat is poured off, and the share of fat before.
fn in_two(line: &WeighedLine, one: &WeighedItem, pantry: &Pantry) -> Option<([Estimate; 2], f64)> {
    line.fat_left.as_ref()?;
    rendered::in_two(line, pantry.food(one.item.food?), &with_all_fat(line, one, pantry)?, pantry)
}

fn with_all_fat(line: &WeighedLine, one: &WeighedItem, pantry: &Pantry) -> Option<Estimate> {
    let grams = one.weighed.grams.as_ref()?;
    let eaten = match eaten::share(line, &one.item, pantry) {
        Some((share, _)) => grams.product(&share),
        None => grams.clone(),
    };
    Some(if one.here < 1.0 { eaten.times(one.here) } else { eaten })
}

/// Adds up lines. Optional lines count; alternatives do not.
pub fn of<'l>(lines: impl IntoIterator<Item = &'l WeighedLine>, pantry: &Pantry) -> Total {
    let mut total = Total::default();
    let mut of_foods = Estimates::nothing(Nutrient::ALL.len());
    for line in lines {
        for one in &line.foods {
            if let Some(made) = one.made.as_ref().filter(|made| made.share.is_some()) {
                match eaten::share(line, &one.item, pantry) {
                    Some((share, _)) => total.add(&made.total.times(&share)),
                    None => total.add(&made.total),
                }
                continue;
            }
            let Some(eaten) = eaten(line, one, pantry) else {
                if is_missing(line, one) {
                    total.unweighed.push(one.item.name.clone());
                }
                continue;
            };
            total.grams.add(&eaten);
            let grams = eaten.range().high();
            if let Some(food) = one.item.food.map(|id| pantry.food(id)) {
                let held = contents::held(food, pantry);
                let composition = Influence::named(&format!("composition of {}", food.name));
                match in_two(line, one, pantry) {
                    Some((parts, fat)) => {
                        for (grams, shares) in parts.iter().zip(rendered::shares_in_two(&shares(&held), fat)) {
                            of_foods.add_shares(grams, &shares, &composition);
                        }
                    }
                    None => of_foods.add_shares(&eaten, &shares(&held), &composition),
                }
                total.gaps.push(Gap {
                    // In the author's own word: who writes courgettes reads of no zucchini.
                    food: one.item.name.clone(),
                    grams,
                    unknown: nutrients(|at| held[at].is_none()),
                    derived: nutrients(|at| held[at].is_some_and(is_reckoned)),
                });
            } else {
                let food = one.item.name.clone();
                total.gaps.push(Gap { food, grams, unknown: nutrients(|_| true), derived: 0 });
            }
        }
    }
    of_foods.add(&total.nutrients);
    total.nutrients = of_foods;
    total.name_once();
    total
}

/// The sum of totals.
pub fn sum<'t>(parts: impl Iterator<Item = &'t Total>) -> Total {
    let mut whole = Total::default();
    for part in parts {
        whole.add(part);
    }
    whole.name_once();
    whole
}

/// Which share of a food each nutrient is, in the nutrient's unit a gram; nothing of those that are not known.
fn shares(held: &[Option<Held>]) -> Vec<Range> {
    let share = |(held, nutrient): (&Option<Held>, &Nutrient)| {
        held.map_or(Range::exact(0.0), |held| composition::differing(held, *nutrient).times(0.01))
    };
    held.iter().zip(Nutrient::ALL).map(share).collect()
}

fn is_reckoned(held: Held) -> bool {
    matches!(held.known, Known::Derived { .. } | Known::OfReckonedParts)
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::weigh::Kitchen;
    use proptest::prelude::*;

    use super::*;

    fn total(lines: &[&str]) -> Total {
        let pantry = Pantry::ours();
        let lines: Vec<WeighedLine> =
            lines.iter().map(|text| crate::line::weigh(text, pantry, Kitchen::default())).collect();
        of(&lines, pantry)
    }

    /// SR28 rows 01145 (butter, without salt: 81.11 g fat) and 19335 (granulated sugar: 99.80 g sugars); worked by hand.
    #[test]
    fn ok_sums_of_table_rows() {
        let total = total(&["200 g unsalted butter", "150 g granulated sugar"]);
        assert!((total.nutrient(Nutrient::Fat).amount.best() - 162.22).abs() < 0.05);
        assert!((total.nutrient(Nutrient::Sugars).amount.best() - (1.5 * 99.80 + 2.0 * 0.06)).abs() < 0.05);
    }

    #[test]
    fn ok_only_water_goes_off() {
        let raw = total(&["300 g water", "100 g sugar"]);
        let dried = raw.dried_to(&Estimate::exact(250.0));
        assert!((dried.nutrient(Nutrient::Water).amount.best() - 150.0).abs() < 0.5);
        assert_eq!(dried.nutrient(Nutrient::Sugars), raw.nutrient(Nutrient::Sugars));
        assert!((dried.grams.best() - 250.0).abs() < 1e-9);
    }

    #[test]
    fn ok_what_is_not_known_is_named_and_never_zero() {
        let total = total(&["100 g lucuma powder", "1 cup flour"]);
        assert_eq!(total.nutrient(Nutrient::Energy).unknown, ["lucuma powder"]);
        assert!(total.grams.best() > 220.0);
    }

    /// 1 teaspoon of an unknown food is some 5 g, at most 50 kcal or so; 450 g of flour and sugar are unsure by more than 50.
    #[test]
    fn ok_a_trace_of_something_unknown_widens_the_range_and_makes_no_least() {
        let without = total(&["250 g flour", "200 g sugar", "200 g butter"]);
        let with = total(&["250 g flour", "200 g sugar", "200 g butter", "5 g lucuma powder"]);
        let (before, after) = (without.nutrient(Nutrient::Energy), with.nutrient(Nutrient::Energy));
        assert!(after.unknown.is_empty() && after.too_little == ["lucuma powder"]);
        assert!((after.amount.best() - before.amount.best()).abs() < 1e-9);
        assert!(after.amount.range().high() > before.amount.range().high());
        assert!((after.amount.range().low() - before.amount.range().low()).abs() < 1e-9);
        // A gram of anything could be a gram of salt.
        assert_eq!(with.nutrient(Nutrient::Sodium).unknown, ["lucuma powder"]);
    }

    #[test]
    fn ok_a_food_without_amount_is_missing_and_salt_to_taste_is_not() {
        assert_eq!(total(&["100 g flour", "pearl sugar", "salt to taste"]).unweighed, ["pearl sugar"]);
        assert!(total(&["100 g flour", "butter for greasing", "water for boiling"]).unweighed.is_empty());
        let served = ["100 g flour", "vanilla ice cream, for serving", "whipped cream, to serve"];
        assert!(total(&served).unweighed.is_empty());
        // What has an amount and no weight is missed all the same.
        assert_eq!(total(&["2 blobs moon dust, to serve"]).unweighed.len(), 1);
    }

    #[test]
    fn ok_starch_that_was_reckoned_is_named_and_has_its_range() {
        let total = total(&["100 g cake flour", "100 g butter", "100 g sugar"]);
        let starch = total.nutrient(Nutrient::Starch);
        assert_eq!(starch.derived, ["cake flour"]);
        assert!(starch.unknown.is_empty(), "{:?}", starch.unknown);
        let range = starch.amount.range();
        assert!(range.best() > 65.0 && range.low() < 0.85 * range.best(), "{range:?}");
    }

    #[test]
    fn ok_two_cups_of_one_flour_err_together() {
        let one = total(&["2 cups all-purpose flour"]).grams.range();
        let two = total(&["1 cup all-purpose flour", "1 cup all-purpose flour"]).grams.range();
        assert!((one.high() - two.high()).abs() < 1e-6);
    }

    proptest! {
        #[test]
        fn ok_double_amounts_double_totals(grams in proptest::collection::vec(1u32..900, 1..8)) {
            let foods = ["flour", "sugar", "butter", "milk", "egg", "cocoa powder", "honey", "walnuts"];
            let line = |factor: u32| -> Vec<String> { grams.iter().zip(foods).map(|(g, food)| format!("{} g {food}", g * factor)).collect() };
            let (one, two) = (line(1), line(2));
            let one = total(&one.iter().map(String::as_str).collect::<Vec<_>>());
            let two = total(&two.iter().map(String::as_str).collect::<Vec<_>>());
            prop_assert!((two.grams.best() - 2.0 * one.grams.best()).abs() < 1e-6);
            for nutrient in Nutrient::ALL {
                let (a, b) = (one.nutrient(*nutrient).amount.range(), two.nutrient(*nutrient).amount.range());
                prop_assert!((b.high() - 2.0 * a.high()).abs() < 1e-6 * (1.0 + b.high()));
            }
        }
    }
}
