//! A finished list read page by page.

use super::Configuration;
use super::working::Configurations;
use super::writing::Writing;
use crate::count::{index, wide};
use crate::defect::Defect;
use crate::work::Steps;

/// Where the reading of a list page by page stands: a page that begins where the last one
/// ended takes up its walk, and any other finds its place anew.
#[derive(Clone, Debug, Default)]
pub struct Pages {
    /// The row that comes next, counted from 0.
    row: u64,
    writing: Writing,
}

impl Configurations {
    /// Writes at most so many configurations in rank order, from row `from` on, counted
    /// from 0; none before the list is done, or if it never will be.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::*, bounds::Field, rig::{Draft, GroupDraft}};
    /// # let two = GroupDraft { count: Some(2), coils: Some(2), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// let request = Request { rig, joined_only: false, even_only: false, limit: 0 };
    /// let mut configurations = Configurations::new(request);
    /// while let Step::More(_) = configurations.step(1_000) {}
    /// let last = configurations.page(&mut Pages::default(), 14, 5);
    /// assert_eq!(last.iter().map(|one| one.rank).collect::<Vec<_>>(), [15, 16]);
    /// ```
    #[must_use]
    pub fn page(&self, pages: &mut Pages, from: u64, most: u32) -> Vec<Configuration> {
        let mut list = Vec::new();
        if !self.is_done() {
            return list;
        }
        let read = self.read_on(pages, from, most, &mut list);
        self.without_defect(read);
        list
    }

    fn read_on(
        &self,
        pages: &mut Pages,
        from: u64,
        most: u32,
        list: &mut Vec<Configuration>,
    ) -> Result<(), Defect> {
        if pages.row != from {
            *pages = Pages { row: from, writing: Writing::from(&self.listed, from)? };
        }
        while pages.writing.step(&self.listed, index(most), list, &mut Steps::unbounded())? {}
        pages.row = from.saturating_add(wide(list.len()));
        Ok(())
    }
}
