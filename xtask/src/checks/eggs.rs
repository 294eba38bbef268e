//! Eggs: the classes of trade, and how an egg is shared between white, yolk and shell.

use evencrumb_measure::{Range, Unit};
use evencrumb_pantry::row::Size;

use super::row::{Allowed, Row, Seen, Source};
use super::{Given, Theme, food};

const USDA: Source = Source {
    title: "USDA AMS 56 (2000): least weight of a dozen, shells of 8.1 to 12.4 % taken off",
    seen: Seen::Copy,
};
const EU: Source = Source {
    title: "Regulation (EC) 589/2008, article 4: classes by weight, shells of 8.1 to 12.4 % taken off",
    seen: Seen::Copy,
};
const POULTRY: Source = Source {
    title: "Japan Poultry Association: white 57.0 to 63.4 %, yolk 28.0 to 30.6 %, shell 8.1 to 12.4 % of the egg",
    seen: Seen::Text,
};
const COTTERILL: Source =
    Source { title: "Cotterill and Geiger 1977: shell 9.5 %, white 63 %, yolk 27.5 %", seen: Seen::Copy };
const FINNISH: Source = Source {
    title: "Finnish Institute for Health and Welfare, food composition data: yolk is 34 %, white 66 % of the egg",
    seen: Seen::Copy,
};

const OUNCE: f64 = 453.592_37 / 16.0;
/// What is left of an egg when its shell is thickest and thinnest, by [`POULTRY`].
const EDIBLE: (f64, f64) = (1.0 - 0.124, 1.0 - 0.081);

pub(super) fn theme(_: &Given) -> anyhow::Result<Theme> {
    let mut rows = Vec::new();
    // Ounces a dozen of this class and of the next; a jumbo has no next, so one step more is taken.
    for (size, least, next) in [
        (Size::Small, 18.0, 21.0),
        (Size::Medium, 21.0, 24.0),
        (Size::Large, 24.0, 27.0),
        (Size::ExtraLarge, 27.0, 30.0),
        (Size::Jumbo, 30.0, 33.0),
    ] {
        let each = (least * OUNCE / 12.0 * EDIBLE.0, next * OUNCE / 12.0 * EDIBLE.1);
        rows.push(Row::between(&format!("{size} egg, shelled"), USDA, "g", each, piece("egg", size)?.best()));
    }
    for (size, least, next) in [
        (Size::EuSmall, 43.0, 53.0),
        (Size::EuMedium, 53.0, 63.0),
        (Size::EuLarge, 63.0, 73.0),
        (Size::EuExtraLarge, 73.0, 83.0),
    ] {
        let each = (least * EDIBLE.0, next * EDIBLE.1);
        rows.push(Row::between(&format!("{} egg, shelled", called(size)), EU, "g", each, piece("egg", size)?.best()));
    }
    for size in Size::ALL {
        let (egg, white, yolk) = (piece("egg", *size)?, piece("egg white", *size)?, piece("egg yolk", *size)?);
        let what = format!("{} egg: white and yolk together, for each gram of the whole", called(*size));
        let source = Source { title: "an egg is its white and its yolk", seen: Seen::Computed };
        rows.push(Row::between(&what, source, "", (0.98, 1.02), (white.best() + yolk.best()) / egg.best()));
    }
    let yolk = piece("egg yolk", Size::Large)?.best() / piece("egg", Size::Large)?.best();
    let share = |yolk: f64, white: f64| yolk / (yolk + white);
    rows.push(Row::between(
        "yolk, for each gram of a shelled large egg",
        POULTRY,
        "",
        (share(28.0, 63.4), share(30.6, 57.0)),
        yolk,
    ));
    for (source, printed) in [(FINNISH, 0.34), (COTTERILL, share(27.5, 63.0))] {
        let what = "yolk, for each gram of a shelled large egg";
        rows.push(Row::near(what, source, "", printed, yolk, Allowed::Amount(0.04)));
    }
    Ok(Theme {
        title: "Eggs",
        about: "A class is a least weight, so a shelled egg of it must weigh between that weight and the next class's, less the shell. \
                For classes open at one end (EU S and XL, US jumbo) one step of the class is taken. \
                The white and yolk of every class together must make its egg, and the yolk's share is held against three sources that made none of our rows. \
                Two of them print one number; ours may lie 4 points off, since the first prints a span of 4 points for hens' eggs alone. \
                The oldest (1977) has the least yolk, and ours lies near the end of what is allowed there.".to_owned(),
        rows,
    })
}

/// A class as it is spoken of: `EU M`, `large`.
fn called(size: Size) -> String {
    if size.name().starts_with("eu ") { size.name().to_uppercase() } else { size.name().to_owned() }
}

fn piece(name: &str, size: Size) -> anyhow::Result<Range> {
    let found = food(name)?.piece.iter().find(|piece| piece.unit == Unit::Piece && piece.size == Some(size));
    found.map(|piece| piece.grams.range).ok_or_else(|| anyhow::anyhow!("{name} has no weight for {size}"))
}
