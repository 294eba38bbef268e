//! What is asked: a figure, and of what.

use evencrumb_manuscript::line::{Cut, number};
use evencrumb_manuscript::word::name_key;
use evencrumb_measure::{Number, Unit};
use evencrumb_pantry::Nutrient;

use crate::sheet::Sheet;

/// Which figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// Grams.
    Grams,
    /// Money.
    Cost,
    /// A nutrient.
    Nutrient(Nutrient),
    /// Water for 100 g of flours and starches.
    Hydration,
    /// The share of a line in its component.
    Share,
    /// Grams of a line for 100 g of the flours, starches and nut flours of its component.
    BakersPercent,
    /// How full the pan is.
    Full,
    /// How deep the batter stands in the pan.
    Deep,
}

/// Of what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Of {
    /// The whole batch as it is eaten.
    Batch,
    /// The whole batch before heat.
    RawBatch,
    /// So many grams, raw or as it is eaten.
    Weighing {
        /// How many.
        grams: Number,
        /// Whether before heat.
        raw: bool,
    },
    /// A component, by number, raw.
    Component(usize),
    /// Lines: component and line.
    Lines(Vec<(usize, usize)>),
}

/// One of what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Per {
    /// One serving, or one piece where servings are not said.
    Serving,
    /// One piece.
    Piece,
}

/// A question as understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// Which figure.
    pub what: What,
    /// Of what.
    pub of: Of,
    /// Divided by what, if by anything.
    pub per: Option<Per>,
    /// How many servings or pieces it is asked of.
    pub times: Number,
}

/// A question that was not understood.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{said}")]
pub struct Misunderstood {
    /// What was read and why it gives nothing.
    pub said: String,
    /// What can be asked.
    pub mend: String,
}

/// Everyday words for figures.
const ALSO: &[(&str, Nutrient)] = &[
    ("sugar", Nutrient::Sugars),
    ("calorie", Nutrient::Energy),
    ("kcal", Nutrient::Energy),
    ("kilocalorie", Nutrient::Energy),
    ("carb", Nutrient::Carbohydrate),
    ("fiber", Nutrient::Fibre),
    ("sat fat", Nutrient::SaturatedFat),
    ("saturate", Nutrient::SaturatedFat),
    ("total fat", Nutrient::Fat),
];

const WEIGHTS: &[&str] = &["gram", "weight", "weigh", "heavy", "g"];
const EMPTY: &[&str] = &[
    "per", "a", "an", "the", "in", "of", "one", "each", "for", "how", "much", "many", "why", "is", "are", "what",
    "does", "do", "it", "from", "where", "come", "there", "and", "line", "amount", "total", "all", "my", "this",
    "that", "to",
];

/// The numbers of a question, and its words without them.
#[derive(Default)]
struct Numbers {
    line: Option<usize>,
    grams: Option<Number>,
    times: Option<Number>,
    words: Vec<String>,
}

impl Numbers {
    fn of(question: &str, own: &str) -> Result<Numbers, Misunderstood> {
        let cut = Cut::of(question);
        let key = |at: usize| cut.get(at).map(|token| token.key.to_string()).unwrap_or_default();
        let served = |at: usize| {
            let key = key(at);
            ["serving", "portion", "piece", "slice"].contains(&key.as_str()) || !own.is_empty() && key == own
        };
        let mut found = Numbers::default();
        let mut at = 0;
        while at < cut.tokens.len() {
            let Some((read, next)) = number(&cut, at) else {
                found.words.extend(Some(key(at)).filter(|key| key.contains(char::is_alphanumeric)));
                at += 1;
                continue;
            };
            let minus = at > 0 && cut.mark(at - 1, '-') && (at < 2 || cut.tokens[at - 1].spaced);
            let unit = cut.get(next).and_then(|token| Unit::written(&token.folded)).and_then(Unit::grams);
            let spoken = cut.written(at, next);
            if minus {
                return Err(refused(format!("“-{spoken}” is below nothing"), "Ask with a number above nothing."));
            } else if at > 0 && key(at - 1) == "line" {
                found.line = spoken.parse().ok();
            } else if let Some(unit) = unit {
                #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the cast saturates")]
                let milligrams = Number::fraction((unit * 1000.0).round() as u64, 1000);
                found.grams = milligrams.and_then(|unit| read.times(unit));
                at = next + 1;
                continue;
            } else if served(next) {
                found.times = Some(read);
            } else if spoken.contains(|c: char| c.is_ascii_digit()) {
                return Err(refused(
                    format!("“{spoken}” is not said to be grams, servings, pieces or a line"),
                    "Say what it counts, as “sugar per 50 g”, “fat in 2 servings” or “line 12”.",
                ));
            }
            at = next;
        }
        if [found.grams, found.times].contains(&Some(Number::ZERO)) {
            return Err(refused("nothing of it holds nothing".to_owned(), "Ask of more than nothing, as “per 100 g”."));
        }
        Ok(found)
    }
}

