//! Starts the page in the browser.

fn main() {
    coilwright_web::start();
}
