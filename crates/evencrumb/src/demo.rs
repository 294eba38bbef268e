//! `evencrumb demo` and `evencrumb new`: a kitchen folder to look at, and an empty one.

use std::path::Path;

use evencrumb_desk::folder;

use crate::page::Page;
use crate::trouble::Trouble;
use crate::{Outcome, out, sheet};

/// Where the demo is laid out, in the current folder.
const FOLDER: &str = "evencrumb-demo";
/// The recipe whose sheet is printed.
const LEADING: &str = "recipes/roasted-pear-buckwheat-layer-cake.txt";

macro_rules! files {
    ($($name:literal),+ $(,)?) => {
        &[$(($name, include_str!(concat!("../../../demo/", $name)))),+]
    };
}

/// Every file of the demo.
const FILES: &[(&str, &str)] = files![
    "foods.toml",
    "kitchen.toml",
    "prices.toml",
    "stock.toml",
    "recipes/blackberry-treacle-tray-bake.txt",
    "recipes/blackcurrant-barley-muffins.txt",
    "recipes/faulty-example-squash-squares.txt",
    "recipes/fig-sorghum-cookies.txt",
    "recipes/pear-pocket-pies.txt",
    "recipes/pecan-black-tea-torte.txt",
    "recipes/rainy-day-raspberry-cake.txt",
    "recipes/roasted-pear-buckwheat-layer-cake.txt",
    "recipes/sweet-potato-rye-loaf.txt",
];

/// Lays out the demo, or uses the one already there, and prints the sheet of its leading recipe.
pub fn run() -> Result<Outcome, Trouble> {
    let folder = Path::new(FOLDER);
    if !folder.exists() {
        folder::lay_out(folder, FILES).map_err(|error| Trouble::Folder { folder: folder.to_owned(), error })?;
    }
    sheet::run(&folder.join(LEADING), &[], false)?;
    let mut page = Page::for_terminal();
    page.gap();
    page.line(
        0,
        &format!(
            "This is the sheet of {FOLDER}/{LEADING}. The recipes are invented; change them as you like. Try next:"
        ),
    );
    page.line(2, &format!("evencrumb sheet {FOLDER}/recipes/pecan-black-tea-torte.txt"));
    page.line(2, "evencrumb weigh \"3/4 cup ground hazelnuts\"");
    page.line(2, "evencrumb measures \"85 g honey\"");
    page.line(2, "evencrumb food \"buckwheat flour\"");
    let mut outcome = Outcome::Fine;
    out::people(&mut outcome, |out, _| out.write_all(page.into_text().as_bytes()))?;
    Ok(outcome)
}

/// Makes an empty kitchen folder.
pub fn new(folder: &Path) -> Result<Outcome, Trouble> {
    folder::new(folder).map_err(|error| Trouble::Folder { folder: folder.to_owned(), error })?;
    let mut page = Page::for_terminal();
    page.line(
        0,
        &format!(
            "{} is laid out. Put a recipe as plain text into {}, and ask for its sheet:",
            folder.display(),
            folder.join("recipes").display()
        ),
    );
    page.line(2, &format!("evencrumb sheet {}", folder.join("recipes").join("my-recipe.txt").display()));
    page.line(0, "Until you change kitchen.toml: US customary cups and spoons, large US eggs, US law, sea level.");
    let mut outcome = Outcome::Fine;
    out::people(&mut outcome, |out, _| out.write_all(page.into_text().as_bytes()))?;
    Ok(outcome)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_every_file_of_the_demo_is_laid_out() {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo");
        let mut there: Vec<String> = Vec::new();
        for folder in ["", "recipes"] {
            for entry in std::fs::read_dir(demo.join(folder)).expect("the demo is committed") {
                let entry = entry.expect("an entry");
                if entry.path().is_file() {
                    there.push(Path::new(folder).join(entry.file_name()).display().to_string());
                }
            }
        }
        there.sort();
        let mut ours: Vec<&str> = FILES.iter().map(|(name, _)| *name).collect();
        ours.sort_unstable();
        assert_eq!(ours, there);
        assert!(ours.contains(&LEADING));
    }
}
