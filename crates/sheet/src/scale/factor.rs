//! How many times a recipe a target is, and why.

use evencrumb_manuscript::line::{Cut, numbers};
use evencrumb_manuscript::word::name_key;
use evencrumb_manuscript::{FactKind, FoodId, Manuscript, Query, QueryKind, Weight};
use evencrumb_measure::{Estimate, Number, Pan, Read, Shape, say};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;

use super::target::{ANY_PIECE, Target, same_piece};
use super::{Refused, count as counted, food, pan, part, weight};
use crate::fit::{OwnPan, as_mine};
use crate::line::{self, WeighedItem};
use crate::remaining::speaks_of_earlier;
use crate::sheet::{Component, Line, Setting, Sheet};

/// How many times the recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Factor {
    /// How many times; above nothing, and finite.
    pub times: f64,
    /// Why, in whole sentences.
    pub how: String,
    /// The pans wanted, when the target was pans.
    pub pans: Vec<Read>,
    /// The component that is scaled alone, by number, when a part was named; nothing when all of the recipe is scaled.
    pub part: Option<usize>,
}

impl Factor {
    /// So many times all of the recipe, by no pans.
    pub(super) fn plain(times: f64, how: String) -> Factor {
        Factor { times, how, pans: Vec::new(), part: None }
    }
}

/// Times of baking that were not scaled.
pub static BAKE_TIME_NOT_SCALED: QueryKind = QueryKind { name: "bake-time-not-scaled", weight: Weight::Look };
/// Pans in which the batter stands much deeper or shallower than in the recipe's.
pub static BATTER_DEPTH_DIFFERS: QueryKind = QueryKind { name: "batter-depth-differs", weight: Weight::Look };
/// A batch that fills no whole number of the recipe's pans.
pub static PANS_NOT_WHOLE: QueryKind = QueryKind { name: "pans-not-whole", weight: Weight::Look };

/// More or fewer than this many times is no batch of any kitchen's.
const MOST: f64 = 1000.0;
/// Depths nearer than this, as a share, are one depth.
const SAME_DEPTH: f64 = 0.15;

/// How many times the recipe a target is, and what must be asked about it.
pub(super) fn of(
    target: &Target,
    text: &str,
    manuscript: &Manuscript,
    sheet: &Sheet,
    setting: &Setting<'_>,
) -> Result<(Factor, Vec<Query>), Refused> {
    let Setting { pantry, kitchen, pans: own, .. } = *setting;
    let pans = pan::of_recipe(text, manuscript, own);
    let mut factor = match target {
        Target::Times(times) => Factor::plain(times.value(), String::new()),
        Target::Servings(low, high) => servings((*low, *high), sheet)?,
        Target::Pieces(low, high, word) => pieces((*low, *high), word, (&pans, own), sheet)?,
        Target::Pans(wanted) => by_pans(wanted.clone(), &pans, own)?,
        Target::UseUp(foods) => use_up_all(foods, sheet, pantry, kitchen)?,
        Target::PartTimes(times, name) => part::times(times.value(), name, sheet)?,
        Target::PartGrams(grams, name) => part::grams(*grams, name, sheet)?,
    };
    if !factor.times.is_finite() || factor.times < 1.0 / MOST || factor.times > MOST {
        return Err(Refused::new(
            format!("that would be {} times the recipe, which is no batch of any kitchen's", say::number(factor.times)),
            "Ask for between a thousandth of the recipe and a thousand times it.",
        ));
    }
    if factor.part.is_none() {
        let times = format!("That is {}.", times_in_words(factor.times));
        factor.how = if factor.how.is_empty() { times } else { format!("{} {times}", factor.how) };
    }
    let queries = asked(&factor, &pans, manuscript);
    Ok((factor, queries))
}

/// The factor as `2 1/2`, or as a decimal where no kitchen fraction is exact.
pub fn in_words(factor: f64) -> String {
    let fraction = food::fraction(factor, &[1, 2, 3, 4, 5, 6, 8, 12, 16], 1e-6);
    match fraction {
        Some(fraction) => fraction.to_string(),
        None => format!("about {}", if factor < 0.1 { format!("{factor:.4}") } else { food::decimal(factor) }),
    }
}

