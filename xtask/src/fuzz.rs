//! Random texts for the readers. cargo-fuzz finds more, for it sees which code a text reaches, but needs the nightly
//! compiler; without it fixtures are cut up and stirred here, from a fixed seed.

use std::fs;
use std::panic::catch_unwind;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use anyhow::{Context, bail};
use xtask::holds;

/// A reader under trial.
struct Target {
    /// Its name in `fuzz/fuzz_targets`.
    name: &'static str,
    holds: fn(&str),
}

const TARGETS: [Target; 2] =
    [Target { name: "line", holds: holds::line }, Target { name: "manuscript", holds: holds::manuscript }];

/// Where the stable runner begins; another number, other texts.
const SEED: u64 = 20_261_125;

/// Longest text that is tried, in bytes: what goes wrong goes wrong in short texts too, and more of them are tried.
const LONGEST: usize = 6000;

/// Tries each reader for so many seconds, side by side.
pub fn run(seconds: u64) -> anyhow::Result<()> {
    let folder = crate::repository().join("fuzz");
    for target in &TARGETS {
        write_corpus(&folder.join("corpus").join(target.name), &seeds(target)?)?;
    }
    if has_cargo_fuzz() { with_cargo_fuzz(&folder, seconds) } else { from_here(&folder, seconds) }
}

/// The fixtures a target begins with: lines, or whole manuscripts. Never the held-back lines.
fn seeds(target: &Target) -> anyhow::Result<Vec<String>> {
    let repository = crate::repository();
    if target.name == "line" {
        let corpus = fs::read_to_string(repository.join("fixtures/lines.tsv")).context("reading fixtures/lines.tsv")?;
        return Ok(corpus.lines().skip(1).filter_map(|row| Some(row.split('\t').nth(1)?.to_owned())).collect());
    }
    let mut files = Vec::new();
    for folder in ["fixtures/manuscripts", "demo/recipes"] {
        for entry in fs::read_dir(repository.join(folder)).with_context(|| format!("reading {folder}"))? {
            files.push(entry?.path());
        }
    }
    files.retain(|file| file.extension().is_some_and(|ending| ending == "txt"));
    files.sort();
    files.iter().map(|file| Ok(String::from_utf8_lossy(&fs::read(file)?).into_owned())).collect()
}

fn write_corpus(folder: &Path, seeds: &[String]) -> anyhow::Result<()> {
    fs::create_dir_all(folder).with_context(|| format!("making {}", folder.display()))?;
    for (number, seed) in seeds.iter().enumerate() {
        fs::write(folder.join(format!("seed-{number:04}")), seed)?;
    }
    Ok(())
}

fn has_cargo_fuzz() -> bool {
    let answers =
        |arguments: &[&str]| Command::new("cargo").args(arguments).output().is_ok_and(|out| out.status.success());
    answers(&["+nightly", "--version"]) && answers(&["fuzz", "--version"])
}

fn with_cargo_fuzz(folder: &Path, seconds: u64) -> anyhow::Result<()> {
    let repository = folder.parent().unwrap_or(folder);
    let cargo = |arguments: &[&str]| {
        let mut command = Command::new("cargo");
        // cargo run by cargo would keep the compiler it was run with.
        command.args(["+nightly", "fuzz"]).args(arguments).current_dir(repository).env_remove("RUSTUP_TOOLCHAIN");
        command
    };
    if !cargo(&["build"]).status().context("building the fuzz targets")?.success() {
        bail!("the fuzz targets were not built");
    }
    let limit = format!("-max_total_time={seconds}");
    let mut running = Vec::new();
    for target in &TARGETS {
        let child = cargo(&["run", target.name, "--", &limit]).spawn().context("starting cargo fuzz")?;
        running.push((target.name, child));
    }
    for (name, mut child) in running {
        if !child.wait()?.success() {
            bail!("the reader of a {name} failed; the text lies in fuzz/artifacts/{name}");
        }
    }
    Ok(())
}

fn from_here(folder: &Path, seconds: u64) -> anyhow::Result<()> {
    println!("cargo-fuzz on the nightly compiler is not here; fixtures are stirred instead");
    let seeds = [seeds(&TARGETS[0])?, seeds(&TARGETS[1])?];
    // What fails is told once, below, with the text; the panics of the search would drown it.
    let usual = std::panic::take_hook();
    std::panic::set_hook(Box::new(|_| {}));
    let found = std::thread::scope(|scope| {
        let tried: Vec<_> =
            TARGETS.iter().zip(&seeds).map(|(target, seeds)| scope.spawn(|| stir(target, seeds, seconds))).collect();
        tried.into_iter().map(std::thread::ScopedJoinHandle::join).collect::<Vec<_>>()
    });
    std::panic::set_hook(usual);
    for (target, found) in TARGETS.iter().zip(found) {
        let Ok((count, failed)) = found else { bail!("the search of {} itself failed", target.name) };
        println!("{}: {count} texts", target.name);
        if let Some(text) = failed {
            let file = folder.join(format!("artifacts/{}/stirred", target.name));
            fs::create_dir_all(file.parent().unwrap_or(folder))?;
            fs::write(&file, &text)?;
            println!("failed on {text:?}");
            (target.holds)(&text);
        }
    }
    Ok(())
}

