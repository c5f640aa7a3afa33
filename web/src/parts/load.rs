//! A load in large type.

use crate::pen::Pen;
use crate::words::page::load_lines;
use coilwright_solver::ohms::Ohms;

/// A load in large type.
pub fn big(pen: &mut Pen, load: Ohms) {
    let (exact, near) = load_lines(load);
    pen.open("span.ohms");
    pen.line_of("b", exact);
    if let Some(near) = near {
        pen.line_of("small", near);
    }
    pen.close();
}