/// `2 1/2 times the recipe`, `1/2 of the recipe`, `the recipe as it is`.
pub(super) fn times_in_words(factor: f64) -> String {
    if (factor - 1.0).abs() < 1e-9 {
        return "the recipe as it is".to_owned();
    }
    if factor < 1.0 {
        format!("{} of the recipe", in_words(factor))
    } else {
        format!("{} times the recipe", in_words(factor))
    }
}

fn middle(low: Number, high: Number) -> f64 {
    f64::midpoint(low.value(), high.value())
}

/// `16`, or `4 to 6, taken as 5`.
pub(super) fn count((low, high): (f64, f64)) -> String {
    if high > low {
        format!("{} to {}, taken as {}", food::number(low), food::number(high), food::number(f64::midpoint(low, high)))
    } else {
        food::number(low)
    }
}

fn servings((low, high): (Number, Number), sheet: &Sheet) -> Result<Factor, Refused> {
    let Some(said) = sheet.makes.servings.filter(|(low, _)| *low > 0.0) else {
        let pieces = sheet.makes.pieces.zip(sheet.makes.word.as_ref()).filter(|(said, _)| said.1 > 2.0);
        let pieces = pieces
            .map(|(said, word)| format!("It says that it makes {} {word}, so ask for those; or write", count(said)));
        return Err(Refused::new(
            "the text does not say how many it serves".to_owned(),
            &format!(
                "{} “Serves 8” (your number) into it, or ask for so many times the recipe.",
                pieces.as_deref().unwrap_or("Write")
            ),
        ));
    };
    let times = middle(low, high) / f64::midpoint(said.0, said.1);
    let how =
        format!("The recipe serves {}, and {} servings are wanted.", count(said), count((low.value(), high.value())));
    Ok(Factor::plain(times, how))
}

fn pieces(
    (low, high): (Number, Number),
    word: &str,
    (pans, own_pans): (&[Read], &[OwnPan]),
    sheet: &Sheet,
) -> Result<Factor, Refused> {
    let made = sheet.makes.pieces.filter(|(low, _)| *low > 0.0).zip(sheet.makes.word.as_deref());
    let any = same_piece(ANY_PIECE, word);
    let in_cups = ["muffin", "cupcake"].iter().any(|small| same_piece(small, word.rsplit(' ').next().unwrap_or(word)));
    // A title that names scones says what a bare "Makes 9" makes nine of. "Cut into 16" are bars as well as squares.
    let cut_so = ["bar", "square", "finger", "slice"].iter().any(|one| same_piece(one, word));
    let titled = sheet.title.as_deref().is_some_and(|title| title.split_whitespace().any(|own| same_piece(own, word)));
    let untold = sheet.makes.pieces.filter(|(low, _)| *low > 0.0 && sheet.makes.word.is_none());
    let made = made.or(untold.zip(if any { Some(ANY_PIECE) } else { (titled || cut_so).then_some(word) }));
    if let Some((wholes, said)) = wholes(word, titled, sheet).filter(|_| !any) {
        let times = middle(low, high) / wholes;
        let how = format!("The recipe makes {said}, and {} are wanted.", count((low.value(), high.value())));
        return Ok(Factor::plain(times, how));
    }
    // One whole is cut into its servings.
    let cut = any || ["slice", "wedge"].iter().any(|slice| same_piece(slice, word));
    let one_whole =
        sheet.makes.pieces.is_none_or(|(_, high)| high <= 1.0) && !made.is_some_and(|(_, own)| same_piece(own, word));
    if let Some(servings_said) = sheet.makes.servings.filter(|(low, _)| cut && one_whole && *low > 0.0) {
        let times = middle(low, high) / f64::midpoint(servings_said.0, servings_said.1);
        let how = format!(
            "The recipe makes one whole that serves {}, taken as so many {word}; {} are wanted.",
            count(servings_said),
            count((low.value(), high.value()))
        );
        return Ok(Factor::plain(times, how));
    }
    if let Some((said, own)) = made.filter(|(_, own)| any || same_piece(own, word)) {
        let times = middle(low, high) / f64::midpoint(said.0, said.1);
        let how =
            format!("The recipe makes {} {own}, and {} are wanted.", count(said), count((low.value(), high.value())));
        return Ok(Factor::plain(times, how));
    }
    // A cake poured into muffin cups.
    if in_cups && low == high && low.is_whole() {
        let tin = cups(low, word, own_pans);
        if pan::millilitres(&tin) > 0.0 && pan::millilitres(pans) > 0.0 {
            return by_pans(tin, pans, own_pans);
        }
    }
    let (word, example) = (counted::plural_of(word), if high > Number::whole(6) { "24" } else { "2" });
    let write = format!("write “Makes {example} {word}” (your number) into it");
    // "1 cake" can't be asked for by number.
    match made.filter(|(said, _)| said.1 > 2.0) {
        Some((said, own)) => Err(Refused::new(
            format!("the text says that it makes {} {own}, and not how many {word}", count(said)),
            &format!("Ask for {own}, for servings or for pans, or {write}."),
        )),
        None => Err(Refused::new(
            format!("the text does not say how many {word} it makes"),
            &format!("Ask for so many times the recipe, for servings or for pans, or {write}."),
        )),
    }
}

