//! Sentences whose units stay on the line of their number.

/// A sentence whose units stay on the line of their number.
pub fn tied(sentence: &str) -> String {
    let mut text = String::with_capacity(sentence.len());
    let mut rest = sentence.chars().peekable();
    while let Some(c) = rest.next() {
        let before_unit = c == ' ' && matches!(rest.peek(), Some('Ω' | 'W' | '%'));
        text.push(if before_unit { '\u{a0}' } else { c });
    }
    text
}
