//! The room inside a pan, by exact formulas.
//!
//! Every pan here is a pile of rounded rectangles whose sides and corners change evenly from bottom to top (a circle is
//! a square whose corners are half its side). Its area at a height is therefore a quadratic in the height, and its
//! volume the integral of that quadratic: no pan needs slices. A tube takes away another such pile.

use std::f64::consts::PI;

use serde::Deserialize;

use super::{Shape, common};

/// A level cut through a pan: a rectangle with rounded corners, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    /// The longer side, or the diameter.
    pub length: f64,
    /// The shorter side, or the diameter.
    pub width: f64,
    /// The radius of the corners; half the diameter for a circle.
    pub corner: f64,
}

/// The tube of a tube pan: its outer diameters, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tube {
    /// At the height of the brim.
    pub top: f64,
    /// At the bottom of the pan.
    pub bottom: f64,
}

/// The inside of a pan, or of one cup of a muffin tin; millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inner {
    /// At the brim.
    pub top: Plan,
    /// At the bottom.
    pub bottom: Plan,
    /// From bottom to brim, straight up; nothing for a flat sheet.
    pub depth: f64,
    /// The tube in the middle, if any.
    pub tube: Option<Tube>,
    /// How far the flutes of a round pan swing to either side of the middle of its wall, which waves as a sine; `top`
    /// and `bottom` reach to the outermost of them. Nothing for smooth sides.
    pub flutes: f64,
}

/// No pan is wider or deeper than this, in millimetres.
const LARGEST: f64 = 5000.0;

impl Plan {
    /// A circle.
    pub fn circle(diameter: f64) -> Plan {
        Plan { length: diameter, width: diameter, corner: diameter / 2.0 }
    }

    fn is_sound(self) -> bool {
        let least = self.length.min(self.width);
        let sides = least > 0.0 && self.length.max(self.width) <= LARGEST;
        sides && self.corner >= 0.0 && self.corner <= least / 2.0 + 1e-9
    }

    fn is_circle(self) -> bool {
        (self.length - self.width).abs() < 1e-9 && (self.length / 2.0 - self.corner).abs() < 1e-9
    }
}

impl Inner {
    /// The inside of a pan by its longer and shorter side at the brim (or its diameter twice) and its depth, in millimetres.
    /// Slope, corners and tube are those of the nearest common pan of the shape. `None` when no pan has such sides.
    pub fn like_common(shape: Shape, size: (f64, f64), depth: f64) -> Option<Inner> {
        common::inner_like(shape, size, depth).filter(Inner::is_sound)
    }

    pub(super) fn is_sound(&self) -> bool {
        let narrowest = self.top.width.min(self.top.length).min(self.bottom.width).min(self.bottom.length);
        let tube_fits = self.tube.is_none_or(|tube| {
            let free = |plan: Plan| plan.length.min(plan.width) - 4.0 * self.flutes;
            let rises = tube.top >= 0.0 && tube.bottom >= 0.0;
            rises && tube.top < free(self.top) && tube.bottom < free(self.bottom)
        });
        let round = self.top.is_circle() && self.bottom.is_circle();
        let flutes_fit = self.flutes >= 0.0 && 4.0 * self.flutes < narrowest && (self.flutes <= 0.0 || round);
        let deep = self.depth >= 0.0 && self.depth <= LARGEST;
        self.top.is_sound() && self.bottom.is_sound() && deep && tube_fits && flutes_fit
    }

    pub(super) fn form(&self) -> Form {
        let side = |top: f64, bottom: f64| Line { at_bottom: bottom, rise: top - bottom };
        // A wall that waves as r + a sin encloses pi (r^2 + a^2 / 2); its middle lies `a` inside the outermost flute.
        let swing = 2.0 * self.flutes;
        let length = side(self.top.length - swing, self.bottom.length - swing);
        let width = side(self.top.width - swing, self.bottom.width - swing);
        let corner = side(self.top.corner - self.flutes, self.bottom.corner - self.flutes);
        let corner = if self.flutes > 0.0 { corner } else { side(self.top.corner, self.bottom.corner) };
        let mut area = length.times(width).minus(corner.times(corner), 4.0 - PI);
        area.constant += PI * self.flutes * self.flutes / 2.0;
        if let Some(tube) = self.tube {
            let diameter = side(tube.top, tube.bottom);
            area = area.minus(diameter.times(diameter), PI / 4.0);
        }
        Form { area, depth: self.depth }
    }
}