/// How many of a whole the recipe makes that is then cut up, and how the text says so: one of "one 9-inch pie, 8 slices". A
/// title in the singular is one of what it names, where the text counts only what it is cut into.
fn wholes(word: &str, titled: bool, sheet: &Sheet) -> Option<(f64, String)> {
    let makes = &sheet.makes;
    if let Some(container) = makes.container.as_deref().filter(|container| same_piece(container, word)) {
        let cut = Cut::of(container);
        let read = numbers(&cut, 0).filter(|read| !read.vague).map(|read| middle(read.low, read.high));
        let one = cut.any(0, &["a", "an"]).then_some(1.0);
        return read.or(one).filter(|count| *count > 0.0).map(|count| (count, container.to_owned()));
    }
    let only_cut = match makes.word.as_deref() {
        Some(own) => ["slice", "wedge"].iter().any(|slice| same_piece(slice, own)),
        None => makes.pieces.is_none() && makes.servings.is_some(),
    };
    let title = sheet.title.as_deref().filter(|_| titled && only_cut)?;
    let one = title.split_whitespace().find(|own| same_piece(own, word))?.to_lowercase();
    (name_key(&one) == one).then(|| (1.0, format!("one {one}, by its title")))
}

/// So many cups of a muffin tin, of hers where she has one of that size: tins that are full, or one of as many cups.
fn cups(number: Number, word: &str, own_pans: &[OwnPan]) -> Vec<Read> {
    const SIZES: [&str; 2] = ["mini", "jumbo"];
    let word = word.to_lowercase();
    let size = SIZES.into_iter().find(|size| word.contains(size));
    let own: Vec<OwnPan> = own_pans
        .iter()
        .filter(|own| SIZES.into_iter().find(|size| own.pan.name().to_lowercase().contains(size)) == size)
        .cloned()
        .collect();
    let words = format!("{number}-cup {} muffin tin", size.unwrap_or_default());
    let in_cups = |read: Read| {
        let wanted = read.pan.as_ref().map(|pan| (pan.name().to_owned(), pan.count()));
        let mut read = as_mine(read, &words, &own);
        // A tin that she calls hers by name has cups of its own number; how many are filled was asked for.
        if let (Some((name, cups)), Some(mine)) = (wanted, read.pan.clone().filter(|mine| mine.count() > 0)) {
            if cups % mine.count() == 0 {
                read.count = cups / mine.count();
            } else {
                read.pan = Pan::new(&name, Shape::Muffin, mine.inner(), cups).or(read.pan);
            }
        }
        read
    };
    Pan::written(&words).into_iter().map(in_cups).collect()
}

