//! A picture as a file of its own.

use super::{Scene, escape, numbers};

impl Scene {
    /// The whole picture as the text of an SVG file, in pixels, with its own style and a
    /// title.
    #[must_use]
    pub fn file(&self, style: &str, title: &str) -> String {
        let mut to = String::from("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0");
        numbers(&mut to, "", &[self.width, self.height]);
        numbers(&mut to, "\" width=\"", &[self.width]);
        numbers(&mut to, "\" height=\"", &[self.height]);
        to.push_str("\"><title>");
        escape(&mut to, title);
        to.push_str("</title><style>");
        escape(&mut to, style);
        to.push_str("</style>");
        self.write_marks(&mut to);
        to.push_str("</svg>\n");
        to
    }
}
