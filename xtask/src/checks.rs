//! Our figures against sources outside this repository: `cargo xtask checks`.
//!
//! What is here never feeds a figure, but for the calibrating half of the printed weighings; it only says whether ours
//! are believable. One module a theme, each giving rows.
//! A new check is a row in its theme; a new theme is a module and a name in [`themes`]. `docs/checks.md` is what the
//! command writes, and a test holds both to it.

mod citrus;
mod composition;
mod eggs;
mod energy;
pub mod outside;
mod page;
mod pans;
mod portions;
mod row;
mod units;
mod weighings;

use std::fs;
use std::path::PathBuf;

use anyhow::{Context, bail};
use evencrumb_pantry::{Food, Pantry};

use outside::Part;
use row::Row;

/// What a theme may compare with beside the repository itself.
struct Given {
    /// The Indian Food Composition Tables; `None` when they are left out.
    indian_table: Option<String>,
}

/// Rows that belong together.
struct Theme {
    /// The heading.
    title: &'static str,
    /// What is compared and how far it can be trusted, in plain words.
    about: String,
    /// One line for each check.
    rows: Vec<Row>,
}

/// What came of one theme.
enum Outcome {
    /// It was checked.
    Made(Theme),
    /// It was left out; its heading.
    Skipped(&'static str),
}

/// Every theme, in the order of the page.
fn themes(without: &[Part]) -> anyhow::Result<Vec<Outcome>> {
    let indian_table = if without.contains(&Part::Npm) { None } else { Some(outside::indian_table()?) };
    let given = Given { indian_table };
    let composition = composition::theme(&given)?.map_or(Outcome::Skipped(composition::TITLE), Outcome::Made);
    Ok(vec![
        Outcome::Made(units::theme(&given)?),
        Outcome::Made(eggs::theme(&given)?),
        Outcome::Made(pans::theme(&given)?),
        Outcome::Made(citrus::theme(&given)?),
        Outcome::Made(portions::theme(&given)?),
        Outcome::Made(energy::theme(&given)?),
        composition,
        Outcome::Made(weighings::theme(&given)?),
    ])
}

/// The food of ours with this name.
fn food(name: &str) -> anyhow::Result<&'static Food> {
    let pantry = Pantry::ours();
    let id = pantry.named(name).with_context(|| format!("no food of ours is called {name}"))?;
    Ok(pantry.food(id))
}

fn page_file() -> PathBuf {
    crate::repository().join("docs/checks.md")
}

/// Makes every check, prints them and writes the page; fails when one is off.
pub fn run(without: &[Part]) -> anyhow::Result<()> {
    if !without.contains(&Part::Npm) {
        outside::fetch(false)?;
    }
    let themes = themes(without)?;
    println!("{}", page::terminal(&themes));
    let page = page::page(&themes, &fs::read_to_string(page_file()).unwrap_or_default())?;
    fs::write(page_file(), page).context("writing docs/checks.md")?;
    let off = off(&themes);
    if !off.is_empty() {
        bail!("{} of the checks are OFF; see above", off.len());
    }
    Ok(())
}

/// What is off, in words.
fn off(themes: &[Outcome]) -> Vec<String> {
    let mut off = Vec::new();
    for outcome in themes {
        let Outcome::Made(theme) = outcome else { continue };
        for row in theme.rows.iter().filter(|row| !row.is_ok) {
            off.push(format!(
                "{}: {}: expected {}, got {} ({})",
                theme.title, row.what, row.expected, row.got, row.allowed
            ));
        }
    }
    off
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the tests are told to leave out, by [`outside::WITHOUT`].
    fn without() -> Vec<Part> {
        let npm = std::env::var(outside::WITHOUT).is_ok_and(|parts| parts.split(',').any(|part| part == "npm"));
        if npm { vec![Part::Npm] } else { Vec::new() }
    }

    #[test]
    fn ok_no_check_is_off_and_the_page_is_what_the_command_writes() {
        let themes = themes(&without()).unwrap();
        assert_eq!(off(&themes), Vec::<String>::new());
        let there = fs::read_to_string(page_file()).unwrap_or_default();
        assert!(page::page(&themes, &there).unwrap() == there, "docs/checks.md is old; run `cargo xtask checks`");
    }

    /// A part that is left out keeps its place on the page, so that the page does not depend on who made it.
    #[test]
    fn ok_the_page_is_the_same_without_npm() {
        let there = fs::read_to_string(page_file()).unwrap_or_default();
        let without_npm = page::page(&themes(&[Part::Npm]).unwrap(), &there).unwrap();
        assert!(without_npm == there, "docs/checks.md is old; run `cargo xtask checks`");
    }
}