fn by_pans(wanted: Vec<Read>, pans: &[Read], own_pans: &[OwnPan]) -> Result<Factor, Refused> {
    let examples = "Say the shape and the size, as “two 6-inch round pans” or “a 9 x 5 inch loaf pan”.";
    if let Some(read) = wanted.iter().find(|read| read.pan.is_none()) {
        return Err(Refused::new(format!("the size of the {} is not said", read.shape.name()), examples));
    }
    let (asked, own) = (pan::millilitres(&wanted), pan::millilitres(pans));
    if asked <= 0.0 {
        return Err(Refused::new(
            "a flat baking sheet holds no batter, so that nobody can say how much it takes".to_owned(),
            "Ask for pieces, as “24 cookies”, or for so many times the recipe.",
        ));
    }
    if own <= 0.0 {
        return Err(Refused::new(
            "the recipe names no pan with its size, so that its batter can't be compared with another pan".to_owned(),
            "Write its pan into the text, as “Pan: two 8-inch round pans”, or ask for so many times the recipe.",
        ));
    }
    let litres = |millilitres: f64| format!("{} ml", say::number(say::printed_grams(millilitres, say::Care::Usual)));
    let assumed = wanted.iter().chain(pans).any(Read::depth_assumed);
    let how = format!(
        "To the brim, {} hold{} {} and the recipe's {} {}. All pans are filled to the same share of their height, as before.{}",
        pan::in_words(&wanted),
        if pan::count(&wanted) == 1 { "s" } else { "" },
        litres(asked),
        pan::in_words(pans),
        litres(own),
        if assumed { " Depths that are not written are those of the common pan." } else { "" }
    );
    let hers = pan::hers(wanted.iter().chain(pans), own_pans);
    let how = match hers.as_slice() {
        [] => how,
        hers => format!("{how} Taken as you measured them in kitchen.toml: {}.", hers.join(", ")),
    };
    let tin = wanted.iter().find_map(|read| read.pan.as_ref().filter(|pan| pan.shape() == Shape::Muffin));
    let how = match tin {
        Some(tin) => {
            let cup = litres(tin.capacity_millilitres() / f64::from(tin.count()));
            format!("{how} A cup of the {} was taken to hold {cup}.", tin.name())
        }
        None => how,
    };
    Ok(Factor { pans: wanted, ..Factor::plain(asked / own, how) })
}

/// The least of what each food allows, since none of them reaches for more.
fn use_up_all(foods: &[String], sheet: &Sheet, pantry: &Pantry, kitchen: Kitchen) -> Result<Factor, Refused> {
    let mut factors = Vec::new();
    for words in foods {
        factors.push((words, use_up(words, sheet, pantry, kitchen)?));
    }
    let least = factors.iter().min_by(|one, other| one.1.times.total_cmp(&other.1.times));
    let Some((tightest, factor)) = least.cloned().map(|(words, factor)| (words.clone(), factor)) else {
        return Err(Refused::new("no food is named".to_owned(), "Say it as “use up 350 g ground hazelnuts”."));
    };
    if factors.len() < 2 {
        return Ok(factor);
    }
    let others: Vec<String> =
        factors.iter().filter(|(words, _)| **words != tightest).map(|(words, _)| format!("“{words}”")).collect();
    let how = format!("{} It is used up first and was taken; of {} some is left.", factor.how, others.join(" and of "));
    Ok(Factor { how, ..factor })
}