fn refused(said: String, mend: &str) -> Misunderstood {
    Misunderstood { said, mend: mend.to_owned() }
}

/// Reads a question about a sheet.
///
/// # Errors
/// Gives what was not understood and what can be asked.
pub fn read(question: &str, sheet: &Sheet) -> Result<Question, Misunderstood> {
    let own = sheet.makes.word.as_deref().map(name_key).unwrap_or_default();
    let Numbers { line, grams, times, mut words } = Numbers::of(question, &own)?;
    let several = question.contains([',', '&']) || words.iter().any(|word| word == "and" || word == "plus");
    // Whole lines and components are named before figures: "grams of the brown sugar" asks for no sugars.
    if said(&mut words, &["line"]) && line.is_none() {
        return Err(misunderstood(question, sheet));
    }
    let special = special(&mut words);
    let weight = WEIGHTS.iter().filter(|word| **word != "g").any(|word| said(&mut words, &[word]));
    let cost = ["cost", "price", "money", "expensive"].iter().any(|word| said(&mut words, &[word]));
    // "Raw sugar" is a food; only grams and a batch can be raw.
    let raw = words.last().is_some_and(|word| word == "raw") && said(&mut words, &["raw"]);
    words.retain(|word| word != "g");
    let is_own = !own.is_empty() && said(&mut words, &[&own]);
    let serving = said(&mut words, &["serving"]) | said(&mut words, &["portion"]);
    let piece = is_own | said(&mut words, &["piece"]) | said(&mut words, &["slice"]);
    let batch = said(&mut words, &["batch"]) | said(&mut words, &["whole"]) | said(&mut words, &["recipe"]);
    words.retain(|word| !EMPTY.contains(&word.as_str()));
    let state = |words: &mut Vec<String>, state: &str| weight && words.len() == 1 && said(words, &[state]);
    let raw = raw || state(&mut words, "raw");
    let baked = state(&mut words, "baked");
    if baked && sheet.kept.is_none() {
        return Err(refused("Nothing is baked here, as far as the text says".to_owned(), "Ask for the “raw weight”."));
    }
    let batch = batch || baked;
    // A line or a component that all the words name comes before a figure of that name: "raw sugar", "salt".
    let whole = (!words.is_empty() && line.is_none())
        .then(|| named(&words, sheet).or_else(|| within(&words, 2, sheet)))
        .flatten();
    let only_named =
        whole.is_some() && grams.is_none() && !batch && nutrient(&mut words.clone()).is_none_or(|_| words.len() > 1);
    let figures = usize::from(weight) + usize::from(cost) + usize::from(special.is_some());
    let listed = nutrients(&words);
    if figures > 1 || several && whole.is_none() && figures + listed > 1 {
        return Err(refused(
            format!("“{}” asks for more than one figure", question.trim()),
            "Ask for one figure at a time, as “fat per serving”, and then for the other.",
        ));
    }
    // "Grams of fat" are fat, where no line and no component is called so.
    let figure_named = weight && whole.is_some() || cost || special.is_some() || only_named;
    let nutrient = if figure_named { None } else { nutrient(&mut words) };
    let named = if words.is_empty() { None } else { named(&words, sheet).or_else(|| within(&words, 1, sheet)) };
    let one = match (piece, serving) {
        // One cake that serves 20 is cut into slices: its servings.
        (true, _) if sheet.makes.servings.is_some() && one_whole(sheet) => Some(Per::Serving),
        (true, _) => Some(Per::Piece),
        (_, true) => Some(Per::Serving),
        _ => None,
    };
    let of = match (line, named) {
        (Some(number), _) => Some(Of::Lines(numbered(number, sheet)?)),
        (None, Some(of)) => Some(of),
        (None, None) if !words.is_empty() => return Err(misunderstood(&words.join(" "), sheet)),
        _ if grams.is_some() => grams.map(|grams| Of::Weighing { grams, raw }),
        _ if raw => Some(Of::RawBatch),
        _ if batch => Some(Of::Batch),
        _ => None,
    };
    let what = match nutrient {
        _ if special.is_some() => special.unwrap_or(What::Share),
        Some(nutrient) => What::Nutrient(nutrient),
        None if cost => What::Cost,
        None if weight || of.is_some() => What::Grams,
        None => return Err(misunderstood(question, sheet)),
    };
    let divided = one.is_some() || matches!(of, Some(Of::Weighing { .. } | Of::RawBatch));
    if special.is_some() && divided {
        return Err(refused(
            format!("{} is the same for any part of the batch", what.name()),
            "Ask for it without “per”, as “hydration”, “how full” or “share of line 12”.",
        ));
    }
    if grams.is_some() && !matches!(of, Some(Of::Weighing { .. })) {
        return Err(refused(
            format!("“{}” asks for a number of grams of a part or a line", question.trim()),
            "Ask for it in the part or line itself, or for so many grams of the whole, as “sugar per 50 g”.",
        ));
    }
    Ok(Question { what, of: of.unwrap_or(Of::Batch), per: one, times: times.unwrap_or(Number::ONE) })
}

