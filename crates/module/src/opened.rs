//! A list that is kept to be read page by page.

use crate::answer::{Answer, Configuration, Load};
use crate::reader;
use crate::value::Value;
use coilwright_solver::answer::{Configurations, Pages, Request};
use coilwright_solver::problem::{Code, Detail, Path, Problem};

/// So many entries of a list are written at a time.
const PIECE: u32 = 200;

/// A piece of one of the two long lists of an answer.
pub(crate) enum Piece {
    Loads(Vec<Load>),
    Configurations(Vec<Configuration>),
}

/// A request with its finished list, not written out but where it is looked at.
#[derive(Debug)]
pub struct Opened(Result<Box<List>, Vec<Problem>>);

#[derive(Debug)]
struct List {
    configurations: Configurations,
    pages: Pages,
    /// The rows that the request itself asks for.
    from: u32,
    limit: u32,
}

impl Opened {
    /// Reads a request and lists what it asks for.
    ///
    /// # Example
    /// ```
    /// use coilwright_module::{configurations, opened::Opened, value::Value};
    /// let driver = [("count", 3.0), ("coils", 1.0), ("ohms", 4.0)];
    /// let driver = Value::object(driver.map(|(name, value)| (name, Value::Number(value))));
    /// let request = Value::object([("drivers", Value::List(vec![driver]))]);
    /// let mut list = Opened::of(&request);
    /// assert_eq!(list.page(None, None), configurations(&request));
    /// let last = list.page(Some(&Value::Number(1.0)), None);
    /// assert_eq!((last.total, last.configurations[0].rank), (Some(2), 2));
    /// let wrong = list.page(None, Some(&Value::Number(-1.0)));
    /// assert_eq!(wrong.problems[0].path, "limit");
    /// ```
    #[must_use]
    pub fn of(request: &Value) -> Self {
        Self(reader::rows(request).map(|(request, from)| {
            let limit = request.limit;
            // What is looked at is written then.
            let mut configurations = Configurations::new(Request { limit: 0, ..request });
            configurations.finish();
            Box::new(List { configurations, pages: Pages::default(), from, limit })
        }))
    }

    /// The answer with so many configurations from a row on, counted from 0: what
    /// [`crate::configurations`] answers when the request says so itself. What is left out
    /// is as the request says.
    #[must_use]
    pub fn page(&mut self, from: Option<&Value>, limit: Option<&Value>) -> Answer {
        let mut all = (Vec::new(), Vec::new());
        let head = self.page_in_pieces(from, limit, &mut |piece| match piece {
            Piece::Loads(loads) => all.0.extend(loads),
            Piece::Configurations(rows) => all.1.extend(rows),
        });
        if !head.problems.is_empty() {
            return head;
        }
        Answer { loads: all.0, configurations: all.1, ..head }
    }

    /// The same, its two lists given away piece by piece, so that they never stand in memory
    /// as a whole. With any problem they are none, whatever was given.
    pub(crate) fn page_in_pieces(
        &mut self,
        from: Option<&Value>,
        limit: Option<&Value>,
        give: &mut dyn FnMut(Piece),
    ) -> Answer {
        let list = match &mut self.0 {
            Ok(list) => list,
            Err(problems) => return Answer::of_problems(problems),
        };
        let (from, limit) = match reader::page(from, limit) {
            Ok((from, limit)) => (from.unwrap_or(list.from), limit.unwrap_or(list.limit)),
            Err(problems) => return Answer::of_problems(&problems),
        };
        let head = Answer::head(list.configurations.finish());
        let mut loads = list.configurations.loads().map(Load::from).peekable();
        while loads.peek().is_some() {
            give(Piece::Loads(loads.by_ref().take(PIECE as usize).collect()));
        }
        drop(loads);
        let (mut from, mut left) = (u64::from(from), limit);
        while left > 0 {
            let rows = list.configurations.page(&mut list.pages, from, left.min(PIECE));
            if rows.is_empty() {
                break;
            }
            from += u64::from(PIECE);
            left = left.saturating_sub(PIECE);
            give(Piece::Configurations(rows.into_iter().map(Into::into).collect()));
        }
        if let Some(defect) = list.configurations.defect() {
            return Answer::of_problems(&[defect.into()]);
        }
        head
    }

    /// What a list answers once it is closed.
    #[must_use]
    pub fn closed() -> Answer {
        Answer::of_problems(&[Problem::new(Path::root(), Code::Closed, Detail::None)])
    }
}
