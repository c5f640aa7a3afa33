//! The groups of a finished list, found step by step, and what went wrong while it was looked at.

use super::Progress;
use super::alike::{Grouping, Groups};
use super::working::Configurations;
use crate::defect::Defect;
use crate::work::{Steps, steps};

impl Grouping {
    /// How far it is.
    #[must_use]
    pub fn progress(&self, of: &Configurations) -> Progress {
        let (done, there) = self.looked_at(&of.listed);
        Progress { done: steps(done), of: steps(there) }
    }
}

impl Configurations {
    /// Works for about `budget` counted steps (at least one) at finding which configurations of
    /// a finished list share alike, and tells whether that is known. A view that shows groups
    /// finds them in one go where it is not.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::*, bounds::Field, rig::{Draft, GroupDraft}};
    /// # let two = GroupDraft { count: Some(2), coils: Some(2), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// let request = Request { rig, joined_only: false, even_only: false, limit: 0 };
    /// let mut configurations = Configurations::new(request);
    /// while let Step::More(_) = configurations.step(1_000) {}
    /// let mut grouping = Grouping::default();
    /// while !configurations.find_groups(&mut grouping, 1_000) {}
    /// let view = configurations.view(&Wanted { gathered: true, ..Wanted::default() });
    /// // Sixteen configurations; the four that give every coil a quarter at 2 Ω are one row.
    /// assert_eq!(view.rows, 13);
    /// ```
    pub fn find_groups(&self, grouping: &mut Grouping, budget: u64) -> bool {
        if !self.is_done() || self.answer.total.is_none() || self.groups.get().is_some() {
            return self.is_done();
        }
        let mut steps = Steps::new(budget.max(1));
        match self.without_defect(grouping.find(&self.listed, &mut steps)) {
            Some(Some(groups)) => self.groups.set(groups).is_ok(),
            // There is nothing more to find.
            None => true,
            Some(None) => false,
        }
    }

    /// The groups, in one go.
    pub(super) fn all_groups(&self) -> Groups {
        let mut grouping = Grouping::default();
        loop {
            match self.without_defect(grouping.find(&self.listed, &mut Steps::unbounded())) {
                Some(Some(groups)) => return groups,
                Some(None) => {}
                None => return Groups::default(),
            }
        }
    }

    /// What should not have happened while the finished list was looked at: then what was
    /// shown of it is not all, and nothing of it is wrong.
    #[must_use]
    pub fn defect(&self) -> Option<Defect> {
        self.defect.get().copied()
    }

    /// What came out, or nothing and the defect remembered.
    pub(super) fn without_defect<T>(&self, found: Result<T, Defect>) -> Option<T> {
        match found {
            Ok(found) => Some(found),
            Err(defect) => {
                self.defect.get_or_init(|| defect);
                None
            }
        }
    }
}
