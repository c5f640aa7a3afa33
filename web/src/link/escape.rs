//! Texts as values of a link.

/// Texts with `~` between them.
#[must_use]
pub fn joined(texts: &[&String]) -> String {
    let mut value = String::new();
    for (i, text) in texts.iter().enumerate() {
        if i > 0 {
            value.push('~');
        }
        value.push_str(&escaped(text, b""));
    }
    value
}

/// A text with everything but ASCII letters, digits, `.` `-` `_` `/` and what is to be kept
/// behind percent signs.
#[must_use]
pub fn escaped(text: &str, kept: &[u8]) -> String {
    const HEX: &[u8; 16] = b"0123456789ABCDEF";
    let mut link = String::with_capacity(text.len());
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || b".-_/".contains(&byte) || kept.contains(&byte) {
            link.push(char::from(byte));
        } else {
            link.push('%');
            for digit in [byte >> 4, byte & 15] {
                let digit = HEX.get(usize::from(digit)).copied().unwrap_or(b'0');
                link.push(char::from(digit));
            }
        }
    }
    link
}

/// The text behind percent signs; `None` where they stand for nothing.
#[must_use]
pub fn unescaped(link: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(link.len());
    let mut rest = link.bytes();
    while let Some(byte) = rest.next() {
        if byte != b'%' {
            bytes.push(byte);
            continue;
        }
        let high = char::from(rest.next()?).to_digit(16)?;
        let low = char::from(rest.next()?).to_digit(16)?;
        bytes.push(u8::try_from(high * 16 + low).ok()?);
    }
    String::from_utf8(bytes).ok()
}
