//! A link as a QR code.

use crate::scene::{Role, Scene, draw_line, draw_rect};
use qrcodegen::{QrCode, QrCodeEcc, Version};

/// Units of one module: its rows are lines as broad as that, drawn along their middle.
const MODULE: i32 = 2;
/// Modules of ground all round (ISO/IEC 18004, from memory).
const QUIET: i32 = 4;
/// A code with more modules than this version has is too fine for a phone in the hand.
const FINEST: u8 = 25;

/// The code of a text; `None` where it would be too fine, so that a shorter text must do.
///
/// # Example
/// ```
/// use coilwright_drawing::code::code;
/// let short = code("https://example.org/#v=1").unwrap();
/// assert_eq!(short.width, short.height);
/// assert!(code(&"long ".repeat(400)).is_none());
/// ```
#[must_use]
pub fn code(text: &str) -> Option<Scene> {
    let finest = Version::new(FINEST);
    let segments = qrcodegen::QrSegment::make_segments(text);
    let code = QrCode::encode_segments_advanced(
        &segments,
        QrCodeEcc::Low,
        Version::MIN,
        finest,
        None,
        // Better correction where the code grows no finer by it.
        true,
    );
    let code = code.ok()?;
    let mut scene = Scene::new();
    let side = MODULE * (code.size() + 2 * QUIET);
    (scene.width, scene.height) = (side, side);
    draw_rect(&mut scene.marks, Role::CodeGround, (0, 0), side, side, 0);
    for row in 0..code.size() {
        let y = MODULE * (row + QUIET) + MODULE / 2;
        let mut from = None;
        // One column beyond the end ends the last line.
        for column in 0..=code.size() {
            let x = MODULE * (column + QUIET);
            match (code.get_module(column, row), from) {
                (true, None) => from = Some(x),
                (false, Some(start)) => {
                    draw_line(&mut scene.marks, Role::Code, (start, y), (x, y));
                    from = None;
                }
                _ => {}
            }
        }
    }
    Some(scene)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::Mark;

    /// The picture as points, eight to a module, read by another library.
    fn read(scene: &Scene) -> String {
        const FINE: usize = 4;
        let side = usize::try_from(scene.width).unwrap() * FINE;
        let dark = |x: usize, y: usize| {
            let (x, y) = ((x / FINE) as i32, (y / FINE) as i32);
            scene.marks.iter().any(|mark| {
                matches!(mark, Mark::Line(_, from, end) if (from.0..end.0).contains(&x)
                    && (from.1 - MODULE / 2..from.1 + MODULE / 2).contains(&y))
            })
        };
        let grey = |x, y| if dark(x, y) { 0 } else { 255 };
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, grey);
        let found = image.detect_grids();
        assert_eq!(found.len(), 1);
        found[0].decode().unwrap().1
    }

    #[test]
    fn another_library_reads_what_was_written() {
        let link = "https://example.org/plan/#v=1&key=1:(1a+1b)%7C%7C(2a+2b)&view=wire&drivers=2~2~2~500&amplifier=1~1&channel=1~1:1200";
        for text in ["a", link, "Ω ≈ 4/3 · ∥", &link.repeat(4)] {
            assert_eq!(read(&code(text).unwrap()), text);
        }
    }

    #[test]
    fn four_modules_of_ground_lie_round_it() {
        let scene = code("quiet").unwrap();
        let quiet = MODULE * QUIET;
        for mark in &scene.marks {
            if let Mark::Line(_, from, end) = mark {
                assert!(from.0 >= quiet && end.0 <= scene.width - quiet, "{mark:?}");
                assert!(from.1 > quiet && from.1 < scene.height - quiet, "{mark:?}");
            }
        }
    }
}
