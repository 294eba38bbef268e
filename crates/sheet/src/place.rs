//! Lines and columns of bytes, as an author counts them.

/// Bytes where the lines of a text begin.
pub struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
    /// Characters that begin before each block of the text, so that a line that is the whole text is not counted anew for
    /// each place in it.
    before: Vec<usize>,
}

/// Bytes of a block.
const BLOCK: usize = 1024;

impl<'t> Lines<'t> {
    /// The lines of a text.
    pub fn of(text: &'t str) -> Lines<'t> {
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        let mut before = vec![0];
        before.extend(text.as_bytes().chunks(BLOCK).scan(0, |sum, block| {
            *sum += begun(block);
            Some(*sum)
        }));
        Lines { text, starts, before }
    }

    /// Line and column of a byte, both from 1; columns count Unicode scalar values.
    pub fn position(&self, at: usize) -> (usize, usize) {
        let at = self.text.floor_char_boundary(at);
        let line = self.starts.partition_point(|start| *start <= at).max(1);
        (line, self.characters(at) - self.characters(self.starts[line - 1].min(at)) + 1)
    }

    /// Characters before a byte.
    fn characters(&self, at: usize) -> usize {
        let block = at / BLOCK;
        self.before[block] + begun(&self.text.as_bytes()[block * BLOCK..at])
    }
}

/// Characters that begin in some bytes.
fn begun(bytes: &[u8]) -> usize {
    bytes.iter().filter(|byte| !matches!(byte, 0x80..0xC0)).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_lines_and_columns_count_from_one() {
        let lines = Lines::of("ab\nöd\n");
        assert_eq!([0, 1, 3, 5, 7].map(|at| lines.position(at)), [(1, 1), (1, 2), (2, 1), (2, 2), (3, 1)]);
    }

    #[test]
    fn ok_columns_of_a_long_line() {
        let text = format!("ab\n{}", "öd€".repeat(1000));
        let lines = Lines::of(&text);
        for (at, c) in text[3..].char_indices().enumerate().step_by(97) {
            assert_eq!(lines.position(c.0 + 3), (2, at + 1));
        }
        assert_eq!(lines.position(text.len()), (2, 3001));
    }
}