/// Figures that are no nutrient, weight or cost; taken out of the question with the words that belong to them.
fn special(words: &mut Vec<String>) -> Option<What> {
    let baker = words.iter().position(|word| word.starts_with("baker"));
    let percent = words.iter().position(|word| matches!(word.as_str(), "percentage" | "percent"));
    let what = if said(words, &["how", "full"]) {
        What::Full
    } else if said(words, &["how", "deep"]) || *words == ["depth"] {
        What::Deep
    } else if said(words, &["hydration"]) {
        What::Hydration
    } else if baker.is_some() && percent.is_some() {
        words.retain(|word| !word.starts_with("baker") && !matches!(word.as_str(), "percentage" | "percent" | "s"));
        What::BakersPercent
    } else if said(words, &["share"]) {
        What::Share
    } else {
        return None;
    };
    if matches!(what, What::Full | What::Deep) {
        words.retain(|word| {
            !["pan", "tin", "batter", "dough", "depth", "get", "cup", "muffin"].contains(&word.as_str())
        });
    }
    Some(what)
}

/// How many nutrients the words name.
fn nutrients(words: &[String]) -> usize {
    let mut words = words.to_vec();
    std::iter::from_fn(|| nutrient(&mut words)).count()
}

/// Whether it makes one piece that is cut up.
fn one_whole(sheet: &Sheet) -> bool {
    sheet.makes.pieces.is_none_or(|(_, high)| high <= 1.0)
}

/// Takes a word or a run of words out of the question; whether it was there.
fn said(words: &mut Vec<String>, run: &[&str]) -> bool {
    let at = words.windows(run.len()).position(|window| window.iter().zip(run).all(|(one, other)| one == other));
    if let Some(at) = at {
        words.drain(at..at + run.len());
    }
    at.is_some()
}

