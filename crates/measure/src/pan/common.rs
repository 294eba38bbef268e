//! The pans of `data/pans.toml`, and the one nearest to what somebody wrote.

use std::sync::LazyLock;

use serde::Deserialize;

use super::{Handbook, Inner, Pan, Plan, Shape, Style, Tube};

impl Pan {
    /// Every common pan, in the order of `data/pans.toml`.
    pub fn common() -> impl Iterator<Item = &'static Pan> {
        ROWS.iter().map(|row| &row.pan)
    }

    /// The common pan of this name, as `half sheet pan`.
    pub fn named(name: &str) -> Option<&'static Pan> {
        Pan::common().find(|pan| pan.name == name)
    }
}

/// What was written of a pan; millimetres.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Wanted {
    pub shape: Option<Shape>,
    pub style: Style,
    /// Longer and shorter side, or the diameter twice.
    pub size: Option<(f64, f64)>,
    pub depth: Option<f64>,
    /// Cups of a muffin tin, or the cups that a fluted or tube pan is said to hold.
    pub cups: Option<f64>,
    pub pounds: Option<f64>,
}

/// Sizes nearer than this, as a share, are the same pan. 15 cm is not 6 inches, and is called what it was called.
const SAME_SIZE: f64 = 0.01;
/// Sizes nearer than this, as a share, are pans of one kind in inches and in centimetres.
const SAME_KIND: f64 = 0.025;
/// A written depth further than this from the row's, as a share, makes another pan.
const SAME_DEPTH: f64 = 0.05;

/// The shape that is meant by a size alone: the common pan of that size, or what two sides make.
pub(super) fn shape_of((length, width): (f64, f64)) -> Shape {
    let sized = ROWS.iter().filter(|row| !row.pan.shape.is_circular() && row.pan.style != Style::Flat);
    let near = sized.map(|row| (row.away((length, width)), row.pan.shape)).filter(|(away, _)| *away <= SAME_KIND);
    let square = if (length - width).abs() < 1.0 { Shape::Square } else { Shape::Rectangular };
    // The first of equals: a 9 by 13 is a cake pan before it is a small sheet.
    near.reduce(|best, other| if other.0 < best.0 - 1e-9 { other } else { best }).map_or(square, |(_, shape)| shape)
}

/// The pan that was written: a common one where the size is its size, else one with the taper and corners of the nearest
/// of its shape. `None` when too little was written to know the size. `name` is for a pan that has no row.
pub(super) fn nearest(wanted: &Wanted, name: impl FnOnce() -> String) -> Option<Pan> {
    let shape = wanted.shape?;
    // What was measured says more than the name of a tin.
    if let Some(pounds) = wanted.pounds.filter(|_| wanted.size.is_none()) {
        return find(|row| row.pan.shape == shape && row.pounds.is_some_and(|row| (row - pounds).abs() < 1e-9));
    }
    match (shape, wanted.cups) {
        (Shape::Muffin, cups) => muffin(wanted.style, cups, name),
        (Shape::Fluted | Shape::Tube, Some(cups)) if wanted.size.is_none() => by_cups(shape, cups, name),
        _ => by_size(shape, wanted, name),
    }
}

/// The pan of this shape that is called by one length alone, as a 9-inch loaf pan is 9 by 5.
pub(super) fn of_length(shape: Shape, length: f64) -> Option<Pan> {
    find(|row| row.pan.shape == shape && row.pounds.is_none() && (length / row.said.0).ln().abs() <= SAME_SIZE)
}

fn find(is: impl Fn(&&Row) -> bool) -> Option<Pan> {
    ROWS.iter().find(is).map(|row| row.pan.clone())
}

/// A tin of other than the usual number of cups has cups of the usual size.
fn muffin(style: Style, cups: Option<f64>, name: impl FnOnce() -> String) -> Option<Pan> {
    let style = if matches!(style, Style::Mini | Style::Jumbo) { style } else { Style::Usual };
    let usual = find(|row| row.pan.shape == Shape::Muffin && row.pan.style == style)?;
    let Some(cups) = cups.filter(|cups| (cups - f64::from(usual.count)).abs() > 0.5) else { return Some(usual) };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "the cast saturates; the pan is checked"
    )]
    let count = cups.round() as u32;
    Pan::checked(Pan { name: name(), count, ..usual })
}

