//! What stands in the way of an answer, and where.

use coilwright_solver::problem::{Code, Problem};

/// Something that stands in the way, at a path of the request.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// Where: the path of a [`Place`](super::place::Place), or of a list.
    pub path: String,
    /// What.
    pub what: What,
}

/// What is wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// A problem of the contract.
    Problem(Problem),
    /// A comma that could be a decimal comma or mark thousands.
    CommaOrThousands,
}

impl Trouble {
    /// Whether something is merely still to be filled in.
    #[must_use]
    pub fn is_missing(&self) -> bool {
        matches!(&self.what, What::Problem(problem) if problem.code == Code::Missing)
    }
}
