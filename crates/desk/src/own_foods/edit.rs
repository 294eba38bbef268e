//! Writing to `foods.toml`: one thing is added, and every other byte stays as the author left it.
//!
//! A file that cannot be read as TOML is never written to, because nobody could say what would be kept. The new text
//! goes to a file beside it that then takes its place, so that it is written whole or not at all. Who writes has the
//! folder's lock from reading to writing, so that nothing of two who write at once gets lost.

#![allow(clippy::disallowed_methods, reason = "locks the folder while it writes foods.toml")]

use std::fs::{self, File, TryLockError};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::time::Duration;

use evencrumb_manuscript::Weight;
use evencrumb_pantry::own;
use evencrumb_pantry::weigh::Kitchen;
use toml_edit::{Array, ArrayOfTables, DocumentMut, Item, Table, Value, value};

use crate::disk::{self, Unread};
use crate::rows;

/// How often and how long is waited for another program that writes in the folder: some 10 s together.
const PATIENCE: (u32, Duration) = (1_000, Duration::from_millis(10));

/// What her own measure weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing<'w> {
    /// The food, by a name that means it in her kitchen.
    pub food: &'w str,
    /// What was filled, as `1 cup`.
    pub measure: &'w str,
    /// Grams, one for each time.
    pub grams: &'w [f64],
    /// Whose measure, as `my steel cup`.
    pub whose: Option<&'w str>,
    /// Whether she says that it is so, however far it lies from other weighings.
    pub is_sure: bool,
}

/// A food of her own.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnFood<'f> {
    /// Its name.
    pub name: &'f str,
    /// What else she calls it.
    pub also: &'f [&'f str],
    /// The food as which it is weighed and counted.
    pub like: Option<&'f str>,
    /// Where the numbers come from, as `package label`.
    pub from: Option<&'f str>,
    /// What 100 g hold and what measures weigh, by the words of the file: `fat`, `sodium_mg`, `tablespoon_grams`.
    pub numbers: &'f [(&'f str, f64)],
    /// What people with an allergy ask for, by the words of the file.
    pub allergens: &'f [&'f str],
    /// `none`, `contains`, `oats` or `check`; nothing when it is not known.
    pub gluten: Option<&'f str>,
}

/// Why nothing was written.
#[derive(Debug)]
pub enum NotWritten {
    /// The file is no TOML.
    NotToml {
        /// The first line that could not be read, from 1.
        line: usize,
        /// What is wrong there.
        what: String,
    },
    /// The file has another form than its words are read in.
    OtherForm(&'static str),
    /// A food of this name stands there already.
    AlreadyThere(String),
    /// What would not be believed when it is read again.
    NotBelieved {
        /// What is wrong with it, as `980 g is far from …`.
        what: String,
    },
    /// The file is a link to one outside the folder.
    LinkOutside,
    /// The file may only be read.
    ReadOnly,
    /// Another program has been writing in the folder all the while.
    Busy,
    /// What lies there is no file, or the disk does not take it.
    Disk(Unread),
}

impl std::fmt::Display for NotWritten {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            NotWritten::NotToml { line, what } => write!(out, "line {line} could not be read ({what})"),
            NotWritten::OtherForm(word) => write!(out, "`{word}` is not written as [[{word}]] there"),
            NotWritten::AlreadyThere(name) => write!(out, "a food called “{name}” stands there already"),
            NotWritten::NotBelieved { what } => out.write_str(what),
            NotWritten::LinkOutside => out.write_str("it is a link to a file outside this folder"),
            NotWritten::ReadOnly => out.write_str("it may only be read, not written"),
            NotWritten::Busy => out.write_str("another program is writing in this folder"),
            NotWritten::Disk(why) => write!(out, "{why}"),
        }
    }
}

impl std::error::Error for NotWritten {}

impl From<io::Error> for NotWritten {
    fn from(error: io::Error) -> NotWritten {
        NotWritten::Disk(error.into())
    }
}

