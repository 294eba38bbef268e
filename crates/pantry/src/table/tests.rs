//! Values copied by hand from NUT_DATA.txt and WEIGHT.txt, so that the packing is checked by something that is not itself.

use super::*;

fn row(number: u32) -> Row<'static> {
    Table::embedded().row(number).expect("a row that is kept")
}

#[test]
fn ok_values_are_those_of_the_text() {
    use Nutrient as N;
    #[rustfmt::skip]
    let copied = [
        (20081, N::Energy, Some(364.0)), (20081, N::Protein, Some(10.33)), (20081, N::Sugars, Some(0.27)),
        (20081, N::Fibre, Some(2.7)), (20081, N::VitaminK, Some(0.3)), (20081, N::Caffeine, Some(0.0)),
        (19335, N::Sucrose, Some(99.8)), (19335, N::Sodium, Some(1.0)),
        (1123, N::Water, Some(76.15)), (1123, N::Cholesterol, Some(372.0)), (1123, N::Folate, Some(47.0)), (1123, N::VitaminB12, Some(0.89)),
        (12120, N::Fat, Some(60.75)), (12120, N::VitaminE, Some(15.03)), (12120, N::Alcohol, Some(0.0)),
        (19296, N::Fructose, Some(40.94)), (19296, N::Glucose, Some(35.75)), (19296, N::Sugars, Some(82.12)),
        (9003, N::VitaminC, Some(4.6)), (9003, N::Potassium, Some(107.0)),
        (2010, N::Calcium, Some(1002.0)), (2010, N::Copper, Some(0.339)), (2010, N::AlphaLinolenicAcid, Some(0.011)),
        (18369, N::Sodium, Some(10600.0)), (18369, N::Calcium, Some(5876.0)),
        (11352, N::Starch, Some(15.29)),
        (4047, N::SaturatedFat, Some(82.475)), (4047, N::TransFat, Some(0.028)), (4047, N::Acid12To0, Some(41.84)),
        (14096, N::Alcohol, Some(10.6)), (14096, N::Energy, Some(85.0)),
        (19078, N::Theobromine, Some(1297.0)), (19078, N::Caffeine, Some(80.0)),
        (1077, N::Lactose, Some(5.05)), (1077, N::VitaminD, Some(1.3)), (1077, N::VitaminA, Some(46.0)),
        // What the text does not give is unknown, not nothing.
        (20081, N::Fructose, None), (20081, N::TransFat, None), (12120, N::LinoleicAcid, None), (19320, N::Lactose, None),
    ];
    for (number, nutrient, value) in copied {
        assert_eq!(row(number).value(nutrient), value, "{number} {nutrient}");
    }
}

#[test]
fn ok_errors_and_points_are_those_of_the_text() {
    assert_eq!(row(20081).standard_error(Nutrient::Protein), Some(0.131));
    assert_eq!(row(20081).data_points(Nutrient::Protein), 61);
    assert_eq!(row(20081).standard_error(Nutrient::Energy), None);
    assert_eq!(row(20081).data_points(Nutrient::Energy), 0);
    assert_eq!(row(14096).data_points(Nutrient::Alcohol), 1300);
    assert_eq!(row(1123).standard_error(Nutrient::Cholesterol), Some(6.718));
}

#[test]
fn ok_portions_refuse_and_factors_are_those_of_the_text() {
    let apple = row(9003);
    assert_eq!(apple.description(), "Apples, raw, with skin");
    assert_eq!(apple.group(), "Fruits and Fruit Juices");
    assert_eq!(apple.refuse(), "Core and stem");
    assert!((apple.refuse_share() - 0.10).abs() < 1e-12);
    let factors = Factors { nitrogen: Some(6.25), protein: Some(3.36), fat: Some(8.37), carbohydrate: Some(3.6) };
    assert_eq!(apple.factors(), factors);
    assert_eq!(apple.portions().len(), 7);
    assert_eq!(
        apple.portions()[1],
        Portion {
            amount: 1.0,
            text: "cup slices".to_owned(),
            grams: 109.0,
            data_points: Some(60),
            deviation: Some(6.953)
        }
    );
    assert_eq!(row(19335).factors().protein, None);
    assert_eq!(row(19335).portions()[0].grams.to_string(), "2.8");
    assert_eq!(row(2010).portions()[0].deviation, Some(0.13));
    assert_eq!(row(1123).portions()[3].text, "cup (4.86 large eggs)");
    assert_eq!(row(9150).refuse(), "45% peel, 2% seeds");
}

#[test]
fn ok_the_file_is_as_its_provenance_says() {
    let table = Table::embedded();
    assert!(table.is_whole());
    let provenance: toml::Table = toml::from_str(include_str!("../../data/sr28.provenance.toml")).expect("toml");
    let count = |name: &str| provenance["rows"][name].as_integer().expect("a count") as usize;
    assert_eq!(table.rows().count(), count("foods_out"));
    let values: usize =
        table.rows().map(|row| Nutrient::ALL.iter().filter(|it| row.value(**it).is_some()).count()).sum();
    assert_eq!(values, count("values_out"));
    assert_eq!(table.rows().map(|row| row.portions().len()).sum::<usize>(), count("portions_out"));
}

/// Proximates are measured or found by difference, so they must add to a hundred; a wrong column would not.
#[test]
fn ok_water_protein_fat_carbohydrate_ash_and_alcohol_are_a_hundred() {
    let mut off = 0;
    for row in Table::embedded().rows() {
        let parts = [Nutrient::Water, Nutrient::Protein, Nutrient::Fat, Nutrient::Carbohydrate, Nutrient::Ash];
        let known: Option<f64> = parts.iter().map(|part| row.value(*part)).sum();
        let total = known.map(|sum| sum + row.value(Nutrient::Alcohol).unwrap_or(0.0));
        off += usize::from(total.is_some_and(|total| (total - 100.0).abs() > 2.0));
    }
    // Those that are off are off in the text: meats by analysis of each part, pepper and cocoa by what was taken out of the fat.
    assert!(off * 50 < Table::embedded().rows().count(), "{off} rows are more than 2 g off");
}

#[test]
fn err_brands_baby_foods_and_dishes_are_not_there() {
    assert!(Table::embedded().row(3197).is_none());
    assert!(Table::embedded().row(21_237).is_none());
    assert!(Table::embedded().rows().all(|row| row.group() != "Restaurant Foods"));
    assert!(Table::embedded().row(0).is_none());
}

#[test]
fn err_bytes_that_are_not_a_table() {
    assert_eq!(Table::open(b"").err(), Some(Unreadable::NotATable));
    assert_eq!(Table::open(b"ec-table\xff\xff").err(), Some(Unreadable::OtherVersion(u16::MAX)));
    assert_eq!(Table::open(b"ec-table\x01\x00\x05").err(), Some(Unreadable::Damaged));
}

/// Damage is told by the checksum; until someone asks, it makes values unknown or wrong, but nothing panics.
#[test]
fn err_a_damaged_table_is_noticed() {
    let mut bytes = include_bytes!("../../data/sr28.bin").to_vec();
    let at = bytes.len() / 2;
    bytes[at] ^= 0x55;
    let table = Table::open(Vec::leak(bytes)).expect("the numbers are at the front");
    assert!(!table.is_whole());
    for row in table.rows() {
        row.portions();
        Nutrient::ALL.iter().for_each(|nutrient| {
            row.value(*nutrient);
            row.standard_error(*nutrient);
        });
    }
}