/// A pan known by what it holds: the nearest of its shape, all sides changed alike.
fn by_cups(shape: Shape, cups: f64, name: impl FnOnce() -> String) -> Option<Pan> {
    let rows = ROWS.iter().filter(|row| row.pan.shape == shape);
    let (row, said) = rows
        .filter_map(|row| Some((row, row.cups?)))
        .min_by(|one, other| (one.1 / cups).ln().abs().total_cmp(&(other.1 / cups).ln().abs()))?;
    if (said - cups).abs() < 1e-9 {
        return Some(row.pan.clone());
    }
    let scale = (cups / said).cbrt();
    Pan::checked(row.resized((scale, scale), row.pan.inner.depth * scale, name()))
}

/// The inside of the nearest common pan of the shape, its sides taken to this size.
pub(super) fn inner_like(shape: Shape, size: (f64, f64), depth: f64) -> Option<Inner> {
    let sound = [size.0, size.1].iter().all(|side| side.is_finite() && *side > 0.0);
    let rows = ROWS.iter().filter(|row| sound && row.pan.shape == shape && row.pan.style != Style::Flat);
    // By the inside and not by the name: who measures, measures inside the rim.
    let top = |row: &Row| (size.0 / row.pan.inner.top.length, size.1 / row.pan.inner.top.width);
    let away = |row: &Row| top(row).0.ln().abs().max(top(row).1.ln().abs());
    let row = rows.min_by(|one, other| away(one).total_cmp(&away(other)))?;
    Some(row.resized(top(row), depth, String::new()).inner)
}

fn by_size(shape: Shape, wanted: &Wanted, name: impl FnOnce() -> String) -> Option<Pan> {
    let (length, width) = wanted.size?;
    let away = |row: &Row| {
        // A written depth chooses between the usual pan and the deep one; otherwise the style does.
        let style = match wanted.depth {
            Some(_) if wanted.style == Style::Usual => matches!(row.pan.style, Style::Usual | Style::Deep),
            _ => row.pan.style == wanted.style,
        };
        let depth = wanted.depth.map_or(0.0, |depth| (row.pan.inner.depth / depth).ln().abs());
        // Size first, then a style that is not there at all, then depth.
        (row.away((length, width)), !style, depth)
    };
    let rows = ROWS.iter().filter(|row| row.pan.shape == shape && row.pan.style != Style::Flat);
    let styled = rows.clone().any(|row| !away(row).1);
    let row = rows.filter(|row| !styled || !away(row).1).reduce(|best, row| {
        let ((size, _, depth), (other, _, other_depth)) = (away(best), away(row));
        if other < size - 1e-9 || (other < size + 1e-9 && other_depth < depth - 1e-9) { row } else { best }
    })?;
    let depth = wanted.depth.unwrap_or(row.pan.inner.depth);
    let same_depth = (depth / row.pan.inner.depth - 1.0).abs() <= SAME_DEPTH;
    // A depth that was written may have chosen the deep pan, though nobody called it deep.
    let same_style = row.pan.style == wanted.style || wanted.style == Style::Usual;
    if row.away((length, width)) <= SAME_SIZE && same_depth && same_style {
        return Some(row.pan.clone());
    }
    Pan::checked(row.resized((length / row.said.0, width / row.said.1), depth, name()))
}

struct Row {
    pan: Pan,
    /// The size that the pan is called by, longer side first.
    said: (f64, f64),
    cups: Option<f64>,
    pounds: Option<f64>,
}

impl Row {
    /// How far the size written lies from this row's, as a share of the side that is further off.
    fn away(&self, (length, width): (f64, f64)) -> f64 {
        (length / self.said.0).ln().abs().max((width / self.said.1).ln().abs())
    }

    /// The row's pan with its sides taken so many times and another depth.
    fn resized(&self, (along, across): (f64, f64), depth: f64, name: String) -> Pan {
        let inner = self.pan.inner;
        let plan = |plan: Plan| {
            let sides = Plan { length: plan.length * along, width: plan.width * across, corner: 0.0 };
            let circular = self.pan.shape.is_circular();
            let corner =
                if circular { sides.width / 2.0 } else { plan.corner.min(sides.width.min(sides.length) / 2.0) };
            Plan { corner, ..sides }
        };
        let tube = inner.tube.map(|tube| Tube { top: tube.top * along, bottom: tube.bottom * along });
        let flutes = inner.flutes * along;
        let inner = Inner { top: plan(inner.top), bottom: plan(inner.bottom), depth, tube, flutes };
        Pan { name, inner, handbook: None, ..self.pan.clone() }
    }
}

