//! Ingredient lines read and put into their component: "2 cups flour, 1 tsp salt and 3 eggs" are three.

use super::super::Component;
use super::super::LineRead;
use super::super::SCANNED_NUMBER;
use super::super::list;
use super::super::optional;
use super::Reader;
use super::line_start;
use crate::food_words::FoodWords;
use crate::line::{self, Cut};
use crate::query::Query;
use std::ops::Range;
use std::rc::Rc;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Reads a line, or remembers it.
    pub(super) fn read_line(&self, text: &str) -> Rc<line::Line> {
        self.read_line_by(text, || line::read(&list::plain(text), self.foods))
    }

    /// Reads a line of which the [`list::plain`] text is cut already, or remembers it.
    pub(super) fn read_cut(&self, text: &str, cut: Cut<'_>) -> Rc<line::Line> {
        self.read_line_by(text, || line::read_cut(cut, self.foods))
    }

    fn read_line_by(&self, text: &str, read: impl FnOnce() -> line::Line) -> Rc<line::Line> {
        if let Some((_, line)) = self.lately.borrow().iter().find(|(known, _)| known == text) {
            return Rc::clone(line);
        }
        let mut read = read();
        read.optional |= read.kind == line::Kind::Ingredient && optional::is_said(text);
        if text.starts_with('l') && list::plain(text).starts_with('1') {
            read.queries.push(Query::new(
                &SCANNED_NUMBER,
                0..1,
                format!("“{}” begins with the letter l; it was read as the number 1.", line_start(text)),
                "Write the number.",
            ));
        }
        let line = Rc::new(read);
        let mut lately = self.lately.borrow_mut();
        lately.truncate(REMEMBERED - 1);
        lately.push_front((text.to_owned(), Rc::clone(&line)));
        line
    }

    /// Reads the last line anew when rows were joined to it.
    pub(super) fn refresh(&mut self) {
        if !std::mem::take(&mut self.stale) {
            return;
        }
        let last = self.out.components.last().and_then(|component| component.lines.last());
        let Some(line) = last.map(|last| self.read_line(&last.text)) else { return };
        if let Some(last) = self.out.components.last_mut().and_then(|component| component.lines.last_mut()) {
            last.line = Rc::unwrap_or_clone(line);
        }
    }

    /// Adds the row's ingredient, or its several.
    pub(super) fn listed(&mut self, text: &str, body: Range<usize>, surely: bool) {
        self.refresh();
        self.listed_any = true;
        if self.out.components.is_empty() {
            self.out.components.push(Component { name: None, place: body.clone(), lines: Vec::new() });
        }
        let written = &self.text[body.clone()];
        let offset = written.find(text).map(|offset| body.start + offset);
        // Cells side by side that each begin with an amount are several lines.
        if let Some(cells) = list::cells(written) {
            for cell in cells {
                let said = written[cell.clone()].split_whitespace().collect::<Vec<_>>().join(" ");
                let line = Rc::unwrap_or_clone(self.read_line(&said));
                if let Some(component) = self.out.components.last_mut() {
                    component.place.end = body.end;
                    component.lines.push(LineRead {
                        place: cell.start + body.start..cell.end + body.start,
                        text: said,
                        line,
                    });
                }
            }
            return;
        }
        // "Optional: 50 g raisins, 30 g nuts" is two.
        let label = optional::label(text);
        let behind = list::parts(&text[label..], true);
        let parts = if label > 0 && behind.len() > 1 {
            behind.into_iter().map(|part| part.start + label..part.end + label).collect()
        } else {
            list::parts(text, surely)
        };
        for part in parts {
            let said = &text[part.clone()];
            let place = offset.map_or(body.clone(), |offset| offset + part.start..offset + part.end);
            let mut line = Rc::unwrap_or_clone(self.read_line(said));
            line.optional |= label > 0 && line.kind == line::Kind::Ingredient;
            if let Some(component) = self.out.components.last_mut() {
                component.place.end = body.end;
                component.lines.push(LineRead { place, text: said.to_owned(), line });
            }
        }
    }
}

/// How many lines are remembered: the row at hand and the few after it that are asked about before its kind is said.
const REMEMBERED: usize = 4;
