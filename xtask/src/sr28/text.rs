//! Reads the flat files: fields parted by carets, words between tildes, letters of Latin-1.

use std::collections::{BTreeMap, BTreeSet};

use anyhow::{Context, bail, ensure};
use evencrumb_pantry::Nutrient;

use super::Value;

/// The values by nutrient, then food.
pub(crate) type Values = BTreeMap<(u16, u32), Value>;

/// One line of FOOD_DES.txt.
pub(crate) struct Food {
    pub(crate) number: u32,
    pub(crate) group: String,
    pub(crate) description: String,
    pub(crate) manufacturer: String,
    pub(crate) refuse: String,
    pub(crate) refuse_percent: u8,
    /// Grams of protein for one of nitrogen, then kilocalories a gram of protein, fat and carbohydrate.
    pub(crate) factors: [Option<Decimal>; 4],
}

/// One line of WEIGHT.txt.
pub(crate) struct Portion {
    pub(crate) amount: Decimal,
    pub(crate) words: String,
    pub(crate) grams: Decimal,
    pub(crate) points: Option<u32>,
    pub(crate) deviation: Option<Decimal>,
}

/// A number as printed, digits and decimals apart, so that nothing is lost on the way into the packed table.
#[derive(Clone, Copy)]
pub(crate) struct Decimal {
    digits: u64,
    pub(crate) decimals: u8,
}

impl Decimal {
    /// A whole number.
    pub(crate) fn whole(number: u32) -> Decimal {
        Decimal { digits: u64::from(number), decimals: 0 }
    }

    fn read(text: &str) -> anyhow::Result<Decimal> {
        let (whole, part) = text.split_once('.').unwrap_or((text, ""));
        let part = part.trim_end_matches('0');
        let digits = format!("{whole}{part}").parse().with_context(|| format!("{text:?} is not a number"))?;
        Ok(Decimal { digits, decimals: u8::try_from(part.len())? })
    }

    fn read_if_there(text: &str) -> anyhow::Result<Option<Decimal>> {
        if text.is_empty() { Ok(None) } else { Decimal::read(text).map(Some) }
    }

    /// The number times ten to the `decimals`; an error when it has more of them.
    pub(crate) fn scaled(self, decimals: u8) -> anyhow::Result<u64> {
        let more = decimals.checked_sub(self.decimals).context("more decimals than the packed table keeps")?;
        Ok(self.digits * 10_u64.pow(u32::from(more)))
    }

    /// The nearest floating-point number.
    pub(crate) fn float(self) -> f64 {
        self.digits as f64 / 10_f64.powi(i32::from(self.decimals))
    }
}

/// The records of a file; every one has as many fields as it should.
pub(crate) fn records(bytes: &[u8], fields: usize) -> anyhow::Result<Vec<Vec<String>>> {
    let mut records = Vec::new();
    // A few lines of WEIGHT.txt end in a carriage return too many; between two of them there is no record.
    for line in bytes.split(|byte| matches!(byte, b'\r' | b'\n')).filter(|line| !line.is_empty()) {
        let line: String = line.iter().map(|byte| char::from(*byte)).collect();
        let record: Vec<String> = line.split('^').map(|field| field.trim_matches('~').trim().to_owned()).collect();
        ensure!(record.len() == fields, "{} fields where {fields} belong: {line}", record.len());
        records.push(record);
    }
    Ok(records)
}

/// Refuses a table whose nutrients are not in the units that the pantry's names promise.
pub(crate) fn check_units(definitions: &[Vec<String>]) -> anyhow::Result<()> {
    for nutrient in Nutrient::ALL {
        let number = nutrient.number().to_string();
        let Some(definition) = definitions.iter().find(|fields| fields[0] == number) else {
            bail!("the table does not define {nutrient} ({number})");
        };
        ensure!(definition[1] == nutrient.unit(), "{nutrient} is in {} here", definition[1]);
    }
    Ok(())
}

/// The food groups: number and name.
pub(crate) fn groups(bytes: &[u8]) -> anyhow::Result<Vec<(String, String)>> {
    let records = records(bytes, 2)?;
    Ok(records.into_iter().map(|fields| (fields[0].clone(), fields[1].clone())).collect())
}

/// Every food.
pub(crate) fn foods(bytes: &[u8]) -> anyhow::Result<Vec<Food>> {
    records(bytes, 14)?
        .into_iter()
        .map(|fields| {
            Ok(Food {
                number: fields[0].parse()?,
                group: fields[1].clone(),
                description: fields[2].clone(),
                manufacturer: fields[5].clone(),
                refuse: fields[7].clone(),
                refuse_percent: if fields[8].is_empty() { 0 } else { fields[8].parse()? },
                factors: [
                    Decimal::read_if_there(&fields[10])?,
                    Decimal::read_if_there(&fields[11])?,
                    Decimal::read_if_there(&fields[12])?,
                    Decimal::read_if_there(&fields[13])?,
                ],
            })
        })
        .collect()
}

/// The values of the nutrients kept of the foods kept, and how many values the file has in all.
pub(crate) fn values(bytes: &[u8], numbers: &BTreeSet<u32>) -> anyhow::Result<(Values, usize)> {
    let wanted: BTreeSet<u16> = Nutrient::ALL.iter().map(|nutrient| nutrient.number()).collect();
    let mut values = Values::new();
    let mut count = 0;
    for fields in records(bytes, 18)? {
        count += 1;
        let (food, nutrient) = (fields[0].parse::<u32>()?, fields[1].parse::<u16>()?);
        if numbers.contains(&food) && wanted.contains(&nutrient) {
            let value = Value {
                value: Decimal::read(&fields[2])?,
                points: fields[3].parse()?,
                error: Decimal::read_if_there(&fields[4])?,
            };
            ensure!(values.insert((nutrient, food), value).is_none(), "food {food} has nutrient {nutrient} twice");
        }
    }
    Ok((values, count))
}

/// The portions of the foods kept, in the file's order, and how many the file has in all.
pub(crate) fn portions(bytes: &[u8], numbers: &BTreeSet<u32>) -> anyhow::Result<(BTreeMap<u32, Vec<Portion>>, usize)> {
    let mut portions: BTreeMap<u32, Vec<Portion>> = BTreeMap::new();
    let mut count = 0;
    for fields in records(bytes, 7)? {
        count += 1;
        let food = fields[0].parse()?;
        if numbers.contains(&food) {
            portions.entry(food).or_default().push(Portion {
                amount: Decimal::read(&fields[2])?,
                words: fields[3].clone(),
                grams: Decimal::read(&fields[4])?,
                points: if fields[5].is_empty() { None } else { Some(fields[5].parse()?) },
                deviation: Decimal::read_if_there(&fields[6])?,
            });
        }
    }
    Ok((portions, count))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_a_number_keeps_its_decimals() {
        let number = Decimal::read("0.850").expect("a number");
        assert_eq!((number.digits, number.decimals), (85, 2));
        assert_eq!(number.scaled(3).expect("fits"), 850);
        assert_eq!(number.float().to_string(), "0.85");
    }

    #[test]
    fn err_a_record_with_a_field_too_few() {
        assert!(records(b"~01001~^~0100~\r\n", 3).is_err());
    }
}
