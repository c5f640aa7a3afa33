//! A picture as a file of its own, which may also be set into a page of somebody else's.

use super::{Role, Scene, attributes, escape, numbers};

/// How a mark is drawn in a file, as `name:value;name:value`: by its role and, of what is
/// part of a run, by the role of that run.
pub type Look = fn(Role, Option<Role>) -> &'static str;

/// What a page would hand down to a drawing that is set into it, stated by the drawing:
/// ink, and letters that are as wide as they were taken to be.
const ROOT: &str = "fill:#1b1f29;stroke:none;font-family:system-ui, sans-serif;font-style:normal;\
font-weight:400;letter-spacing:normal;word-spacing:normal;text-anchor:start;direction:ltr";

impl Scene {
    /// The whole picture as the text of an SVG file, in pixels, with a title and a
    /// description.
    ///
    /// Its look stands in attributes of its own elements: a style element would speak of
    /// every drawing of the page that it is set into, and a policy may forbid one. Title and
    /// description are found by identifiers made of all that is drawn, so two in one page
    /// have the same ones only where they are the same.
    #[must_use]
    pub fn file(&self, look: Look, title: &str, description: &str) -> String {
        let mut marks = String::with_capacity(96 * (self.marks.len() + 4));
        self.write_marks(&mut marks, look);
        let id = identifier(sum(&[title, description, &marks]));
        let named = |to: &mut String, before: &str, end: &str| {
            for part in [before, &id, end] {
                to.push_str(part);
            }
        };
        let mut to = String::from("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0");
        numbers(&mut to, "", &[self.width, self.height]);
        numbers(&mut to, "\" width=\"", &[self.width]);
        numbers(&mut to, "\" height=\"", &[self.height]);
        attributes(&mut to, ROOT);
        named(&mut to, "\" role=\"img\" aria-labelledby=\"", "-title");
        named(&mut to, "\" aria-describedby=\"", "-desc");
        named(&mut to, "\"><title id=\"", "-title\">");
        escape(&mut to, title);
        named(&mut to, "</title><desc id=\"", "-desc\">");
        escape(&mut to, description);
        numbers(&mut to, "</desc><rect width=\"", &[self.width]);
        numbers(&mut to, "\" height=\"", &[self.height]);
        to.push_str("\" fill=\"#fff\"/>");
        to.push_str(&marks);
        to.push_str("</svg>\n");
        to
    }
}

/// A sum as the beginning of identifiers: `d-` and sixteen hexadecimal digits.
fn identifier(sum: u64) -> String {
    let digits = sum.to_be_bytes().into_iter().flat_map(|byte| [byte >> 4, byte & 15]);
    let digits = digits.filter_map(|digit| char::from_digit(u32::from(digit), 16));
    ['d', '-'].into_iter().chain(digits).collect()
}

/// A sum that differs where texts differ, but for once in 2⁶⁴: FNV-1a of 64 bits.
fn sum(texts: &[&str]) -> u64 {
    let mut sum = 0xcbf2_9ce4_8422_2325_u64;
    for text in texts {
        // No byte of UTF-8 is 255, so no two lists of texts read alike.
        for byte in text.bytes().chain([255]) {
            sum = (sum ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::{identifier, sum};

    #[test]
    fn an_identifier_is_the_sum_in_hexadecimal() {
        assert_eq!(identifier(0xcb00_0000_0000_01b3), "d-cb000000000001b3");
    }

    /// What its authors (Fowler, Noll, Vo) publish for these texts; from memory.
    #[test]
    fn the_sum_is_that_of_its_authors() {
        // The sum of a text and the byte that ends it: one more step by hand.
        let ended = |of: u64| (of ^ 255).wrapping_mul(0x0000_0100_0000_01b3);
        assert_eq!(sum(&[""]), ended(0xcbf2_9ce4_8422_2325));
        assert_eq!(sum(&["a"]), ended(0xaf63_dc4c_8601_ec8c));
        assert_eq!(sum(&["foobar"]), ended(0x8594_4171_f739_67e8));
        assert_ne!(sum(&["a", "b"]), sum(&["ab"]));
    }
}
