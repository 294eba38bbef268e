//! Lines and columns of bytes, as an author counts them.

/// Bytes where the lines of a text begin.
pub struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    /// The lines of a text.
    pub fn of(text: &'t str) -> Lines<'t> {
        Lines { text, starts: std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect() }
    }

    /// Line and column of a byte, both from 1; columns count Unicode scalar values.
    pub fn position(&self, at: usize) -> (usize, usize) {
        let at = self.text.floor_char_boundary(at);
        let line = self.starts.partition_point(|start| *start <= at).max(1);
        (line, self.text[self.starts[line - 1].min(at)..at].chars().count() + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_lines_and_columns_count_from_one() {
        let lines = Lines::of("ab\nöd\n");
        assert_eq!([0, 1, 3, 5, 7].map(|at| lines.position(at)), [(1, 1), (1, 2), (2, 1), (2, 2), (3, 1)]);
    }
}
