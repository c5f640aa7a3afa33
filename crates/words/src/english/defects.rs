//! What should not happen, in words.

use coilwright_solver::defect::Defect;

/// Where nobody knows where.
pub const SOMEWHERE: &str = "This should not happen: the program found a fault in itself and \
    stopped rather than tell a wrong number. Your rig is kept.";

/// What was found, and where, for whoever mends it.
///
/// # Example
/// ```
/// use coilwright_solver::defect::Defect;
/// use coilwright_words::english::defects::defect;
/// assert_eq!(
///     defect(Defect::Node),
///     "This should not happen: the program found a fault in itself (“node”) and stopped rather \
///      than tell a wrong number. Your rig is kept."
/// );
/// ```
#[must_use]
pub fn defect(defect: Defect) -> String {
    SOMEWHERE.replacen("itself", &format!("itself (“{}”)", defect.place()), 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_defect_says_where_and_that_the_rig_is_kept() {
        for one in Defect::ALL {
            let text = defect(one);
            assert!(text.contains(&format!("(“{}”)", one.place())), "{text}");
            assert!(text.ends_with("Your rig is kept."), "{text}");
        }
    }
}
