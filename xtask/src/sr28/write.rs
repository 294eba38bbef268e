//! Writes the packed table, as `evencrumb_pantry::table::layout` describes it.

use anyhow::Context;
use evencrumb_pantry::Nutrient;
use evencrumb_pantry::table::layout::{self, Kind};

use super::Packing;
use super::text::Decimal;

/// Hardest deflating of the library: it is done once and read ever after.
const LEVEL: u8 = 10;

struct Section {
    kind: Kind,
    number: u16,
    decimals: u8,
    bytes: Vec<u8>,
}

impl Section {
    fn new(kind: Kind, bytes: Vec<u8>) -> Section {
        Section { kind, number: 0, decimals: 0, bytes }
    }
}

/// The bytes of the packed table.
pub(crate) fn packed(packing: &Packing) -> anyhow::Result<Vec<u8>> {
    let mut sections = vec![
        Section::new(Kind::Numbers, numbers(packing)),
        Section::new(Kind::Words, words(packing)),
        Section::new(Kind::Facts, facts(packing)?),
        Section::new(Kind::Portions, portions(packing)?),
        Section::new(Kind::PortionWords, portion_words(packing)),
    ];
    for nutrient in Nutrient::ALL {
        let cells = |cell: &dyn Fn(&super::Value) -> Option<Decimal>| -> Vec<Option<Decimal>> {
            let value = |number: u32| packing.values.get(&(nutrient.number(), number));
            packing.foods.iter().map(|food| value(food.number).and_then(cell)).collect()
        };
        sections.push(column(Kind::Value, *nutrient, &cells(&|value| Some(value.value)))?);
        sections.push(column(Kind::Error, *nutrient, &cells(&|value| value.error))?);
        let points = cells(&|value| (value.points > 0).then(|| Decimal::whole(value.points)));
        sections.push(column(Kind::Points, *nutrient, &points)?);
    }

    let mut directory = Vec::new();
    let mut body = Vec::new();
    for section in &sections {
        let deflated = miniz_oxide::deflate::compress_to_vec(&section.bytes, LEVEL);
        directory.push(section.kind as u8);
        directory.extend(section.number.to_le_bytes());
        directory.push(section.decimals);
        directory.extend(u32::try_from(section.bytes.len())?.to_le_bytes());
        directory.extend(u32::try_from(deflated.len())?.to_le_bytes());
        body.extend(deflated);
    }
    directory.extend(body);

    let mut out = layout::MAGIC.to_vec();
    out.extend(layout::VERSION.to_le_bytes());
    out.extend(u32::try_from(packing.foods.len())?.to_le_bytes());
    out.extend(u32::try_from(sections.len())?.to_le_bytes());
    out.extend(layout::checksum(&directory).to_le_bytes());
    out.extend(directory);
    Ok(out)
}

fn numbers(packing: &Packing) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut last = 0;
    for food in &packing.foods {
        layout::put(&mut bytes, u64::from(food.number - last));
        last = food.number;
    }
    bytes
}

fn words(packing: &Packing) -> Vec<u8> {
    let mut lines: Vec<&str> = packing.groups.iter().map(|(_, name)| name.as_str()).collect();
    lines.push("");
    lines.extend(packing.foods.iter().map(|food| food.description.as_str()));
    lines.extend(packing.foods.iter().map(|food| food.refuse.as_str()));
    lines.join("\n").into_bytes()
}

fn facts(packing: &Packing) -> anyhow::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    for food in &packing.foods {
        let group = packing.groups.iter().position(|(id, _)| *id == food.group);
        bytes.push(u8::try_from(group.with_context(|| format!("no group {}", food.group))?)?);
        bytes.push(food.refuse_percent);
        for factor in food.factors {
            layout::put(&mut bytes, factor.map_or(Ok(0), |factor| factor.scaled(2).map(|value| value + 1))?);
        }
    }
    Ok(bytes)
}

fn portions(packing: &Packing) -> anyhow::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    for food in &packing.foods {
        let portions = packing.portions.get(&food.number).map_or(&[][..], Vec::as_slice);
        layout::put(&mut bytes, portions.len() as u64);
        for portion in portions {
            layout::put(&mut bytes, portion.amount.scaled(3)?);
            layout::put(&mut bytes, portion.grams.scaled(3)?);
            layout::put(&mut bytes, portion.points.map_or(0, |points| u64::from(points) + 1));
            layout::put(&mut bytes, portion.deviation.map_or(Ok(0), |it| it.scaled(3).map(|value| value + 1))?);
        }
    }
    Ok(bytes)
}

fn portion_words(packing: &Packing) -> Vec<u8> {
    let foods = packing.foods.iter();
    let words: Vec<&str> = foods
        .filter_map(|food| packing.portions.get(&food.number))
        .flatten()
        .map(|portion| portion.words.as_str())
        .collect();
    words.join("\n").into_bytes()
}

fn column(kind: Kind, nutrient: Nutrient, cells: &[Option<Decimal>]) -> anyhow::Result<Section> {
    let decimals = cells.iter().flatten().map(|cell| cell.decimals).max().unwrap_or(0);
    let mut bytes = vec![0; cells.len().div_ceil(8)];
    for (at, cell) in cells.iter().enumerate() {
        if let Some(cell) = cell {
            bytes[at / 8] |= 1 << (at % 8);
            layout::put(&mut bytes, cell.scaled(decimals)?);
        }
    }
    Ok(Section { kind, number: nutrient.number(), decimals, bytes })
}
