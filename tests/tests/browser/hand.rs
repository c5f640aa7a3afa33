//! What a visitor does on the page and finds there: by names, roles and words.

use crate::page::Page;
use serde_json::json;
use thirtyfour::prelude::*;

/// Text on one line. Spaces that keep a unit on its number's line are spaces.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

impl Page {
    /// Types on whatever has the focus.
    pub(crate) async fn press(&self, keys: impl Into<TypingData>) -> WebDriverResult<()> {
        self.browser.active_element().await?.send_keys(keys).await
    }

    /// The name of what has the focus, as assistive technology is told it.
    pub(crate) async fn focused(&self) -> WebDriverResult<String> {
        let active = json!({ "expression": "document.activeElement" });
        let active = self.command("Runtime.evaluate", active).await?;
        let of = json!({ "objectId": active["result"]["objectId"], "fetchRelatives": false });
        let told = self.command("Accessibility.getPartialAXTree", of).await?;
        Ok(plain(told["nodes"][0]["name"]["value"].as_str().unwrap_or_default()))
    }

    /// Tabs to what has this name.
    pub(crate) async fn tab_to(&self, name: &str) -> WebDriverResult<()> {
        let mut met = Vec::new();
        for _ in 0..120 {
            self.press(Key::Tab + "").await?;
            met.push(self.focused().await?);
            // A sign before the words of a button is no part of them.
            if met.last().is_some_and(|last| last.trim_start_matches("+ ") == name) {
                return Ok(());
            }
        }
        panic!("the Tab key meets no “{name}”, only {met:?}");
    }

    /// On a phone what does not decide is folded away: all of it is unfolded.
    pub(crate) async fn unfold(&self) -> WebDriverResult<()> {
        let unfold = "for (const fold of document.querySelectorAll('.fold')) fold.open = true";
        self.run(unfold, Vec::new()).await.map(|_| ())
    }

    /// Tabs to a field, which may be folded away, and writes into it in place of what stood there.
    pub(crate) async fn fill(&self, name: &str, text: &str) -> WebDriverResult<()> {
        self.unfold().await?;
        self.tab_to(name).await?;
        self.press(Key::Control + "a").await?;
        self.press(text).await
    }

    /// The entries of the list under the load that stands over them, each with what it says.
    pub(crate) async fn listed(&self) -> WebDriverResult<Vec<(String, Vec<String>)>> {
        self.settled().await?;
        let script = "const loads = [];
            for (const item of document.querySelectorAll('main ol.entries > li')) {
                const text = item.innerText.replace(/\\s+/g, ' ').trim();
                if (item.querySelector('h3') !== null) loads.push([text, []]);
                else loads.at(-1)[1].push(text);
            }
            return loads;";
        Ok(serde_json::from_value(self.run(script, Vec::new()).await?)?)
    }

    /// The rungs of the ladder, the highest load first: what assistive technology is told
    /// of each, and whether it is the one looked at.
    pub(crate) async fn rungs(&self) -> WebDriverResult<Vec<(String, bool)>> {
        self.settled().await?;
        self.told_of("radio").await
    }

    /// What assistive technology is told of everything with a role, in the order of the
    /// page: its name, and whether it is checked, pressed or, of an option, selected.
    pub(crate) async fn told_of(&self, role: &str) -> WebDriverResult<Vec<(String, bool)>> {
        let tree = self.command("Accessibility.getFullAXTree", json!({})).await?;
        let mut told = Vec::new();
        for node in tree["nodes"].as_array().into_iter().flatten() {
            if node["role"]["value"] != role || node["ignored"] == true {
                continue;
            }
            let name = node["name"]["value"].as_str().unwrap_or_default();
            let is_on = node["properties"].as_array().into_iter().flatten().any(|property| {
                ["checked", "pressed", "selected"].iter().any(|on| property["name"] == **on)
                    && (property["value"]["value"] == "true" || property["value"]["value"] == true)
            });
            told.push((plain(name), is_on));
        }
        Ok(told)
    }

    /// Goes to what stands before the first field of the form.
    pub(crate) async fn to_the_top(&self) -> WebDriverResult<()> {
        self.run("document.querySelector('main input').focus()", Vec::new()).await?;
        self.press(Key::Shift + Key::Tab).await
    }

    /// Fills a field in, from the first one on.
    pub(crate) async fn fill_from_the_top(&self, name: &str, text: &str) -> WebDriverResult<()> {
        self.to_the_top().await?;
        self.fill(name, text).await
    }

    /// What stands in every field.
    pub(crate) async fn fields(&self) -> WebDriverResult<Vec<String>> {
        let script = "return [...document.querySelectorAll('input, select')].map((field) =>
            field.type === 'checkbox' || field.type === 'radio' ? String(field.checked) : field.value)";
        Ok(serde_json::from_value(self.run(script, Vec::new()).await?)?)
    }

    /// The browser's own way back.
    pub(crate) async fn back(&self) -> WebDriverResult<()> {
        self.browser.back().await
    }

    /// And the way forward again.
    pub(crate) async fn forward(&self) -> WebDriverResult<()> {
        self.browser.forward().await
    }

    /// Taps the first of what a selector finds, as a finger does: something that lies
    /// over it stops the journey.
    pub(crate) async fn tap(&self, selector: &str) -> WebDriverResult<()> {
        let script = "const found = document.querySelector(arguments[0]);
            found?.scrollIntoView({ block: 'center' });
            return found;";
        let found = self.browser.execute(script.to_owned(), vec![json!(selector)]).await?;
        assert!(!found.json().is_null(), "nothing is {selector}");
        found.element()?.click().await
    }

    /// Taps the first button, or way to a room, that is called so or says so.
    pub(crate) async fn tap_button(&self, name: &str) -> WebDriverResult<()> {
        let script = "const plain = (text) => text.replace(/\\s+/g, ' ').trim();
            const found = [...document.querySelectorAll('button, a[href]')].find((button) =>
                button.getClientRects().length > 0 && (plain(button.innerText) === arguments[0]
                    || button.getAttribute('aria-label') === arguments[0]));
            found?.scrollIntoView({ block: 'center' });
            return found ?? null;";
        let found = self.browser.execute(script.to_owned(), vec![json!(name)]).await?;
        assert!(!found.json().is_null(), "no button is called “{name}”: {}", self.says().await?);
        found.element()?.click().await
    }

    /// How many of what a selector finds there are.
    pub(crate) async fn count(&self, selector: &str) -> WebDriverResult<usize> {
        let script = "return document.querySelectorAll(arguments[0]).length";
        let count = self.run(script, vec![json!(selector)]).await?;
        Ok(serde_json::from_value(count)?)
    }

    /// What the first of what a selector finds says, on one line; nothing where there is none.
    pub(crate) async fn text(&self, selector: &str) -> WebDriverResult<String> {
        let script = "return (document.querySelector(arguments[0])?.innerText ?? '')
            .replace(/\\s+/g, ' ').trim()";
        let text = self.run(script, vec![json!(selector)]).await?;
        Ok(text.as_str().unwrap_or_default().to_owned())
    }

    /// Waits until something of the page is there.
    pub(crate) async fn until_there(&self, selector: &str) -> WebDriverResult<()> {
        let what = format!("there is {selector}");
        self.until(&what, async || Ok(self.count(selector).await? > 0)).await
    }
}
