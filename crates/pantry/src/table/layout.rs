//! How the packed table lies in its file. `cargo xtask sr28` writes it, [`super::Table`] reads it; both ask here.
//!
//! All numbers are little-endian; a *varint* has seven bits a byte, low ones first, and the top bit says that more follow.
//!
//! ```text
//! header     magic (8 bytes), version u16, rows u32, sections u32, checksum of all that follows u64
//! directory  a section each: kind u8, nutrient number u16, decimals u8, inflated bytes u32, deflated bytes u32
//! sections   raw deflate, one after the other in the directory's order
//! ```
//!
//! | kind | what it holds, row after row in the order of the numbers |
//! |---|---|
//! | numbers | the step from the last row's number, a varint |
//! | words | text, a line each: the groups, one empty line, then descriptions, then what the refuse is |
//! | facts | group u8 (line of the words), refuse in % u8, then four factors as varints: 0 unknown, else hundredths + 1 |
//! | portions | how many; for each: amount and grams in thousandths, data points + 1, deviation in thousandths + 1 (0 unknown) |
//! | portion words | text, a line each, in the order of the portions |
//! | value, error, points | bitmap of the rows that have one, then the varints of those, times ten to the `decimals` |
//!
//! Each column is deflated by itself, so that who wants the calcium inflates the calcium and nothing else.

/// First bytes of the file.
pub const MAGIC: [u8; 8] = *b"ec-table";
/// Raised whenever a reader of the old layout would misread the new one.
pub const VERSION: u16 = 1;
/// Bytes before the directory.
pub const HEADER: usize = 26;
/// Bytes of one entry of the directory.
pub const ENTRY: usize = 12;

/// What a section holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// The row numbers.
    Numbers = 0,
    /// Groups, descriptions and what the refuse is.
    Words = 1,
    /// Group, refuse and factors.
    Facts = 2,
    /// Household portions, without their words.
    Portions = 3,
    /// The words of the portions.
    PortionWords = 4,
    /// A nutrient's values.
    Value = 5,
    /// The standard errors of these values.
    Error = 6,
    /// How many samples stand behind these values.
    Points = 7,
}

/// FNV-1a over 64 bits: enough to notice a damaged file, and one line long. It keeps nobody from forging one.
pub fn checksum(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |sum, byte| (sum ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}

/// Appends a varint.
pub fn put(out: &mut Vec<u8>, mut value: u64) {
    while value >= 0x80 {
        out.push((value & 0x7f) as u8 | 0x80);
        value >>= 7;
    }
    out.push(value as u8);
}

/// Takes a varint from the front; `None` at the end of the bytes or past 64 bits.
pub fn take(bytes: &mut &[u8]) -> Option<u64> {
    let mut value = 0;
    for shift in (0..64).step_by(7) {
        let (first, rest) = bytes.split_first()?;
        *bytes = rest;
        value |= u64::from(first & 0x7f) << shift;
        if first & 0x80 == 0 {
            return Some(value);
        }
    }
    None
}

/// Takes one byte from the front.
pub(super) fn take_byte(bytes: &mut &[u8]) -> Option<u8> {
    let (first, rest) = bytes.split_first()?;
    *bytes = rest;
    Some(*first)
}

/// Takes a little-endian number of `N` bytes from the front.
pub(super) fn take_fixed<const N: usize>(bytes: &mut &[u8]) -> Option<u64> {
    let (first, rest) = bytes.split_first_chunk::<N>()?;
    *bytes = rest;
    Some(first.iter().rev().fold(0, |value, byte| value << 8 | u64::from(*byte)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_a_varint_comes_back() {
        for value in [0, 1, 127, 128, 300, 65_535, u64::MAX] {
            let mut bytes = Vec::new();
            put(&mut bytes, value);
            assert_eq!(take(&mut bytes.as_slice()), Some(value));
        }
    }

    #[test]
    fn err_a_varint_that_never_ends() {
        assert_eq!(take(&mut [0x80_u8; 12].as_slice()), None);
        assert_eq!(take(&mut [].as_slice()), None);
    }
}