/// A length that changes evenly from bottom to top.
#[derive(Clone, Copy)]
struct Line {
    at_bottom: f64,
    rise: f64,
}

impl Line {
    fn times(self, other: Line) -> Quadratic {
        Quadratic {
            constant: self.at_bottom * other.at_bottom,
            linear: self.at_bottom * other.rise + self.rise * other.at_bottom,
            square: self.rise * other.rise,
        }
    }
}

/// An area as a function of height, where 0 is the bottom and 1 the brim.
#[derive(Clone, Copy)]
struct Quadratic {
    constant: f64,
    linear: f64,
    square: f64,
}

impl Quadratic {
    fn minus(self, other: Quadratic, times: f64) -> Quadratic {
        Quadratic {
            constant: self.constant - times * other.constant,
            linear: self.linear - times * other.linear,
            square: self.square - times * other.square,
        }
    }
}

/// The room inside one pan or cup: square millimetres by height, and the height in millimetres.
#[derive(Clone, Copy)]
pub(super) struct Form {
    area: Quadratic,
    depth: f64,
}

impl Form {
    /// Square millimetres at a share of the height.
    pub(super) fn area(&self, height: f64) -> f64 {
        let Quadratic { constant, linear, square } = self.area;
        constant + height * (linear + height * square)
    }

    /// Cubic millimetres up to a share of the height.
    pub(super) fn volume(&self, height: f64) -> f64 {
        let Quadratic { constant, linear, square } = self.area;
        self.depth * height * (constant + height * (linear / 2.0 + height * square / 3.0))
    }

    /// Millimetres that this many cubic millimetres stand deep; `None` when they do not fit.
    pub(super) fn depth_for(&self, volume: f64) -> Option<f64> {
        let full = self.volume(1.0);
        // What was read off as the capacity must fit, whatever the last digit.
        if volume.is_nan() || volume < 0.0 || full <= 0.0 || volume > full * (1.0 + 1e-9) {
            return None;
        }
        let height = self.straight(volume).or_else(|| self.cone(volume)).unwrap_or_else(|| self.bisected(volume));
        Some(height.clamp(0.0, 1.0) * self.depth)
    }

    fn straight(&self, volume: f64) -> Option<f64> {
        let Quadratic { constant, linear, square } = self.area;
        let straight = linear.abs().max(square.abs()) <= 1e-12 * constant;
        straight.then(|| volume / (constant * self.depth))
    }

    /// When the area is a square, (p + q h)^2, the volume is a difference of cubes. So it is in every cone, and in a
    /// square or rectangular pan whose sides run to one point. A taper too slight to be told from none has no point.
    fn cone(&self, volume: f64) -> Option<f64> {
        let Quadratic { constant, linear, square } = self.area;
        let is_square = (linear * linear - 4.0 * constant * square).abs() <= 1e-12 * constant * constant;
        if constant <= 0.0 || !is_square || linear.abs() < 1e-5 * constant {
            return None;
        }
        let p = constant.sqrt();
        let q = linear / (2.0 * p);
        Some(((p * p * p + 3.0 * q * volume / self.depth).cbrt() - p) / q)
    }

    fn bisected(&self, volume: f64) -> f64 {
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if self.volume(middle) < volume { low = middle } else { high = middle }
        }
        0.5 * (low + high)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Any sound pan: rectangles, circles, tapers either way, tubes, flutes.
    fn any_inner() -> impl Strategy<Value = Inner> {
        let side = 60.0..500.0f64;
        let parts = (side.clone(), side, 0.7..1.3f64, 0.7..1.3f64, 0.0..1.0f64, 0.0..1.0f64, 10.0..120.0f64, 0u8..5);
        parts.prop_map(|(length, width, taper, other_taper, corner, other_corner, depth, kind)| {
            let plan =
                |length: f64, width: f64, corner: f64| Plan { length, width, corner: corner * length.min(width) / 2.0 };
            let circle = |tube: Option<Tube>, flutes: f64| Inner {
                top: Plan::circle(length),
                bottom: Plan::circle(length * taper),
                depth,
                tube,
                flutes,
            };
            let tube = Some(Tube { top: 0.2 * length, bottom: 0.3 * length });
            match kind {
                0 => circle(None, 0.0),
                1 => circle(tube, 0.0),
                2 => circle(tube, 0.06 * length),
                3 => {
                    let straight = plan(length, width, corner);
                    Inner { top: straight, bottom: straight, ..circle(None, 0.0) }
                }
                _ => Inner {
                    top: plan(length, width, corner),
                    bottom: plan(length * taper, width * other_taper, other_corner),
                    ..circle(None, 0.0)
                },
            }
        })
    }

