//! One number a row, for the rows that have one.

use super::layout;

/// A column inflated: whether each row has a value, and the value.
pub(super) struct Column {
    cells: Vec<Option<u32>>,
    scale: f64,
}

impl Column {
    /// Reads the bitmap and the varints behind it. What cannot be read is unknown.
    pub(super) fn read(bytes: &[u8], decimals: u8, rows: usize) -> Column {
        let (bitmap, mut values) = bytes.split_at_checked(rows.div_ceil(8)).unwrap_or_default();
        let has = |at: usize| bitmap.get(at / 8).is_some_and(|byte| byte >> (at % 8) & 1 == 1);
        let cells = (0..rows)
            .map(|at| has(at).then(|| layout::take(&mut values)).flatten().and_then(|value| u32::try_from(value).ok()))
            .collect();
        Column { cells, scale: 10_f64.powi(i32::from(decimals)) }
    }

    /// The value of a row. Dividing the whole number once gives the very number that was printed.
    pub(super) fn at(&self, row: usize) -> Option<f64> {
        self.cells[row].map(|cell| f64::from(cell) / self.scale)
    }
}
