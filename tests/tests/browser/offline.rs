//! The page kept on the device: it opens with no network, and goes over to a new version
//! when it is told to.

use super::page::{Page, Setting, journey_from};
use super::{two_drivers, words};
use thirtyfour::prelude::*;

impl Page {
    /// Waits until the page says that it is kept.
    async fn until_kept_on_device(&self) -> WebDriverResult<()> {
        self.until_it_says(words::KEPT).await
    }
}

#[test]
fn a_page_that_was_open_once_needs_no_network() {
    for under in ["/", "/some/folder/"] {
        let setting = Setting { under, ..Setting::default() };
        journey_from(setting, async |page| {
            page.open("").await?;
            page.until_kept_on_device().await?;
            page.server.stop();
            page.refresh().await?;
            two_drivers(page, "1").await?;
            Ok(())
        });
    }
}