fn use_up(words: &str, sheet: &Sheet, pantry: &Pantry, kitchen: Kitchen) -> Result<Factor, Refused> {
    let asked = line::weigh(words, pantry, kitchen);
    let one_food = "Say one food with its amount, as “use up 350 g ground hazelnuts”.";
    let Some(one) = asked.foods.first() else {
        return Err(Refused::new(format!("“{words}” names no food"), one_food));
    };
    if asked.foods.len() > 1 || !asked.alternatives.is_empty() {
        return Err(Refused::new(format!("“{words}” names more than one food for one amount"), one_food));
    }
    if let Some(factor) = use_up_made(words, one, sheet) {
        return Ok(factor);
    }
    let Some(id) = one.item.food else {
        return Err(not_known(&one.item.name, pantry));
    };
    let lines = || sheet.components.iter().flat_map(|component| &component.lines);
    let all: Vec<(&Line, &WeighedItem)> = lines()
        .filter(|line| !speaks_of_earlier(&line.weighed))
        .flat_map(|line| line.weighed.foods.iter().map(move |food| (line, food)))
        .collect();
    let uses_of = |id| -> Vec<(&Line, &WeighedItem)> {
        all.iter().copied().filter(|(_, food)| food.item.food == Some(id)).collect()
    };
    let mut uses = uses_of(id);
    // "Yogurt" is the recipe's Greek yogurt where that is the only yogurt in it.
    let kind = uses.is_empty().then(|| the_only_kind(&one.item.name, &all, pantry)).flatten();
    let as_kind = kind.map(|kind| {
        let item = evencrumb_manuscript::line::Item { food: Some(kind), ..one.item.clone() };
        WeighedItem { weighed: evencrumb_pantry::weigh::weigh(&item, None, pantry, kitchen), item, ..one.clone() }
    });
    let (one, id) = as_kind.as_ref().zip(kind).unwrap_or((one, id));
    if kind.is_some() {
        uses = uses_of(id);
    }
    let name = &pantry.food(id).name;
    if uses.is_empty() {
        let mend = match nearest(one, lines(), pantry) {
            Some(near) => format!(
                "The nearest line is line {}, “{}”: name its food, if that is meant.",
                near.number,
                near.weighed.text.trim()
            ),
            None => "Name a food that the recipe uses.".to_owned(),
        };
        return Err(Refused::new(format!("the recipe uses no {name}"), &mend));
    }
    let where_used: Vec<String> = uses.iter().map(|(line, _)| line.number.to_string()).collect();
    let where_used = format!("line{} {}", if where_used.len() > 1 { "s" } else { "" }, where_used.join(" and "));
    // "3 eggs" without a size are eggs as the recipe's are.
    let counts: Option<Vec<f64>> = uses.iter().map(|(_, food)| plain_count(food, true)).collect();
    if let Some((have, counts)) = plain_count(one, false).zip(counts) {
        let used: f64 = counts.iter().sum();
        let how = format!("“{words}” are to be used up, and the recipe uses {} ({where_used}).", food::number(used));
        return Ok(Factor::plain(have / used, how));
    }
    let unknown = |what: &str| Refused::new(format!("nobody can say what {what} weighs"), "Write the grams beside it.");
    let grams =
        one.weighed.grams.as_ref().filter(|grams| grams.best() > 0.0).ok_or_else(|| unknown(&format!("“{words}”")))?;
    let mut used = 0.0;
    for (line, food) in &uses {
        let grams = food
            .weighed
            .grams
            .as_ref()
            .ok_or_else(|| unknown(&format!("line {}, “{}”,", line.number, line.weighed.text.trim())))?;
        used += grams.best();
    }
    if used <= 0.0 {
        return Err(unknown(&format!("the {name} of the recipe")));
    }
    let printed = |grams: f64| super::weight::in_grams(say::printed_grams(grams, say::Care::Usual));
    let how = format!(
        "“{words}” weighs {}, and the recipe uses {} of {name} ({where_used}).",
        printed(grams.best()),
        printed(used)
    );
    Ok(Factor::plain(grams.best() / used, how))
}

