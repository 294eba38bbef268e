//! Packs the rows of `data/foods` when the crate is built, so that no command has to read 800 kB of TOML first.
//!
//! The rows are read by the reader that reads the author's own, `src/row`. A row with a fault stops the build and is
//! named with its file, its line and its mend. What is written is told in `src/packed.rs`.

// What a build script prints is what Cargo tells the one who builds.
#![allow(clippy::print_stdout)]
// It alone opens the rows of foods, before the program exists.
#![allow(clippy::disallowed_methods)]

use std::collections::BTreeMap;
use std::error::Error;
use std::path::Path;
use std::{env, fs};

use evencrumb_manuscript::word::name_key;
use row::{Fault, Food, Whose};

#[allow(dead_code, reason = "packing uses less of these modules than the crate does")]
#[path = "src/nutrient.rs"]
mod nutrient;
#[path = "src/packed.rs"]
mod packed;
#[allow(dead_code, unused_imports, reason = "as above")]
#[path = "src/row/mod.rs"]
mod row;

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=data/foods");
    let (foods, mut faults) = read(Path::new("data/foods"))?;
    let names = names(&foods, &mut faults);
    for fault in &faults {
        // One line each, as Cargo has it.
        println!("cargo::error={}", fault.to_string().replace('\n', " "));
    }
    let given_by = given_by(&foods, &names);
    let names = names.iter().map(|(name, food)| (name.as_str(), *food)).collect();
    let packed = postcard::to_stdvec(&packed::Packed { foods, names, given_by })?;
    fs::write(Path::new(&env::var("OUT_DIR")?).join("foods.bin"), packed)?;
    Ok(())
}

/// The foods of every file of the folder, the files in the order of their names.
fn read(folder: &Path) -> Result<(Vec<Food>, Vec<Fault>), Box<dyn Error>> {
    let mut files: Vec<_> =
        fs::read_dir(folder)?.collect::<Result<Vec<_>, _>>()?.iter().map(fs::DirEntry::path).collect();
    files.retain(|file| file.extension().is_some_and(|ending| ending == "toml"));
    files.sort();
    let (mut foods, mut faults) = (Vec::new(), Vec::new());
    for file in files {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let (read, wrong) = row::read(&name, &fs::read_to_string(&file)?, Whose::Ours);
        foods.extend(read);
        faults.extend(wrong);
    }
    Ok((foods, faults))
}

/// Every name as it is looked up, with the number of its food. A name that means two foods is a fault of the later one.
fn names(foods: &[Food], faults: &mut Vec<Fault>) -> BTreeMap<String, u32> {
    let mut names: BTreeMap<String, u32> = BTreeMap::new();
    for (number, food) in (0u32..).zip(foods) {
        for name in food.names() {
            let meant = *names.entry(name_key(name)).or_insert(number);
            if meant != number {
                let other = &foods[meant as usize];
                faults.push(Fault {
                    place: food.place.clone(),
                    food: Some(food.name.clone()),
                    what: format!("`{name}` also means {} ({})", other.name, other.place),
                    mend: "a name means one food: keep it where a baker would look first".to_owned(),
                });
            }
        }
    }
    names
}

/// For a food that is a part of a fruit (lemon juice): the fruits that give it.
fn given_by(foods: &[Food], names: &BTreeMap<String, u32>) -> Vec<(u32, Vec<u32>)> {
    let mut given_by: BTreeMap<u32, Vec<u32>> = BTreeMap::new();
    for (number, fruit) in (0u32..).zip(foods) {
        for given in fruit.juice.iter().chain(&fruit.zest) {
            if let Some(part) = names.get(&name_key(&given.food)) {
                given_by.entry(*part).or_default().push(number);
            }
        }
    }
    given_by.into_iter().collect()
}