/// Texts tried, and the first that failed, made as short as cutting it makes it.
fn stir(target: &Target, seeds: &[String], seconds: u64) -> (u64, Option<String>) {
    let mut random = fastrand::Rng::with_seed(SEED);
    let start = Instant::now();
    let holds = |text: &str| catch_unwind(|| (target.holds)(text)).is_ok();
    let mut count = 0;
    for seed in seeds {
        count += 1;
        if !holds(seed) {
            return (count, Some(shortest(seed.clone(), holds)));
        }
    }
    while start.elapsed() < Duration::from_secs(seconds) {
        let text = changed(seeds, &mut random);
        count += 1;
        if !holds(&text) {
            return (count, Some(shortest(text, holds)));
        }
    }
    (count, None)
}

/// Pieces that readers trip over.
const PIECES: &[&str] = &[
    "\r\n",
    "\n\n",
    "\t",
    "½",
    "1/2",
    "1/0",
    "(",
    ")",
    "- ",
    "• ",
    "[ ] ",
    "1. ",
    "a\u{301}",
    "\u{FEFF}",
    "\u{2028}",
    "…",
    "99999999999999999999",
    "0",
    ".5",
    "l/2 ",
    "°",
    "℃",
    "…",
    "“",
    "’",
    ":",
    "; ",
    ", ",
    " or ",
    " and ",
    " plus ",
    " to ",
    "x",
    "×",
    "%",
    "&frac12;",
    "<li>",
    "cups",
    "g",
    "oz",
    "T",
    "fl oz",
    "gas mark",
    "of a",
    "half",
    "dozen",
    "minus",
    "each",
    "zest of",
    "\u{202E}",
    "🍐",
    "ß",
    "İ",
    "ﬁ",
    "١",
    "Ingredients",
    "Method",
    "For the ",
    "Makes ",
    "until",
    "remaining",
    "**",
    "## ",
    "---",
    "|",
    "...",
    "#10 can",
    "''",
    "\u{301}",
    "\0",
];

/// A seed cut, joined with another and sprinkled with pieces.
fn changed(seeds: &[String], random: &mut fastrand::Rng) -> String {
    let any = |random: &mut fastrand::Rng| seeds[random.usize(..seeds.len())].as_str();
    let mut text = any(random).to_owned();
    for _ in 0..random.usize(1..9) {
        let (from, to) = (place(&text, random), place(&text, random));
        let (from, to) = (from.min(to), from.max(to));
        match random.u8(..6) {
            0 => drop(text.drain(from..to.min(text.floor_char_boundary(from + 40)))),
            1 => text.insert_str(from, PIECES[random.usize(..PIECES.len())]),
            2 => {
                let other = any(random);
                let (start, end) = (place(other, random), place(other, random));
                text.insert_str(from, &other[start.min(end)..start.max(end)]);
            }
            3 => text.extend_from_within(from..to),
            4 => text
                .replace_range(from..to.min(text.floor_char_boundary(from + 8)), PIECES[random.usize(..PIECES.len())]),
            _ => text.insert(from, random.char(..)),
        }
        text.truncate(text.floor_char_boundary(LONGEST));
    }
    text
}

fn place(text: &str, random: &mut fastrand::Rng) -> usize {
    text.floor_char_boundary(random.usize(..=text.len()))
}

/// Cuts pieces out for as long as what is left still fails.
fn shortest(mut text: String, holds: impl Fn(&str) -> bool) -> String {
    let mut size = text.len() / 2;
    while size > 0 {
        let mut at = 0;
        while at < text.len() {
            let end = text.ceil_char_boundary(at + size);
            let less = format!("{}{}", &text[..at], &text[end..]);
            if holds(&less) {
                at = end
            } else {
                text = less
            }
            at = text.ceil_char_boundary(at);
        }
        size /= 2;
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_what_fails_is_found_and_made_short() {
        let picky = Target { name: "picky", holds: |text| assert!(!text.contains("½ c")) };
        let (_, failed) = stir(&picky, &["1 cup flour and ½ cup sugar".to_owned()], 1);
        assert_eq!(failed.as_deref(), Some("½ c"));
    }
}