/// What the recipe itself calls so, a part or a line that takes of something made, goes before the food that others call
/// so: "levain" is the part called Levain, and not the starter in it.
fn use_up_made(words: &str, one: &WeighedItem, sheet: &Sheet) -> Option<Factor> {
    let have = one.weighed.grams.as_ref().map(Estimate::best).filter(|grams| *grams > 0.0)?;
    let key = name_key(&one.item.name);
    let is_it = |name: &str| {
        let own = name_key(name.split(['(', ':', ',']).next().unwrap_or_default());
        own.strip_suffix(&key).is_some_and(|before| before.is_empty() || before.ends_with(' '))
    };
    let parts: Vec<&Component> =
        sheet.components.iter().filter(|part| part.name.as_deref().is_some_and(is_it)).collect();
    let lines = sheet.components.iter().flat_map(|component| &component.lines);
    let made = |line: &&Line| line.weighed.foods.iter().any(|one| one.made.is_some() && is_it(&one.item.name));
    let lines: Vec<&Line> = lines.filter(made).collect();
    let (what, used) = match (parts.as_slice(), lines.as_slice()) {
        ([part], _) if part.total.unweighed.is_empty() => {
            (format!("the part “{}” of the recipe weighs", part.heading()), part.total.grams.best())
        }
        ([], [line]) => {
            let grams =
                line.weighed.foods.iter().filter_map(|one| one.weighed.grams.as_ref()).map(Estimate::best).sum();
            (format!("line {}, “{}”, takes", line.number, line.weighed.text.trim()), grams)
        }
        _ => return None,
    };
    let printed = |grams: f64| weight::in_grams(say::printed_grams(grams, say::Care::Usual));
    let how = format!("“{words}” weighs {}, and {what} {}.", printed(have), printed(used));
    (used > 0.0).then(|| Factor::plain(have / used, how))
}

/// A food that is not known here, with the nearest that is.
fn not_known(name: &str, pantry: &Pantry) -> Refused {
    let near = pantry.nearest(name, 1).into_iter().next();
    let near = near.map(|near| format!("The nearest known is “{}”; it was not used. ", near.food.name));
    let mend = format!("{}Name the food as the recipe does.", near.unwrap_or_default());
    Refused::new(format!("“{name}” is not a food known here"), &mend)
}

/// The food of the recipe whose name says all that was asked and more ("Greek yogurt", asked for as "yogurt"), where
/// there is but one.
fn the_only_kind(asked: &str, all: &[(&Line, &WeighedItem)], pantry: &Pantry) -> Option<FoodId> {
    let key = name_key(asked);
    let is_kind = |name: &str| {
        let own = name_key(name);
        own.strip_suffix(&key).is_some_and(|before| before.ends_with(' '))
    };
    let mut kinds: Vec<FoodId> = all
        .iter()
        .filter_map(|(_, one)| one.item.food.filter(|id| is_kind(&one.item.name) || is_kind(&pantry.food(*id).name)))
        .collect();
    kinds.dedup();
    match kinds.as_slice() {
        [first, rest @ ..] if rest.iter().all(|kind| kind == first) => Some(*first),
        _ => None,
    }
}

/// How many pieces, where nothing but a number says how much; with a size only where `sized` allows one.
fn plain_count(one: &WeighedItem, sized: bool) -> Option<f64> {
    let [amount] = one.item.amounts.as_slice() else { return None };
    let has_size = one.item.size.is_some() || amount.size.is_some();
    counted::exact(amount).filter(|_| sized || !has_size).map(Number::value)
}

/// The line whose food is nearest to one that the recipe does not use: by the words of their names, then by what they do.
fn nearest<'l>(one: &WeighedItem, lines: impl Iterator<Item = &'l Line>, pantry: &Pantry) -> Option<&'l Line> {
    let id = one.item.food?;
    let asked = pantry.food(id);
    let words: Vec<&str> = asked.name.split(' ').collect();
    let score = |line: &Line| {
        let foods = line.weighed.foods.iter().filter_map(|food| food.item.food).map(|id| pantry.food(id));
        let near = foods.map(|food| {
            let shared = food.name.split(' ').filter(|word| words.contains(word)).count();
            // The last word says what it is: almond flour is nearer to pecan flour than to almond extract.
            let head = usize::from(food.name.rsplit(' ').next() == words.last().copied());
            shared + head + usize::from(food.roles.first() == asked.roles.first())
        });
        near.max().unwrap_or(0)
    };
    let mut best: Option<(usize, &Line)> = None;
    for line in lines {
        let near = score(line);
        if near > best.map_or(0, |(most, _)| most) {
            best = Some((near, line));
        }
    }
    best.map(|(_, line)| line)
}