impl NotWritten {
    /// How to mend it.
    pub fn mend(&self) -> &'static str {
        match self {
            NotWritten::NotToml { .. } | NotWritten::OtherForm(_) => "Mend that line first, then ask again.",
            NotWritten::AlreadyThere(_) => "Change it where it stands, or choose another name.",
            NotWritten::NotBelieved { .. } => "Look at the number, the measure and the scale.",
            NotWritten::LinkOutside => "Copy the file itself into the folder, or go to where it lies and ask there.",
            NotWritten::ReadOnly => "Make it writable if it is meant to change, then ask again.",
            NotWritten::Busy => "Wait until it is done, then ask again.",
            NotWritten::Disk(Unread::Forbidden) => "Look whether you may write in this folder.",
            NotWritten::Disk(why) => why.mend(),
        }
    }
}

/// A row to be added, of its kind.
type NewRow = Option<(&'static str, Table)>;

/// Adds a weighing to the file. Further grams of the same food, measure and owner go into the row that is there.
///
/// # Errors
/// As [`NotWritten`]; the file is then as it was. What the file's reader would leave out is not written.
pub fn add_weighing(file: &Path, weighing: &Weighing<'_>, kitchen: Kitchen) -> Result<(), NotWritten> {
    let with = |document: &mut DocumentMut| {
        let same = |row: &&mut Table| {
            let said = |key: &str| row.get(key).and_then(Item::as_str);
            said("food") == Some(weighing.food)
                && said("measure") == Some(weighing.measure)
                && said("whose") == weighing.whose
                && row.get("sure").and_then(Item::as_bool).unwrap_or(false) == weighing.is_sure
        };
        let grams = weighing.grams.iter().copied().map(number);
        let there = rows(document, "weighing")?.and_then(|rows| rows.iter_mut().find(same));
        if let Some(list) = there.and_then(|row| row.get_mut("grams")).and_then(Item::as_array_mut) {
            list.extend(grams);
            return Ok(None);
        }
        let mut row = Table::new();
        row["food"] = value(weighing.food);
        row["measure"] = value(weighing.measure);
        row["grams"] = value(grams.collect::<Array>());
        if let Some(whose) = weighing.whose {
            row["whose"] = value(whose);
        }
        if weighing.is_sure {
            row["sure"] = value(true);
        }
        Ok(Some(("weighing", row)))
    };
    change(file, with, |before, now| is_believed(before, now, kitchen))
}

/// Whether the reader of the file takes in what was added to it.
fn is_believed(before: &str, now: &str, kitchen: Kitchen) -> Result<(), NotWritten> {
    let faults = |text: &str| {
        let remarks = own::read(super::FILE, text, kitchen).remarks.into_iter();
        let faults = remarks.filter(|remark| remark.weight == Weight::MustMend);
        faults.map(|remark| (remark.fault.food, remark.fault.what)).collect::<Vec<_>>()
    };
    let known = faults(before);
    match faults(now).into_iter().find(|fault| !known.contains(fault)) {
        Some((_, what)) => Err(NotWritten::NotBelieved { what }),
        None => Ok(()),
    }
}

/// Adds a food to the file.
///
/// # Errors
/// As [`NotWritten`]; the file is then as it was.
pub fn add_food(file: &Path, food: &OwnFood<'_>) -> Result<(), NotWritten> {
    let with = |document: &mut DocumentMut| {
        let there = rows(document, "food")?;
        if there.is_some_and(|rows| rows.iter().any(|row| row.get("name").and_then(Item::as_str) == Some(food.name))) {
            return Err(NotWritten::AlreadyThere(food.name.to_owned()));
        }
        let mut row = Table::new();
        let words = |words: &[&str]| value(words.iter().copied().collect::<Array>());
        row["name"] = value(food.name);
        if !food.also.is_empty() {
            row["also"] = words(food.also);
        }
        for (key, said) in [("like", food.like), ("from", food.from)] {
            if let Some(said) = said {
                row[key] = value(said);
            }
        }
        for (key, said) in food.numbers {
            row[*key] = Item::Value(number(*said));
        }
        if !food.allergens.is_empty() {
            row["allergens"] = words(food.allergens);
        }
        if let Some(gluten) = food.gluten {
            row["gluten"] = value(gluten);
        }
        Ok(Some(("food", row)))
    };
    change(file, with, |_, _| Ok(()))
}

/// Gives a word a meaning in the file; a meaning that it has there already is changed.
///
/// # Errors
/// As [`NotWritten`]; the file is then as it was.
pub fn add_meaning(file: &Path, word: &str, food: &str) -> Result<(), NotWritten> {
    let with = |document: &mut DocumentMut| {
        let is_of_word = |row: &&mut Table| row.get("word").and_then(Item::as_str) == Some(word);
        if let Some(row) = rows(document, "meaning")?.and_then(|rows| rows.iter_mut().find(is_of_word)) {
            row["food"] = value(food);
            return Ok(None);
        }
        let mut row = Table::new();
        row["word"] = value(word);
        row["food"] = value(food);
        Ok(Some(("meaning", row)))
    };
    change(file, with, |_, _| Ok(()))
}

/// The rows of one kind, when there are any.
fn rows<'d>(document: &'d mut DocumentMut, kind: &'static str) -> Result<Option<&'d mut ArrayOfTables>, NotWritten> {
    let Some(item) = document.get_mut(kind) else { return Ok(None) };
    item.as_array_of_tables_mut().map(Some).ok_or(NotWritten::OtherForm(kind))
}

/// Whole numbers without a point, as people write them.
fn number(number: f64) -> Value {
    #[expect(clippy::cast_possible_truncation, reason = "it is whole and small")]
    if number.fract().abs() < f64::EPSILON && number.abs() < 1e9 {
        Value::from(number as i64)
    } else {
        Value::from(number)
    }
}

/// Changes the file, when what comes out is believed; one that is not there yet is begun.
fn change(
    file: &Path,
    with: impl FnOnce(&mut DocumentMut) -> Result<NewRow, NotWritten>,
    is_believed: impl FnOnce(&str, &str) -> Result<(), NotWritten>,
) -> Result<(), NotWritten> {
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let _turn = turn(folder)?;
    let file = to_write(file, folder)?;
    let text = match disk::whole(&file) {
        Err(Unread::NotThere) => String::new(),
        Err(why) => return Err(NotWritten::Disk(why)),
        Ok(bytes) => String::from_utf8(bytes).map_err(|error| NotWritten::NotToml {
            line: rows::Lines::of(&String::from_utf8_lossy(error.as_bytes())).line(error.utf8_error().valid_up_to()),
            what: "it is not text in UTF-8".to_owned(),
        })?,
    };
    let now = changed(&text, with)?;
    is_believed(&text, &now)?;
    Ok(write(&file, &now)?)
}

/// Waits until nobody else writes in the folder, and keeps others waiting as long as the answer lives.
fn turn(folder: &Path) -> Result<File, NotWritten> {
    // The lock is on the folder, because the file itself is another one after each writing.
    #[cfg(unix)]
    let lock = File::open(folder)?;
    #[cfg(not(unix))]
    let lock = File::create(folder.join(".evencrumb-lock"))?;
    let (times, pause) = PATIENCE;
    for _ in 0..times {
        match lock.try_lock() {
            Ok(()) => return Ok(lock),
            Err(TryLockError::WouldBlock) => std::thread::sleep(pause),
            // A disk without locks can't tell who else writes; that is no reason to write nothing.
            Err(TryLockError::Error(error)) if error.kind() == io::ErrorKind::Unsupported => return Ok(lock),
            Err(TryLockError::Error(error)) => return Err(error.into()),
        }
    }
    Err(NotWritten::Busy)
}

/// The file that is to be written: behind a link only when it lies in the folder, too, so that nothing changes that the
/// author did not name and no link is lost.
fn to_write(file: &Path, folder: &Path) -> Result<PathBuf, NotWritten> {
    if !disk::lies_there(file) {
        return Ok(file.to_owned());
    }
    let found = disk::plain_file(file).map_err(NotWritten::Disk)?;
    let target = file.canonicalize()?;
    if !target.starts_with(folder.canonicalize()?) {
        return Err(NotWritten::LinkOutside);
    }
    if found.permissions().readonly() {
        return Err(NotWritten::ReadOnly);
    }
    Ok(target)
}

fn changed(
    text: &str,
    with: impl FnOnce(&mut DocumentMut) -> Result<NewRow, NotWritten>,
) -> Result<String, NotWritten> {
    let (mark, plain) = text.strip_prefix('\u{feff}').map_or(("", text), |plain| ("\u{feff}", plain));
    let mut document: DocumentMut = plain.parse().map_err(|error: toml_edit::TomlError| NotWritten::NotToml {
        line: rows::Lines::of(plain).line(error.span().map_or(0, |span| span.start)),
        what: error.message().to_owned(),
    })?;
    let mut changed = match with(&mut document)? {
        None => document.to_string(),
        Some((kind, row)) => match rows(&mut document, kind)? {
            Some(rows) => {
                rows.push(row);
                document.to_string()
            }
            // The library would put the first row of a kind before the remarks that end the file.
            None => {
                let gap = match plain {
                    "" => "",
                    plain if plain.ends_with('\n') => "\n",
                    _ => "\n\n",
                };
                let mut alone = DocumentMut::new();
                alone[kind] = Item::ArrayOfTables(ArrayOfTables::from_iter([row]));
                format!("{plain}{gap}{alone}")
            }
        },
    };
    if plain.contains("\r\n") {
        // The line ends of the author's editor, which the library reads and does not keep.
        changed = changed.replace("\r\n", "\n").replace('\n', "\r\n");
    }
    Ok(format!("{mark}{changed}"))
}

/// Writes the file whole or not at all, as open to others as it was.
fn write(file: &Path, text: &str) -> io::Result<()> {
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut beside = tempfile::Builder::new().prefix(".evencrumb-").tempfile_in(folder)?;
    beside.write_all(text.as_bytes())?;
    match fs::metadata(file) {
        Ok(was) => beside.as_file().set_permissions(was.permissions())?,
        #[cfg(unix)]
        Err(_) => {
            use std::os::unix::fs::PermissionsExt as _;
            beside.as_file().set_permissions(fs::Permissions::from_mode(0o644))?;
        }
        #[cfg(not(unix))]
        Err(_) => {}
    }
    beside.as_file().sync_all()?;
    beside.persist(file).map_err(|error| error.error)?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    const HOME: Kitchen = Kitchen { custom: evencrumb_measure::Custom::Us, eggs: evencrumb_pantry::row::Size::Large };

    const FILE: &str = "# Mine.\n\n[[weighing]]   # the old one\nfood = 'oat flour'\nmeasure = \"1 cup\"\ngrams = [ 96,101 ] # twice\nwhose = \"steel\"\n\n# --- words ---\n\n[[meaning]]\nword=\"crunchy sugar\"\nfood = \"turbinado sugar\"  # so\n\n# the end";
    const STEEL: Weighing<'_> =
        Weighing { food: "oat flour", measure: "1 cup", grams: &[93.0, 95.5], whose: Some("steel"), is_sure: false };

    /// What a folder holds after a change to its `foods.toml`.
    fn after(text: &str, with: impl FnOnce(&Path) -> Result<(), NotWritten>) -> Result<String, NotWritten> {
        let home = tempfile::tempdir().expect("a temporary folder");
        let file = home.path().join("foods.toml");
        fs::write(&file, text).expect("written");
        let done = with(&file);
        let now = fs::read_to_string(&file).expect("it is there");
        assert_eq!(fs::read_dir(home.path()).expect("a folder").count(), 1, "nothing is left behind");
        if done.is_err() {
            assert_eq!(now, text, "what was refused changed nothing");
        }
        done.map(|()| now)
    }

    /// What stands between the longest common beginning and end.
    fn put_in(before: &str, now: &str) -> String {
        let start = before.bytes().zip(now.bytes()).take_while(|(a, b)| a == b).count();
        let end = before[start..].bytes().rev().zip(now[start..].bytes().rev()).take_while(|(a, b)| a == b).count();
        assert_eq!(start + end, before.len(), "every byte of the author's stays:\n{now}");
        now[start..now.len() - end].to_owned()
    }

    #[test]
    fn ok_further_grams_go_into_the_row() {
        let now = after(FILE, |file| add_weighing(file, &STEEL, HOME)).expect("written");
        assert_eq!(put_in(FILE, &now).trim(), ", 93, 95.5");
    }

    #[test]
    fn ok_a_new_row_stands_behind_its_kind_and_nothing_else_moves() {
        let glass = Weighing { whose: Some("glass"), ..STEEL };
        let now = after(FILE, |file| add_weighing(file, &glass, HOME)).expect("written");
        let row = put_in(FILE, &now);
        assert!(row.contains("grams = [93, 95.5]\nwhose = \"glass\"\n"), "{row}");
        assert!(now.find("glass") < now.find("# --- words"), "{now}");
        let now = after(FILE, |file| add_meaning(file, "nib", "cocoa nibs")).expect("written");
        assert!(put_in(FILE, &now).contains("word = \"nib\"\nfood = \"cocoa nibs\"\n"), "{now}");
        let pear = OwnFood {
            name: "pear molasses",
            also: &["pear syrup"],
            like: Some("molasses"),
            numbers: &[("sodium_mg", 37.0)],
            allergens: &["sulphite"],
            ..OwnFood::default()
        };
        let now = after(FILE, |file| add_food(file, &pear)).expect("written");
        assert_eq!(put_in(FILE, &now).matches("[[food]]").count(), 1, "{now}");
    }

    #[test]
    fn ok_a_meaning_is_changed_where_it_stands() {
        let now = after(FILE, |file| add_meaning(file, "crunchy sugar", "pearl sugar")).expect("written");
        assert_eq!(now.matches("[[meaning]]").count(), 1);
        assert!(now.contains("food = \"pearl sugar\""), "{now}");
    }

    #[test]
    fn ok_line_ends_mark_and_demo_are_kept() {
        let crlf = format!("\u{feff}{}", FILE.replace('\n', "\r\n"));
        let now = after(&crlf, |file| add_weighing(file, &Weighing { whose: None, ..STEEL }, HOME)).expect("written");
        put_in(&crlf, &now);
        assert_eq!(now.matches('\n').count(), now.matches("\r\n").count());
        let demo = include_str!("../../../../demo/foods.toml");
        for now in [
            after(demo, |file| add_weighing(file, &STEEL, HOME)),
            after(demo, |file| add_meaning(file, "nib", "cocoa nibs")),
            after(demo, |file| add_food(file, &OwnFood { name: "x y", like: Some("honey"), ..OwnFood::default() })),
        ] {
            put_in(demo, &now.expect("written"));
        }
    }

    #[test]
    fn ok_a_file_that_is_not_there_is_begun() {
        let home = tempfile::tempdir().expect("a temporary folder");
        let file = home.path().join("foods.toml");
        add_weighing(&file, &STEEL, HOME).expect("written");
        let text = fs::read_to_string(&file).expect("it is there");
        assert!(text.starts_with("[[weighing]]\nfood = \"oat flour\"\n"), "{text}");
    }

    #[test]
    fn err_a_file_that_cannot_be_read_is_left_alone() {
        let half = "[[weighing]]\nfood = \"oat flour\"\n\n[[food]\nname = \"pear\"\n";
        let error = after(half, |file| add_weighing(file, &STEEL, HOME)).expect_err("it is no TOML");
        assert!(matches!(error, NotWritten::NotToml { line: 4, .. }), "{error}");
        let error = after("weighing = 3\n", |file| add_weighing(file, &STEEL, HOME)).expect_err("another form");
        assert_eq!(error.to_string(), "`weighing` is not written as [[weighing]] there");
        let twice = OwnFood { name: "pear", ..OwnFood::default() };
        let error = after("[[food]]\nname = \"pear\"\n", |file| add_food(file, &twice)).expect_err("there already");
        assert_eq!(error.to_string(), "a food called “pear” stands there already");
    }

    /// In a new folder the file is all remarks: the row stands under them, as every file that the author goes on writing.
    #[test]
    fn ok_the_first_row_of_a_kind_stands_at_the_end() {
        let new = include_str!("../../data/new/foods.toml");
        for before in [new.to_owned(), format!("\u{feff}{}", new.replace('\n', "\r\n")), "# no end of line".to_owned()]
        {
            let now = after(&before, |file| add_weighing(file, &STEEL, HOME)).expect("written");
            assert!(now.starts_with(&before), "{now}");
            assert_eq!(now.trim_end().lines().last(), Some("whose = \"steel\""));
            let again =
                after(&now, |file| add_weighing(file, &Weighing { whose: None, ..STEEL }, HOME)).expect("written");
            assert!(again.starts_with(&now), "{again}");
        }
    }

    #[test]
    fn err_what_would_not_be_believed_is_not_written() {
        let told = |grams: &[f64], is_sure| {
            let weighing = Weighing { grams, is_sure, ..STEEL };
            after("# mine\n", |file| add_weighing(file, &weighing, HOME)).map_err(|error| error.to_string())
        };
        assert_eq!(
            told(&[1e308], true),
            Err("1e308 g is no weight that a kitchen scale says (0.01 g to 100 kg)".to_owned())
        );
        assert_eq!(
            told(&[98.0, 380.0, 95.0], false),
            Err("380 g is far from the 98 g that 1 cup of it should weigh by the other weighings".to_owned())
        );
        assert!(told(&[98.0, 380.0, 95.0], true).is_ok_and(|now| now.contains("\nsure = true\n")));
        let alone = "[[weighing]]\nfood = \"oat flour\"\nmeasure = \"1 cup\"\ngrams = [98]\nwhose = \"steel\"\n";
        let more = Weighing { grams: &[9.8], ..STEEL };
        assert!(after(alone, |file| add_weighing(file, &more, HOME)).is_err(), "what stands there counts");
    }

    #[test]
    fn ok_nothing_is_lost_when_many_write_at_once() {
        let home = tempfile::tempdir().expect("a temporary folder");
        let file = home.path().join("foods.toml");
        std::thread::scope(|scope| {
            for at in 0..12 {
                let file = &file;
                scope.spawn(move || {
                    let weighing = Weighing { grams: &[90.0 + f64::from(at)], ..STEEL };
                    add_weighing(file, &weighing, HOME).expect("written");
                });
            }
        });
        let own = own::read("foods.toml", &fs::read_to_string(&file).expect("it is there"), HOME);
        let oat = own.pantry.food(own.pantry.named("oat flour").expect("ours"));
        assert!(oat.own[0].contains("12 weighings"), "{:?}", oat.own);
    }

    #[cfg(unix)]
    #[test]
    fn err_links_out_of_the_folder_and_files_for_reading_only_are_left_alone() {
        use std::os::unix::fs::{PermissionsExt as _, symlink};
        let home = tempfile::tempdir().expect("a temporary folder");
        let elsewhere = tempfile::tempdir().expect("a temporary folder");
        let (file, target) = (home.path().join("foods.toml"), elsewhere.path().join("foods.toml"));
        fs::write(&target, "# theirs\n").expect("written");
        let told = || add_weighing(&file, &STEEL, HOME).map_err(|error| error.to_string());
        symlink(&target, &file).expect("a link");
        assert_eq!(told(), Err("it is a link to a file outside this folder".to_owned()));
        assert_eq!(fs::read_to_string(&target).expect("it is there"), "# theirs\n");
        fs::remove_file(&target).expect("taken away");
        assert_eq!(told(), Err("it is a link to something that is not there".to_owned()));
        fs::remove_file(&file).expect("taken away");
        symlink("mine.toml", &file).expect("a link");
        let mine = home.path().join("mine.toml");
        fs::write(&mine, "# mine\n").expect("written");
        assert_eq!(told(), Ok(()));
        assert!(file.is_symlink() && fs::read_to_string(&mine).expect("it is there").contains("oat flour"));
        let before = fs::read(&mine).expect("it is there");
        fs::set_permissions(&mine, fs::Permissions::from_mode(0o444)).expect("changed");
        assert_eq!(told(), Err("it may only be read, not written".to_owned()));
        assert_eq!(fs::read(&mine).expect("it is there"), before);
        fs::remove_file(&file).expect("taken away");
        fs::create_dir(&file).expect("a folder");
        assert_eq!(told(), Err("it is a folder, not a file".to_owned()));
    }
}
