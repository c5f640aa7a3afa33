//! What the browser can be made to look like, and what is seen on it.

use crate::page::{Page, root};
use serde_json::{Value, json};
use thirtyfour::prelude::*;

impl Page {
    /// Makes the window so many pixels wide.
    pub(crate) async fn widen(&self, width: u32) -> WebDriverResult<()> {
        self.screen(width, 800).await
    }

    /// Makes the window so large.
    pub(crate) async fn screen(&self, width: u32, height: u32) -> WebDriverResult<()> {
        let screen = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600 });
        self.command("Emulation.setDeviceMetricsOverride", screen).await.map(drop)
    }

    /// Light or dark.
    pub(crate) async fn paint(&self, scheme: &str) -> WebDriverResult<()> {
        self.prefers(&[("prefers-color-scheme", scheme)]).await
    }

    /// What the visitor's system prefers.
    pub(crate) async fn prefers(&self, features: &[(&str, &str)]) -> WebDriverResult<()> {
        let features: Vec<Value> =
            features.iter().map(|(name, value)| json!({ "name": name, "value": value })).collect();
        self.command("Emulation.setEmulatedMedia", json!({ "features": features })).await.map(drop)
    }

    /// Makes the machine slower by so many times.
    pub(crate) async fn slow_down(&self, times: u32) -> WebDriverResult<()> {
        self.command("Emulation.setCPUThrottlingRate", json!({ "rate": times })).await.map(drop)
    }

    /// Opens the page as if nobody had been there before, light, dark or drawn for the sun.
    pub(crate) async fn open_in(&self, light: &str, fragment: &str) -> WebDriverResult<()> {
        let is_sun = light == "sun";
        self.paint(if is_sun { "light" } else { light }).await?;
        self.clear().await?;
        if is_sun {
            self.run("localStorage.setItem('coilwright.sun', '1')", Vec::new()).await?;
        }
        self.store(&crate::states::stored(fragment)).await?;
        self.open(fragment).await
    }

    /// A picture of the page from top to bottom, as PNG.
    pub(crate) async fn picture(&self, width: u32) -> WebDriverResult<Vec<u8>> {
        self.screen(width, 800).await?;
        let height = self.run("return document.documentElement.scrollHeight", Vec::new()).await?;
        let height = height.as_u64().and_then(|height| u32::try_from(height).ok()).unwrap_or(800);
        self.screen(width, height.min(12_000)).await?;
        self.browser.screenshot_as_png().await
    }

    /// What axe-core finds wrong with the page as it stands.
    pub(crate) async fn finds(&self) -> WebDriverResult<Value> {
        if !self.asks("return window.axe !== undefined").await? {
            let source = root().join("node_modules/axe-core/axe.min.js");
            let axe = std::fs::read_to_string(source)
                .expect("axe-core: `npm ci --ignore-scripts` brings it");
            self.run(&axe, Vec::new()).await?;
        }
        let script = "const done = arguments[arguments.length - 1];
            axe.run(document, { resultTypes: ['violations'] }).then(
                ({ violations, passes }) => done(passes.length === 0 ? ['axe tried nothing'] : violations.map(
                    ({ id, nodes }) => [id, ...nodes.map((node) => node.html + ' ' + node.failureSummary)])),
                (error) => done([String(error)]));";
        Ok(self.browser.execute_async(script, Vec::new()).await?.json().clone())
    }
}