/// What the oven and the pans make of it.
fn asked(factor: &Factor, pans: &[Read], manuscript: &Manuscript) -> Vec<Query> {
    let mut queries = Vec::new();
    // A part alone is in no pan of the whole.
    if factor.part.is_some() || (factor.times - 1.0).abs() < 1e-9 && factor.pans.is_empty() {
        return queries;
    }
    let fact = |kind| manuscript.facts.iter().find(|fact| fact.kind == kind).map(|fact| fact.place.clone());
    let pan_place = fact(FactKind::Pan).or_else(|| fact(FactKind::Yield)).unwrap_or(0..0);
    let baked = manuscript.oven().is_some() || fact(FactKind::BakeTime).is_some();
    if !factor.pans.is_empty() {
        let (new, old) = (pan::depth(&factor.pans), pan::depth(pans));
        if old > 0.0 && (new / old - 1.0).abs() > SAME_DEPTH {
            let (how, share) = if new > old { ("deeper", new / old - 1.0) } else { ("shallower", 1.0 - new / old) };
            queries.push(Query::new(
                &BATTER_DEPTH_DIFFERS,
                pan_place.clone(),
                format!(
                    "Filled to the same share, the batter stands about {:.0} % {how} in {} than in the recipe's pans.",
                    share * 100.0,
                    pan::in_words(&factor.pans)
                ),
                "Expect another bake time; for the same height, ask for so many times the recipe instead.",
            ));
        }
    }
    let pans_used = f64::from(pan::count(pans));
    let batter = pan::millilitres(pans) > 0.0 && !pans.iter().any(|read| read.shape == Shape::Sheet);
    let needed = pans_used * factor.times;
    if factor.pans.is_empty() && batter && (needed - needed.round()).abs() > 0.02 * needed {
        queries.push(Query::new(
            &PANS_NOT_WHOLE,
            pan_place.clone(),
            format!(
                "Filled as before, this batch fills {} pan{} where the recipe takes {}.",
                food::number(needed),
                if needed > 1.0 { "s" } else { "" },
                pan::in_words(pans)
            ),
            "Ask for the pans that you have, as “two 6-inch round pans”, or bake the rest in something small.",
        ));
    }
    if baked {
        let times = manuscript
            .facts
            .iter()
            .find(|fact| fact.kind == FactKind::BakeTime)
            .map_or(String::new(), |fact| format!(" (“{}”)", fact.words));
        let (message, mend) = if factor.pans.is_empty() {
            (
                format!(
                    "Bake times are not scaled{times}. In more of the same pans, filled as before, they hold; in other pans they do not."
                ),
                "Look for the signs that the method gives, not at the clock; a full oven is slower.",
            )
        } else {
            (
                format!(
                    "Bake times are not scaled{times}, and in other pans they change: small and shallow ones bake faster, large and deep ones slower."
                ),
                "Begin to look well before, and go by the signs that the method gives.",
            )
        };
        queries.push(Query::new(&BAKE_TIME_NOT_SCALED, fact(FactKind::BakeTime).unwrap_or(pan_place), message, mend));
    }
    queries
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_factors_in_words() {
        assert_eq!(in_words(2.5), "2 1/2");
        assert_eq!(in_words(0.5), "1/2");
        assert_eq!(in_words(1.0 / 3.0), "1/3");
        assert_eq!(in_words(15.0 / 8.0), "1 7/8");
        assert_eq!(in_words(2.4), "2.4");
        assert_eq!(in_words(0.373_64), "about 0.374");
        assert_eq!(in_words(12.0), "12");
    }
}
