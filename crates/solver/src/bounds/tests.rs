//! The table bounds whatever is asked.

use super::*;

/// The most values that a right value of an object has, itself among them; every entry
/// of a list that the table bounds by another row counts as one.
fn most_values(of: Object, above: &[Object]) -> u64 {
    assert!(!above.contains(&of), "{of:?} holds itself, so nothing bounds its depth");
    let above = [above, &[of]].concat();
    let values = |field: Field| match field.spec().kind {
        Kind::Object(inner) => most_values(inner, &above),
        Kind::Objects { of, most, .. } => u64::from(most) * most_values(of, &above),
        Kind::Different { most, .. } => u64::from(most),
        Kind::Numbers { .. } => 64,
        Kind::TwoChannels => 2,
        _ => 1,
    };
    of.fields().map(|field| 1 + values(field)).sum::<u64>() + 1
}

#[test]
fn the_table_bounds_depth_and_length_of_whatever_is_asked() {
    assert!(most_values(Object::Request, &[]) < 3_000);
    assert!(most_values(Object::Diagnose, &[]) < 3_000);
    assert!(most_values(Object::ClosedBox, &[]) < 10);
    // A page bounds the size of a file besides.
    assert!(most_values(Object::File, &[]) < 4_000_000);
}

#[test]
fn no_text_that_is_read_is_longer_than_the_longest() {
    let ohms = Field::CoilOhms;
    let longest = ohms.spec().kind.longest_text() as usize;
    for zeros in 0..40 {
        for end in ["4", "4.0000", "4.00000", "1000.0000", "12345/6789"] {
            let text = format!("{}{end}", "0".repeat(zeros));
            assert!(ohms.ohms_text(&text).is_err() || text.len() <= longest, "{text}");
        }
    }
    assert!(ohms.ohms_text(&format!("{}4.0000", "0".repeat(29))).is_ok());
    assert_eq!(Field::WattsPer.spec().kind.longest_text(), 6);
    assert_eq!(Field::Reads.spec().kind.longest_text(), 4);
}
