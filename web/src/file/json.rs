//! Writes JSON (RFC 8259), line by line, so that people can read it too.

use coilwright_solver::bounds::Field;

/// An entry of a list, which has no name.
pub(super) const ENTRY: Option<Field> = None;

/// What is written so far.
#[derive(Debug, Default)]
pub(super) struct Json {
    text: String,
    /// For each list or object that is open: whether something stands in it.
    open: Vec<bool>,
}

impl Json {
    pub(super) fn done(mut self) -> String {
        self.text.push('\n');
        self.text
    }

    /// Begins a field of the contract, or an entry of a list.
    fn begin(&mut self, field: Option<Field>) {
        if let Some(filled) = self.open.last_mut() {
            if core::mem::replace(filled, true) {
                self.text.push(',');
            }
            self.line();
        }
        if let Some(field) = field {
            self.quoted(field.spec().name);
            self.text.push_str(": ");
        }
    }

    fn line(&mut self) {
        self.text.push('\n');
        for _ in &self.open {
            self.text.push_str("  ");
        }
    }

    fn quoted(&mut self, text: &str) {
        const HEX: [char; 16] =
            ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e', 'f'];
        self.text.push('"');
        for c in text.chars() {
            match c {
                '"' | '\\' => {
                    self.text.push('\\');
                    self.text.push(c);
                }
                c if c < ' ' => {
                    self.text.push_str("\\u00");
                    for digit in [c as usize >> 4, c as usize & 15] {
                        self.text.push(HEX.get(digit).copied().unwrap_or('0'));
                    }
                }
                c => self.text.push(c),
            }
        }
        self.text.push('"');
    }

    /// A field with text.
    pub(super) fn text(&mut self, field: Field, text: &str) {
        self.begin(Some(field));
        self.quoted(text);
    }

    /// A field with a number or a word of JSON as it is written there.
    pub(super) fn plain(&mut self, field: impl Into<Option<Field>>, written: &str) {
        self.begin(field.into());
        self.text.push_str(written);
    }

    /// A field with a list or an object that `write` fills.
    fn around(&mut self, field: Option<Field>, ends: [char; 2], write: impl FnOnce(&mut Self)) {
        self.begin(field);
        self.text.push(ends[0]);
        self.open.push(false);
        write(self);
        if self.open.pop() == Some(true) {
            self.line();
        }
        self.text.push(ends[1]);
    }

    pub(super) fn object(
        &mut self,
        field: impl Into<Option<Field>>,
        write: impl FnOnce(&mut Self),
    ) {
        self.around(field.into(), ['{', '}'], write);
    }

    pub(super) fn list(&mut self, field: Field, write: impl FnOnce(&mut Self)) {
        self.around(Some(field), ['[', ']'], write);
    }
}