/// Takes the longest name of a nutrient out of the question.
fn nutrient(words: &mut Vec<String>) -> Option<Nutrient> {
    let names = Nutrient::ALL.iter().map(|nutrient| (name_key(nutrient.name()), *nutrient));
    let also = ALSO.iter().map(|(name, nutrient)| ((*name).to_owned(), *nutrient));
    let mut names: Vec<(Vec<String>, Nutrient)> =
        names.chain(also).map(|(name, nutrient)| (name.split(' ').map(str::to_owned).collect(), nutrient)).collect();
    names.sort_by_key(|(name, _)| std::cmp::Reverse(name.len()));
    names
        .into_iter()
        .find(|(name, _)| said(words, &name.iter().map(String::as_str).collect::<Vec<_>>()))
        .map(|(_, it)| it)
}

/// The component or the lines that the words name.
fn named(words: &[String], sheet: &Sheet) -> Option<Of> {
    let holds = |name: &str| {
        let key = name_key(name);
        let keys: Vec<&str> = key.split(' ').collect();
        words.iter().all(|word| keys.contains(&word.as_str()))
    };
    let component = sheet.components.iter().position(|part| part.name.as_deref().is_some_and(holds));
    let lines: Vec<(usize, usize)> = sheet
        .components
        .iter()
        .enumerate()
        .flat_map(|(part, component)| component.lines.iter().enumerate().map(move |(nth, line)| (part, nth, line)))
        .filter(|(_, _, line)| line.weighed.foods.iter().any(|one| holds(&one.item.name)))
        .map(|(part, nth, _)| (part, nth))
        .collect();
    component.map(Of::Component).or_else(|| (!lines.is_empty()).then_some(Of::Lines(lines)))
}

/// "Butter in the frosting": lines of one component, where at least so many words name the food.
fn within(words: &[String], least: usize, sheet: &Sheet) -> Option<Of> {
    sheet.components.iter().enumerate().find_map(|(part, component)| {
        let heading = name_key(component.name.as_deref()?);
        let (of, food): (Vec<&String>, Vec<&String>) =
            words.iter().partition(|word| heading.split(' ').any(|own| own == *word));
        if of.is_empty() || food.len() < least {
            return None;
        }
        let names = |name: &str| {
            let key = name_key(name);
            food.iter().all(|word| key.split(' ').any(|own| own == *word))
        };
        let lines = component.lines.iter().enumerate();
        let found = lines.filter(|(_, line)| line.weighed.foods.iter().any(|one| names(&one.item.name)));
        let found: Vec<(usize, usize)> = found.map(|(nth, _)| (part, nth)).collect();
        (!found.is_empty()).then_some(Of::Lines(found))
    })
}

fn numbered(number: usize, sheet: &Sheet) -> Result<Vec<(usize, usize)>, Misunderstood> {
    let lines = sheet.components.iter().enumerate().flat_map(|(part, component)| {
        component.lines.iter().enumerate().map(move |(nth, line)| (part, nth, line.number))
    });
    let found: Vec<(usize, usize)> =
        lines.filter(|(_, _, at)| *at == number).map(|(part, nth, _)| (part, nth)).collect();
    if found.is_empty() {
        return Err(misunderstood(&format!("line {number}"), sheet));
    }
    Ok(found)
}

fn misunderstood(words: &str, sheet: &Sheet) -> Misunderstood {
    let parts: Vec<String> =
        sheet.components.iter().filter_map(|part| part.name.as_ref()).map(|name| format!("“{name}”")).collect();
    let parts = if parts.is_empty() { String::new() } else { format!(" Components here are {}.", parts.join(", ")) };
    Misunderstood {
        said: format!("“{words}” is no figure, no component and no ingredient line of this sheet"),
        mend: format!(
            "Ask for a figure and of what, as “sugar per serving”, “weight of one piece”, “fat in the frosting”, “energy per 100 g”, “cost per serving”, “grams of butter”, “line 12”, “share of line 12”, “baked weight”, “hydration” or “how full”.{parts}"
        ),
    }
}