    /// The area of one layer, measured in a way that shares no formula with the code: strips across the plan, each as
    /// long as the outline allows there; a waving wall point by point round the middle.
    fn layer(inner: &Inner, height: f64) -> f64 {
        let between = |top: f64, bottom: f64| bottom + (top - bottom) * height;
        let length = between(inner.top.length, inner.bottom.length);
        let width = between(inner.top.width, inner.bottom.width);
        let corner = between(inner.top.corner, inner.bottom.corner);
        let hole = inner.tube.map_or(0.0, |tube| PI * (between(tube.top, tube.bottom) / 2.0).powi(2));
        let steps = 400;
        let whole = if inner.flutes > 0.0 {
            let middle = length / 2.0 - inner.flutes;
            let wedge = |at: i32| {
                let angle = 2.0 * PI * f64::from(at) / f64::from(steps);
                (middle + inner.flutes * (12.0 * angle).sin()).powi(2) * PI / f64::from(steps)
            };
            (0..steps).map(wedge).sum::<f64>()
        } else {
            let strip = |at: i32| {
                let across = width * (f64::from(at) + 0.5) / f64::from(steps);
                let from_edge = across.min(width - across);
                let cut = if from_edge >= corner {
                    0.0
                } else {
                    corner - (corner * corner - (corner - from_edge).powi(2)).sqrt()
                };
                (length - 2.0 * cut) * width / f64::from(steps)
            };
            (0..steps).map(strip).sum::<f64>()
        };
        whole - hole
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]
        #[test]
        fn ok_the_formula_agrees_with_2000_layers(inner in any_inner()) {
            prop_assume!(inner.is_sound());
            let layers = 2000;
            let sliced = |share: f64| (0..layers).map(|at| {
                let height = share * (f64::from(at) + 0.5) / f64::from(layers);
                layer(&inner, height) * inner.depth * share / f64::from(layers)
            }).sum::<f64>();
            for share in [0.37, 1.0] {
                let (exact, sliced) = (inner.form().volume(share), sliced(share));
                prop_assert!((exact - sliced).abs() < 1e-3 * exact, "{exact} and {sliced}: {inner:?}");
            }
        }
    }

    proptest! {
        #[test]
        fn ok_depth_and_volume_undo_each_other(inner in any_inner(), share in 0.0..1.0f64) {
            prop_assume!(inner.is_sound());
            let form = inner.form();
            let full = form.depth_for(form.volume(1.0)).expect("the capacity fits");
            prop_assert!((full - inner.depth).abs() < 1e-6 * inner.depth);
            let depth = form.depth_for(form.volume(share)).expect("less than the capacity fits");
            prop_assert!((depth - share * inner.depth).abs() < 1e-6 * inner.depth);
        }

        #[test]
        fn ok_twice_as_large_holds_eight_times(inner in any_inner()) {
            prop_assume!(inner.is_sound());
            let twice = |plan: Plan| Plan { length: 2.0 * plan.length, width: 2.0 * plan.width, corner: 2.0 * plan.corner };
            let large = Inner {
                top: twice(inner.top),
                bottom: twice(inner.bottom),
                depth: 2.0 * inner.depth,
                tube: inner.tube.map(|tube| Tube { top: 2.0 * tube.top, bottom: 2.0 * tube.bottom }),
                flutes: 2.0 * inner.flutes,
            };
            prop_assert!((large.form().volume(1.0) / inner.form().volume(1.0) - 8.0).abs() < 1e-9);
        }
    }

    /// Worked by hand: a cone cut from 200 to 100 mm, 60 mm high, holds pi 60 / 12 (200^2 + 200 100 + 100^2).
    #[test]
    fn ok_a_cut_cone() {
        let inner =
            Inner { top: Plan::circle(200.0), bottom: Plan::circle(100.0), depth: 60.0, tube: None, flutes: 0.0 };
        assert!((inner.form().volume(1.0) - PI * 5.0 * 70_000.0).abs() < 1e-6);
        assert!(inner.form().cone(1000.0).is_some(), "solved exactly");
    }
}