#[derive(Deserialize)]
struct File {
    pan: Vec<Written>,
}

/// A row as it stands in the file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    name: String,
    shape: Shape,
    #[serde(default)]
    style: Style,
    said: Option<Sides>,
    top: Sides,
    bottom: Option<Sides>,
    #[serde(default)]
    corner: f64,
    depth: f64,
    tube: Option<Tube>,
    #[serde(default)]
    flutes: f64,
    count: Option<u32>,
    cups: Option<f64>,
    pounds: Option<f64>,
    handbook: Option<Handbook>,
    from: String,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(untagged)]
enum Sides {
    Diameter(f64),
    Both([f64; 2]),
}

impl Sides {
    fn both(self) -> (f64, f64) {
        match self {
            Sides::Diameter(diameter) => (diameter, diameter),
            Sides::Both([length, width]) => (length, width),
        }
    }
}

impl Written {
    fn row(self) -> Option<Row> {
        let plan = |sides: Sides| {
            let (length, width) = sides.both();
            let corner = if self.shape.is_circular() { length / 2.0 } else { self.corner };
            Plan { length, width, corner }
        };
        let inner = Inner {
            top: plan(self.top),
            bottom: plan(self.bottom.unwrap_or(self.top)),
            depth: self.depth,
            tube: self.tube,
            flutes: self.flutes,
        };
        let pan = Pan::checked(Pan {
            name: self.name,
            shape: self.shape,
            style: self.style,
            inner,
            count: self.count.unwrap_or(1),
            handbook: self.handbook,
            from: self.from,
        })?;
        Some(Row { pan, said: self.said.unwrap_or(self.top).both(), cups: self.cups, pounds: self.pounds })
    }
}

fn written() -> Vec<Written> {
    let file: File =
        toml::from_str(include_str!("../../data/pans.toml")).expect("pans.toml is read by a test before it ships");
    file.pan
}

/// A row with impossible dimensions is left out here; a test refuses it before it ships.
static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| written().into_iter().filter_map(Written::row).collect());

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn ok_every_row_is_a_pan_with_its_own_name_and_a_source() {
        assert_eq!(written().len(), ROWS.len());
        let names: HashSet<&str> = Pan::common().map(Pan::name).collect();
        assert_eq!(names.len(), ROWS.len());
        for pan in Pan::common() {
            assert!(pan.source().is_some(), "{}", pan.name);
            let book = pan.handbook();
            assert!(book.is_none_or(|book| book.low <= book.high && crate::Source::by_id(&book.from).is_some()));
        }
    }

    #[test]
    fn ok_sides_come_longer_first_and_pans_do_not_widen_downwards() {
        for row in ROWS.iter() {
            let inner = row.pan.inner;
            assert!(row.said.0 >= row.said.1 && inner.top.length >= inner.top.width, "{}", row.pan.name);
            assert!(
                inner.top.length >= inner.bottom.length && inner.top.width >= inner.bottom.width,
                "{}",
                row.pan.name
            );
        }
    }

    #[test]
    fn ok_every_sized_row_is_found_by_its_own_size() {
        for row in ROWS.iter().filter(|row| row.pounds.is_none() && row.pan.style != Style::Flat) {
            let wanted =
                Wanted { shape: Some(row.pan.shape), style: row.pan.style, size: Some(row.said), ..Wanted::default() };
            assert_eq!(nearest(&wanted, || "no row".to_owned()).as_ref(), Some(&row.pan));
        }
    }

    #[test]
    fn ok_another_size_keeps_the_taper() {
        let wanted = Wanted { shape: Some(Shape::Pie), size: Some((254.0, 254.0)), ..Wanted::default() };
        let pan = nearest(&wanted, || "10-inch pie plate".to_owned()).expect("sized");
        assert_eq!(pan.name(), "10-inch pie plate");
        assert!((pan.inner().bottom.length / pan.inner().top.length - 178.0 / 229.0).abs() < 1e-9);
    }
}
