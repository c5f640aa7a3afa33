//! What a visitor does with saved rigs, and what the browser holds of them.

use crate::page::Page;
use crate::words::rigs as say;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use thirtyfour::prelude::*;

/// The field for a file.
const FILE: &str = "rigs-file";

/// Every name and text of the storage that tabs share.
pub(crate) type Stored = BTreeMap<String, String>;

/// A folder for the files of one journey; gone with it.
pub(crate) struct Folder(PathBuf);

impl Folder {
    pub(crate) fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("rigs-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&path).expect("a folder for files");
        Self(path)
    }

    /// Writes a file into it.
    pub(crate) fn write(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = self.0.join(name);
        std::fs::write(&path, bytes).expect("a file");
        path
    }

    /// Takes what was downloaded out of it, once it is all there.
    pub(crate) async fn downloaded(&self, page: &Page, name: &str) -> WebDriverResult<String> {
        let path = self.0.join(name);
        let what = format!("{name} is saved");
        page.until(&what, async || Ok(path.is_file())).await?;
        let text = std::fs::read_to_string(&path).expect("text");
        std::fs::remove_file(path).expect("one's own file");
        Ok(text)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // What is left over is of no use to anyone.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// A text of a rig as the page keeps it.
pub(crate) fn kept(at: u32, name: &str, link: &str) -> String {
    format!("1\n{at}\n{name}\n{link}")
}

impl Page {
    /// Puts texts into the storage that tabs share, from elsewhere; then opens the page.
    pub(crate) async fn open_with(
        &self,
        fragment: &str,
        texts: &[(String, String)],
    ) -> WebDriverResult<()> {
        self.clear().await?;
        self.store(texts).await?;
        self.open(fragment).await
    }

    /// Puts texts into the storage that tabs share.
    pub(crate) async fn store(&self, texts: &[(String, String)]) -> WebDriverResult<()> {
        let script = "for (const [name, text] of arguments[0]) localStorage.setItem(name, text)";
        self.run(script, vec![json!(texts)]).await.map(drop)
    }

    /// The room of saved rigs, where that is not what is shown already.
    pub(crate) async fn to_the_rigs(&self) -> WebDriverResult<()> {
        if self.count(".rigs #room").await? == 0 {
            self.tap_button(say::TURN).await?;
        }
        self.until_there(".rigs #room").await
    }

    /// Types the name of the rig at hand in place of what stood there.
    pub(crate) async fn name_it(&self, name: &str) -> WebDriverResult<()> {
        self.tap("#rig-name").await?;
        self.press(Key::Control + "a").await?;
        self.press(name).await
    }

    /// Keeps the rig at hand under a name.
    pub(crate) async fn keep_it(&self, name: &str) -> WebDriverResult<()> {
        self.name_it(name).await?;
        self.press(Key::Enter + "").await?;
        self.until_there(".rigs-here").await
    }

    /// The names in the list, the first one first.
    pub(crate) async fn names(&self) -> WebDriverResult<Vec<String>> {
        let script =
            "return [...document.querySelectorAll('.rigs-one b')].map((name) => name.textContent)";
        Ok(serde_json::from_value(self.run(script, Vec::new()).await?)?)
    }

    /// Waits until the list has these names.
    pub(crate) async fn until_names(&self, names: &[&str]) -> WebDriverResult<()> {
        let what = format!("the list has {names:?}");
        self.until(&what, async || Ok(self.names().await? == names)).await
    }

    /// What came of the last wish, in words.
    pub(crate) async fn outcome(&self) -> WebDriverResult<String> {
        self.text(".rigs-said").await
    }

    /// Waits until that says something.
    pub(crate) async fn until_outcome(&self, text: &str) -> WebDriverResult<()> {
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let what = format!("the outcome is “{text}”");
        self.until(&what, async || Ok(self.outcome().await?.contains(&text))).await
    }

    /// Everything in the storage that tabs share.
    pub(crate) async fn stored(&self) -> WebDriverResult<Stored> {
        let script = "return Object.fromEntries(Object.keys(localStorage).map(
            (name) => [name, localStorage.getItem(name)]))";
        Ok(serde_json::from_value(self.run(script, Vec::new()).await?)?)
    }

    /// Of that the rigs alone.
    pub(crate) async fn stored_rigs(&self) -> WebDriverResult<Stored> {
        let mut stored = self.stored().await?;
        stored.retain(|name, _| name.starts_with("coilwright.rig."));
        Ok(stored)
    }

    /// The draft of this tab: everything that the page holds.
    pub(crate) async fn draft(&self) -> WebDriverResult<String> {
        let script = "return sessionStorage.getItem(
            'coilwright.draft.' + sessionStorage.getItem('coilwright.draft'))";
        let draft = self.run(script, Vec::new()).await?;
        Ok(draft.as_str().unwrap_or_default().to_owned())
    }

    /// Waits until the keyboard is at something.
    pub(crate) async fn until_at(&self, selector: &str) -> WebDriverResult<()> {
        let script = "return document.activeElement.matches(arguments[0])";
        let what = format!("the keyboard is at {selector}");
        self.until(
            &what,
            async || Ok(self.run(script, vec![json!(selector)]).await? == json!(true)),
        )
        .await
    }

    /// Chooses a file, as in the browser's own dialogue.
    pub(crate) async fn choose_file(&self, path: &Path) -> WebDriverResult<()> {
        self.browser.find(By::Id(FILE)).await?.send_keys(path.to_str().unwrap()).await
    }

    /// What is downloaded goes into a folder.
    pub(crate) async fn download_to(&self, folder: &Folder) -> WebDriverResult<()> {
        let into = json!({ "behavior": "allow", "downloadPath": folder.0 });
        self.command("Browser.setDownloadBehavior", into).await.map(drop)
    }

    /// Runs a script before those of any page that is opened from now on.
    pub(crate) async fn before_all_else(&self, script: &str) -> WebDriverResult<()> {
        let on_opening = json!({ "source": script });
        self.command("Page.addScriptToEvaluateOnNewDocument", on_opening).await.map(drop)
    }

    /// Another tab, which is looked at from now on.
    pub(crate) async fn another_tab(&self) -> WebDriverResult<WindowHandle> {
        let tab = self.browser.new_tab().await?;
        self.browser.switch_to_window(tab.clone()).await?;
        Ok(tab)
    }

    /// A number that a script returns.
    pub(crate) async fn number(&self, script: &str) -> WebDriverResult<f64> {
        let found: Value = self.run(script, Vec::new()).await?;
        Ok(found.as_f64().unwrap_or(f64::NAN))
    }
}
